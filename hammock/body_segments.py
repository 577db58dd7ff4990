"""The segments of a person lying on the back: mass, place along the body, breadth.

Masses and centres of mass: P. de Leva, J. Biomechanics 29(9) 1223-1230 (1996), Table 4; head with neck
as one segment from vertex to cervicale. Heights of shoulder, hip, knee and ankle and lengths of the arm:
R. Drillis and R. Contini (1966), as given in D. A. Winter, Biomechanics and Motor Control of Human
Movement, 4th ed. (2009), Fig. 4.1. Height of the cervicale, breadths: worked out from the public data of
the 2012 Anthropometric Survey of U.S. Army Personnel (NATICK/TR-15/007, 2014), breadths by least squares
on stature and mass.

Choices made here: the trunk is divided between cervicale and hip joint in proportion to de Leva's
lengths; the arms lie straight beside the trunk; a foot stands up between ankle and sole with its centre
half-way; legs lie parallel and taper from half the hip breadth at the hip to the breadth of a foot at
the ankle; an arm is as broad as what the shoulders leave beside the chest; a hand ends at the fingertips,
or before them where a density that falls evenly from the wrist to nothing already has its centre.

The hip joint at 0.530 of stature lies higher than de Leva's own trunk lengths would put it below the cervicale (0.517
for men, 0.503 for women): with all his lengths the centre of mass of a person of 1.75 m would lie 10 mm (men) or 14 mm
(women) farther from the head than it does here.
"""

from dataclasses import dataclass
from typing import NamedTuple

from ..materials.short_repr import write_repr, write_value
from .body_size import measure_body
from .person import Person, Sex


class _Table(NamedTuple):
    """Published numbers for one sex: mass fraction (of one limb) and centre from the upper end; breadths."""

    head: tuple[float, float]
    upper_trunk: tuple[float, float]
    middle_trunk: tuple[float, float]
    lower_trunk: tuple[float, float]
    upper_arm: tuple[float, float]
    forearm: tuple[float, float]
    hand: tuple[float, float]
    thigh: tuple[float, float]
    shank: tuple[float, float]
    foot: tuple[float, float]
    trunk_lengths: tuple[float, float, float]  # upper, middle, lower, m
    hand_length: float  # wrist to third knuckle, to which the hand's centre refers, of stature
    cervicale: float  # height, of stature


_TABLES = {
    Sex.MALE: _Table(
        head=(0.0694, 0.5002),
        upper_trunk=(0.1596, 0.5066),
        middle_trunk=(0.1633, 0.4502),
        lower_trunk=(0.1117, 0.6115),
        upper_arm=(0.0271, 0.5772),
        forearm=(0.0162, 0.4574),
        hand=(0.0061, 0.7900),
        thigh=(0.1416, 0.4095),
        shank=(0.0433, 0.4459),
        foot=(0.0137, 0.5),
        trunk_lengths=(0.2421, 0.2155, 0.1457),
        hand_length=0.0862 / 1.741,
        cervicale=1.5173 / 1.7562,
    ),
    Sex.FEMALE: _Table(
        head=(0.0668, 0.4841),
        upper_trunk=(0.1545, 0.5050),
        middle_trunk=(0.1465, 0.4512),
        lower_trunk=(0.1247, 0.4920),
        upper_arm=(0.0255, 0.5754),
        forearm=(0.0138, 0.4559),
        hand=(0.0056, 0.7474),
        thigh=(0.1478, 0.3612),
        shank=(0.0481, 0.4416),
        foot=(0.0129, 0.5),
        trunk_lengths=(0.2280, 0.2053, 0.1815),
        hand_length=0.0780 / 1.735,
        cervicale=1.3957 / 1.6285,
    ),
}

# Fractions of stature, Drillis and Contini: heights above the sole, lengths, breadth of a foot.
_SHOULDER, _HIP, _KNEE, _ANKLE = 0.818, 0.530, 0.285, 0.039
_UPPER_ARM, _FOREARM, _HAND = 0.186, 0.146, 0.108
_FOOT_BREADTH = 0.055


@dataclass(frozen=True)
class Segment:
    """One segment and its mirror image: its mass and where it touches the cloth.

    Parameters
    ----------
    name : str
        Its name.
    mass : float
        Of both sides together, kg.
    start, end : float
        Upper and lower end, distance from the crown along the body, m.
    centre : float
        Centre of mass from ``start`` as a fraction of the segment.
    inner, outer : (float, float)
        Distance from the middle to the inner and outer border at start and end, m; inner zero where the
        segment lies across the middle.
    """

    name: str
    mass: float
    start: float
    end: float
    centre: float
    inner: tuple[float, float]
    outer: tuple[float, float]

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            f"{write_value(self.mass, 'mass')}",
            f"{write_value(self.start, 'length')} to {write_value(self.end, 'length')} from the crown",
        )


