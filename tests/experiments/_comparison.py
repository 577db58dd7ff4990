"""What an experiment measured beside what is computed, and the table of all of them."""

from dataclasses import dataclass
from math import hypot
from typing import NamedTuple


class Band(NamedTuple):
    """A value between the ends of its scatter."""

    low: float
    value: float
    high: float

    @classmethod
    def around(cls, value, spread):
        """Return a value with the same scatter on both sides."""
        return cls(value - spread, value, value + spread)


def vary(compute, nominal, ends):
    """Return the band of what is computed, with every input that is rounded or not stated at both of its ends.

    One at a time from the nominal inputs; effects on one side are added as independent errors are.

    Parameters
    ----------
    compute : callable
        From keywords to one number.
    nominal, ends : dict
        Inputs, and of those that are not exact their two ends.
    """
    middle = compute(**nominal)
    shifts = [[compute(**{**nominal, name: end}) - middle for end in pair] for name, pair in ends.items()]
    down = hypot(*(min(0.0, *pair) for pair in shifts))
    up = hypot(*(max(0.0, *pair) for pair in shifts))
    return Band(middle - down, middle, middle + up)


@dataclass(frozen=True)
class Comparison:
    """One quantity of one experiment; ``reason`` says why it does not agree, where it does not."""

    experiment: str
    quantity: str
    unit: str
    measured: Band
    computed: Band
    inputs: str
    source: str
    sureness: str  # of what was measured: seen, second hand, memory
    reason: str = ""

    @property
    def agrees(self):
        """Whether scatter of the measurement and band of the inputs meet."""
        return self.measured.low <= self.computed.high and self.computed.low <= self.measured.high

    @property
    def difference(self):
        """Computed over measured, less 1."""
        return self.computed.value / self.measured.value - 1.0


def write_band(band):
    """Return a band in words, to three digits."""
    low, value, high = (f"{float(f'{each:.3g}'):g}" for each in band)
    return value if low == high else f"{value} ({low} to {high})"


def write_table(comparisons):
    """Return the table of all comparisons in Markdown, those that do not agree with their reasons below."""
    lines = [
        "| experiment | quantity | measured | computed | difference | scatter and band meet | how sure |",
        "|---|---|---|---|---|---|---|",
    ]
    for each in comparisons:
        cells = (
            each.experiment,
            f"{each.quantity}, {each.unit}",
            write_band(each.measured),
            write_band(each.computed),
            f"{each.difference:+.0%}",
            "yes" if each.agrees else "**no**",
            each.sureness,
        )
        lines.append(f"| {' | '.join(cells)} |")
    lines += ["", "What does not agree, and why:", ""]
    lines += [f"* {each.experiment}, {each.quantity}: {each.reason}" for each in comparisons if each.reason]
    lines += ["", "Inputs and sources:", ""]
    told = {each.experiment: f"* {each.experiment}: {each.inputs} Source: {each.source}" for each in comparisons}
    return "\n".join([*lines, *told.values()]) + "\n"
