"""Whether a person is still where a person can lie: in the cloth and on the right side of it."""

import numpy as np

from ..solver import Contact
from .arrays import Floats
from .hammock_model import HammockModel

_SAMPLES = np.linspace(0.0, 1.0, 5)  # along each limb
_UNDER = 0.5  # of the radius that an axis has to lie below the cloth: flesh gives until it nearly touches


def find_escape(model: HammockModel, positions: Floats, *, arms: bool = True) -> str | None:
    """Return in words how the person has left the cloth, or None.

    Parameters
    ----------
    model : HammockModel
        With a person in contact; None is returned for any other.
    positions : (n, 3)
        Where its nodes stand, m.
    arms : bool
        Whether an arm that hangs out counts.

    Returns
    -------
    str or None
        "slid out over the foot bar", "rolled out over the left side", "hangs out over the left side: left upper
        arm", "slipped through the cloth: left thigh".
    """
    if model.frame is None:
        return None
    body = positions[-len(model.frame.names) :]
    hips = body[[model.frame.index("left hip"), model.frame.index("right hip")]].mean(axis=0)
    for end, beyond in (("head", -1.0), ("foot", 1.0)):
        bar = positions[np.concatenate([model.nodes[f"{end} {side} corner"] for side in ("left", "right")])]
        if beyond * (hips[0] - bar[:, 0].mean()) > 0:
            return f"slid out over the {end} bar"
    for side, sign in (("left", 1.0), ("right", -1.0)):
        edge = positions[model.nodes[f"{side} edge"]]
        if sign * (hips[1] - np.interp(hips[0], edge[:, 0], edge[:, 1])) > 0:
            return f"rolled out over the {side} side"
    for name, share, (a, b), radius in _list_points(model):
        if "arm" in name and not arms:
            continue
        fault = _find_fault(model, positions, (1 - share) * body[a] + share * body[b], radius)
        if fault:
            return f"{fault}: {name}"
    pierced = [name for name in _list_pierced(model, positions) if arms or "arm" not in name]
    return f"slipped through the cloth: {pierced[0]}" if pierced else None


def _list_pierced(model: HammockModel, positions: Floats) -> list[str]:
    """Return the parts of the body through whose axis the cloth goes."""
    contact = model.elements["contact"]
    assert model.frame is not None
    assert isinstance(contact, Contact)
    return [model.frame.flesh[part] for part in np.flatnonzero(contact.find_pierced(positions))]


def _list_points(model: HammockModel) -> list[tuple[str, float, tuple[int, int], float]]:
    """Return points along the axis of every part of the body, and the smaller radius of the part."""
    assert model.frame is not None
    frame = model.frame
    parts = zip(frame.flesh, frame.capsules.tolist(), frame.radii.min(axis=1).tolist(), strict=True)
    return [(name, float(share), (a, b), radius) for name, (a, b), radius in parts for share in _SAMPLES]


def _find_fault(model: HammockModel, positions: Floats, place: Floats, radius: float) -> str | None:
    """Return what is wrong with a point of the body, from the nearest cloth."""
    corners = positions[model.mesh.triangles]
    away = place - corners.mean(axis=1)
    nearest = int(np.argmin((away**2).sum(axis=1)))
    a, b, c = corners[nearest]
    normal = np.cross(b - a, c - a)
    if away[nearest] @ normal >= -_UNDER * radius * np.linalg.norm(normal):
        return None
    for side, sign in (("left", 1.0), ("right", -1.0)):
        edge = positions[model.nodes[f"{side} edge"]]
        if sign * (place[1] - np.interp(place[0], edge[:, 0], edge[:, 1])) > 0:
            return f"hangs out over the {side} side"
    return "slipped through the cloth"
