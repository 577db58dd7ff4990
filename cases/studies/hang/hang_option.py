"""One hammock at one tree spacing: its hang, and whether that fits."""

from dataclasses import dataclass
from math import degrees, hypot, radians
from typing import Any

import numpy as np

from ....materials import Sentence, make_sentence
from ...judging.clearance import Clearance
from ...judging.forces import describe_anchors
from ...judging.loaded_shape import describe_shape
from ...result import Result

# Engineering judgement, no source: flatter lines pull several times the weight and stretch it hard, steeper ones fold
# the hammock up. 30 degrees is the usual hang (T = W / (2 sin a) is then the weight itself).
FLATTEST, STEEPEST = radians(20.0), radians(45.0)


@dataclass(frozen=True)
class HangOption:
    """The hang of a hammock between two trees.

    Parameters
    ----------
    distance : float
        Of the trees, m.
    angle : float
        Hang angle, mean of both lines, rad.
    head_pull, foot_pull : float
        On each tree, along the line, N.
    sag : float
        Below the bars, m.
    seat : float
        Height of the side cords where they hang lowest, to sit down on, m; mean of both.
    clearance : float
        Height of the lowest point, m.
    """

    distance: float
    angle: float
    head_pull: float
    foot_pull: float
    sag: float
    seat: float
    clearance: float

    @property
    def verdict(self) -> str:
        """``yes``, or in two words why it does not fit.

        Examples
        --------
        >>> [HangOption(4.0, angle, 640.0, 620.0, 0.6, 0.7, 0.4).verdict for angle in (0.5, 0.9)]
        ['yes', 'TOO STEEP']
        """
        height = Clearance(self.clearance)
        if not height.passed:
            return height.verdict
        if self.angle > STEEPEST:
            return "TOO STEEP"
        return "TOO FLAT" if self.angle < FLATTEST else "yes"

    @property
    def fits(self) -> bool:
        """Whether it hangs high enough and neither too flat nor too steep."""
        return self.verdict == "yes"

    def describe(self) -> dict[str, Any]:
        """Return plain numbers; the end of each key names the SI unit."""
        return {
            "tree_distance_m": self.distance,
            "hang_angle_rad": self.angle,
            "head_tree_pull_N": self.head_pull,
            "foot_tree_pull_N": self.foot_pull,
            "sag_m": self.sag,
            "seat_height_m": self.seat,
            "ground_clearance_m": self.clearance,
            "fits": self.fits,
            "verdict": self.verdict,
        }


@dataclass(frozen=True)
class ImpossibleHang:
    """A distance at which it cannot hang at all.

    Parameters
    ----------
    distance : float
        Of the trees, m.
    reason : str
        Why; may be a ``Sentence``.
    """

    distance: float
    reason: str | Sentence
    verdict = "CANNOT HANG"
    fits = False

    def describe(self) -> dict[str, Any]:
        """Return plain numbers and words."""
        return {
            "tree_distance_m": self.distance,
            "fits": False,
            "verdict": self.verdict,
            "reason": str(self.reason),
        }


def find_spot(result: Result) -> HangOption:
    """Return how a solved hammock hangs.

    Parameters
    ----------
    result : Result
        Under the spread weight.
    """
    model, state = result.model, result.state
    shape, anchors = describe_shape(model, state), describe_anchors(model, state)
    pulls = [hypot(*anchors[f"{end}_tree_N"]) for end in ("head", "foot")]
    edges = [state.positions[model.nodes[f"{side} edge"], 2].min() for side in ("left", "right")]
    return HangOption(
        model.tree_distance,
        shape["hang_angle_rad"],
        pulls[0],
        pulls[1],
        shape["sag_m"],
        float(np.mean(edges)),
        shape["ground_clearance_m"],
    )


def explain_limits() -> Sentence:
    """Return the limits of a hang that fits."""
    from ...judging.clearance import MARGIN

    return make_sentence(
        "Limits: at least {margin:length} above the ground and a hang angle of {flat:.0f} to {steep:.0f} deg (both "
        "engineering judgement).",
        margin=MARGIN,
        flat=degrees(FLATTEST),
        steep=degrees(STEEPEST),
    )
