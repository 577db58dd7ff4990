"""What is read off a loaded hammock with a rule, a tape and a luggage scale."""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing import HammockModel
from ....solver import State
from ...judging.forces import find_forces


class TrialReading(NamedTuple):
    """One thing that is measured.

    Parameters
    ----------
    words : str
        What it is.
    dimension : str
        ``"length"`` or ``"force"``.
    read : callable
        From a model and its equilibrium to the value, SI.
    """

    words: str
    dimension: str
    read: Callable[[HammockModel, State], float]


def _find_middle(names: tuple[str, ...]) -> Callable[[HammockModel, State], FloatArray]:
    """Return what finds the point between some named nodes, m."""

    def find(model: HammockModel, state: State) -> FloatArray:
        points: FloatArray = np.mean([state.positions[model.nodes[name][0]] for name in names], axis=0)
        return points

    return find


def _find_halfway(line: str) -> Callable[[HammockModel, State], FloatArray]:
    """Return what finds the point of a line of nodes at half the length of the flat cloth, m."""

    def find(model: HammockModel, state: State) -> FloatArray:
        nodes = model.nodes[line]
        along, half = model.mesh.points[nodes, 0], model.hammock.body.length / 2
        return np.array([np.interp(half, along, state.positions[nodes, axis]) for axis in range(3)])

    return find


_POINTS = {
    "head_bar": _find_middle(("head left corner", "head right corner")),
    "foot_bar": _find_middle(("foot left corner", "foot right corner")),
    "middle": _find_halfway("middle"),
    "left_edge": _find_halfway("left edge"),
    "right_edge": _find_halfway("right edge"),
}


def _read_height(key: str) -> Callable[[HammockModel, State], float]:
    """Return what reads the height of a point above the ground, m."""
    return lambda model, state: float(_POINTS[key](model, state)[2])


def _read_span(first: str, second: str) -> Callable[[HammockModel, State], float]:
    """Return what reads the straight distance of two points, m."""
    return lambda model, state: float(np.linalg.norm(_POINTS[first](model, state) - _POINTS[second](model, state)))


def _read_pull(end: str) -> Callable[[HammockModel, State], float]:
    """Return what reads the tension of a line, N."""
    return lambda model, state: find_forces(model, state).pick_line(end)


READINGS = {
    "head_bar": TrialReading("height of the middle of the head bar", "length", _read_height("head_bar")),
    "middle": TrialReading("height of the middle line, half the length", "length", _read_height("middle")),
    "left_edge": TrialReading("height of the left edge, half the length", "length", _read_height("left_edge")),
    "foot_bar": TrialReading("height of the middle of the foot bar", "length", _read_height("foot_bar")),
    "right_edge": TrialReading("height of the right edge, half the length", "length", _read_height("right_edge")),
    "edge_to_edge": TrialReading(
        "straight across at half the length, edge to edge", "length", _read_span("left_edge", "right_edge")
    ),
    "bar_to_bar": TrialReading("straight between the bars' middles", "length", _read_span("head_bar", "foot_bar")),
    "head_line": TrialReading("tension of the head line", "force", _read_pull("head")),
    "foot_line": TrialReading("tension of the foot line", "force", _read_pull("foot")),
}  # fmt: skip


def read_all(model: HammockModel, state: State) -> FloatArray:
    """Return every reading (r,), SI, in the order of ``READINGS``."""
    return np.array([each.read(model, state) for each in READINGS.values()])


def find_pull(aside: float, pull: float, length: float) -> float:
    r"""Return the tension of a line from how far a pull across its middle moves it aside.

    .. math:: T = \frac{P L}{4 d}

    Parameters
    ----------
    aside : float
        d, from the straight line between the ends of the line to its middle, m.
    pull : float
        P, square to the line, N.
    length : float
        L between its ends, m.

    Notes
    -----
    Balance of the middle of a straight line without weight, for d small against L; T is that under the pull, whatever
    the ends give. Textbook statics.

    Examples
    --------
    >>> find_pull(0.02, 20.0, 0.8)
    200.0
    """
    return pull * length / (4 * aside)
