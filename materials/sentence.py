"""Sentences with quantities, which can be written in the reader's units."""

from collections.abc import Callable, Mapping
from string import Formatter
from typing import Any

from .display import format_quantity
from .units import DIMENSIONS

Show = Callable[[float, str, int], str]  # SI value, dimension, significant digits -> number and unit
_DIGITS = 3


def _show_metric(value: float, dimension: str, digits: int) -> str:
    """Return a quantity in metric units."""
    return format_quantity(value, dimension, "metric", digits)


class Sentence(str):
    """A text in metric units that remembers its quantities; made by :func:`make_sentence`."""

    template: str
    values: Mapping[str, object]

    def write(self, show: Show) -> str:
        """Return the text with every quantity as ``show`` writes it.

        Parameters
        ----------
        show : callable
            Told an SI value, its dimension and the number of significant digits.

        Examples
        --------
        >>> make_sentence("{low:length} above ground", low=0.254).write(lambda value, *_: f"{value / 0.0254:.0f} in")
        '10 in above ground'
        """
        return _Filler(show).vformat(self.template, (), self.values)


class _Filler(Formatter):
    """Fills a template; a field whose format is a dimension is a quantity."""

    def __init__(self, show: Show) -> None:
        self.show = show

    def format_field(self, value: Any, format_spec: str) -> Any:  # noqa: ANN401
        """Write one field; a sentence within a sentence is written the same way."""
        if isinstance(value, Sentence):
            return value.write(self.show)
        dimension, _, digits = format_spec.partition(".")
        if dimension in DIMENSIONS:
            return self.show(value, dimension, int(digits or _DIGITS))
        return super().format_field(value, format_spec)


def make_sentence(template: str, **values: object) -> Sentence:
    """Return a sentence whose quantities can be written in any units.

    Parameters
    ----------
    template : str
        Text with fields in braces. A field such as ``{depth:length}`` or ``{depth:length.4}`` is a quantity:
        dimension and, if not three, significant digits. Every other field is formatted as usual.
    **values : object
        What the fields hold; quantities in SI.

    Returns
    -------
    Sentence
        In metric units until it is written otherwise.

    Examples
    --------
    >>> make_sentence("The {name} bar is {length:length.4} long.", name="head", length=1.5)
    'The head bar is 150.0 cm long.'
    """
    sentence = Sentence(_Filler(_show_metric).vformat(template, (), values))
    sentence.template, sentence.values = template, values
    return sentence
