"""``[[extra]]``: extra items of the weight list."""

from typing import Annotated

from pydantic import Field

from ...making import WeightGroup
from .fields import ChoiceField, QuantityField
from .job import Line
from .toml_table import TomlTable


class ExtraTable(TomlTable):
    """``[[extra]]``: a ring, a bag, a ridge line; it adds weight and takes no computed load."""

    name: Line = Field(description="name of the item", examples=['"apex ring"'])
    mass: Annotated[float, QuantityField("mass", low=1e-5, high=5.0)] = Field(
        description="mass of one item", examples=['"9 g"']
    )
    count: int = Field(default=1, ge=1, le=100, description="how many of it")
    group: Annotated[WeightGroup, ChoiceField(WeightGroup)] = Field(
        description="group it counts to: hammock, suspension, straps or bars", examples=['"suspension"']
    )
    carried: bool = False
