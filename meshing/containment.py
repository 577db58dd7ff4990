"""Checks whether a person is still in the cloth and on the right side of it."""

from collections.abc import Iterator

import numpy as np

from ..hammock.arrays import FloatArray
from ..solver import Contact
from .hammock_model import HammockModel

_SAMPLES = np.linspace(0.0, 1.0, 5)  # along each limb
_ALONG = 41  # places along each limb at which its distance from the bar is taken
_UNDER = 0.5  # of the radius that an axis has to lie below the nearest facet: those of a coarse mesh are off by less


def check_containment(model: HammockModel, positions: FloatArray, *, arms: bool | None = None) -> str | None:
    """Return in words how the person has left the cloth, or None.

    Parameters
    ----------
    model : HammockModel
        With a person in contact; None is returned for any other.
    positions : (n, 3)
        Where its nodes stand, m.
    arms : bool or None
        Whether an arm that lies on no cloth counts; None: it may hang out over a side, and the cloth may cross one of
        a person on the side, which carries nothing.

    Returns
    -------
    str or None
        "slid out over the foot bar", "rolled out over the left side", "hangs out over the head end: head", "hangs out
        over the left side: left upper arm", "lies in the head bar: neck" or the foot bar, "slipped through the cloth:
        left thigh".
    """
    if model.frame is None:
        return None
    on_side = model.person is not None and model.person.posture.on_side
    counted = not on_side if arms is None else arms
    body = positions[-len(model.frame.names) :]
    hips = body[[model.frame.index("left hip"), model.frame.index("right hip")]].mean(axis=0)
    for end, beyond in (("head", -1.0), ("foot", 1.0)):
        bar = positions[np.concatenate([model.nodes[f"{end} {side} corner"] for side in ("left", "right")])]
        if beyond * (hips[0] - bar[:, 0].mean()) > 0:
            return f"slid out over the {end} bar"
    side = _find_side(model, positions, hips)
    if side is not None:
        return f"rolled out over the {side} side"
    below = [(name, _find_side(model, positions, place)) for name, place in _list_outside(model, positions, body)]
    outside = [(name, side) for name, side in below if "arm" not in name or (counted and (arms or not side))]
    if outside and (hanging := next(_list_beyond(model, positions, body), None)):
        return "hangs out over the {1} end: {0}".format(*hanging)
    for name, side in outside:
        return f"hangs out over the {side} side: {name}" if side else f"slipped through the cloth: {name}"
    for end in ("head", "foot"):
        gap, part = find_nearest_part(model, positions, end)
        if gap < 0:
            return f"lies in the {end} bar: {part}"
    pierced = [name for name in _list_pierced(model, positions) if counted or "arm" not in name]
    return f"slipped through the cloth: {pierced[0]}" if pierced else None


def _find_side(model: HammockModel, positions: FloatArray, place: FloatArray) -> str | None:
    """Return beyond which long edge a place (3,) lies, if beyond either."""
    for side, sign in (("left", 1.0), ("right", -1.0)):
        edge = _trace_side(model, positions, side)
        if sign * (place[1] - np.interp(place[0], edge[:, 0], edge[:, 1])) > 0:
            return side
    return None


def _trace_side(model: HammockModel, positions: FloatArray, side: str) -> FloatArray:
    """Return the long edge (k, 3) of all cloth on one side, m, from head to foot, with what lies beyond the bars."""
    path = [model.nodes[f"{side} edge"]]
    for part in model.beyond:
        leg = model.nodes[f"{part.end} {side} leg"][1:-1]
        path = [leg[::-1], *path] if part.end == "head" else [*path, leg]
    return np.asarray(positions[np.concatenate(path)])


