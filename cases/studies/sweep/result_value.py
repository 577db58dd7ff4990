"""The figures a sweep keeps of every design: what each is, its dimension and what a better value is."""

from dataclasses import dataclass

from ....making import FACTORS, Group
from ...judging.comfort.measures import MEASURES, Way


@dataclass(frozen=True)
class Figure:
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
    better: Way = ""


MARGIN = Figure("least_margin", "least margin: factor of safety found over asked", "ratio", "more")
_WEIGHTS = (
    Figure("packed_kg", "weight that is carried only for it", "mass", "less"),
    *(Figure(f"{group}_kg", f"weight of the {group}", "mass", "less") for group in Group),
)
_FACTORS = tuple(Figure(f"factor_{kind}", f"least factor of safety, {kind}", "ratio", "more") for kind in FACTORS)
_FORCES = (
    Figure("side_cord_N", "tension of the side cords", "force", "less"),
    Figure("head_bar_thrust_N", "thrust of the head bar", "force", "less"),
    Figure("foot_bar_thrust_N", "thrust of the foot bar", "force", "less"),
    Figure("line_N", "tension of the lines", "force", "less"),
    Figure("tree_pull_N", "pull on a tree", "force", "less"),
)
_SHAPE = (
    Figure("sag_m", "sag of the cloth", "length"),
    Figure("ground_clearance_m", "height above the ground", "length", "more"),
    Figure("hang_angle_rad", "hang angle", "angle"),
    Figure("tree_distance_m", "distance of the trees", "length"),
)
_COMFORT = tuple(Figure(measure.key, measure.title, measure.dimension, measure.way) for measure in MEASURES)
FIGURES = (*_WEIGHTS, MARGIN, *_FACTORS, *_FORCES, *_SHAPE, *_COMFORT)


def find_figure(key: str) -> Figure:
    """Return the figure of that key.

    Raises
    ------
    KeyError
        For any other key.

    Examples
    --------
    >>> find_figure("packed_kg").better
    'less'
    """
    return {figure.key: figure for figure in FIGURES}[key]
