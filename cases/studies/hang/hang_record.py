"""A hang sheet as it is written to a file."""

from dataclasses import dataclass
from typing import Annotated

from ...judging.trees import TreeLoads
from ...record import Metres, Missing, Newtons, Radians, Record
from .hang_option import HangOption, ImpossibleHang
from .hang_sheet import HangSheet
from .strap_heights import Rehang


@dataclass(frozen=True, repr=False)
class HangOptionRecord(Record):
    r"""How a hammock hangs between two trees; where it cannot, only the distance, the verdict and the reason.

    Parameters
    ----------
    tree_distance : float
        m.
    hang_angle : float or None
        Mean of both lines above the horizontal, rad.
    head_tree_pull, foot_tree_pull : float or None
        Along each line, :math:`\sqrt{X^2 + Y^2 + Z^2}`, N.
    sag, seat_height, ground_clearance : float or None
        Below the bars, of the side cords where they hang lowest, and of the lowest point, m.
    utilisation : float or None
        Share of its strength, over the factor required, that the tightest part uses.
    tightest : str or None
        That part and its failure.
    fits : bool
        Whether it hangs high enough, neither too flat nor too steep, and every part is strong enough.
    verdict : str
        ``yes``, or in two words why not.
    reason : str or None
        Why it cannot hang.
    """

    tree_distance: Metres
    hang_angle: Annotated[Radians | None, Missing.LEFT_OUT]
    head_tree_pull: Annotated[Newtons | None, Missing.LEFT_OUT]
    foot_tree_pull: Annotated[Newtons | None, Missing.LEFT_OUT]
    sag: Annotated[Metres | None, Missing.LEFT_OUT]
    seat_height: Annotated[Metres | None, Missing.LEFT_OUT]
    ground_clearance: Annotated[Metres | None, Missing.LEFT_OUT]
    utilisation: Annotated[float | None, Missing.LEFT_OUT]
    tightest: Annotated[str | None, Missing.LEFT_OUT]
    fits: bool
    verdict: str
    reason: Annotated[str | None, Missing.LEFT_OUT]


@dataclass(frozen=True, repr=False)
class HangRecord(Record):
    """Where one design can be hung.

    Parameters
    ----------
    girth, foot_girth : float or None
        Of the head and of the foot tree, m; None where it is not told.
    line_length, foot_line_length, head_strap_height, foot_strap_height : float
        As it is, m; the first of the head.
    fits_from, fits_to : float or None
        Nearest and farthest trees between which it fits, m; None if it fits nowhere.
    as_it_is : tuple of HangOptionRecord
        Distance by distance.
    kept : HangOptionRecord
        At the angle that is kept.
    trees : TreeLoads
        What the trees bear at that angle, and how the slings in front of them are set.
    kept_angle : tuple of Rehang
        What keeps that angle, distance by distance.
    """

    girth: Metres | None
    foot_girth: Metres | None
    line_length: Metres
    foot_line_length: Metres
    head_strap_height: Metres
    foot_strap_height: Metres
    fits_from: Metres | None
    fits_to: Metres | None
    as_it_is: tuple[HangOptionRecord, ...]
    kept: HangOptionRecord
    trees: TreeLoads
    kept_angle: tuple[Rehang, ...]


def record_hang_sheet(sheet: HangSheet) -> HangRecord:
    """Return a hang sheet in plain numbers and words.

    Parameters
    ----------
    sheet : HangSheet
        Of one design.
    """
    suspension, (near, far) = sheet.design.hammock.suspension, sheet.reach or (None, None)
    girths = [end.tree.girth if end.tree else None for end in (suspension.head, suspension.foot)]
    return HangRecord(
        girth=girths[0],
        foot_girth=girths[1],
        line_length=suspension.head.line_length,
        foot_line_length=suspension.foot.line_length,
        head_strap_height=suspension.head.strap_height,
        foot_strap_height=suspension.foot.strap_height,
        fits_from=near,
        fits_to=far,
        as_it_is=tuple(_record_option(spot) for spot in sheet.spots),
        kept=_record_option(sheet.kept),
        trees=sheet.kept.trees,
        kept_angle=sheet.rehangs,
    )


def _record_option(spot: HangOption | ImpossibleHang) -> HangOptionRecord:
    """Return how it hangs at one distance, or why it cannot."""
    if isinstance(spot, ImpossibleHang):
        nothing = (None,) * 8
        return HangOptionRecord(spot.distance, *nothing, fits=False, verdict=spot.verdict, reason=str(spot.reason))
    return HangOptionRecord(
        tree_distance=spot.distance,
        hang_angle=spot.angle,
        head_tree_pull=spot.head_pull,
        foot_tree_pull=spot.foot_pull,
        sag=spot.sag,
        seat_height=spot.seat,
        ground_clearance=spot.clearance,
        utilisation=spot.utilisation if spot.tightest else None,
        tightest=spot.tightest.title if spot.tightest else None,
        fits=spot.fits,
        verdict=spot.verdict,
        reason=None,
    )
