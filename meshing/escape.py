"""Whether a person is still where a person can lie: in the cloth and on the right side of it."""

import numpy as np

from .arrays import Floats
from .hammock_model import HammockModel

_SAMPLES = np.linspace(0.0, 1.0, 5)  # along each limb


def find_escape(model: HammockModel, positions: Floats) -> str | None:
    """Return in words how the person has left the cloth, or None.

    Parameters
    ----------
    model : HammockModel
        With a person in contact; None is returned for any other.
    positions : (n, 3)
        Where its nodes stand, m.

    Returns
    -------
    str or None
        "slid out over the foot bar", "rolled out over the left side", "slipped through the cloth: left thigh".
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
    lost = _find_lost(model, positions, body)
    return f"slipped through the cloth: {', '.join(lost)}" if lost else None


def _find_lost(model: HammockModel, positions: Floats, body: Floats) -> list[str]:
    """Return the parts of the body whose axis lies under the nearest cloth."""
    assert model.frame is not None
    corners = positions[model.mesh.triangles]
    middle = corners.mean(axis=1)
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), np.finfo(float).tiny)
    lost = []
    for name, (a, b) in zip(model.frame.flesh, model.frame.capsules, strict=True):
        for share in _SAMPLES:
            away = (1 - share) * body[a] + share * body[b] - middle
            nearest = int(np.argmin((away**2).sum(axis=1)))
            if away[nearest] @ normal[nearest] < 0:
                lost.append(name)
                break
    return lost
