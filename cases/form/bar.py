"""``[head_bar]`` and ``[foot_bar]``: the spreader bars."""

from typing import Annotated

from pydantic import Field

from ...materials import Rod, Tube
from .fields import Quantity, find_material
from .table import Table, UpToMetre


class BarTable(Table):
    """``[head_bar]`` and ``[foot_bar]``."""

    length: Annotated[float, Quantity("length", "bar length")] = Field(
        description="length of the bar from cord to cord", examples=['"90 cm"']
    )
    section: Annotated[Tube | Rod, find_material("tube", "rod")] = Field(
        description="name of a tube or rod of the library", examples=['"aluminium tube 16 x 1 mm"']
    )
    set_in: UpToMetre = 0.0
