"""``[body]``: the cloth."""

from math import radians
from typing import Annotated

from pydantic import Field

from ...hammock.hammock import ArcShape
from ...materials import Fabric
from .fields import ChoiceField, QuantityField, find_material
from .stitching import StitchingTable
from .toml_table import TomlTable

BodyLength = Annotated[float, QuantityField("length", "body length")]
BodyWidth = Annotated[float, QuantityField("length", "body width")]


class ArcTable(TomlTable):
    """``[body.arc]``, ``[body.left_arc]``, ``[body.right_arc]``."""

    depth: Annotated[float, QuantityField("length", "arc depth")] = Field(
        description="depth of the arc at mid-length", examples=['"17 cm"']
    )
    shape: Annotated[ArcShape, ChoiceField(ArcShape)] = ArcShape.PARABOLA


class HemTable(StitchingTable):
    """``[body.hem]``: of the ends, and of the long sides beyond a bar."""

    allowance: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = Field(
        description="cloth beyond the finished edge", examples=['"3 cm"']
    )


class BodyTable(TomlTable):
    """``[body]``; the arcs are given together or one by one."""

    length: BodyLength = Field(description="flat length from bar to bar", examples=['"2.05 m"'])
    head_width: BodyWidth = Field(description="flat width under the head bar", examples=['"1.22 m"'])
    foot_width: BodyWidth = Field(description="flat width under the foot bar", examples=['"1.12 m"'])
    fabric: Annotated[Fabric, find_material(Fabric)] = Field(
        description="name of a fabric of the library", examples=['"ripstop nylon 37 g/m2"']
    )
    layers: int = Field(default=1, ge=1, le=4)
    grain: Annotated[float, QuantityField("angle", low=radians(-90), high=radians(90))] = 0.0
    arc: ArcTable | None = None
    left_arc: ArcTable | None = None
    right_arc: ArcTable | None = None
    hem: HemTable | None = None
