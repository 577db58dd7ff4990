"""``[channel.fold]`` and ``[channel.lock]``: how the side channels are folded and sewn, and sewn to their cord."""

from typing import Annotated

from pydantic import Field

from ...making import Stitch
from ...materials import Fabric, Thread
from .fields import Choice, Quantity, find_material
from .table import Table, UpToMetre

ChannelWidth = Annotated[float, Quantity("length", "channel width")]
StitchLength = Annotated[float, Quantity("length", "stitch length")]


class StitchingTable(Table):
    """What both tables share."""

    thread: Annotated[Thread, find_material("thread")] = Field(
        description="name of a thread of the library", examples=['"nylon size E"']
    )
    stitch_length: StitchLength = Field(
        description="length of a stitch; 3 mm are 8.5 stitches per inch", examples=['"3 mm"']
    )
    rows: int = Field(ge=1, le=8, description="number of rows of stitches", examples=["2"])
    stitch: Annotated[Stitch, Choice(Stitch)] = Stitch.LOCK


class FoldTable(StitchingTable):
    """``[channel.fold]``."""

    folds: int = Field(ge=1, le=2, description="how often the edge is folded over, 1 or 2", examples=["2"])
    finished_width: ChannelWidth | None = None
    stitching_width: ChannelWidth | None = None
    strip: Annotated[Fabric, find_material("fabric")] | None = None
    strip_width: Annotated[float, Quantity("length", "strip of cloth")] | None = None
    strip_inset: Annotated[float, Quantity("length", "seam inset")] | None = None
    seam_efficiency: Annotated[float, Quantity("ratio", low=0.1, high=1.0)] | None = None


class LockTable(StitchingTable):
    """``[channel.lock]``."""

    corner_length: UpToMetre | None = None
