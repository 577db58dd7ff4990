"""Highest cloth tension, measured as in a strip test: over a gauge width of 25 mm.

The stress of a single triangle grows without limit as the mesh is refined at a corner or at the end of an anchored
length. The load over a width does not: it is a force, and the strength of cloth is a force over the width of a strip,
too (ASTM D5035: strips of 25 or 50 mm, unverified).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, NamedTuple

import numpy as np

from ....hammock.arrays import FloatArray
from ....making import Capacity, Reductions, find_capacity
from ....meshing import ExtensionMesh, HammockModel, locate
from ....solver import State
from ...record import FlatPoint, Key, NewtonsPerMetre, Radians, Record, SpacePoint
from .gauge_square import GAUGE, lay_squares
from .nominal_stress import find_nominal, turn_to_threads
from .place import describe_place

RIM = GAUGE / 6  # m, cells along channels and bars: the pull is then found to 5 %, 8 % where stress grows as r^-1/2
THREADS = ("warp", "weft")
_APART = 0.15  # m between two hot spots
_TWINS = 0.02  # by which the pull on both sides of a symmetric hammock may differ
_MOST = 5
_FINE_ENOUGH = 1.5  # times the cells requested: the first of a growing row is a little larger


@dataclass(frozen=True, repr=False)
class HotSpot(Record):
    r"""A place of high cloth tension.

    The line stress of a thread direction t is :math:`|\overline{P}\,t|`, P the nominal stress (force per metre of cloth
    as cut) averaged over that part of a square of 25 mm, along the threads, which is cloth.

    Parameters
    ----------
    place : str
        In words; a ``Sentence``.
    flat : (float, float)
        Middle of the square on the flat cloth, m from the head bar and from the middle to the left.
    loaded : (float, float, float)
        The same point of the loaded cloth, m.
    triangle : int
        In which the middle lies.
    thread : str
        Which threads, ``warp`` or ``weft``.
    line_stress : float
        N per metre of cloth as cut.
    share : float
        Line stress over strength.
    off_warp : float
        Angle from the warp to the largest pull there, rad, 0 to pi/2.
    """

    place: str
    flat: FlatPoint
    loaded: SpacePoint
    triangle: int
    thread: str
    line_stress: NewtonsPerMetre
    share: Annotated[float, Key("share_of_strength")]
    off_warp: Radians


def find_strength(model: HammockModel, thread: str, reductions: Reductions) -> Capacity:
    """Return the strength of all layers of the cloth along its warp or weft, N/m, wet and aged as the design states."""
    fabric, layers = model.hammock.body.fabric, model.hammock.body.layers
    single = find_capacity(fabric, f"strength_{thread}", "line_load", f"{thread} strength")
    all_layers = Capacity(single.value * layers, "line_load", single.steps)
    return reductions.apply(all_layers, fabric.kind)


class ClothUtilisation(NamedTuple):
    """Utilisation of the cloth.

    Parameters
    ----------
    spots : tuple of HotSpot
        The five places with the largest share of the strength, hardest first, at least 15 cm apart. Of two places that
        mirror each other only one is listed, named for both sides.
    warp, weft : HotSpot
        Where the tension along these threads is highest.
    """

    spots: tuple[HotSpot, ...]
    warp: HotSpot
    weft: HotSpot

    def __repr__(self) -> str:
        """Return how many places, and the largest share."""
        return (
            f"ClothUtilisation({len(self.spots)} spots, most {max(self.warp.share, self.weft.share):.1%} of strength)"
        )


def is_fine_enough(model: HammockModel) -> bool:
    """Return whether the cells along bars and channels are fine enough for the load over a gauge width."""
    mesh = model.mesh
    across = float(mesh.levels[-1] - mesh.levels[-2]) / 2 * mesh.outline.area / mesh.outline.length
    return max(across, float(mesh.stations[1] - mesh.stations[0])) < _FINE_ENOUGH * RIM


def find_cloth_utilisation(model: HammockModel, state: State, reductions: Reductions) -> ClothUtilisation:
    """Return where the cloth tension is highest, as a share of its strength.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    reductions : Reductions
        What wet and age take off the strength.

    Returns
    -------
    ClothUtilisation
        Valid only if the mesh :func:`is_fine_enough`.
    """
    gauge = _Gauge(model, state)
    strength = np.array([find_strength(model, thread, reductions).value for thread in THREADS])
    shares = gauge.line_stress / strength
    hottest = [_describe(model, gauge, shares, int(np.argmax(shares[:, thread])), thread) for thread in (0, 1)]
    return ClothUtilisation(tuple(_pick(model, gauge, shares)), *hottest)


def average_line_stress(
    model: HammockModel, state: State, beyond: ExtensionMesh | None = None
) -> tuple[FloatArray, FloatArray]:
    """Return the middle (s, 2), m, of every gauge square, and what pulls on warp and weft there (s, 2), N/m.

    Of the body, or of the cloth ``beyond`` a bar.
    """
    gauge = _Gauge(model, state, beyond)
    return gauge.middle, gauge.line_stress


class _Gauge:
    """Nominal stress and the pull on both thread directions, means over every gauge square."""

    def __init__(self, model: HammockModel, state: State, beyond: ExtensionMesh | None = None) -> None:
        squares = lay_squares(model.mesh if beyond is None else beyond, turn_to_threads(model))
        self.middle, self.positions = squares.middle, state.positions
        self.nominal = squares.average(find_nominal(model, state, beyond).reshape(-1, 6)).reshape(-1, 3, 2)
        self.line_stress = np.linalg.norm(self.nominal, axis=1)

    def find_direction(self, square: int) -> float:
        """Return the angle, rad, from the warp to the thread direction of the largest pull, 0 to pi/2."""
        _, _, directions = np.linalg.svd(self.nominal[square])
        return float(np.arctan2(abs(directions[0, 1]), abs(directions[0, 0])))


def _pick(model: HammockModel, gauge: _Gauge, shares: FloatArray) -> Iterator[HotSpot]:
    """Yield the hottest places one after the other, each far enough from all before and from their mirror images."""
    left, worst = np.ones(len(shares), dtype=bool), shares.max(axis=1)
    for _ in range(_MOST):
        if not left.any():
            return
        square = int(np.argmax(np.where(left, worst, -1.0)))
        yield _describe(model, gauge, shares, square, int(np.argmax(shares[square])))
        for taken in (gauge.middle[square], _mirror(model, gauge.middle[square])):
            left &= np.hypot(*(gauge.middle - taken).T) > _APART


def _mirror(model: HammockModel, flat: FloatArray) -> FloatArray:
    """Return the place (2,) on the other side of the middle."""
    return np.array([flat[0], 2 * float(model.mesh.outline.middle(flat[:1])[0]) - flat[1]])


def _describe(model: HammockModel, gauge: _Gauge, shares: FloatArray, square: int, thread: int) -> HotSpot:
    """Return the pull on one thread direction in one square."""
    spot, other = gauge.middle[square], _mirror(model, gauge.middle[square])
    twin = int(np.argmin(np.hypot(*(gauge.middle - other).T)))
    alike = shares[twin, thread] > (1 - _TWINS) * shares[square, thread] and np.hypot(*(spot - other)) > _APART
    if alike and spot[1] < other[1]:
        square, spot = twin, gauge.middle[twin]  # of two, the left one
    triangle, loaded = _find_loaded(model, gauge, spot)
    return HotSpot(
        place=describe_place(model, spot, both=bool(alike)),
        flat=(float(spot[0]), float(spot[1])),
        loaded=loaded,
        triangle=triangle,
        thread=THREADS[thread],
        line_stress=float(gauge.line_stress[square, thread]),
        share=float(shares[square, thread]),
        off_warp=gauge.find_direction(square),
    )


def _find_loaded(model: HammockModel, gauge: _Gauge, spot: FloatArray) -> tuple[int, tuple[float, float, float]]:
    """Return the triangle in which a point (2,) of the flat cloth lies, and where the load has taken it, m."""
    triangles, weights = locate(model.mesh, spot[None])
    triangle = int(triangles[0])
    x, y, z = (weights[0] @ gauge.positions[model.mesh.triangles[triangle]]).tolist()
    return triangle, (x, y, z)
