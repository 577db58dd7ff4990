"""How rib cage, pelvis and head of a lying person are turned against lying flat."""

from math import atan2

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing.body_frame import BodyFrame

_BODIES = {
    "rib_cage": ("left shoulder", "right shoulder", "left blade", "right blade", "left chest", "right chest", "breast"),
    "pelvis": ("left waist", "right waist", "left hip", "right hip", "belly"),
    "head": ("neck", "head"),
    "thighs": ("left hip", "right hip", "left knee", "right knee"),
}


def measure_angles(frame: BodyFrame, places: FloatArray) -> dict[str, float]:
    r"""Return by how much the parts of a trunk are turned head up, and bent against each other, rad.

    Each part is fitted to itself lying flat as a stiff body, by least squares in the plane in which the pelvis faces:
    :math:`\tan\theta = \sum (a \times b) / \sum (a \cdot b)`, its nodes a flat and b as they are, from their middle.

    Parameters
    ----------
    frame : BodyFrame
        The person.
    places : (n, 3)
        Where its nodes are, along the hammock, to the left, up, m.

    Returns
    -------
    dict of str to float
        "rib_cage_pitch", "pelvis_pitch", "head_pitch", head up positive; "trunk_bend", rib cage against pelvis,
        "neck_bend", chin towards breast, and "hip_joint", thighs towards belly, forwards positive.

    Examples
    --------
    >>> from tautlay.hammock import example_person
    >>> from tautlay.meshing.body_frame import make_frame
    >>> frame = make_frame(example_person())
    >>> {name: round(angle, 9) + 0.0 for name, angle in measure_angles(frame, frame.places).items()}["trunk_bend"]
    0.0
    """
    front = find_front(frame, places)
    turned = {name: _turn(frame, places, nodes, front) for name, nodes in _BODIES.items()}
    return {
        **{f"{name}_pitch": angle for name, angle in turned.items() if name != "thighs"},
        "trunk_bend": turned["rib_cage"] - turned["pelvis"],
        "neck_bend": turned["head"] - turned["rib_cage"],
        "hip_joint": turned["pelvis"] - turned["thighs"] + frame.drawn,
    }


def _turn(frame: BodyFrame, places: FloatArray, nodes: tuple[str, ...], front: FloatArray) -> float:
    """Return the angle by which a stiff part is turned head up against lying flat, in the plane of ``front`` (3,)."""
    rows = [frame.index(name) for name in nodes]
    flat, now = (each[rows] - each[rows].mean(axis=0) for each in (frame.places, places))
    before = flat[:, [0, 2]]
    after = np.column_stack([now[:, 0], now @ front])
    across = before[:, 1] * after[:, 0] - before[:, 0] * after[:, 1]
    return atan2(across.sum(), (before * after).sum())


def find_front(frame: BodyFrame, places: FloatArray) -> FloatArray:
    """Return the direction (3,) across the hammock in which the pelvis faces: up on the back.

    Parameters
    ----------
    frame : BodyFrame
        The person.
    places : (n, 3)
        Where its nodes are, m.
    """
    left, right = (places[frame.index(f"{side} hip")] for side in ("left", "right"))
    aside = np.array([0.0, *(left - right)[1:]])
    return np.asarray(np.cross([1.0, 0.0, 0.0], aside / np.linalg.norm(aside)))
