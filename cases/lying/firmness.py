"""How hard a person who lies in the middle is held against rolling to the side."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ...materials import Sentence, say
from ...meshing import Lie
from ...solver import count_negative_pivots
from .side_push import hold_aside

if TYPE_CHECKING:
    from ..result import Result

_SHIFT = 0.04  # m: over 1 or 2 cm facets of the mesh that turn over the round body make the push uneven
_MESH = 0.05  # m: on finer ones push and work come out the same, within a tenth
_HARDLY, _SOFTLY = 0.01, 0.03  # of the weight for a centimetre; judgement, no source
_CENTIMETRE = 0.01


@dataclass(frozen=True)
class Firmness:
    """What it takes to move a lying person aside.

    Parameters
    ----------
    falling : int
        Directions in which the energy falls from the found shape, to second order.
    shift : float
        Off the middle, m.
    push : float
        Sideways force between person and side cords that it takes, N; negative where it keeps from rolling on.
    work : float
        What the push has done on the way, J.
    end : str or None
        Why there is no rest so far off the middle, as the end of a sentence; push and work then mean nothing.
    weight : float
        Of the person, N.
    """

    falling: int
    shift: float
    push: float
    work: float
    end: str | None
    weight: float

    @property
    def word(self) -> str:
        """How firmly the person is held against rolling: not, hardly, softly or firmly."""
        if self.end is not None or self.push <= 0.0 or self.work <= 0.0:
            return "not"
        share = self.push / self.weight * _CENTIMETRE / self.shift
        return "hardly" if share < _HARDLY else "softly" if share < _SOFTLY else "firmly"

    @property
    def sentence(self) -> Sentence:
        """The same in a sentence."""
        if self.word == "not":
            end = self.end or "rolls on by itself"
            return say(
                "NOT HELD against rolling: {shift:length} off the middle the sleeper {end}.", shift=self.shift, end=end
            )
        return say(
            "{word} held against rolling: a push of {push:force} moves the sleeper {shift:length} to the side.",
            word=self.word.capitalize(),
            push=self.push,
            shift=self.shift,
        )


def judge_firmness(resting: "Result") -> Firmness | None:
    """Push a person who lies on the back in the middle 4 cm to the side and tell what it takes.

    Push and work are found by solving anew with the person held off the middle; the work is the rise of the energy.
    On meshes of 3 to 5 cm a secant over 4 cm agrees within a tenth, so that 5 cm serve; the slope at rest does not
    settle, since facets of the mesh make ripples of millimetres in the energy. For the same reason a falling
    direction or two mean no more than that the body would settle some millimetres off the middle.

    Parameters
    ----------
    resting : Result
        Of the load case lying.

    Returns
    -------
    Firmness or None
        Towards the weaker side; None without a person in contact, and for one who is held off the middle or on the
        side.

    Notes
    -----
    Smooth cloth and a limp body; an arm stretched out sideways pushes by itself. Not held against sleepers.
    """
    model, posture = resting.model, resting.design.person.posture
    if model.frame is None or posture.lie is not Lie.BACK or posture.offset > 0.0:
        return None
    weight = -float(resting.state[model.elements["contact"]].force[2])
    falling = count_negative_pivots(model.structure, resting.state.positions)
    coarse = resting if resting.mesh_size >= _MESH else _hang_coarsely(resting)
    found = []
    for side in _list_sides(resting):
        held = hold_aside(coarse, side * _SHIFT)
        work = held.state.energy - coarse.state.energy
        found.append(Firmness(falling, _SHIFT, side * held.push, work, held.end, weight))
    return min(found, key=lambda each: (each.word != "not", each.push))


def note_firmness(firmness: Firmness | None) -> list[Sentence]:
    """Return a note for a lie that is not held; none for any other."""
    if firmness is None or firmness.word != "not":
        return []
    return [
        say(
            "{held} The shape found is a balance on edge and no place to lie: hang it steeper (a larger hang_angle, or "
            "higher straps). All that is told here is of that balance.",
            held=firmness.sentence,
        )
    ]


def describe_firmness(firmness: Firmness | None) -> dict[str, Any]:
    """Return the firmness as plain numbers and words; empty where it was not judged.

    Parameters
    ----------
    firmness : Firmness or None
        From :func:`judge_firmness`.

    Examples
    --------
    >>> found = describe_firmness(Firmness(0, 0.04, 20.0, 0.3, None, 630.0))
    >>> found["side_stiffness_N_per_m"], str(found["words"])
    (500.0, 'Hardly held against rolling: a push of 20.0 N moves the sleeper 4.00 cm to the side.')
    """
    if firmness is None:
        return {}
    rest = firmness.end is None
    return {
        "words": firmness.sentence,
        "held": firmness.word,
        "falling_directions": firmness.falling,
        "side_shift_m": firmness.shift,
        "side_push_N": firmness.push if rest else None,
        "side_work_J": firmness.work if rest else None,
        "side_stiffness_N_per_m": firmness.push / firmness.shift if rest else None,
    }


def _hang_coarsely(resting: "Result") -> "Result":
    """Return the same on a coarser mesh, between the same trees."""
    from ..solving.solution import solve_case  # which makes results

    design = resting.design.hang_between(resting.model.tree_distance)
    return solve_case(design, load="lying", mesh_size=_MESH, hot_spots=False, start=resting)


def _list_sides(resting: "Result") -> tuple[float, ...]:
    """Return to which sides to push: to the left alone where both are alike."""
    return (1.0,) if resting.design.hammock.body.is_even else (1.0, -1.0)
