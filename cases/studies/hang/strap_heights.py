r"""Lines and strap heights that keep the hang angle between other trees.

At a kept hang angle the loaded body keeps its shape and its forces wherever the trees stand, for the lines are
straight: with :math:`\delta` more of line at each end, angles :math:`\alpha, \beta` and strains :math:`\varepsilon` of
the added piece the trees stand farther apart and the straps higher by

.. math:: \Delta D = \delta\,[(1+\varepsilon_h)\cos\alpha + (1+\varepsilon_f)\cos\beta], \quad
    \Delta h = \delta\,(1+\varepsilon)\sin\alpha

The weight of the added line is ignored. Raising both straps alike raises everything.
"""

from dataclasses import dataclass
from math import cos, sin
from typing import Annotated

from ....hammock.suspension_line import compose_line
from ...record import Key, Metres, Record
from ...result import Result

_LEAST_LINE = 0.05  # m of cord between apex and strap, engineering judgement: room for the ends


@dataclass(frozen=True, repr=False)
class Rehang(Record):
    """Lines and straps that keep the hang angle and the clearance between other trees.

    Parameters
    ----------
    distance : float
        Of the trees, m.
    line, foot_line : float
        From apex to tree at the head and at the foot, m.
    head_strap, foot_strap : float
        Heights above the ground, m.
    possible : bool
        Whether there is any line left, and the straps lie above the ground.
    """

    distance: Annotated[Metres, Key("tree_distance_m")]
    line: Annotated[Metres, Key("line_length_m")]
    foot_line: Annotated[Metres, Key("foot_line_length_m")]
    head_strap: Annotated[Metres, Key("head_strap_height_m")]
    foot_strap: Annotated[Metres, Key("foot_strap_height_m")]
    possible: bool


def keep_angle(kept: Result, distance: float, clearance: float | None) -> Rehang:
    """Return lines and straps with which the angle of a result is kept between other trees.

    Parameters
    ----------
    kept : Result
        At the angle.
    distance : float
        Of the trees, m.
    clearance : float or None
        Height of the lowest point above the ground, m; None is that of the result.
    """
    s, angles = kept.model.hammock.suspension, (kept.shape.head_line_angle, kept.shape.foot_line_angle)
    ends, forces = (s.head, s.foot), (kept.forces.head_line, kept.forces.foot_line)
    grown = [1.0 + force / end.line.ea for force, end in zip(forces, ends, strict=True)]
    wider = sum(stretch * cos(angle) for stretch, angle in zip(grown, angles, strict=True))
    more = (distance - kept.model.tree_distance) / wider
    lift = 0.0 if clearance is None else clearance - kept.shape.ground_clearance
    straps = [
        end.strap_height + more * stretch * sin(angle) + lift
        for end, stretch, angle in zip(ends, grown, angles, strict=True)
    ]
    cord = min(compose_line(end).cord for end in ends) + more
    possible = cord >= _LEAST_LINE and min(straps) > 0.0
    return Rehang(distance, s.head.line_length + more, s.foot.line_length + more, straps[0], straps[1], possible)
