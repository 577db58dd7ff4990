"""``[suspension]``: from the corners to the trees."""

from math import radians
from typing import Annotated

from pydantic import Field

from ...materials import LINES, Cord, Webbing
from .fields import QuantityField, find_material
from .toml_table import TomlTable

LegLength = Annotated[float, QuantityField("length", "leg length")]
StrapHeight = Annotated[float, QuantityField("length", "strap height")]


class SuspensionTable(TomlTable):
    """``[suspension]``; legs and straps are given together or one by one."""

    leg: Annotated[Cord, find_material(Cord)] = Field(
        description="name of the leg cord in the library", examples=['"12-strand UHMWPE 2 mm"']
    )
    leg_length: LegLength | None = None
    head_leg_length: LegLength | None = None
    foot_leg_length: LegLength | None = None
    line: Annotated[Cord | Webbing, find_material(*LINES)] = Field(
        description="name of a cord or webbing of the library", examples=['"12-strand UHMWPE 3 mm"']
    )
    line_length: Annotated[float, QuantityField("length", "line length")] = Field(
        description="length from apex to tree", examples=['"1.6 m"']
    )
    strap_height: StrapHeight | None = None
    head_strap_height: StrapHeight | None = None
    foot_strap_height: StrapHeight | None = None
    hang_angle: Annotated[float, QuantityField("angle", low=radians(1), high=radians(80))] | None = None
    tree_distance: Annotated[float, QuantityField("length", "tree distance")] | None = None
