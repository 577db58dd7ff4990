"""Keys shared by all tables of stitches in a design file."""

from typing import Annotated

from pydantic import Field

from ...making import Stitch
from ...materials import Thread
from .fields import ChoiceField, QuantityField, find_material
from .toml_table import TomlTable

StitchLength = Annotated[float, QuantityField("length", "stitch length")]


class StitchingTable(TomlTable):
    """Thread and rows."""

    thread: Annotated[Thread, find_material(Thread)] = Field(
        description="name of a thread of the library", examples=['"nylon size E"']
    )
    stitch_length: StitchLength = Field(
        description="length of a stitch (3 mm is 8.5 stitches per inch)", examples=['"3 mm"']
    )
    rows: int = Field(ge=1, le=8, description="number of rows of stitches", examples=["2"])
    stitch: Annotated[Stitch, ChoiceField(Stitch)] = Stitch.LOCK
