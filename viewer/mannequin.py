"""A person in contact as a crowd of balls that looks like one.

The hull of two balls is the union of all balls between them. What the computation does not know is drawn only: flesh
between the rungs of the trunk and up to the neck, jaw, feet, and forearms that are folded on the belly.
"""

import itertools
from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import CellTag, FloatArray, Occupant

TRUNK = (CellTag.SHOULDERS, CellTag.CHEST, CellTag.WAIST, CellTag.HIPS)
_CLOSE = 0.07  # distance of neighbouring balls, of their radius: the skin is then smooth to a thousandth of it
# Drawn only; all from sight, no source. Of the head's radius, of the shank's length, of the ankle's radius, degrees.
_CHIN_DOWN, _CHIN_OUT, _CHIN = 0.95, 0.35, 0.5
_PILLOW, _PRESSED = (0.12, 0.05), 0.6  # m, half its breadth and length; thickness left, of that without a head
_FOOT, _TOE, _BALL_OF_FOOT, _POINTED, _TURNED_OUT = 0.6, 0.65, 0.4, 22.0, 14.0
_STRETCHED = 70.0  # degrees by which the foot of who lies on the side is stretched, along the cloth


class Balls(NamedTuple):
    """Middles (b, 3) and radii (b,), m."""

    middle: FloatArray
    radius: FloatArray


class Capsule(NamedTuple):
    """The hull of two balls: their middles (3,) and radii, m."""

    start: FloatArray
    end: FloatArray
    first: float
    last: float


def shape_mannequin(occupant: Occupant) -> Balls:
    """Return the person as balls.

    Parameters
    ----------
    occupant : Occupant
        Who lies there.

    Returns
    -------
    Balls
        Of the flesh, and of what is drawn only.

    Examples
    --------
    >>> axes = np.array([[[0.0, 0, 1], [0, 0, 1]], [[0, 0, 1], [0.5, 0, 1]]])
    >>> parts = np.array([int(CellTag.HEAD), int(CellTag.NECK)])
    >>> balls = shape_mannequin(Occupant(axes, np.full((2, 2), 0.1), parts, np.zeros(1)))
    >>> bool(balls.middle[:, 0].min() == 0.0), bool(balls.middle[:, 0].max() == 0.5)
    (True, True)
    """
    crowd = [_fill_rod(rod) for rod in list_rods(occupant)]
    return Balls(np.concatenate([balls.middle for balls in crowd]), np.concatenate([balls.radius for balls in crowd]))


def list_rods(occupant: Occupant) -> list[Capsule]:
    """Return the person as rods, those of the flesh first, then what is drawn only.

    Parameters
    ----------
    occupant : Occupant
        Who lies there.

    Returns
    -------
    list of Capsule
        The skin is that of all of them together.

    Examples
    --------
    >>> head = Occupant(np.zeros((1, 2, 3)), np.full((1, 2), 0.1), np.array([int(CellTag.HEAD)]), np.zeros(1))
    >>> len(list_rods(head))
    1
    """
    rows = zip(occupant.part, occupant.axes, occupant.radii, strict=True)
    rods = [Capsule(*axis, *map(float, radii)) for part, axis, radii in rows if part != CellTag.PILLOW]
    body = _Body(occupant)
    if body.has(*TRUNK, CellTag.HEAD, CellTag.NECK):
        rods += [*body.fill_trunk(), *body.fill_neck(), *body.fold_arms(), *body.lay_pillow()]
    return [*rods, *body.stand_feet()]


