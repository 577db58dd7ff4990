r"""Hang angles that the loaded lines can take at all, checked before anything is solved.

The loaded body is taken as a string under the person's weight :math:`W`, spread as in the model, half of it drawn
up at either end. With the lines at an angle :math:`\alpha` the pull along the body is
:math:`H = W/(2\tan\alpha)`, that of a line :math:`T = W/(2\sin\alpha)`, and at a distance s along the body
:math:`\tan\theta = (W/2 - w(s))/H`. Lines, legs and side cords stretch by their tension, so that

.. math:: D(\alpha) = \sum_{ends} r\,(1 + T/EA)\cos\alpha + (1 + H/2EA)\int\cos\theta\,ds

is the distance of the trees. It must be one at which the hammock can be hung. The weight of the hammock is left out,
and so is the stretch of the cloth: D comes out 3 cm short at the most up to 45 degrees, 8 cm at 70.
"""

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.geometry_issue import GeometryIssue
from ..hammock.hammock import Hammock
from ..hammock.hang_error import LINES
from ..hammock.outline import draw_outline
from ..hammock.person import Person
from ..hammock.side_view import find_distance_limits, reach_of_legs
from ..hammock.suspension_line import compose_line
from .extension_mesh import mesh_extensions
from .grid import Fineness, make_mesh
from .person_load import spread_person

_CELLS = 20  # along the body; more change the limits by less than a tenth of a degree
_ANGLES = np.radians(np.arange(1.0, 85.0, 0.1))
_MARGIN = np.radians((1.0, 2.0))  # of the limits; solved ones lie up to 1.5 degrees above the lower, 1 about the upper


def find_angle_issue(hammock: Hammock, person: Person) -> GeometryIssue | None:
    """Return an issue for a hang angle that no tree spacing can give, or None.

    Parameters
    ----------
    hammock : Hammock
        A design without faults.
    person : Person
        Who lies in it.

    Returns
    -------
    GeometryIssue or None
        None also where the distance of the trees is given instead.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock, example_person
    >>> find_angle_issue(example_hammock(), example_person()) is None
    True
    """
    angle = hammock.suspension.hang_angle
    if angle is None:
        return None
    low, high = find_angle_limits(hammock, person)
    keys = ("suspension.hang_angle", *LINES)
    given = f"A hang angle of {np.degrees(angle):.1f} degrees is impossible: loaded, the lines hang at"
    if angle < low - _MARGIN[0]:
        return GeometryIssue(
            f"{given} {np.degrees(low):.0f} degrees or more, however far apart the trees are. Increase hang_angle, "
            "choose stiffer lines, or give tree_distance instead.",
            keys,
        )
    if angle > high + _MARGIN[1]:
        return GeometryIssue(
            f"{given} {np.degrees(high):.0f} degrees or less, however close the trees are. Reduce hang_angle, or "
            "give tree_distance instead.",
            keys,
        )
    return None


def find_angle_limits(hammock: Hammock, person: Person) -> tuple[float, float]:
    """Return the flattest and the steepest mean angle of the loaded lines, rad, as estimated."""
    distances = estimate_distances(hammock, person, _ANGLES)
    near, far = find_distance_limits(hammock)
    fits = _ANGLES[(distances >= near) & (distances <= far)]
    return (float(fits[0]), float(fits[-1])) if len(fits) else (0.0, np.pi / 2)


def estimate_distances(hammock: Hammock, person: Person, angles: FloatArray) -> FloatArray:
    """Return the distance of the trees (k,), m, at mean ``angles`` (k,) of the loaded lines, rad."""
    size = _coarsen(hammock)
    mesh = make_mesh(draw_outline(hammock.body), size)
    columns = mesh.numbers()
    beyond = mesh_extensions(hammock.ends, mesh, Fineness(size), columns.size)
    carried = -spread_person(person, mesh, beyond).forces[:, 2]
    weights = carried[columns].sum(axis=1)
    weights[0] += carried[columns.size :].sum()  # of a head beyond the bar, on legs and bar
    weight = float(weights.sum())
    along, pull = weight / 2 / np.tan(angles), weight / 2 / np.sin(angles)
    slopes = (weight / 2 - np.cumsum(weights)[:-1]) / along[:, None]
    body = (np.diff(mesh.stations) / np.sqrt(1 + slopes**2)).sum(axis=1) * (1 + along / 2 / hammock.channel.cord.ea)
    ropes = np.zeros_like(angles)
    for end in hammock.ends:
        share = end.leg_length / reach_of_legs(end.leg_length, end.bar.length) / 2  # of the line's pull, in one leg
        hung = end.suspension
        leg = end.leg_length * (1 + share * pull / hung.leg.ea)
        ropes += hung.line_length * (1 + pull / compose_line(hung).ea) + np.sqrt(leg**2 - (end.bar.length / 2) ** 2)
    return np.asarray(ropes * np.cos(angles) + body)


def _coarsen(hammock: Hammock) -> float:
    """Return a mesh size, m, with which the weight is spread finely enough."""
    outline = draw_outline(hammock.body)
    return min(outline.length / _CELLS, outline.waist[1] / 4)
