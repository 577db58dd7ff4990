"""``[person]``: the person who lies in it."""

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, TypeAdapter, ValidationInfo

from ...hammock.person import CLOTHED, PILLOW, Arms, LyingSide, Sex
from ...materials import show_value
from ..design_issue import write_choices
from .fields import ChoiceField, Percentile, QuantityField
from .job import Line
from .toml_table import TomlTable

MOST_PEOPLE = 6


def _refuse_belly(value: Any) -> Any:  # noqa: ANN401
    """Refuse who lies on the belly."""
    if isinstance(value, str) and value.strip().lower() in ("belly", "front", "stomach", "prone"):
        raise ValueError(
            f"{show_value(value)} is not computed: the back would have to bend backwards in the trough. Choose "
            f"{write_choices(list(LyingSide))}."
        )
    return value


class PersonTable(TomlTable):
    """``[person]``, or one of several ``[[person]]``; ``who``, or stature, mass and sex."""

    name: Line | None = None
    who: Annotated[tuple[Sex, float], Percentile()] | None = None
    stature: Annotated[float, QuantityField("length", "stature")] | None = Field(
        default=None, description="how tall the person is"
    )
    mass: Annotated[float, QuantityField("mass", "person mass")] | None = None
    sex: Annotated[Sex, ChoiceField(Sex)] | None = None
    head_from_bar: Annotated[float, QuantityField("length", low=-1.0, high=1.0)] = Field(
        description="distance from the head bar to the crown, along the flat cloth; negative on cloth beyond the bar",
        examples=['"15 cm"'],
    )
    lie: Annotated[LyingSide, ChoiceField(LyingSide), BeforeValidator(_refuse_belly)] = LyingSide.BACK
    arms: Annotated[Arms, ChoiceField(Arms)] = Arms.SIDES
    knee_pad: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = 0.0
    pillow: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = PILLOW
    offset: Annotated[float, QuantityField("length", low=0.0, high=0.3)] = 0.0
    friction: float = Field(default=CLOTHED, ge=0.0, le=1.0)


def _read_people(value: Any, info: ValidationInfo) -> list[PersonTable]:  # noqa: ANN401
    """Return the people of a table, or of an array of tables; errors have their own paths."""
    if not isinstance(value, list):
        return [PersonTable.model_validate(value, context=info.context)]
    if not 1 <= len(value) <= MOST_PEOPLE:
        raise ValueError(f"must be one to {MOST_PEOPLE} people.")
    return TypeAdapter(list[PersonTable]).validate_python(value, context=info.context)


People = Annotated[PersonTable | list[PersonTable], PlainValidator(_read_people)]
