"""Notes on the lay, in sentences."""

from math import degrees, radians

from ....hammock.person import SLIPPERY
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from .comfort import Comfort
from .measure_list import STRAIGHT_KNEES

_SIDE_ROLL = (radians(70.0), radians(110.0))  # of the hips, that count as lying on the side
NO_SLIDE = 5e-4  # of the weight, which is written as 0.0 %
STRAIGHTEN = 'Add a knee pad (knee_pad = "5 cm"), move the foot strap, or change the arc.'


def note_lay(model: HammockModel, comfort: Comfort | None) -> list[str]:
    """Return what to know before using the measures, one sentence each; none without contact."""
    if comfort is None or model.person is None:
        return []
    notes = []
    slide, knees = comfort.slide, comfort.knee_flexion
    if model.person.posture.on_side:
        notes.append(_tell_side(comfort, model.person.friction))
    if abs(slide) > SLIPPERY:
        notes.append(
            f"Friction of {abs(slide):.0%} of the weight is needed to keep the person from sliding towards the "
            f"{name_slide(slide)}. {advise_level(slide)}"
        )
    if knees < STRAIGHT_KNEES:
        notes.append(
            f"The knees are bent {-degrees(knees):.0f} deg backwards, which nobody can lie in for long. {STRAIGHTEN}"
        )
    return notes


def stays_on_side(roll: float) -> bool:
    """Return whether hips at this roll, rad, count as lying on the side."""
    return _SIDE_ROLL[0] <= roll <= _SIDE_ROLL[1]


def name_slide(slide: float) -> str:
    """Return towards what a person slides; what holds is positive towards the feet."""
    return "head" if slide > 0 else "feet"


def advise_level(slide: float) -> str:
    """Return what to do against sliding, in a sentence."""
    return f"Lower the {'foot' if slide > 0 else 'head'} end; `tautlay trim` finds how far."


def _tell_side(comfort: Comfort, friction: float) -> str:
    """Return where somebody comes to rest who has lain down on the side."""
    hips, shoulders = degrees(comfort.roll), degrees(comfort.shoulder_roll)
    cloth = f"With the friction of clothing ({friction:g})" if friction else "On perfectly smooth cloth"
    if stays_on_side(comfort.roll):
        return (
            f"{cloth} the person stays on the side: hips at {hips:.0f} deg, shoulders at {shoulders:.0f} (90 is on the "
            "side), knees bent and arms forward, let go gently. Other arms turn the body by up to 50 deg."
        )
    return (
        f"{cloth} the person rolls off the side, to a hip roll of {hips:.0f} deg, shoulders at {shoulders:.0f} (0 on "
        "the back, 90 on the side, 180 on the belly). All measures are those of that position."
    )


def make_restraint_sentence(slide: float, hold: float) -> Sentence:
    """Return the friction needed against sliding along the hammock, in words.

    Parameters
    ----------
    slide : float
        What holds the person lengthwise, over the weight; positive towards the feet.
    hold : float
        The same as a force, N.

    Examples
    --------
    >>> str(make_restraint_sentence(0.0, 0.0))
    'No friction is needed: the person stays in place even on slippery cloth.'
    """
    if abs(slide) < NO_SLIDE:
        return make_sentence("No friction is needed: the person stays in place even on slippery cloth.")
    return make_sentence(
        "On slippery cloth the person slides towards the {to}. Friction needed: {hold:force}, {share:.1%} of the "
        "weight.",
        share=abs(slide),
        hold=abs(hold),
        to="feet" if slide < 0 else "head",
    )
