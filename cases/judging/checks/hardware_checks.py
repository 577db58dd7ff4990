"""Rings at the apexes and tips of the bars: what they bear, and that their strength is not computed."""

from collections.abc import Iterator

from ....materials import make_sentence
from .case import Case
from .check import BAR_TIPS, RINGS, Unchecked

_AT_APEX = ("leg_at_apex", "line_at_apex")


def check_hardware(case: Case) -> Iterator[Unchecked]:
    """Yield the rings and the tips that the design states, with the largest force on one of them.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Unchecked
        The design file states how thick they are and neither what they are made of nor how they are made.
    """
    rings = [case.forces.pick_line(end) for end in ("head", "foot") if _bends_at_apex(case, end)]
    if rings:
        sentence = make_sentence(
            "the strength of what legs and lines are bent over there is not computed. It bears {pull:force}: load it "
            "with five times as much before anyone lies in the hammock.",
            pull=max(rings),
        )
        yield Unchecked(RINGS, sentence)
    if case.workmanship.corner is not None:
        sentence = make_sentence(
            "neither the strength of the tip that cord and leg or a plate hold on to is computed, nor how it sits in "
            "the bar. It bears {thrust:force}: try the bars under weights before anyone lies in the hammock.",
            thrust=max(case.forces.pick_thrust(end) for end in ("head", "foot")),
        )
        yield Unchecked(BAR_TIPS, sentence)


def _bends_at_apex(case: Case, end: str) -> bool:
    """Return whether the design states what legs or line are bent over at the apex of head or foot."""
    rigging = case.workmanship.pick_rigging(end)
    endings = (getattr(rigging, key) for key in _AT_APEX)
    return any(ending is not None and ending.over is not None for ending in endings)
