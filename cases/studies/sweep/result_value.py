"""The figures a sweep keeps of every design: what each is, its dimension and what a better value is."""

from dataclasses import dataclass

from ....making import FACTORS, WeightGroup
from ...judging.comfort.measures import MEASURES, BetterDirection


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
        Which way is better; empty where neither is by itself.
    """

    key: str
    title: str
    dimension: str
    better: BetterDirection = ""


MARGIN = ResultValue("least_margin", "least margin: factor of safety found over asked", "ratio", "more")
_WEIGHTS = (
    ResultValue("packed_kg", "weight that is carried only for it", "mass", "less"),
    *(ResultValue(f"{group}_kg", f"weight of the {group}", "mass", "less") for group in WeightGroup),
)
_FACTORS = tuple(ResultValue(f"factor_{kind}", f"least factor of safety, {kind}", "ratio", "more") for kind in FACTORS)
_FORCES = (
    ResultValue("side_cord_N", "tension of the side cords", "force", "less"),
    ResultValue("head_bar_thrust_N", "thrust of the head bar", "force", "less"),
    ResultValue("foot_bar_thrust_N", "thrust of the foot bar", "force", "less"),
    ResultValue("line_N", "tension of the lines", "force", "less"),
    ResultValue("tree_pull_N", "pull on a tree", "force", "less"),
)
_SHAPE = (
    ResultValue("sag_m", "sag of the cloth", "length"),
    ResultValue("ground_clearance_m", "height above the ground", "length", "more"),
    ResultValue("hang_angle_rad", "hang angle", "angle"),
    ResultValue("tree_distance_m", "distance of the trees", "length"),
)
_COMFORT = tuple(ResultValue(measure.key, measure.title, measure.dimension, measure.way) for measure in MEASURES)
RESULT_VALUES = (*_WEIGHTS, MARGIN, *_FACTORS, *_FORCES, *_SHAPE, *_COMFORT)


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
