"""``[[extra]]``: what else is on the scales."""

from typing import Annotated

from pydantic import Field

from ...making import WeightGroup
from .fields import ChoiceField, QuantityField
from .job import Line
from .toml_table import TomlTable


class ExtraTable(TomlTable):
    """``[[extra]]``: a ring, a bag, a ridge line; it weighs and carries nothing that is computed."""

    name: Line = Field(description="name of the thing", examples=['"apex ring"'])
    mass: Annotated[float, QuantityField("mass", low=1e-5, high=5.0)] = Field(
        description="mass of one on the scales", examples=['"9 g"']
    )
    count: int = Field(default=1, ge=1, le=100)
    group: Annotated[WeightGroup, ChoiceField(WeightGroup)] = Field(
        description="group it counts to: hammock, suspension, straps or bars", examples=['"suspension"']
    )
    carried: bool = False
