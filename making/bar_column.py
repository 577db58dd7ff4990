r"""A spreader bar as a column.

Where a part is pushed into another without play both bend alike and their rigidities add up. With play they touch only
at the ends of the overlap: the moment passes evenly from one to the other, which bends like a single piece of
:math:`EI = 3/(1/EI_1 + 1/EI_2)`, since :math:`\int_0^1 (s^2/EI_1 + (1-s)^2/EI_2)\,ds = (1/EI_1 + 1/EI_2)/3` (derived).
The joint turns, with its stiffness and its play, in the middle of the overlap.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, inf

from ..materials import RodSection, Tube
from .bar import BarBuild, BarJoint
from .column import Column, Fibre, Piece

FINEST = 200  # pieces of a bar; a tapered tube's buckling load has then converged to 0.02 %
_SAME = 1e-9  # of the length


def build_column(bar: BarBuild, *, bow: float, eccentricity: float, tight: bool = False) -> Column:
    """Return a bar as a column.

    Parameters
    ----------
    bar : BarBuild
        Without errors.
    bow, eccentricity : float
        See :class:`Column`, m.
    tight : bool
        Whether to leave out play and softness of the joints, to see how much strength they cost.

    Returns
    -------
    Column
        Of about ``FINEST`` pieces.
    """
    joints = bar.joints
    turns = [] if tight else [((each.start + each.end) / 2, place) for place, each in enumerate(joints)]
    pieces: list[Piece] = []
    for left, right in pairwise(_list_marks(bar)):
        count = ceil((right - left) / bar.length * FINEST)
        step = (right - left) / count
        pieces += (_make_piece(bar, joints, (left + number * step, step), tight=tight) for number in range(count))
        for at, place in turns:
            if abs(at - left) < _SAME * bar.length:
                stiffness = bar.parts[place + 1].joint_stiffness
                pieces[-count] = pieces[-count]._replace(joint=stiffness or inf, kink=joints[place].kink)
    return Column(tuple(pieces), bow, eccentricity)


def _list_marks(bar: BarBuild) -> list[float]:
    """Return where parts begin and end and where joints turn, from left to right, m."""
    found = [0.0]
    ends = (start + part.length for start, part in zip(bar.starts, bar.parts, strict=True))
    middles = ((joint.start + joint.end) / 2 for joint in bar.joints)
    for mark in sorted({*bar.starts, *ends, *middles}):
        if mark - found[-1] > _SAME * bar.length:  # sums of lengths differ in their last digits
            found.append(mark)
    return found


def _make_piece(bar: BarBuild, joints: tuple[BarJoint, ...], span: tuple[float, float], *, tight: bool) -> Piece:
    """Return the piece of a bar that begins at the first number and is as long as the second."""
    start, length = span
    middle = start + length / 2
    joint = next((each for each in joints if each.start < middle < each.end), None)
    cuts = dict(_cut_parts(bar, middle))
    if joint is None:
        ((place, section),) = cuts.items()
        return Piece(start, length, section.ei, (Fibre(place, section, (1.0, 1.0)),))
    left, right = sorted(cuts)
    passed = [(x - joint.start) / (joint.end - joint.start) for x in (start, start + length)]
    snug = tight or joint.play == 0.0
    first, second = cuts[left].ei, cuts[right].ei
    rigidity = first + second if snug else 3 / (1 / first + 1 / second)
    fibres = tuple(
        # snug, both bend alike, but where one of them ends the other takes everything
        Fibre(place, cuts[place], (max(shares[0], least), max(shares[1], least)))
        for place, shares, least in (
            (left, (1 - passed[0], 1 - passed[1]), first / rigidity if snug else 0.0),
            (right, (passed[0], passed[1]), second / rigidity if snug else 0.0),
        )
    )
    return Piece(start, length, rigidity, fibres)


def _cut_parts(bar: BarBuild, x: float) -> Iterator[tuple[int, Tube | RodSection]]:
    """Yield the parts that are there at a distance from the left end, and their sections."""
    for place, (start, part) in enumerate(zip(bar.starts, bar.parts, strict=True)):
        if start < x < start + part.length:
            yield place, part.cut((x - start) / part.length)
