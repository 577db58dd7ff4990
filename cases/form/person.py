"""``[person]``: who lies in it."""

from typing import Annotated

from pydantic import Field

from ...hammock.person import Arms, Lie, Sex
from .fields import Choice, Percentile, Quantity
from .toml_table import Table, UpToMetre


class PersonTable(Table):
    """``[person]``; who it is, or stature, mass and sex."""

    who: Annotated[tuple[Sex, float], Percentile()] | None = None
    stature: Annotated[float, Quantity("length", "stature")] | None = None
    mass: Annotated[float, Quantity("mass", "person mass")] | None = None
    sex: Annotated[Sex, Choice(Sex)] | None = None
    head_from_bar: UpToMetre = Field(
        description="from the head bar to the crown, along the flat cloth", examples=['"15 cm"']
    )
    lie: Annotated[Lie, Choice(Lie)] = Lie.BACK
    arms: Annotated[Arms, Choice(Arms)] = Arms.SIDES
    knee_pad: Annotated[float, Quantity("length", low=0.0, high=0.3)] = 0.0
    offset: Annotated[float, Quantity("length", low=0.0, high=0.3)] = 0.0
