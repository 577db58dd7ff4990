"""The cloth beyond a bar as flat lines from the bar to its far edge, where it lies as cut beside the flat body."""

from typing import NamedTuple

import numpy as np

from .arrays import FloatArray
from .cone import Cone, draw_cone, resample_cone
from .extension import ExtensionMake
from .facet import list_facets
from .hammock import HammockEnd

_SAME = 1e-9  # m


class RuledSheet(NamedTuple):
    """One flat part of an extension: the whole of one that is sewn on, a facet between darts of one that runs on.

    Parameters
    ----------
    lines : slice
        Which lines it holds; the last of a facet is the first of the next.
    near, far : (k, 2)
        Ends of the lines at the bar and at the far edge, m, in the axes of the flat body.
    """

    lines: slice
    near: FloatArray
    far: FloatArray


def rule_sheet(end: HammockEnd, along: FloatArray, at: float) -> tuple[RuledSheet, ...]:
    """Return the flat parts of an extension from the right.

    Parameters
    ----------
    end : HammockEnd
        One whose bar is set in.
    along : (n,)
        Where lines meet the bar, m from the right corner, the middle and all darts among them; of half an extension the
        left ones.
    at : float
        Where the bar stands, m from the head bar along the flat body.

    Examples
    --------
    >>> from dataclasses import replace
    >>> from tautlay.hammock import example_hammock
    >>> head, _ = example_hammock().ends
    >>> end = head._replace(bar=replace(head.bar, set_in=0.2))
    >>> (sheet,) = rule_sheet(end, np.linspace(0.0, end.width, 9), 0.0)
    >>> bool(sheet.far[4, 0] < sheet.near[4, 0] == 0.0)
    True
    """
    cone, away = draw_cone(end), -1.0 if end.name == "head" else 1.0
    if end.bar.extension.made is ExtensionMake.SEWN_ON:
        return (
            _rule_cone(resample_cone(cone, along), float(np.interp(end.width / 2, along, range(len(along)))), at, away),
        )
    sheets = []
    for facet in list_facets(cone, end.bar.extension.darts):
        first, last = (int(np.argmin(np.abs(along - place))) for place in facet.base)
        if facet.base[1] - along[0] < _SAME or last == first:
            continue
        lines = along[first : last + 1]
        vertices = cone.list_along(*facet.base)
        far = np.stack([np.interp(lines, vertices, column) for column in facet.far.T], -1)
        near = np.stack([lines, np.zeros_like(lines)], -1)
        laid = [np.stack([at + away * line[:, 1], line[:, 0] - end.width / 2], -1) for line in (near, far)]
        sheets.append(RuledSheet(slice(first, last + 1), *laid))
    return tuple(sheets)


def _rule_cone(cone: Cone, middle: float, at: float, away: float) -> RuledSheet:
    """Return the one sheet of a cone, its sewn edge touching the bar line in the middle."""
    reach = cone.distance[round(middle)]
    near, far = (
        np.stack([at + away * (reach - points[:, 0]), points[:, 1]], -1)
        for points in (cone.sewn, cone.scale * cone.sewn)
    )
    return RuledSheet(slice(0, len(near)), near, far)


def list_levels(end: HammockEnd) -> tuple[float, ...]:
    """Return where lines of an extension must run: openings end and darts stand there, 0 in the middle to 1 at an edge.

    Parameters
    ----------
    end : HammockEnd
        One whose bar is at the very end has none.
    """
    extension = end.bar.extension
    if end.bar.set_in == 0.0:
        return ()
    places = [extension.opening] if extension.opening else []
    if extension.made is ExtensionMake.RUNS_ON:
        places += [facet.base[1] for facet in list_facets(draw_cone(end), extension.darts)[:-1]]
    return tuple(sorted({abs(1 - 2 * place / end.width) for place in places}))