def list_segments(person: Person, *, cervicale: float | None = None) -> tuple[Segment, ...]:
    """Return the segments of ``person`` from crown to sole.

    Parameters
    ----------
    person : Person
        Stature, mass and sex.
    cervicale : float or None
        Height of the lowest neck vertebra as a fraction of stature; None takes the survey's mean.

    Returns
    -------
    tuple of Segment
        Head, three of the trunk, three of the arms, three of the legs. The published fractions are
        divided by their sum (0.9999 for women), so that masses add up to the person's.

    Examples
    --------
    >>> parts = list_segments(Person(1.75, 80.0, Sex.MALE, 0.1))
    >>> parts[0].name, round(parts[0].mass, 2), round(sum(part.mass for part in parts), 9)
    ('head and neck', 5.55, 80.0)
    """
    table = _TABLES[person.sex]
    joints = [1.0, *_divide_trunk(table, table.cervicale if cervicale is None else cervicale)]
    rows = [
        *_list_trunk(person, table, joints),
        *_list_arms(person, table, joints),
        *_list_legs(person, table),
    ]
    scale = person.mass / sum(segment.mass for segment in rows)
    return tuple(Segment(s.name, s.mass * scale, s.start, s.end, s.centre, s.inner, s.outer) for s in rows)


def _divide_trunk(table: _Table, cervicale: float) -> list[float]:
    """Return the heights of cervicale, xiphion, omphalion and hip joint, of stature."""
    upper, middle, lower = table.trunk_lengths
    scale = (cervicale - _HIP) / (upper + middle + lower)
    return [cervicale, cervicale - upper * scale, cervicale - (upper + middle) * scale, _HIP]


def _halve(person: Person, *names: str) -> list[float]:
    """Return half of each breadth, m."""
    size = measure_body(person.sex, person.stature, person.mass)
    return [size[f"{name} breadth"] / 2 for name in names]


def _list_trunk(person: Person, table: _Table, joints: list[float]) -> list[Segment]:
    """Return head and trunk; masses as fractions."""
    head, chest, waist, hip = _halve(person, "head", "chest", "waist", "hip")
    rows = zip(
        ("head and neck", "upper trunk", "middle trunk", "lower trunk"),
        (table.head, table.upper_trunk, table.middle_trunk, table.lower_trunk),
        ((head, head), (chest, chest), (chest, waist), (waist, hip)),
        strict=True,
    )
    return [
        _place(person, name, fraction, centre, (joints[k], joints[k + 1]), (0.0, 0.0), outer)
        for k, (name, (fraction, centre), outer) in enumerate(rows)
    ]


def _list_arms(person: Person, table: _Table, joints: list[float]) -> list[Segment]:
    """Return the arms beside trunk and thighs; masses as fractions of both arms."""
    chest, waist, hip, shoulder = _halve(person, "chest", "waist", "hip", "shoulder")
    broad = shoulder - chest
    elbow = _SHOULDER - _UPPER_ARM
    wrist = elbow - _FOREARM
    slope = (chest - waist) / (joints[2] - joints[3])  # the elbow lies beside the middle trunk
    beside = waist + slope * (elbow - joints[3])
    knuckles = table.hand[1] * table.hand_length  # centre of the hand from the wrist
    hand = min(_HAND, 3 * knuckles)
    rows = (
        ("upper arms", *table.upper_arm, (_SHOULDER, elbow), (chest, beside)),
        ("forearms", *table.forearm, (elbow, wrist), (beside, hip)),
        ("hands", table.hand[0], knuckles / hand, (wrist, wrist - hand), (hip, hip)),
    )
    return [
        _place(person, name, 2 * fraction, centre, heights, inner, (inner[0] + broad, inner[1] + broad))
        for name, fraction, centre, heights, inner in rows
    ]


def _list_legs(person: Person, table: _Table) -> list[Segment]:
    """Return the legs; masses as fractions of both legs."""
    (hip,), foot = _halve(person, "hip"), _FOOT_BREADTH * person.stature
    knee = (_HIP - _KNEE) / (_HIP - _ANKLE)
    ankle_inner, ankle_outer = hip / 2 - foot / 2, hip / 2 + foot / 2
    knee_inner, knee_outer = knee * ankle_inner, hip + knee * (ankle_outer - hip)
    rows = (
        ("thighs", *table.thigh, (_HIP, _KNEE), (0.0, knee_inner), (hip, knee_outer)),
        ("shanks", *table.shank, (_KNEE, _ANKLE), (knee_inner, ankle_inner), (knee_outer, ankle_outer)),
        ("feet", *table.foot, (_ANKLE, 0.0), (ankle_inner, ankle_inner), (ankle_outer, ankle_outer)),
    )
    return [
        _place(person, name, 2 * fraction, centre, heights, inner, outer)
        for name, fraction, centre, heights, inner, outer in rows
    ]


def _place(
    person: Person,
    name: str,
    mass: float,
    centre: float,
    heights: tuple[float, float],
    inner: tuple[float, float],
    outer: tuple[float, float],
) -> Segment:
    """Return a segment between two heights, fractions of stature."""
    start, end = ((1.0 - height) * person.stature for height in heights)
    return Segment(name, mass, start, end, centre, inner, outer)
