"""The person in a hammock, and the posture."""

from dataclasses import dataclass
from enum import StrEnum

from ..materials.short_repr import write_repr, write_value

# Coefficients of friction of clothing on cloth. Trousers on woven seat cloth were measured at 0.336 to 0.448 (R. Lamsal
# and T. Bush); the lower end is used, rounded. For a slippery sleeping bag no measured value was found: judgement.
CLOTHED, SLIPPERY = 0.35, 0.1


PILLOW = 0.1  # m thick if nothing else is said: judgement


class Sex(StrEnum):
    """Which column of the published segment tables applies."""

    FEMALE = "female"
    MALE = "male"


class Arms(StrEnum):
    """Where the arms lie."""

    SIDES = "sides"
    FOLDED = "folded"


class LyingSide(StrEnum):
    """Lying position."""

    BACK = "back"
    SIDE = "side"


@dataclass(frozen=True)
class Posture:
    """How a person lies.

    Parameters
    ----------
    lie : LyingSide
        On the back or on the right side.
    arms : Arms
        Beside the trunk, or the forearms on the belly.
    knee_pad : float
        Thickness of a pad under the knees, m; 0 is none.
    offset : float
        From the middle of the cloth to the left, m.
    pillow : float
        Thickness of the pillow under the head, m; 0 is none.
    """

    lie: LyingSide = LyingSide.BACK
    arms: Arms = Arms.SIDES
    knee_pad: float = 0.0
    offset: float = 0.0
    pillow: float = PILLOW

    @property
    def on_side(self) -> bool:
        """Whether the person lies on the right side."""
        return self.lie is LyingSide.SIDE


@dataclass(frozen=True)
class Person:
    """The person in the hammock.

    Parameters
    ----------
    stature : float
        Standing height, m.
    mass : float
        kg.
    sex : Sex
        Column of the segment tables.
    head_from_bar : float
        From the head bar to the crown of the head, along the flat cloth, m; negative beyond a bar that is set in.
    posture : Posture
        Posture; the distributed load knows only the back, in the middle, arms at the sides.
    friction : float
        Coefficient of friction between clothing and cloth, against rolling; 0 is perfectly smooth.
    """

    stature: float
    mass: float
    sex: Sex
    head_from_bar: float
    posture: Posture = Posture()
    friction: float = CLOTHED

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{self.sex} {write_value(self.stature, 'length')}",
            f"{write_value(self.mass, 'mass')}",
            f"on the {self.posture.lie}, arms {self.posture.arms}",
            f"{write_value(self.head_from_bar, 'length')} from the head bar",
        )
