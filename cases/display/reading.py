"""One line of a table of results: what it is, how much, and between which values it stays."""

from math import ceil, floor, log10
from typing import NamedTuple

from ...materials import System
from ..unit_display import Units, choose_unit, list_systems, show_quantity

_WIDTH = 2.5  # last digits that a span is wide at least, so that rounding outwards does not make it much wider
_ROUND = 1e-9  # of the last digit


class Reading(NamedTuple):
    """One line of a table: what it is, its SI value, its dimension, a remark, and by how much it may be moved."""

    title: str
    value: float
    dimension: str
    remark: str = ""
    drift: float = 0.0

    @property
    def span(self) -> tuple[float, float]:
        """Between which values it stays, SI; only angles are less than nothing."""
        low, high = self.value - self.drift, self.value + self.drift
        return (low if self.dimension == "angle" else max(low, 0.0)), high


def show_reading(reading: Reading, units: Units = "both") -> str:
    """Return the value of a line in the units asked for; as a span where it may be moved.

    Parameters
    ----------
    reading : Reading
        The line.
    units : {"metric", "imperial", "both"}
        Which units.

    Examples
    --------
    >>> show_reading(Reading("back sag", 0.139, "length", drift=0.003)), show_reading(Reading("weight", 628.0, "force"))
    ('13.6 to 14.2 cm (5.35 to 5.60 in)', '628 N (141 lbf)')
    """
    if not reading.drift:
        return show_quantity(reading.value, reading.dimension, units)
    first, *others = dict.fromkeys(_write_span(*reading.span, reading.dimension, each) for each in list_systems(units))
    return " ".join([first, *(f"({text})" for text in others)])


def _write_span(low: float, high: float, dimension: str, system: System) -> str:
    """Return a span in one system of units, rounded outwards."""
    unit = choose_unit(max(abs(low), abs(high)), dimension, system)
    digit = floor(log10((high - low) / unit.factor / _WIDTH))
    down, up = (each / unit.factor / 10.0**digit for each in (low, high))
    places = max(0, -digit)
    ends = (floor(down + _ROUND) * 10.0**digit, ceil(up - _ROUND) * 10.0**digit)
    return f"{ends[0]:.{places}f} to {ends[1]:.{places}f} {unit.name}".rstrip()
