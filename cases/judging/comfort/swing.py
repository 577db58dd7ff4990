r"""How far hammock and person swing over about the line through the apexes when the person moves aside.

Lines and legs only pull, so that whatever hangs on the apexes comes to rest with its centre of mass below the line
through them. Who moves aside by s towards one side cord therefore sends the cords back the other way, and the side that
bears more sinks. With g the height of the middle between both cords above the person's centre of mass, and
:math:`\rho` that of the axis about which the cords roll above that middle,

.. math:: \tan\varphi = \frac{s}{g + \rho}.

Were everything rigid, the axis would be the line through the apexes, and :math:`g + \rho` the whole height of that
line above the centre of mass. It is not: bars turn about their lines without any resistance. A piece of a cord, from
apex to apex with its legs, has the direction :math:`(c_x, c_y, c_z)` of the forces in it: the horizontal pull H, the
same all along the cord; what bars and cloth press, equally on both sides; and the weight that it bears. Let one cord
bear :math:`1 + \epsilon_V` times its weight and pull :math:`1 + \epsilon_H` times as hard. Each of its pieces then
turns, and with :math:`n = (1 - e)(c_x^2 \epsilon_H + c_z^2 \epsilon_V)`, e its stretch, it spans

.. math:: \delta x = (\epsilon_H - n)\,x,\quad \delta y = -n\,y,\quad \delta z = (\epsilon_V - n)\,z,\qquad
          \sum \delta x = 0,

since the apexes stay. The cord so comes nearer to the middle and sinks, the other goes away and rises; both middles
moved that way show the axis. Cords all in one plane with the apexes, as where they run straight from bar to bar without
sag, give the line through the apexes: the rigid answer.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, sin
from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....materials.short_repr import write_repr, write_value
from ....meshing import HammockModel
from ....solver import State
from ..checks.uneven_pull import UnevenPull
from ..stretch import measure_stretch


class Turn(NamedTuple):
    """How hammock and person stand turned about the line through the apexes.

    Parameters
    ----------
    tilt : float
        Of the line from one side cord to the other, each in the middle of its nodes, rad; left side down positive.
    aside : float
        Of the middle between both cords to the left, m.
    roll : float
        Of the person's hips, rad, left side down positive.
    """

    tilt: float
    aside: float
    roll: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"tilt {write_value(self.tilt, 'angle')}",
            f"{write_value(self.aside, 'length')} aside",
            f"hips {write_value(self.roll, 'angle')}",
        )


@dataclass(frozen=True)
class Swing:
    """How hammock and person swing over together while the person moves aside without a moment from outside.

    Parameters
    ----------
    push : float
        Between person and side cords, along the line from cord to cord, N; negative where it keeps the person back.
    tilt : float
        By which that line tilts towards the side to which the person moves, rad.
    aside : float
        By which the middle between both cords goes the other way, m.
    roll : float
        Of the person's hips, rad: as much more than ``tilt`` as the person rolls in the cloth.
    tilt_by_hand, aside_by_hand : float
        The same by :func:`swing_by_hand`.
    pull : UnevenPull
        How much harder legs and side cords pull than with the person in the middle.
    end : str or None
        Why there is no equilibrium so far off the middle, as the end of a sentence; all but what is by hand is invalid.
    """

    push: float
    tilt: float
    aside: float
    roll: float
    tilt_by_hand: float
    aside_by_hand: float
    pull: UnevenPull
    end: str | None = None

    def __repr__(self) -> str:
        tilt, by_hand = write_value(self.tilt, "angle"), write_value(self.tilt_by_hand, "angle")
        return write_repr(
            self, self.end or f"push {write_value(self.push, 'force')}", f"tilt {tilt}", f"{by_hand} by hand"
        )


def measure_turn(model: HammockModel, positions: FloatArray) -> Turn:
    """Return how far hammock and person stand turned.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    positions : (n, 3)
        Equilibrium, m.
    """
    left, right = (positions[model.nodes[f"{side} edge"]].mean(axis=0) for side in ("left", "right"))
    hips = [positions[model.nodes[f"person {side} hip"][0]] for side in ("left", "right")]
    return Turn(_find_tilt(left - right), float((left + right)[1] / 2), _find_tilt(hips[0] - hips[1]))


def swing_by_hand(model: HammockModel, state: State, shift: float) -> tuple[float, float]:
    r"""Return how far the side cords tilt, rad, and swing back, m, when the person moves aside, by hand.

    The tilt is :math:`\varphi` above, the way back :math:`\rho\sin\varphi`.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    state : State
        Its equilibrium, from which depths, distances and stretch are taken.
    shift : float
        Towards one side cord, s, m.

    Notes
    -----
    To first order; cloth and bars are taken to press equally on both cords, level, the added weight to be spread as the
    other, and the weight of the hammock to be small. For the demonstrations hung at 20 to 40 degrees, with 4 cm, the
    tilt is 0.97 to 1.23 times what is computed on smooth cloth, 1.06 to 1.32 times what is computed with clothing.
    Everything rigid would give 0.5 to 0.66 times what is computed on smooth cloth.
    """
    assert model.frame is not None
    body = state.positions[model.body]
    middle = np.mean([state.positions[model.nodes[f"{side} edge"], 2].mean() for side in ("left", "right")])
    lever = float(middle - model.frame.masses @ body[:, 2] / model.frame.masses.sum())
    axis = measure_roll_axis(model, state)
    tilt = atan2(shift, lever + axis)
    return tilt, axis * sin(tilt)


def measure_roll_axis(model: HammockModel, state: State) -> float:
    """Return how far above the middle between the side cords the axis lies about which they roll, m.

    Parameters
    ----------
    model : HammockModel
        Loaded; with or without a person in contact.
    state : State
        Its equilibrium.
    """
    head, foot = (model.nodes[f"{end} apex"] for end in ("head", "foot"))
    chains = [state.positions[np.concatenate([head, model.nodes[f"{side} edge"], foot])] for side in ("left", "right")]
    cords = [f"{end} {side} leg" for end in ("head", "foot") for side in ("left", "right")]
    stretch = measure_stretch(model, state)
    elastic = sum(stretch[cord].elastic for cord in (*cords, "left side cord", "right side cord"))
    return find_roll_axis(chains, elastic)


def find_roll_axis(chains: Sequence[FloatArray], stretch: float) -> float:
    r"""Return how far above the middle between two side cords the axis lies about which they roll, m: :math:`\rho`.

    Parameters
    ----------
    chains : sequence of (k, 3)
        Both cords from apex to apex, along the hammock, to the left, up, m.
    stretch : float
        By which both together are longer than without load, m.

    Examples
    --------
    >>> left = np.array([[-2.0, 0.0, 0.0], [-1.0, 0.4, -0.5], [1.0, 0.4, -0.5], [2.0, 0.0, 0.0]])
    >>> round(find_roll_axis([left, left * [1.0, -1.0, 1.0]], 0.0), 9)  # in planes through the apexes: about these
    0.5
    """
    strain = stretch / sum(float(_measure_pieces(chain)[1].sum()) for chain in chains)
    moved = [_load_more(chain, strain) for chain in chains]
    apart, nearer, sinking = (float(np.mean([each[k] for each in moved])) for k in range(3))
    return apart * nearer / sinking


def _measure_pieces(chain: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Return what the pieces of a chain (k, 3) span against the line between its ends (k - 1, 3), and their lengths."""
    share = (chain[:, :1] - chain[0, 0]) / (chain[-1, 0] - chain[0, 0])
    sloping = np.concatenate([chain[:, :1], chain[:, 1:] - chain[0, 1:] - share * (chain[-1] - chain[0])[1:]], axis=1)
    steps = np.diff(sloping, axis=0)
    return steps, np.asarray(np.linalg.norm(steps, axis=1))


def _load_more(chain: FloatArray, strain: float) -> tuple[float, float, float]:
    """Return how far a cord is from the middle, how much nearer it comes and how it sinks where it pulls harder."""
    steps, length = _measure_pieces(chain)
    cosines = (steps / length[:, None]) ** 2
    kept = 1 - strain
    more = float(steps[:, 0] @ (1 - kept * cosines[:, 0]) / (kept * (steps[:, 0] @ cosines[:, 2])))  # of the weight
    tighter = kept * (cosines[:, 0] + more * cosines[:, 2])
    apart, nearer = (np.cumsum(steps[:, 1] * factor)[:-1].mean() for factor in (np.ones(len(steps)), tighter))
    return abs(float(apart)), abs(float(nearer)), -float(np.cumsum(steps[:, 2] * (more - tighter))[:-1].mean())


def _find_tilt(across: FloatArray) -> float:
    """Return by how much a way (3,) from right to left falls, rad."""
    return atan2(-across[2], across[1])
