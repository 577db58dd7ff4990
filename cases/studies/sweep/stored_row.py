"""A row of a file of results, read as if somebody else had written it: every value checked, every text plain."""

from math import isfinite
from typing import Annotated, NamedTuple

from pydantic import BeforeValidator, ConfigDict, Field, TypeAdapter, ValidationError

from ....materials import escape_text
from .sweep_row import RowStatus, SweepRow

_SHAPE_ROW = 24  # bytes: three coordinates of a node
_STRICT = ConfigDict(strict=True, allow_inf_nan=False)
_Plain = Annotated[str, BeforeValidator(lambda value: escape_text(value) if isinstance(value, str) else value)]
_LABELS = TypeAdapter(dict[_Plain, _Plain], config=_STRICT)
_CHOICES = TypeAdapter(list[_Plain], config=_STRICT)
_TEXTS = list[_Plain]
_OLD = tuple[dict[str, float], _Plain, _TEXTS, _TEXTS]  # of versions that looked at strength under one load
_MEASUREMENT = TypeAdapter(_OLD | tuple[dict[str, float], _Plain, _TEXTS, _TEXTS, _TEXTS, _TEXTS], config=_STRICT)
_NOT_LOOKED_AT = ((), ("how the person lies", "other loads"))
_NUMBER = TypeAdapter(Annotated[int, Field(ge=1)], config=_STRICT)


class StoredRow(NamedTuple):
    """What stands in the file of one design; None where there is no result."""

    number: object
    labels: object
    status: object
    reason: object
    measurement: object

    def read(self) -> SweepRow:
        """Return the row.

        Raises
        ------
        ValueError
            With the first thing that is wrong: a number that is not finite, a text that is none.

        Examples
        --------
        >>> StoredRow(1, '{"cloth": "nylon"}', "solved", "", '[{"packed_kg": 1e999}, "", [], []]').read()
        Traceback (most recent call last):
        ValueError: design 1: packed_kg is not a finite number
        """
        try:
            number = _NUMBER.validate_python(self.number)
            choices = _LABELS.validate_json(str(self.labels))
            if self.status is None or self.measurement is None:
                return SweepRow(number, choices, RowStatus.OPEN, "not solved yet")
            figures, governs, *texts = _MEASUREMENT.validate_json(str(self.measurement))
            failed, unchecked, judged, unjudged = map(tuple, texts if len(texts) > 2 else (*texts, *_NOT_LOOKED_AT))
            status, reason = RowStatus(str(self.status)), escape_text(str(self.reason or ""))
            return SweepRow(number, choices, status, reason, figures, governs, failed, unchecked, judged, unjudged)
        except ValidationError as error:
            raise ValueError(f"design {show_number(self.number)}: {_explain(error)}") from None
        except ValueError:
            raise ValueError(f"design {show_number(self.number)}: its status is unknown") from None


def show_number(number: object) -> str:
    """Return a number of a design for a sentence."""
    return str(number) if isinstance(number, int) else "of no number"


def _explain(error: ValidationError) -> str:
    """Return the first thing that is wrong."""
    first = error.errors(include_input=False, include_url=False)[0]
    if first["type"] == "finite_number":
        return f"{escape_text(str(first['loc'][-1]))} is not a finite number"
    return "its choices or results cannot be read"


def read_choices(text: str) -> tuple[str, ...]:
    """Return the names of what varies.

    Raises
    ------
    ValueError
        For anything else.
    """
    return tuple(_CHOICES.validate_json(text))


def is_shape(distance: float, positions: bytes) -> bool:
    """Return whether something can be a tree distance, m, and positions of nodes."""
    return isfinite(distance) and 0.0 < distance < 1e3 and len(positions) % _SHAPE_ROW == 0
