"""The layers of a folded channel, lying flat and as they are drawn round the cord."""

from dataclasses import dataclass
from math import acos, asin, atan2, cos, hypot, pi, sin, sqrt

from ..materials.short_repr import write_repr, write_value
from .fold import Fold

Point = tuple[float, float]
_ARC = 24  # pieces of an arc
_BEYOND = 1.8  # times the finished width that is drawn
_APART = 1 / 6  # of the cord, distance of two layers as drawn; cloth is far thinner


@dataclass(frozen=True)
class Layer:
    """One layer of cloth.

    Parameters
    ----------
    cloth : str
        ``"body"`` or ``"strip"``.
    turns : tuple of float
        Distance from the finished edge, lying flat, where it begins, turns and ends, m.
    path : tuple of (float, float)
        The same as drawn: distance inboard of the finished edge of the flat channel, and height, m.
    """

    cloth: str
    turns: tuple[float, ...]
    path: tuple[Point, ...]

    def __repr__(self) -> str:
        return write_repr(
            self, self.cloth, f"{len(self.turns)} turns", f"{write_value(self.length, 'length')} lying flat"
        )

    @property
    def length(self) -> float:
        """Width of the cloth lying flat, m."""
        return sum(abs(b - a) for a, b in zip(self.turns, self.turns[1:], strict=False))


class Drawing:
    """Draws each layer; legs lie apart from each other below and above the middle of the channel.

    Parameters
    ----------
    pocket : float
        Width of the channel that is not for stitches, m.
    diameter : float
        Of the cord, m.
    fold : Fold
        How it is folded.
    layers : int
        Of the body.
    """

    def __init__(self, pocket: float, diameter: float, fold: Fold, layers: int) -> None:
        self.pocket, self.fold, self.layers = pocket, fold, layers
        self.radius, self.apart = diameter / 2, diameter * _APART
        self.centre = pocket - _find_reach(pocket, diameter / 2)
        self.between = layers if (fold.strip is None) == (fold.folds == 2) else 0  # layers inside the fold
        self.reach = _BEYOND * fold.width

    def list_layers(self, room: float) -> list[Layer]:
        """Return body and strip."""
        fold, width, each = self.fold, self.fold.width, range(self.layers)
        if fold.strip is None:
            return [self._fold_body(k, 0.0 if fold.folds == 1 else room) for k in each]
        if fold.folds == 1:
            edge = width - fold.strip.inset
            bodies = [self._lay_body(k, edge) for k in each]
            path = [(width, -self._level(0)), *self._wrap(0), (width + fold.lap, self._level(0))]
            return [*bodies, Layer("strip", (width, 0.0, width + fold.lap), tuple(path))]
        bodies = [self._fold_body(k + 1, 0.0) for k in each]
        outer, end = self.layers + 1, width + fold.lap
        path = [(width, -self._level(outer)), *self._wrap(outer), (width, self._level(outer))]
        path += [*_turn(width, self._level(outer), self._level(0)), *self._wrap(0)[::-1], (end, -self._level(0))]
        return [*bodies, Layer("strip", (width, 0.0, width, 0.0, end), tuple(path))]

    def _fold_body(self, k: int, turned: float) -> Layer:
        """Return a layer of the body round the cord, its edge folded under."""
        width, up = self.fold.width, self._level(k)
        path, turns = [(self.reach, -up), *self._wrap(k), (width, up)], (self.reach, 0.0, width)
        if turned == 0.0:
            return Layer("body", turns, tuple(path))
        inside = (self.between / 2 - k - 0.5) * self.apart
        path += [*_turn(width, up, inside), (width - turned, inside)]
        return Layer("body", (*turns, width - turned), tuple(path))

    def _lay_body(self, k: int, edge: float) -> Layer:
        """Return a layer of the body that ends at ``edge``, inside the strip."""
        z = (self.between / 2 - k - 0.5) * self.apart
        return Layer("body", (self.reach, edge), ((self.reach, z), (edge, z)))

    def _level(self, k: int) -> float:
        """Return the height of the upper leg of the k-th layer round the cord, from the inside."""
        return (self.between / 2 + k + 0.5) * self.apart

    def _wrap(self, k: int) -> list[Point]:
        """Return the k-th layer from its lower leg round the cord to its upper leg."""
        radius, level = self.radius + (k + 0.5) * self.apart, self._level(k)
        across = self.pocket - self.centre
        far = hypot(across, level)
        tangent = far > radius
        start = atan2(level, across) + acos(radius / far) if tangent else asin(min(level / radius, 1.0))
        arc = [-start - (2 * pi - 2 * start) * place / _ARC for place in range(_ARC + 1)]
        points = [(self.centre + radius * cos(angle), radius * sin(angle)) for angle in arc]
        return [(self.pocket, -level), *points, (self.pocket, level)] if tangent else points


def _turn(x: float, start: float, end: float) -> list[Point]:
    """Return a turn inboard at ``x`` from one height to another."""
    middle, radius = (start + end) / 2, (start - end) / 2
    angles = [pi / 2 - pi * place / _ARC for place in range(_ARC + 1)]
    return [(x + abs(radius) * cos(angle), middle + radius * sin(angle)) for angle in angles]


def _find_reach(pocket: float, radius: float) -> float:
    r"""Return how far from the end of a pocket the centre of a cord stands that is pulled into its fold, m.

    Cloth of length 2p round the cord, tangent to it, closes at the end of the pocket:
    :math:`\sqrt{D^2-r^2} + r(\pi-\arccos(r/D)) = p`.
    """
    low, high = radius, max(pocket, radius)
    for _ in range(60):
        reach = (low + high) / 2
        if sqrt(reach**2 - radius**2) + radius * (pi - acos(radius / reach)) > pocket:
            high = reach
        else:
            low = reach
    return (low + high) / 2
