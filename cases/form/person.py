"""``[person]``: the person who lies in it."""

from typing import Annotated

from pydantic import Field

from ...hammock.person import CLOTHED, PILLOW, Arms, LyingSide, Sex
from .fields import ChoiceField, Percentile, QuantityField
from .toml_table import TomlTable, UpToMetre


class PersonTable(TomlTable):
    """``[person]``; ``who``, or stature, mass and sex."""

    who: Annotated[tuple[Sex, float], Percentile()] | None = None
    stature: Annotated[float, QuantityField("length", "stature")] | None = Field(
        default=None, description="how tall the person is"
    )
    mass: Annotated[float, QuantityField("mass", "person mass")] | None = None
    sex: Annotated[Sex, ChoiceField(Sex)] | None = None
    head_from_bar: UpToMetre = Field(
        description="distance from the head bar to the crown, along the flat cloth", examples=['"15 cm"']
    )
    lie: Annotated[LyingSide, ChoiceField(LyingSide)] = LyingSide.BACK
    arms: Annotated[Arms, ChoiceField(Arms)] = Arms.SIDES
    knee_pad: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = 0.0
    pillow: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = PILLOW
    offset: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = 0.0
    friction: float = Field(default=CLOTHED, ge=0.0, le=1.0)
