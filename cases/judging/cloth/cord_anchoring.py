"""Change of cord tension where the cloth is anchored on it: at the corners, and over an anchored length."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from ....hammock import Attachment
from ....meshing import HammockModel
from ....solver import State
from ..forces import find_cord_tension


class Jump(NamedTuple):
    """Change of tension at one corner.

    Parameters
    ----------
    end, side : str
        Which corner: ``head`` or ``foot``, ``left`` or ``right``.
    leg : float
        Tension of the leg, N.
    channel : float
        Tension of the side cord at the corner, N.
    inner : float
        Tension of the side cord where the anchored length ends, N; at the corner itself if there is none.
    """

    end: str
    side: str
    leg: float
    channel: float
    inner: float

    @property
    def force(self) -> float:
        """Cord force that has to be anchored, N: a cord that slides freely has the same tension everywhere."""
        return abs(self.leg - self.inner)


def list_jumps(model: HammockModel, state: State) -> Iterator[Jump]:
    """Yield the change of tension at each corner.

    Parameters
    ----------
    model : HammockModel
        What was solved.
    state : State
        Its equilibrium.

    Yields
    ------
    Jump
        Head and foot of the left side, then of the right.
    """
    locked = model.hammock.channel.attachment is Attachment.LOCKED
    for side in ("left", "right"):
        cord = find_cord_tension(model, state, side)
        sliding = float(state[model.elements[f"{side} side cord"]].tension) if locked else None
        for end, at_corner in (("head", float(cord[0])), ("foot", float(cord[-1]))):
            leg = float(np.max(state[model.elements[f"{end} {side} leg"]].tension))
            yield Jump(end, side, leg, at_corner, at_corner if sliding is None else sliding)
