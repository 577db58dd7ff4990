"""Notes on the lay, in sentences."""

from math import degrees

from ....hammock import LyingSide
from ....materials import Sentence, make_sentence
from ....meshing import HammockModel
from .comfort import Comfort

SIDE_ROLL = (70.0, 110.0)  # degrees of the hips that count as lying on the side
SLIPPERY = 0.1  # of the weight: friction of cloth on cloth is 0.2 to 0.5 (unverified), less when it is damp
NO_SLIDE = 5e-4  # of the weight, which is written as 0.0 %
_STRAIGHT = -0.5  # degrees; less is written as 0


def note_lay(model: HammockModel, comfort: Comfort | None) -> list[str]:
    """Return what to know before using the measures, one sentence each; none without contact."""
    if comfort is None or model.person is None:
        return []
    notes = []
    roll, slide, knees = degrees(comfort.roll), comfort.slide, degrees(comfort.knee_flexion)
    if model.person.posture.lie is LyingSide.SIDE:
        notes.append(_tell_side(roll, degrees(comfort.shoulder_roll), model.person.friction))
    if abs(slide) > SLIPPERY:
        towards, end = ("head", "foot") if slide > 0 else ("feet", "head")
        notes.append(
            f"Friction of {abs(slide):.0%} of the weight is needed to keep the person from sliding towards the "
            f"{towards}. Lower the {end} end; `tautlay trim` finds how far."
        )
    if knees < _STRAIGHT:
        notes.append(
            f"The knees are bent {-knees:.0f} deg backwards, which nobody can lie in for long. Add a knee pad "
            '(knee_pad = "5 cm"), move the foot strap, or change the arc.'
        )
    return notes


def _tell_side(hips: float, shoulders: float, friction: float) -> str:
    """Return where somebody comes to rest who has lain down on the side."""
    cloth = f"With the friction of clothing ({friction:g})" if friction else "On perfectly smooth cloth"
    if SIDE_ROLL[0] <= hips <= SIDE_ROLL[1]:
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
