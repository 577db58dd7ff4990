"""How a person's frame first lies over a shaped cloth: bones of their length, flesh just above the cloth."""

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.person import Person
from .body_frame import BodyFrame
from .extension_mesh import ExtensionMesh
from .grid import Mesh
from .transfer import locate

_ABOVE = 0.005  # m, between the cloth and the lowest flesh
_KEPT = 0.2  # of its distance from the middle that a limb keeps where there is no room, so that no two nodes meet
_ACROSS = np.linspace(-1.0, 1.0, 61)  # places of a cross-section, of the half width
_FARTHEST = 2.0  # times a bone's length, along the cloth, that its end may be from its beginning


class _Trough:
    """The shaped cloth as cross-sections."""

    def __init__(self, mesh: Mesh, cloth: FloatArray, beyond: tuple[ExtensionMesh, ...]) -> None:
        self.mesh, self.cloth = mesh, cloth
        self.beyond = {part.end: part for part in beyond}

    def cut(self, along: float) -> tuple[float, FloatArray, FloatArray]:
        """Return x of the middle, and y and z (k,) of the cross-section at a flat distance from the head bar."""
        past = along - self.mesh.outline.length
        part = self.beyond.get("head") if along < 0.0 else self.beyond.get("foot") if past > 0.0 else None
        if part is not None:
            x, y, z = part.cut(self.cloth, max(-along, past)).T
            return float(x[len(x) // 2]), np.maximum.accumulate(y), z
        at = np.array([np.clip(along, 0.0, self.mesh.outline.length)])
        left, right = self.mesh.outline.left.place(at)[0], self.mesh.outline.right.place(at)[0]
        width = (left + right) / 2 + _ACROSS * (1 - 1e-9) * (left - right) / 2
        triangle, shares = locate(self.mesh, np.column_stack([np.repeat(at, len(width)), width]))
        x, y, z = np.einsum("pa,pak->kp", shares, self.cloth[self.mesh.triangles[triangle]])
        return float(x[len(x) // 2]), np.maximum.accumulate(y), z


def lay_frame(
    frame: BodyFrame, person: Person, mesh: Mesh, cloth: FloatArray, beyond: tuple[ExtensionMesh, ...] = ()
) -> FloatArray:
    """Return where the nodes of ``frame`` first stand (h, 3) over the cloth (n, 3), that beyond the bars included.

    Head, shoulders, hips, knees and ankles make a chain of straight pieces in the side view, each just clear of
    the cloth and at its own distance from the next, the head no lower than the shoulders; everything else lies
    along that chain as it does on a bed. What would pass through the cloth is drawn in and lifted.
    """
    places, radii = turn_frame(frame, person), _find_radii(frame)
    trough = _Trough(mesh, cloth, beyond)
    chain = _Chain(trough, person.head_from_bar)
    for name in ("left hip", "left shoulder", "head", "left knee", "left ankle"):
        row = places[:, 0] == places[frame.index(name), 0]
        chain.add(places[row], radii[row], level=name == "head")
    stands = np.empty_like(places)
    for node, (s, y, z) in enumerate(places):
        x, height, along = chain.place(float(s))
        stands[node] = x, *_clear(trough, along, float(y), float(height + z), float(radii[node]))
    return stands


def _clear(trough: _Trough, along: float, y: float, z: float, radius: float) -> tuple[float, float]:
    """Return y and z of a limb's middle, drawn in from the rising sides and lifted until it clears the cloth."""
    _, across, up = trough.cut(along)
    free = across[up < z]
    if len(free):
        middle = (free.max() + free.min()) / 2
        room = max((free.max() - free.min()) / 2 - radius - _ABOVE, _KEPT * abs(y - middle))
        y = float(np.clip(y, middle - room, middle + room))
    return y, max(z, float(np.interp(y, across, up)) + radius + _ABOVE)


class _Chain:
    """Pieces of the body in the side view, from the hips outwards."""

    def __init__(self, trough: _Trough, crown: float) -> None:
        self.trough, self.crown = trough, crown
        self.knots: list[tuple[float, float, float, float]] = []  # s from the crown, x, height, flat distance

    def _lift(self, along: float, row: FloatArray, radii: FloatArray) -> tuple[float, float]:
        """Return x of a cut and the height at which the flesh of a row of nodes just clears it."""
        x, y, z = self.trough.cut(along)
        return x, float((np.interp(row[:, 1], y, z) + radii - row[:, 2]).max()) + _ABOVE

    def add(self, row: FloatArray, radii: FloatArray, *, level: bool = False) -> None:
        """Set the next row at its distance from its neighbour among those that stand; ``level``: not below it."""
        from scipy.optimize import brentq

        s = float(row[0, 0])
        if not self.knots:
            along = self.crown + s
            self.knots.append((s, *self._lift(along, row, radii), along))
            return
        before = min(self.knots, key=lambda knot: abs(knot[0] - s))
        step = s - before[0]

        def reach(share: float) -> tuple[float, float, float]:
            along = before[3] + share * step
            x, height = self._lift(along, row, radii)
            return x, max(height, before[2] if level else -np.inf), along

        def miss(share: float) -> float:
            x, height, _ = reach(share)
            return float(np.hypot(x - before[1], height - before[2])) - abs(step)

        if miss(0.0) >= 0:
            share = 0.0
        else:
            share = brentq(miss, 0.0, _FARTHEST, xtol=1e-9) if miss(_FARTHEST) > 0 else _FARTHEST
        self.knots.append((s, *reach(share)))

    def place(self, s: float) -> tuple[float, float, float]:
        """Return x, height and flat distance at a distance from the crown."""
        knots = np.array(sorted(self.knots))
        x, height, along = (float(np.interp(s, knots[:, 0], knots[:, k])) for k in (1, 2, 3))
        return x, height, along


def turn_frame(frame: BodyFrame, person: Person) -> FloatArray:
    """Return the frame's places (h, 3) as the posture says: from the crown, to the left, up from the lowest flesh."""
    places = frame.places.copy()
    if person.posture.on_side:  # the right side down
        up = places[:, 1].copy()
        places[:, 1] = frame.masses @ places[:, 2] / frame.masses.sum() - places[:, 2]  # what lies in the middle
        places[:, 2] = up - (up[frame.capsules] - frame.radii).min()
    places[:, 1] += person.posture.offset
    return places


def _find_radii(frame: BodyFrame) -> FloatArray:
    """Return the radius of the thickest flesh at every node (h,), m."""
    radii = np.zeros(len(frame.names))
    np.maximum.at(radii, frame.capsules, frame.radii)
    return radii
