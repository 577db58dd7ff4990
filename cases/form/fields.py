"""Kinds of values in a design file: quantities, choices, names of materials."""

import re
from collections.abc import Iterable
from difflib import get_close_matches
from typing import Any

from pydantic import BeforeValidator, PlainValidator, ValidationInfo

from ...hammock.body_size import PERCENTILES
from ...hammock.person import Sex
from ...materials import Library, Material, parse_quantity, show_value
from ..design_issue import suggest_name, write_choices
from ..unit_display import show_quantity

_PERSON = re.compile(r"(?P<sex>man|woman), *(?P<number>[0-9]{1,2}(\.[0-9])?)(st|nd|rd|th)( percentile)?")
_TWIN = 0.9  # likeness of two names that differ by a typing error


class _Rule(BeforeValidator):
    """A validator that also says what it allows."""

    def _keep(self, **said: object) -> None:
        """Keep what is said of the rule: validators are frozen."""
        for name, value in said.items():
            object.__setattr__(self, name, value)


class QuantityField(_Rule):
    """Text with a unit, read into SI and kept inside bounds.

    Parameters
    ----------
    dimension : str
        A dimension known to materials.
    plausible : str or None
        What is meant, where materials knows bounds for it.
    low, high : float or None
        Bounds of our own, SI.

    Attributes
    ----------
    dimension : str
        As given.
    limits : tuple
        Low and high.

    Examples
    --------
    >>> from typing import Annotated
    >>> from pydantic import TypeAdapter
    >>> TypeAdapter(Annotated[float, QuantityField("length", "body length")]).validate_python("2 m")
    2.0
    """

    dimension: str
    limits: tuple[float | None, float | None]

    def __init__(
        self, dimension: str, plausible: str | None = None, *, low: float | None = None, high: float | None = None
    ) -> None:
        def read(value: Any) -> float:  # noqa: ANN401
            number = parse_quantity(value, dimension, plausible, signed=low is not None and low < 0.0)
            if (low is not None and number < low) or (high is not None and number > high):
                ends = [show_quantity(end, dimension) for end in (low, high) if end is not None]
                raise ValueError(f"{show_value(value)} must be between {' and '.join(ends)}.")
            return number

        super().__init__(read)
        self._keep(dimension=dimension, limits=(low, high))


class ChoiceField(_Rule):
    """One of a few words.

    Parameters
    ----------
    words : iterable of str
        What may be written: a StrEnum, of which the value is a member, or plain words.

    Attributes
    ----------
    words : tuple of str
        As they are written.

    Examples
    --------
    >>> from typing import Annotated
    >>> from pydantic import TypeAdapter
    >>> from tautlay.hammock.person import Sex
    >>> TypeAdapter(Annotated[Sex, ChoiceField(Sex)]).validate_python("female").name
    'FEMALE'
    """

    words: tuple[str, ...]

    def __init__(self, words: Iterable[str]) -> None:
        known = {str(word): word for word in words}

        def choose(value: Any) -> str:  # noqa: ANN401
            if isinstance(value, str) and value in known:
                return known[value]
            guess = suggest_name(value, list(known)) if isinstance(value, str) else ""
            raise ValueError(f"unknown value {show_value(value)}. {guess}Choose {write_choices(list(known))}.")

        super().__init__(choose)
        self._keep(words=tuple(known))


class Percentile(BeforeValidator):
    """A person by sex and percentile, such as ``woman, 5th percentile``.

    Examples
    --------
    >>> from typing import Annotated
    >>> from pydantic import TypeAdapter
    >>> from tautlay.hammock.person import Sex
    >>> TypeAdapter(Annotated[tuple[Sex, float], Percentile()]).validate_python("man, 95th percentile")
    (<Sex.MALE: 'male'>, 95.0)
    """

    def __init__(self) -> None:
        super().__init__(_read_percentile)


def _read_percentile(value: Any) -> tuple[Sex, float]:  # noqa: ANN401
    """Return sex and percentile."""
    found = _PERSON.fullmatch(value.strip()) if isinstance(value, str) else None
    if found is None:
        raise ValueError(f'{show_value(value)} is not a person. Example: "woman, 5th percentile"')
    percentile = float(found["number"])
    if not PERCENTILES[0] <= percentile <= PERCENTILES[-1]:
        raise ValueError(f"{show_value(value)} must be between the 1st and the 99th percentile of the survey.")
    return Sex.MALE if found["sex"] == "man" else Sex.FEMALE, percentile


def find_material(*kinds: type[Material]) -> PlainValidator:
    """Return a validator that looks a name up in the library given as context.

    Parameters
    ----------
    kinds : type of Material
        Such as ``Tube`` and ``RodSection``; the name must be one of one of them.

    Returns
    -------
    PlainValidator
        To be put into ``Annotated``.
    """
    categories = [kind.category for kind in kinds]

    def find(value: Any, info: ValidationInfo) -> Any:  # noqa: ANN401
        library: Library = (info.context or {})["library"]
        noun = " or ".join(categories)
        if not isinstance(value, str):
            raise ValueError(f"{show_value(value)} is not a name. Write the name of a {noun} in quotes.")
        homes = [kind for kind in kinds if value in library.names(kind.category)]
        if len(homes) == 1:
            return library.find(homes[0], value)
        if homes:
            both = " and of a ".join(kind.category for kind in homes)
            raise ValueError(f"{show_value(value)} is the name of a {both}. Rename one of them.")
        known = [name for category in categories for name in library.names(category)]
        lists = " and ".join(f"`tautlay materials {category}`" for category in categories)
        guess = suggest_name(value, known)
        if likeliest := library.find_likeliest(value, *categories):
            twin = get_close_matches(value, known, n=1, cutoff=_TWIN)
            guess = f"Did you mean {' or '.join(map(repr, dict.fromkeys([likeliest, *twin])))}? "
        raise ValueError(
            f"{show_value(value)} is not a {noun} in the library. {guess}"
            f"{lists} {'list' if len(categories) > 1 else 'lists'} all {len(known)}."
        )

    return PlainValidator(find)
