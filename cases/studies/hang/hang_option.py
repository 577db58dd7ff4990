"""One hammock at one tree spacing: its hang, and whether that fits."""

from dataclasses import dataclass
from math import degrees, hypot, radians

import numpy as np

from ....materials import Sentence, make_sentence
from ....materials.short_repr import write_repr, write_value
from ...judging.checks import Check
from ...judging.clearance import Clearance
from ...judging.trees import TreeLoads
from ...result import Result

# Engineering judgement, no source: flatter lines pull several times the weight and stretch it hard, steeper ones fold
# the hammock up. 30 degrees is the usual hang (T = W / (2 sin a) is then the weight itself).
FLATTEST_FIT, STEEPEST_FIT = radians(20.0), radians(45.0)


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
    trees : TreeLoads
        What both trees bear.
    tightest : Check or None
        The check closest to failing, or the worst that fails; None where nothing could be checked.
    """

    distance: float
    angle: float
    head_pull: float
    foot_pull: float
    sag: float
    seat: float
    clearance: float
    trees: TreeLoads
    tightest: Check | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"trees {write_value(self.distance, 'length')} apart",
            f"{write_value(self.angle, 'angle')}",
            f"pull {write_value(self.head_pull, 'force')} and {write_value(self.foot_pull, 'force')}",
            self.verdict,
        )

    @property
    def verdict(self) -> str:
        """``yes``, or in two words why it does not fit.

        Examples
        --------
        >>> from tautlay.cases.judging.trees import TreeLoad
        >>> tree = TreeLoad(640.0, 560.0, 1.8, 1000.0, None, None, None)
        >>> loads = TreeLoads(tree, tree)
        >>> [HangOption(4.0, angle, 640.0, 620.0, 0.6, 0.7, 0.4, loads).verdict for angle in (0.5, 0.9)]
        ['yes', 'TOO STEEP']
        """
        height = Clearance(self.clearance)
        if not height.passed:
            return height.verdict
        if self.angle > STEEPEST_FIT:
            return "TOO STEEP"
        if self.angle < FLATTEST_FIT:
            return "TOO FLAT"
        return "TOO WEAK" if self.utilisation > 1.0 else "yes"

    @property
    def utilisation(self) -> float:
        """Share of its strength, over the factor required, that the tightest part uses; 0 where nothing was checked."""
        return 1.0 / self.tightest.margin if self.tightest else 0.0

    @property
    def fits(self) -> bool:
        """Whether it hangs high enough, neither too flat nor too steep, and every part is strong enough."""
        return self.verdict == "yes"


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


def find_spot(result: Result) -> HangOption:
    """Return how a solved hammock hangs.

    Parameters
    ----------
    result : Result
        Under the spread weight.
    """
    model, state = result.model, result.state
    shape, anchors = result.shape, result.anchors
    edges = [state.positions[model.nodes[f"{side} edge"], 2].min() for side in ("left", "right")]
    return HangOption(
        model.tree_distance,
        shape.hang_angle,
        hypot(*anchors.head_tree),
        hypot(*anchors.foot_tree),
        shape.sag,
        float(np.mean(edges)),
        shape.ground_clearance,
        result.trees,
        min(result.findings.checks, key=lambda check: check.margin, default=None),
    )


def explain_limits() -> Sentence:
    """Return the limits of a hang that fits."""
    from ...judging.clearance import MARGIN

    return make_sentence(
        "Limits: at least {margin:length} above the ground and a hang angle of {flat:.0f} to {steep:.0f} deg (both "
        "engineering judgement), and the factor of safety required of every part.",
        margin=MARGIN,
        flat=degrees(FLATTEST_FIT),
        steep=degrees(STEEPEST_FIT),
    )
