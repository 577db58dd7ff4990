"""How somebody who lies on the right side has arms and legs: forwards of the trunk, and bent.

People spend 54 % of the night on the side (664 people with accelerometers; E. Skarpsno and others, Nat. Sci. Sleep 9,
267, 2017). How far they bend hips and knees was not measured there; the angles here are those to which people let go
in weightlessness, about 50 degrees at either (Skylab, from memory; on a later flight no two of six people were alike:
NASA TM-2003-104805). Judgement, no source: where the arms lie, and how firmly muscles that rest keep it all so.
"""

from collections.abc import Mapping
from math import cos, radians, sin

import numpy as np

from ..hammock.arrays import FloatArray

HIPS, KNEES = radians(50.0), radians(50.0)  # bent forwards, and back
_ARMS = {"right": radians(90.0), "left": radians(110.0)}


def bend_limbs(places: Mapping[str, FloatArray]) -> dict[str, FloatArray]:
    """Return the places of knees, calves, ankles and elbows of a body that lies straight on the back, bent.

    Parameters
    ----------
    places : mapping of str to (3,)
        Nodes of the straight body: towards the feet, to the left, forwards, m.

    Examples
    --------
    >>> straight = {f"{side} {level}": np.array([s, 0.0, 0.0]) for side in ("left", "right")
    ...             for s, level in ((1.0, "hip"), (1.4, "knee"), (1.5, "calf"), (1.8, "ankle"), (0.3, "shoulder"),
    ...                              (0.6, "elbow"))}
    >>> bend_limbs(straight)["left ankle"].round(3).tolist()  # knees bent as far as hips: the shanks lie along the body
    [1.657, 0.0, 0.306]
    """
    bent = {}
    for side, raised in _ARMS.items():
        hip, knee, calf, ankle = (places[f"{side} {level}"] for level in ("hip", "knee", "calf", "ankle"))
        bent[f"{side} knee"] = hip + turn_forwards(knee - hip, HIPS)
        bent[f"{side} calf"] = bent[f"{side} knee"] + turn_forwards(calf - knee, HIPS - KNEES)
        bent[f"{side} ankle"] = bent[f"{side} calf"] + turn_forwards(ankle - calf, HIPS - KNEES)
        shoulder, elbow = places[f"{side} shoulder"], places[f"{side} elbow"]
        bent[f"{side} elbow"] = shoulder + turn_forwards(elbow - shoulder, raised)
    return bent


def turn_forwards(step: FloatArray, angle: float) -> FloatArray:
    """Return a way (3,) turned by an angle, rad, from along the body towards its front."""
    c, s = cos(angle), sin(angle)
    return np.array([c * step[0] - s * step[2], step[1], s * step[0] + c * step[2]])
