"""Load between cloth and side cord along a channel, from the solved shape."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ....hammock import Attachment
from ....hammock.arrays import FloatArray
from ....meshing import HammockModel
from ....meshing.person_load import GRAVITY
from ....solver import State
from ..forces import find_cord_tension
from .gauge_length import list_starts, share_out
from .gauge_square import GAUGE


class Pull(NamedTuple):
    """Load per length of channel, averaged over gauge lengths.

    Parameters
    ----------
    middle : (w,)
        Middle of each gauge length along the cut edge from the head corner, m.
    across : (w,)
        N per metre of cut edge, perpendicular to the cord.
    along : (w,)
        N per metre of cut edge along the cord; positive where the cloth pulls the cord towards the foot.
    """

    middle: FloatArray
    across: FloatArray
    along: FloatArray

    @property
    def whole(self) -> FloatArray:
        """Across and along together (w,), N/m."""
        return np.hypot(self.across, self.along)


@dataclass(frozen=True)
class ChannelLoad:
    """Force between cloth and side cord at each node of one long edge, head corner first.

    Parameters
    ----------
    stations : (n,)
        Of the nodes along the cut edge from the head corner, m.
    bounds : (n + 1,)
        Ends of the piece of cut edge that belongs to each node, m.
    spans : (n,)
        Length of each node's piece as it is loaded, m.
    force : (n, 3)
        Of the cloth on the cord, with what presses on the cloth there, N.
    tangent : (n, 3)
        Unit vector along the cord towards the foot.
    tension : (n - 1,)
        Of the cord between nodes, N.
    diameter : float
        Of the cord, m.
    """

    stations: FloatArray
    bounds: FloatArray
    spans: FloatArray
    force: FloatArray
    tangent: FloatArray
    tension: FloatArray
    diameter: float

    @property
    def widths(self) -> FloatArray:
        """Length of cut edge that belongs to each node (n,), m."""
        return np.diff(self.bounds)

    @property
    def along(self) -> FloatArray:
        """Load along the cord (n,), N per metre of cut edge, positive towards the foot."""
        return np.asarray(np.einsum("ij,ij->i", self.force, self.tangent)) / self.widths

    @property
    def across(self) -> FloatArray:
        """Load perpendicular to the cord (n, 3), N per metre of cut edge."""
        return self.force / self.widths[:, None] - self.along[:, None] * self.tangent

    def average(self, gauge: float = GAUGE) -> Pull:
        """Return the load averaged over every gauge length that begins or ends where a node's piece does.

        The load of a node counts as even over its piece; then the largest average of all is among these. A single
        node's load grows without limit with a finer mesh at a corner or at the end of an anchored length; an average
        does not.

        Parameters
        ----------
        gauge : float
            Length of cut edge, m.
        """
        along, *across = share_out(
            self.bounds, [self.along * self.widths, *(self.across * self.widths[:, None]).T], gauge
        )
        return Pull(list_starts(self.bounds, gauge) + gauge / 2, np.linalg.norm(across, axis=0) / gauge, along / gauge)

    def press(self, gauge: float = GAUGE) -> FloatArray:
        r"""Return the bearing pressure of the cord on its fold (w,), Pa, averaged over gauge lengths of loaded edge.

        Load per length over the cord's diameter, which for a cord of tension T and curvature :math:`\kappa` is
        :math:`T\kappa/d`.

        Parameters
        ----------
        gauge : float
            Length of loaded edge, m.
        """
        loaded = self.bounds[0] + np.concatenate([np.zeros(1), np.cumsum(self.spans)])
        across = share_out(loaded, list((self.across * self.widths[:, None]).T), gauge)
        return np.asarray(np.linalg.norm(across, axis=0) / gauge / self.diameter)


def find_channel_load(model: HammockModel, state: State, side: str) -> ChannelLoad:
    """Return the load of the cloth on one side cord, from the forces of the cloth on the nodes of its edge.

    To the cloth belong its weight, the person on it and the folds that pack where it gathers; the cord's weight is
    the cord's. Where the cord slides, the corners are left out: they are not part of the channel.

    Parameters
    ----------
    model : HammockModel
        What was solved.
    state : State
        Its equilibrium.
    side : {"left", "right"}
        Which long edge.

    Returns
    -------
    ChannelLoad
        Head corner first.
    """
    path = model.nodes[f"{side} edge"]
    flat = _measure_edge(model, side)
    steps = np.diff(state.positions[path], axis=0)
    lengths = np.linalg.norm(steps, axis=1)
    force = _find_cloth_force(model, state)[path]
    middles, ends = (flat[1:] + flat[:-1]) / 2, np.array([0.0, flat[-1]])
    spans = np.concatenate([lengths[:1] / 2, (lengths[1:] + lengths[:-1]) / 2, lengths[-1:] / 2])
    found = ChannelLoad(
        flat,
        np.concatenate([ends[:1], middles, ends[1:]]),
        spans,
        force,
        _find_tangents(steps / lengths[:, None]),
        find_cord_tension(model, state, side),
        model.hammock.channel.cord.diameter,
    )
    return _drop_corners(found) if model.hammock.channel.attachment is Attachment.FREE else found


def trace_edge(model: HammockModel, side: str, distance: FloatArray) -> FloatArray:
    """Return x on the flat cloth (any shape), m, of places ``distance`` metres along a cut edge from the head."""
    return np.asarray(np.interp(distance, _measure_edge(model, side), model.mesh.stations))


def _measure_edge(model: HammockModel, side: str) -> FloatArray:
    """Return how far along the cut edge each of its nodes lies from the head corner (n,), m."""
    return np.concatenate([np.zeros(1), np.cumsum(model.mesh.outline.pick_edge(side).arc_lengths(model.mesh.stations))])


def _find_cloth_force(model: HammockModel, state: State) -> FloatArray:
    """Return the force of the cloth and everything on it on each node (n, 3), N."""
    force = model.loading.forces.copy()
    mass = np.zeros(len(force))
    model.elements["body"].add_mass(model.start, mass)
    force[:, 2] -= mass * GRAVITY
    for name in ("body", "left gather", "right gather", *model.loading.elements):
        if name in model.elements:
            state.terms[id(model.elements[name])].add_force(state.positions, force)
    return force


def _find_tangents(units: FloatArray) -> FloatArray:
    """Return the direction at each node (n, 3) between those of its two pieces (n - 1, 3)."""
    both = np.concatenate([units[:1], units[:-1] + units[1:], units[-1:]])
    return np.asarray(both / np.linalg.norm(both, axis=1, keepdims=True))


def _drop_corners(load: ChannelLoad) -> ChannelLoad:
    """Return a load without its first and last node."""
    inner = slice(1, -1)
    return ChannelLoad(
        load.stations[inner],
        load.bounds[inner],
        load.spans[inner],
        load.force[inner],
        load.tangent[inner],
        load.tension,
        load.diameter,
    )
