"""One failure mode of a bar, and the sources of the numbers of its sections."""

from typing import NamedTuple

from ..materials import RodSection, Sentence, Tube
from ..materials.short_repr import write_repr, write_value
from .bar import BarPart
from .capacity import Capacity, CapacityStep, find_capacity
from .material_class import Substance

SQUEEZES = {"metal": "flattens", "wood": "crushes", "laminate": "breaks"}  # failure of a substance under pressure alone


class FailureMode(NamedTuple):
    """One failure mode of a bar.

    Parameters
    ----------
    mechanism : str
        How it fails, in words.
    capacity : Capacity
        Highest thrust, N, and its derivation.
    kinds : tuple of str
        Kinds of part, of ``FACTORS``, of which the largest factor is required.
    place : Sentence
        Where on the bar.
    """

    mechanism: str
    capacity: Capacity
    kinds: tuple[str, ...]
    place: Sentence

    def __repr__(self) -> str:
        return write_repr(self, self.mechanism, write_value(self.capacity.value, self.capacity.dimension), self.place)


def find_strength(section: Tube | RodSection) -> float:
    """Return the largest stress in compression, Pa."""
    return section.compression_strength if isinstance(section, RodSection) else section.yield_strength


def name_strength(section: Tube | RodSection) -> str:
    """Return the field of the largest stress."""
    return "compression_strength" if isinstance(section, RodSection) else "yield_strength"


def trace(parts: tuple[BarPart, ...], field: str) -> tuple[CapacityStep, ...]:
    """Return where a number of the sections comes from, each once."""
    title = field.replace("_", " ")
    steps = (step for part in parts for step in find_capacity(part.section, field, "stress", title).steps)
    return tuple(dict.fromkeys(steps))


def trace_sizes(parts: tuple[BarPart, ...]) -> tuple[CapacityStep, ...]:
    """Return where the diameters and walls of the sections come from, each once."""
    steps: list[CapacityStep] = []
    for part in parts:
        for field in ("diameter",) if isinstance(part.section, RodSection) else ("outer_diameter", "wall"):
            steps += trace((part,), field)
    return tuple(dict.fromkeys(steps))


def warn(substance: Substance) -> tuple[CapacityStep, ...]:
    """Return that a laminate fails at once."""
    if substance != "laminate":
        return ()
    return (
        CapacityStep("it fails suddenly and splinters, without bending first", "common practice, no source", "memory"),
    )
