"""How much cloth lies beyond the bars, finished."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from .arrays import FloatArray
from .cap import draw_cap
from .cone import Cone, draw_cut_cone
from .extension import Extension, ExtensionMake
from .facet import list_facets
from .hammock import Hammock, HammockEnd
from .polygon import measure_area


class ExtensionAreas(NamedTuple):
    """Cloth beyond one bar, m2, one layer.

    Parameters
    ----------
    sheet : float
        The extension itself, without what is open at the corners.
    triangles : float
        Both closing triangles.
    cap : float
        What closes the end.
    """

    sheet: float
    triangles: float
    cap: float


class OpenCorner(NamedTuple):
    """What is open at one corner of an extension, flat.

    Parameters
    ----------
    seam_end : (2,)
        Where the seam begins, m.
    leg_end : (2,)
        Where the cloth begins on the leg, m.
    """

    seam_end: FloatArray
    leg_end: FloatArray


def cut_corner(cone: Cone, extension: Extension, side: int) -> OpenCorner:
    """Return what is open at the right (-1) or at the left (1) corner of an extension that is sewn on."""
    along = extension.opening if side < 0 else cone.width - extension.opening
    corner = cone.sewn[0 if side < 0 else -1]
    reach = float(np.hypot(*corner))
    return OpenCorner(cone.place(np.array(along), np.array(1.0)), corner * (1 - extension.corner_room / reach))


def measure_triangle(cone: Cone, extension: Extension, side: int) -> tuple[float, float, float]:
    """Return the sides of a closing triangle, m: on the body, on the extension, on the leg; flat."""
    open_, room = extension.opening, extension.corner_room
    if extension.made is ExtensionMake.RUNS_ON:
        facets = list_facets(cone, extension.darts)
        angle = facets[0].first if side < 0 else facets[-1].last
        return open_, float(np.sqrt(open_**2 + room**2 - 2 * open_ * room * np.cos(angle))), room
    corner = cut_corner(cone, extension, side)
    return open_, float(np.hypot(*(corner.seam_end - corner.leg_end))), room


@lru_cache(maxsize=64)
def measure_extension(end: HammockEnd) -> ExtensionAreas:
    """Return the cloth beyond the bar of one end, finished, of the very lines that it is cut to.

    Parameters
    ----------
    end : HammockEnd
        Its bar may be at the very end: then there is none.
    """
    extension = end.bar.extension
    if end.bar.set_in == 0.0:
        return ExtensionAreas(0.0, 0.0, 0.0)
    cone = draw_cut_cone(end)
    if extension.made is ExtensionMake.RUNS_ON:
        whole = sum(abs(measure_area(facet.outline)) for facet in list_facets(cone, extension.darts))
    else:
        whole = abs(measure_area(np.concatenate([cone.scale * cone.sewn, cone.sewn[::-1]])))
    open_corners = triangles = 0.0
    if extension.opening:
        open_corners = sum(_measure_corner(cone, end, side) for side in (-1, 1))
    if extension.closed:
        triangles = sum(_measure_heron(*measure_triangle(cone, extension, side)) for side in (-1, 1))
    cap = draw_cap(extension.cap, cone.scale * end.bar.length, cone.scale * cone.width)
    return ExtensionAreas(whole - open_corners, triangles, 0.0 if cap is None else abs(measure_area(cap)))


def _measure_corner(cone: Cone, end: HammockEnd, side: int) -> float:
    """Return what is cut out of a corner, m2: of one that runs on a triangle, else with the bend of the sewn edge."""
    extension = end.bar.extension
    if extension.made is ExtensionMake.RUNS_ON:
        return _measure_heron(*measure_triangle(cone, extension, side))
    start = 0.0 if side < 0 else cone.width - extension.opening
    edge = cone.trace_sewn(start, start + extension.opening)
    return abs(measure_area(np.concatenate([edge, cut_corner(cone, extension, side).leg_end[None]])))


def measure_extensions(hammock: Hammock) -> tuple[ExtensionAreas, ExtensionAreas]:
    """Return the cloth beyond the head and the foot bar, finished, one layer.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> measure_extensions(example_hammock())[0].sheet
    0.0
    """
    head, foot = (measure_extension(end) for end in hammock.ends)
    return head, foot


def _measure_heron(a: float, b: float, c: float) -> float:
    """Return the area of a triangle from its sides, m2 (Heron)."""
    half = (a + b + c) / 2
    return float(np.sqrt(half * (half - a) * (half - b) * (half - c)))
