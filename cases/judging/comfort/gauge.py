"""Pressure as a mat under a sleeper would show it: on squares of one size, whatever the mesh."""

from typing import NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing import HammockModel
from ....solver import Contact, PushSample, State

SQUARE = 0.05  # m, side of a square of the gauge: about that of a cell of mats in hospitals
REFERENCE = 4300.0  # Pa, 32 mmHg: a customary line, no limit (E. Landis 1930, second hand)
_TOUCHED = 700.0  # Pa: from here on a square counts as touched
_STEP = 0.01  # m between the squares that are tried


class GaugeReading(NamedTuple):
    """What the gauge shows.

    Parameters
    ----------
    largest : float
        On any square, Pa.
    above, touched : float
        Area with more than ``REFERENCE``, and with more than 0.7 kPa, m2.
    """

    largest: float
    above: float
    touched: float


def read_gauge(model: HammockModel, state: State) -> GaugeReading:
    r"""Return pressures on squares of 5 cm laid on the cloth.

    The pressure at a place is the force square to the cloth over the area of it that lies in the square around that
    place, :math:`p = \sum F_n / \sum A`, taken every centimetre along the flat cloth.

    Parameters
    ----------
    model : HammockModel
        Built for the load case lying.
    state : State
        Its equilibrium.

    Returns
    -------
    GaugeReading
        SI.
    """
    contact = model.structure.find_term(model.elements["contact"])
    assert isinstance(contact, Contact)
    corners = state.positions[model.triangles]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    double = np.linalg.norm(normal, axis=1, keepdims=True)
    sample: PushSample = contact.sample_pushes(state.positions)
    force = np.abs(np.einsum("mqk,mk->mq", sample.push, normal / double))
    area = double / 2 * sample.weights
    flat = np.einsum("qa,mak->mqk", sample.shares, model.flat_corners)
    pressed, under = _sum_squares(flat.reshape(-1, 2), force.ravel(), area.ravel())
    pressure = np.divide(pressed, under, out=np.zeros_like(pressed), where=under > SQUARE**2 / 2)
    return GaugeReading(
        float(pressure.max()), *(float(_own_area(under)[pressure > line].sum()) for line in (REFERENCE, _TOUCHED))
    )


def _sum_squares(places: FloatArray, *values: FloatArray) -> list[FloatArray]:
    """Return the sums (r, s) of values (p,) at ``places`` (p, 2) in squares around every point of a lattice."""
    from scipy.ndimage import uniform_filter

    cell = np.floor((places - places.min(axis=0)) / _STEP).astype(int)
    shape = tuple(cell.max(axis=0) + 1)
    wide = round(SQUARE / _STEP)
    binned = [np.bincount(np.ravel_multi_index(tuple(cell.T), shape), value, np.prod(shape)) for value in values]
    return [uniform_filter(value.reshape(shape), wide, mode="constant") * wide**2 for value in binned]


def _own_area(under: FloatArray) -> FloatArray:
    """Return the area of cloth that belongs to each point of the lattice, from that in the squares around them."""
    return under * (_STEP / SQUARE) ** 2
