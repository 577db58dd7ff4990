"""``[suspension]``: from the corners to the trees."""

from math import radians
from typing import Annotated

from pydantic import Field

from ...materials import LINES, Cord, Webbing
from .fields import QuantityField, find_material
from .toml_table import TomlTable

Leg = Annotated[Cord, find_material(Cord)]
LegLength = Annotated[float, QuantityField("length", "leg length")]
LineMaterial = Annotated[Cord | Webbing, find_material(*LINES)]
LineLength = Annotated[float, QuantityField("length", "line length")]
StrapHeight = Annotated[float, QuantityField("length", "strap height")]


class SuspensionTable(TomlTable):
    """``[suspension]``; everything of an end is given for both or for one by one, see ``end_fields``."""

    leg: Leg | None = None
    head_leg: Leg | None = None
    foot_leg: Leg | None = None
    leg_length: LegLength | None = None
    head_leg_length: LegLength | None = None
    foot_leg_length: LegLength | None = None
    line: LineMaterial | None = None
    head_line: LineMaterial | None = None
    foot_line: LineMaterial | None = None
    line_length: LineLength | None = None
    head_line_length: LineLength | None = None
    foot_line_length: LineLength | None = None
    strap_height: StrapHeight | None = None
    head_strap_height: StrapHeight | None = None
    foot_strap_height: StrapHeight | None = None
    hang_angle: Annotated[float, QuantityField("angle", low=radians(1), high=radians(80))] | None = None
    tree_distance: Annotated[float, QuantityField("length", "tree distance")] | None = Field(
        default=None, description="between the trunks, from bark to bark at the straps; instead of hang_angle"
    )