def find_nearest_part(model: HammockModel, positions: FloatArray, end: str) -> tuple[float, str]:
    """Return how near the line of a bar is to the skin of a person, m, and to which part; a pillow gives way.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    positions : (n, 3)
        Of all nodes, m; nothing holds bar and body apart, so that the bar may lie in the flesh: negative.
    end : str
        Of which bar, ``"head"`` or ``"foot"``.
    """
    assert model.frame is not None
    flesh = model.frame.flesh
    gaps = measure_bar_gaps(model, positions, positions[-len(model.frame.names) :], end)
    gaps[[name == "pillow" for name in flesh]] = np.inf
    nearest = int(np.argmin(gaps))
    return float(gaps[nearest]), flesh[nearest]


def measure_bar_gaps(model: HammockModel, positions: FloatArray, body: FloatArray, end: str) -> FloatArray:
    """Return how far the line of a bar is from the skin of each part of the body (c,), m; negative inside it.

    Parameters
    ----------
    model : HammockModel
        With a person in contact.
    positions : (n, 3)
        Of all nodes, m.
    body : (h, 3)
        Of those of the person, m.
    end : str
        ``"head"`` or ``"foot"``.
    """
    assert model.frame is not None
    frame = model.frame
    corners = [positions[model.nodes[f"{end} {side} corner"][0]] for side in ("left", "right")]
    along = np.linspace(0.0, 1.0, _ALONG)
    a, b = np.moveaxis(body[frame.capsules], 1, 0)
    points = a[:, None] + along[:, None] * (b - a)[:, None]
    radii = frame.radii[:, :1] + along * (frame.radii[:, 1:] - frame.radii[:, :1])
    step = corners[1] - corners[0]
    share = np.clip((points - corners[0]) @ step / (step @ step), 0.0, 1.0)
    away = np.linalg.norm(points - corners[0] - share[..., None] * step, axis=2)
    return np.asarray((away - radii).min(axis=1))


def _list_beyond(model: HammockModel, positions: FloatArray, body: FloatArray) -> Iterator[tuple[str, str]]:
    """Yield each part of the body whose axis reaches beyond an end of the cloth, and which end."""
    places = _sample_limbs(model, body)
    for end, sign in (("head", -1.0), ("foot", 1.0)):
        edge = positions[model.nodes.get(f"{end} far edge", model.nodes[f"{end} edge"])]
        edge = edge[np.argsort(edge[:, 1])]
        beyond = sign * (places[..., 0] - np.interp(places[..., 1], edge[:, 1], edge[:, 0])) > 0
        assert model.frame is not None
        yield from ((model.frame.flesh[part], end) for part in np.flatnonzero(beyond.any(axis=1)))


def _list_pierced(model: HammockModel, positions: FloatArray) -> list[str]:
    """Return the parts of the body through whose axis the cloth goes."""
    contact = model.elements["contact"]
    assert model.frame is not None
    assert isinstance(contact, Contact)
    return [model.frame.flesh[part] for part in np.flatnonzero(contact.find_pierced(positions))]


def _sample_limbs(model: HammockModel, body: FloatArray) -> FloatArray:
    """Return points (c, k, 3) along the axis of each part of the body."""
    assert model.frame is not None
    a, b = np.moveaxis(body[model.frame.capsules], 1, 0)
    return np.asarray(a[:, None] + _SAMPLES[:, None] * (b - a)[:, None])


def _list_outside(model: HammockModel, positions: FloatArray, body: FloatArray) -> list[tuple[str, FloatArray]]:
    """Return name and place (3,) of points along the limbs' axes that lie below the cloth next to them."""
    from scipy.spatial import cKDTree

    assert model.frame is not None
    frame = model.frame
    places = _sample_limbs(model, body).reshape(-1, 3)
    corners = positions[model.triangles]
    middles = corners.mean(axis=1)
    _, nearest = cKDTree(middles).query(places)
    first, second, third = np.moveaxis(corners[nearest], 1, 0)
    normal = np.cross(second - first, third - first)
    height = ((places - middles[nearest]) * normal).sum(axis=1)
    radius = np.repeat(frame.radii.min(axis=1), len(_SAMPLES))
    outside = np.flatnonzero(height < -_UNDER * radius * np.linalg.norm(normal, axis=1))
    return [(frame.flesh[point // len(_SAMPLES)], places[point]) for point in outside]
