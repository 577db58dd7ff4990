"""A camera infinitely far away: parallel projection, so that lengths in a plane keep one scale."""

from math import cos, radians, sin
from typing import NamedTuple

import numpy as np

from ..cases.storage.shape import FloatArray


class Camera(NamedTuple):
    """Unit vectors of the picture: to its right, to its top, and towards the eye; each (3,)."""

    right: FloatArray
    top: FloatArray
    eye: FloatArray


def aim_camera(azimuth: float, elevation: float) -> Camera:
    """Set up a camera from where the eye is.

    Parameters
    ----------
    azimuth : float
        Degrees from the x axis towards y: 0 looks from the foot end, -90 from the occupant's right.
    elevation : float
        Degrees above the horizon.

    Returns
    -------
    Camera
        Right-handed unit vectors.

    Examples
    --------
    >>> aim_camera(-90, 0).right.round(6) + 0.0
    array([1., 0., 0.])
    """
    around, above = radians(azimuth), radians(elevation)
    eye = np.array([cos(above) * cos(around), cos(above) * sin(around), sin(above)])
    right = np.array([-sin(around), cos(around), 0.0])
    return Camera(right, np.cross(eye, right), eye)


def project_points(camera: Camera, points: FloatArray) -> FloatArray:
    """Return where points (..., 3) appear (..., 2), m.

    Parameters
    ----------
    camera : Camera
        From :func:`aim_camera`.
    points : (..., 3)
        m.

    Returns
    -------
    (..., 2)
        Right and up in the picture, m.

    Examples
    --------
    >>> project_points(aim_camera(0, 0), np.array([5.0, 2.0, 3.0]))
    array([2., 3.])
    """
    return np.stack([points @ camera.right, points @ camera.top], -1)
