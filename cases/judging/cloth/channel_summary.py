"""Channels in plain numbers: what cloth and cord do to each other, and what the corners hold."""

from dataclasses import dataclass
from typing import Annotated

import numpy as np

from ....hammock import Attachment
from ....making import Workmanship, find_lock_strength
from ....meshing import HammockModel
from ....solver import State
from ...record import Metres, Missing, Newtons, NewtonsPerMetre, Pascals, Record
from .channel_load import find_channel_load
from .cord_anchoring import Jump, list_jumps
from .fold_record import FoldRecord, measure_fold
from .gauge_square import GAUGE


@dataclass(frozen=True, repr=False)
class ChannelSide(Record):
    r"""What cloth and side cord do to each other along one channel, averaged over a gauge length.

    Parameters
    ----------
    pull_across_most : float
        Largest load square to the cord, N per metre of cut edge.
    pull_across_mean : float
        Mean over the whole channel, :math:`\sum_i |q_i| b_i / \sum_i b_i`, N/m.
    pull_along_most : float
        Largest load along the cord, N/m.
    cord_pressure_most : float
        Largest load across over the cord's diameter, Pa: :math:`T \kappa / d` of a cord of tension T and curvature
        :math:`\kappa`.
    """

    pull_across_most: NewtonsPerMetre
    pull_across_mean: NewtonsPerMetre
    pull_along_most: NewtonsPerMetre
    cord_pressure_most: Pascals


@dataclass(frozen=True, repr=False)
class CornerRecord(Record):
    r"""How the tension of the cord changes at one corner.

    Parameters
    ----------
    leg : float
        Tension of the leg, N.
    cord : float
        Of the side cord in the channel beside the corner, N.
    inner_cord : float
        Of the side cord beyond a lock, N.
    jump : float
        What lock and corner hold, leg less inner cord, J, N: left to itself a cord has one tension.
    lock_length_needed : float or None
        Of stitches that hold q N/m with the factor S asked, :math:`J S / q`, m; None where nothing is sewn or told.
    """

    leg: Newtons
    cord: Newtons
    inner_cord: Newtons
    jump: Newtons
    lock_length_needed: Annotated[Metres | None, Missing.LEFT_OUT]


@dataclass(frozen=True, repr=False)
class Corners(Record):
    """The four corners."""

    head_left: CornerRecord
    foot_left: CornerRecord
    head_right: CornerRecord
    foot_right: CornerRecord

    def pick_end(self, end: str) -> tuple[CornerRecord, CornerRecord]:
        """Return the left and the right corner at ``"head"`` or ``"foot"``."""
        return {"head": (self.head_left, self.head_right), "foot": (self.foot_left, self.foot_right)}[end]


@dataclass(frozen=True, repr=False)
class ChannelRecord(Record):
    """Loads of both channels, changes of the cords' tension at the corners, and the fold.

    Parameters
    ----------
    gauge : float
        Length over which loads are averaged, m.
    left, right : ChannelSide
        Loads of each channel.
    corners : Corners
        Where the cords end.
    fold : FoldRecord or None
        None where nothing is told of it.
    """

    gauge: Metres
    left: ChannelSide
    right: ChannelSide
    corners: Corners
    fold: FoldRecord | None


def measure_channel_loads(model: HammockModel, state: State, workmanship: Workmanship) -> ChannelRecord:
    """Return loads of both channels, changes of the cords' tension at the corners, and the fold.

    Parameters
    ----------
    model : HammockModel
        What was solved.
    state : State
        Its equilibrium.
    workmanship : Workmanship
        How the channels are sewn.

    Returns
    -------
    ChannelRecord
        SI.
    """
    left, right = (_measure_side(model, state, side) for side in ("left", "right"))
    jumps = {f"{jump.end} {jump.side}": _measure_corner(model, jump, workmanship) for jump in list_jumps(model, state)}
    corners = Corners(jumps["head left"], jumps["foot left"], jumps["head right"], jumps["foot right"])
    return ChannelRecord(GAUGE, left, right, corners, measure_fold(model.hammock, workmanship))


def _measure_side(model: HammockModel, state: State, side: str) -> ChannelSide:
    """Return the load of one channel, averaged over gauge lengths, and its mean over the whole channel."""
    load = find_channel_load(model, state, side)
    pull, across = load.average(), np.linalg.norm(load.across, axis=1)
    length = load.bounds[-1] - load.bounds[0]
    return ChannelSide(
        pull_across_most=float(pull.across.max()),
        pull_across_mean=float(across @ load.widths / length),
        pull_along_most=float(np.abs(pull.along).max()),
        cord_pressure_most=float(load.press().max()),
    )


def _measure_corner(model: HammockModel, jump: Jump, workmanship: Workmanship) -> CornerRecord:
    """Return the jump of the cord's tension at one corner, and what length of lock stitches it asks for."""
    needed, lock = None, workmanship.lock
    if lock is not None and model.hammock.channel.attachment is not Attachment.FREE:
        holds = find_lock_strength(lock.stitching, workmanship.reductions).value
        needed = jump.force * workmanship.factors["seam"].value / holds
    return CornerRecord(jump.leg, jump.channel, jump.inner, jump.force, needed)