class _Body:
    """Finds the parts of a person, and adds what is drawn only."""

    def __init__(self, occupant: Occupant) -> None:
        rows = zip(occupant.part, occupant.axes, occupant.radii, strict=True)
        self.parts = {CellTag(part): (axis, radii) for part, axis, radii in rows}

    def has(self, *parts: CellTag) -> bool:
        """Return whether all ``parts`` are there."""
        return set(parts) <= set(self.parts)

    def fill_trunk(self) -> list[Capsule]:
        """Return the flesh between the rungs of the trunk."""
        rungs = [self.parts[part] for part in TRUNK]
        return [rod for a, b in itertools.pairwise(rungs) for rod in _fill_panel(a[0], b[0], a[1], b[1])]

    def fill_neck(self) -> list[Capsule]:
        """Return the slopes from the shoulders to the neck, and the jaw."""
        (neck, _), (head, _) = self.parts[CellTag.NECK][0], self.parts[CellTag.HEAD][0]
        shoulders, width = self.parts[CellTag.SHOULDERS]
        size = self.parts[CellTag.HEAD][1][0]
        slopes = [Capsule(neck, shoulder, 0.9 * width[0], 0.9 * width[0]) for shoulder in shoulders]
        chin = head + size * (_CHIN_DOWN * _normalise(neck - head) + _CHIN_OUT * self._find_front(neck - head))
        return [*slopes, Capsule(head, chin, 0.85 * size, _CHIN * size)]

    def lay_pillow(self) -> list[Capsule]:
        """Return the pillow under the head, pressed to the thickness that is left between head and cloth."""
        if not self.has(CellTag.PILLOW, CellTag.NECK):
            return []
        (head, _), (size, _) = self.parts[CellTag.HEAD]
        thick = _PRESSED * (self.parts[CellTag.PILLOW][1][0] - size)
        along, (left, right) = _normalise(self.parts[CellTag.NECK][0][0] - head), self.parts[CellTag.HIPS][0]
        up, aside = self._find_front(along), _normalise(left - right)
        if self.on_side:
            up, aside = _normalise(np.cross(along, up)), up
            up *= np.sign(up[2])
        middle = head - (size + thick / 2) * up
        edge = np.array([middle + _PILLOW[0] * aside, middle - _PILLOW[0] * aside])
        ends = edge - _PILLOW[1] * along, edge + _PILLOW[1] * along
        return _fill_panel(*ends, np.full(2, thick / 2), np.full(2, thick / 2))

    def fold_arms(self) -> list[Capsule]:
        """Return forearms upon the belly where the person has none."""
        if self.has(CellTag.LEFT_FOREARM) or not self.has(CellTag.LEFT_UPPER_ARM, CellTag.RIGHT_UPPER_ARM):
            return []
        (left, right), radii = self.parts[CellTag.WAIST]
        found = []
        for side, far in ((CellTag.LEFT_UPPER_ARM, right), (CellTag.RIGHT_UPPER_ARM, left)):
            (_, elbow), (_, width) = self.parts[side]
            out = (radii[0] + width) * self._find_front(self._find_spine())
            hand = 0.6 * far + 0.4 * (left + right) / 2 + out
            found.append(Capsule(elbow, hand, 0.9 * width, 0.7 * width))
        return found

    def stand_feet(self) -> list[Capsule]:
        """Return feet standing up from the heels, toes turned out a little."""
        if not self.has(CellTag.LEFT_SHANK, CellTag.RIGHT_SHANK, CellTag.HIPS, CellTag.SHOULDERS):
            return []
        found = []
        pointed, turned = np.radians([_STRETCHED, 0.0] if self.on_side else [_POINTED, _TURNED_OUT])
        for shank, calf, sign in (
            (CellTag.LEFT_SHANK, CellTag.LEFT_CALF, 1.0),
            (CellTag.RIGHT_SHANK, CellTag.RIGHT_CALF, -1.0),
        ):
            (knee, heel), (_, radius) = self.parts[shank]
            knee = self.parts[calf][0][0] if self.has(calf) else knee  # shapes from before calves had none
            down = _normalise(heel - knee)
            front = self._find_instep(down)
            out = sign * np.cross(front, down)
            along = np.cos(pointed) * front + np.sin(pointed) * down + np.sin(turned) * out
            reach = _FOOT * np.linalg.norm(heel - knee) - (1 + _TOE) * radius
            toe = heel + reach * _normalise(along)
            wide = _BALL_OF_FOOT * radius * out
            ends = np.array([heel, heel]), np.array([toe + wide, toe - wide])
            found.extend(_fill_panel(*ends, np.full(2, radius), np.full(2, _TOE * radius)))
        return found

    @property
    def on_side(self) -> bool:
        """Whether one hip lies over the other."""
        left, right = self.parts[CellTag.HIPS][0]
        return bool(abs(_normalise(left - right)[2]) > np.sqrt(0.5))

    def _find_spine(self) -> FloatArray:
        """Return the direction from the shoulders to the hips (3,)."""
        middle = [self.parts[part][0].mean(axis=0) for part in (CellTag.SHOULDERS, CellTag.HIPS)]
        return _normalise(middle[1] - middle[0])

    def _find_instep(self, down: FloatArray) -> FloatArray:
        """Return the direction (3,) that a foot stands up from its shank, also of somebody bent by more than square."""
        left, right = self.parts[CellTag.HIPS][0]
        return _normalise(np.cross(down, left - right))

    def _find_front(self, along: FloatArray) -> FloatArray:
        """Return the direction (3,) the person faces, perpendicular to ``along``."""
        left, right = self.parts[CellTag.HIPS][0]
        front = np.cross(self._find_spine(), left - right)
        unit = _normalise(along)
        return _normalise(front - (front @ unit) * unit)


def _fill_rod(rod: Capsule) -> Balls:
    """Return the balls between the two of a rod."""
    count = 1 + int(np.ceil(np.linalg.norm(rod.end - rod.start) / (_CLOSE * min(rod.first, rod.last))))
    share = np.linspace(0.0, 1.0, count)
    return Balls(rod.start + share[:, None] * (rod.end - rod.start), rod.first + share * (rod.last - rod.first))


def _fill_panel(first: FloatArray, last: FloatArray, thick: FloatArray, thin: FloatArray) -> list[Capsule]:
    """Return the rods between ``first`` (2, 3) with radii ``thick`` (2,) and ``last`` with ``thin``."""
    reach = np.linalg.norm(last - first, axis=1).max()
    count = 1 + int(np.ceil(reach / (2 * _CLOSE * min(*thick, *thin))))
    shares = np.linspace(0.0, 1.0, count)
    return [Capsule(*(first + share * (last - first)), *map(float, thick + share * (thin - thick))) for share in shares]


def _normalise(vector: FloatArray) -> FloatArray:
    """Return a unit vector (3,)."""
    return np.asarray(vector / np.linalg.norm(vector))
