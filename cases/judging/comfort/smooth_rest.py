"""Where somebody who lies on the side in clothing would come to rest on perfectly smooth cloth."""

from math import degrees
from typing import NamedTuple


class SmoothRest(NamedTuple):
    """The cautious end of lying on the side.

    Parameters
    ----------
    hips, shoulders : float
        Roll, rad: 0 on the back, a quarter turn on the side. Invalid where there is no rest.
    end : str or None
        Why there is no rest, in a sentence.
    """

    hips: float
    shoulders: float
    end: str | None = None


def note_smooth_rest(rest: SmoothRest | None) -> list[str]:
    """Return where smooth cloth would let the person roll, in a sentence; none where that was not looked for.

    Examples
    --------
    >>> note_smooth_rest(SmoothRest(0.3, 0.1))
    ['On perfectly smooth cloth the same person rolls to hips at 17 deg, shoulders at 6.']
    """
    if rest is None:
        return []
    if rest.end is not None:
        return [f"On perfectly smooth cloth the same person finds no rest. {rest.end}"]
    hips, shoulders = degrees(rest.hips), degrees(rest.shoulders)
    return [f"On perfectly smooth cloth the same person rolls to hips at {hips:.0f} deg, shoulders at {shoulders:.0f}."]
