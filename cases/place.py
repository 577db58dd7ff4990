"""Where on the flat cloth something is highest, in words and as numbers."""

from typing import NamedTuple

import numpy as np

from ..materials import Sentence, say
from ..meshing import HammockModel
from .shape import Floats

EVEN = 0.01  # by which two values may differ and still count as alike on both sides
_TIED = 1e-4  # of the highest value: triangles so near to it are as high, and rounding picks among them
_MIRRORED = 1e-3  # m between a triangle and the mirror image of its twin
_NEAR_CORNER = 0.15  # m: nearer than this to a corner, the corner names the place


class Place(NamedTuple):
    """A place on the flat cloth: m from the head bar and to the left of the middle, and the corner it is near to.

    A place found on both sides alike is the one on the left.
    """

    x: float
    y: float
    corner: str | None
    both_sides: bool
    words: Sentence


def find_peak(model: HammockModel, values: Floats) -> Place:
    """Return where the values of the triangles are highest; on both sides, if they are alike there.

    Of places that are equally high the one nearest to the head bar is taken, so that rounding does not choose.

    Parameters
    ----------
    model : HammockModel
        With its mesh.
    values : (m,)
        One for each triangle.

    Examples
    --------
    >>> from tautlay.meshing import build_model, example_hammock
    >>> model = build_model(example_hammock(), None, 0.1)
    >>> place = find_peak(model, -model.mesh.flat_corners().mean(axis=1)[:, 0])
    >>> place.both_sides, place.y >= 0.0
    (True, True)
    """
    middles = model.mesh.flat_corners().mean(axis=1)
    tied = np.flatnonzero(values >= values.max() - _TIED * abs(values.max()))
    order = np.lexsort((-middles[tied, 1], middles[tied, 0].round(6)))
    peak = int(tied[order[0]])
    x, y = (float(value) for value in middles[peak])
    away = np.hypot(middles[:, 0] - x, middles[:, 1] + y)
    twin = int(np.argmin(away))
    even = twin != peak and away[twin] < _MIRRORED and values[twin] > values[peak] - EVEN * abs(values[peak])
    return _name_place(model, x, abs(y) if even else y, both=bool(even))


def _name_place(model: HammockModel, x: float, y: float, *, both: bool) -> Place:
    """Return a point of the flat cloth with words."""
    side = "left and right" if both else "left" if y > 0 else "right"
    for end in ("head", "foot"):
        for one in ("left", "right"):
            corner = model.mesh.points[model.nodes[f"{end} {one} corner"][0]]
            far = float(np.hypot(x - corner[0], y - corner[1]))
            if far < _NEAR_CORNER:
                noun = "corners" if both else "corner"
                words = say("{end} {side} {noun}, {far:length.2} inboard", end=end, side=side, noun=noun, far=far)
                return Place(x, y, f"{end} {one}", both, words)
    words = say(
        "{along:length} from the head bar, {across:length} {side} of the middle", along=x, across=abs(y), side=side
    )
    return Place(x, y, None, both, words)
