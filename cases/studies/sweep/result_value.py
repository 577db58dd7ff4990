"""The result values a sweep stores of every design: title, dimension and better direction."""

from dataclasses import dataclass

from ....making import FACTORS, WeightGroup
from ...judging.comfort.measure_list import MEASURES, BetterDirection


@dataclass(frozen=True)
class ResultValue:
    """One number that is kept of every design of a sweep.

    Parameters
    ----------
    key : str
        Its end names the SI unit.
    title : str
        In words.
    dimension : str
        A dimension known to materials, for reports.
    better : {"less", "more", ""}
        Which way is better; empty where neither is on its own.
    """

    key: str
    title: str
    dimension: str
    better: BetterDirection = ""


MARGIN = ResultValue("least_margin", "least reserve factor: factor of safety found over required", "ratio", "more")
_WEIGHTS = (
    ResultValue("packed_kg", "added pack weight", "mass", "less"),
    *(ResultValue(f"{group}_kg", f"{group} weight", "mass", "less") for group in WeightGroup),
)
_FACTORS = tuple(ResultValue(f"factor_{kind}", f"lowest factor of safety, {kind}", "ratio", "more") for kind in FACTORS)
RESERVES = tuple(ResultValue(f"reserve_{kind}", f"lowest reserve factor, {kind}", "ratio", "more") for kind in FACTORS)
_FORCES = (
    ResultValue("side_cord_N", "side cord tension", "force", "less"),
    ResultValue("head_bar_thrust_N", "head bar thrust", "force", "less"),
    ResultValue("foot_bar_thrust_N", "foot bar thrust", "force", "less"),
    ResultValue("line_N", "line tension", "force", "less"),
    ResultValue("tree_pull_N", "tree load", "force", "less"),
)
_SHAPE = (
    ResultValue("sag_m", "cloth sag", "length"),
    ResultValue("ground_clearance_m", "lowest point above ground", "length", "more"),
    ResultValue("hang_angle_rad", "hang angle", "angle"),
    ResultValue("tree_distance_m", "tree spacing", "length"),
)
_COMFORT = tuple(ResultValue(measure.key, measure.title, measure.dimension, measure.way) for measure in MEASURES)
SHARES = (  # kept for searches, and no columns of a ranking; ratios, and a count
    "worst_used",  # share used of what is required, of the worst requirement
    "ground_used",  # of the limit above ground
    "lay_used",  # largest share used of a limit of the lay
    "size_used",  # largest share used of a limit of weight and size
    "plainly_unmet",  # requirements not met that have no share
)
RESULT_VALUES = (*_WEIGHTS, MARGIN, *_FACTORS, *RESERVES, *_FORCES, *_SHAPE, *_COMFORT)


def find_result_value(key: str) -> ResultValue:
    """Return the figure of that key.

    Raises
    ------
    KeyError
        For any other key.

    Examples
    --------
    >>> find_result_value("packed_kg").better
    'less'
    """
    return {figure.key: figure for figure in RESULT_VALUES}[key]
