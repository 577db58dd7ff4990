"""One requirement: what was found under one load, what is required, and what it would take."""

from dataclasses import dataclass
from enum import StrEnum
from math import inf
from typing import Annotated

from ...record import Missing, Record, SIValue


class Grade(StrEnum):
    """How a requirement ends, the worst first."""

    FAILS = "fails at the load"  # a part breaks, nobody lies there, or it is on the ground
    MISSES = "too little reserve"
    LIES_BADLY = "does not lie well"
    EXCEEDS = "beyond a limit"  # of weight and size
    PASSES = "pass"

    @property
    def passed(self) -> bool:
        """Whether it is met."""
        return self is Grade.PASSES


GRADES = tuple(Grade)


class Topic(StrEnum):
    """What a requirement is about."""

    STRENGTH = "strength"
    EQUILIBRIUM = "equilibrium"
    GROUND = "ground"
    LAY = "lay"
    SIZE = "weight and size"


@dataclass(frozen=True, repr=False)
class Requirement(Record):
    r"""One requirement under one load.

    Parameters
    ----------
    topic : Topic
        What it is about.
    name : str
        What is required, such as ``left head leg, splice breaks`` or ``back sag``.
    words : str
        What is wrong, in a few words; the name where that says it.
    grade : Grade
        How it ends.
    utilisation : float or None
        Share that is used: of the strength over the factor of safety required, :math:`S / R`, or of a limit; above 1
        it is not met. None where there is no such share.
    found, required : SIValue or None
        Factor of safety or value found, and the one required; None where it is no number.
    side : str
        ``least`` or ``most``: which side the required value is.
    load, person : str
        Under which load, and of whom; the person is empty where there is only one, both of what no load changes.
    remedy : str
        What it would take to pass; may be a ``Sentence``, empty where it passes.
    basis : str
        How well the strength behind a factor of safety is known, as in the library: ``seen``, ``quoted``, ``derived``,
        ``judgement`` or ``memory``; empty for what is no strength.
    """

    topic: Topic
    name: str
    words: str
    grade: Grade
    utilisation: float | None
    found: Annotated[SIValue | None, Missing.LEFT_OUT]
    required: Annotated[SIValue | None, Missing.LEFT_OUT]
    side: str
    load: str
    person: str
    remedy: str
    basis: str = ""

    @property
    def passed(self) -> bool:
        """Whether it is met."""
        return self.grade.passed

    @property
    def rank(self) -> tuple[int, float, float, str]:
        """Sort key: by grade; what fails at the load by its factor, the rest by utilisation, the most first."""
        used = -inf if self.utilisation is None and not self.passed else -(self.utilisation or 0.0)
        factor = self.found.value if self.grade is Grade.FAILS and self.found is not None else 0.0
        return GRADES.index(self.grade), float(f"{factor:.5g}"), float(f"{used:.5g}"), self.name

    @property
    def case(self) -> str:
        """Load and person in words."""
        return ", ".join(filter(None, (self.load, self.person)))
