"""The measures of comfort: what each is, its formula, what a better value is and how sure it is.

Every measure compares designs under the same person. None is a medical statement, and none was calibrated on
sleepers: which way is better is common practice, no source, unless a source is named.
"""

from dataclasses import dataclass
from typing import Literal

from .comfort import Comfort

BetterDirection = Literal["less", "more", ""]


@dataclass(frozen=True)
class Measure:
    """One measure of comfort.

    Parameters
    ----------
    key : str
        In ``summary["comfort"]`` and among the figures of a sweep: the field of ``Comfort`` and its SI unit.
    title : str
        In words.
    dimension : str
        Of the value, for reports.
    better : str
        What a better value is.
    formula : str
        How it is worked out.
    sure : str
        How sure it is.
    way : {"less", "more", ""}
        Which way a design is better; empty where neither is by itself, or the sign tells a direction.
    """

    key: str
    title: str
    dimension: str
    better: str
    formula: str
    sure: str
    way: BetterDirection = ""

    def read(self, comfort: Comfort) -> float:
        """Return the measure, SI, from how a person lies."""
        return float(getattr(comfort, self.key.rpartition("_")[0]))


# What half or twice the stiffness of flesh, waist, hips, knees or arms, and a back a little rounder or flatter, did to
# one who lies in a demonstration.
_GEOMETRY = "follows from the shape; other judgements of flesh, joints and back turn it by up to 4 degrees or 1 cm"
_SQUEEZED = "follows from the shape; other judgements of waist, arms and back change it by up to 6 %"
_JUDGED = "an index: flesh half or twice as stiff, which is a judgement, changes area by 15 %, pressures by up to 33 %"
MEASURES = (
    Measure(
        "trunk_pitch_rad", "trunk pitch, head up", "angle", "0 to 10 deg (judgement)",
        "angle of the line from the middle of the hips to the middle of the shoulders above the horizontal", _GEOMETRY,
    ),
    Measure(
        "leg_pitch_rad", "leg pitch, feet up", "angle", "0 to 10 deg (judgement)",
        "angle of the line from the middle of the hips to the middle of the ankles above the horizontal", _GEOMETRY,
    ),
    Measure(
        "roll_rad", "roll of the hips", "angle", "0 on the back, 90 on a side",
        "angle of the line from the right to the left hip above the horizontal: 0 on the back, 90 deg on the side",
        "cloth is taken as smooth; friction and bent knees hold one on the side in truth",
    ),
    Measure(
        "back_sag_m", "sag of the back line", "length", "smaller",
        "largest drop of the underside of chest, waist, hips and knees below the straight line from shoulders to heels",
        _GEOMETRY, way="less",
    ),
    Measure(
        "shoulder_angle_rad", "bend across the shoulders", "angle", "0 is flat",
        "angle by which the cloth turns up from one end of the shoulders to the other: difference of its cross slopes "
        "there, each over 10 cm",
        _GEOMETRY, way="less",
    ),
    Measure(
        "trough_depth_m", "trough at the shoulders", "length", "smaller is flatter",
        "mean height of both side cords above the lowest cloth in the cross-section at the shoulders",
        _GEOMETRY, way="less",
    ),
    Measure(
        "shoulder_squeeze_N", "squeeze of the shoulders", "force", "smaller",
        "mean of both sides of the sideways force of the cloth from the shoulder to the elbow", _SQUEEZED, way="less",
    ),
    Measure(
        "hip_angle_rad", "bend of the hips", "angle", "smaller is straighter",
        "angle between the line shoulders-hips and the line hips-knees, 0 when straight", _GEOMETRY, way="less",
    ),
    Measure(
        "knee_flexion_rad", "bend of the knees", "angle", "5 to 15 deg, not below 0",
        "angle between thigh and shank, positive with the knee above the line from hip to ankle", _GEOMETRY,
    ),
    Measure(
        "contact_area_m2", "cloth in contact", "area", "larger",
        "area of the loaded cloth that touches the body", _JUDGED, way="more",
    ),
    Measure(
        "mean_pressure_Pa", "pressure, whole body", "stress", "smaller", "weight over the contact area",
        _JUDGED, way="less",
    ),
    Measure(
        "high_pressure_Pa", "pressure, worst part", "stress", "smaller",
        "force of the cloth on head, a part of the trunk or a limb over the cloth it touches, where that is highest; "
        "its name is given",
        _JUDGED, way="less",
    ),
    Measure(
        "shoulder_pressure_Pa", "pressure, arms sideways", "stress", "smaller",
        "sideways part of the force on an upper arm over the cloth it touches, mean of both arms; never above that of "
        "the worst part",
        _JUDGED, way="less",
    ),
    Measure(
        "bar_to_face_m", "head bar to head, lying", "length", "larger; loaded shape",
        "shortest distance in the loaded shape from the line of the head bar to the skin of the head; a design's "
        "head_from_bar is measured along the flat cloth",
        _GEOMETRY, way="more",
    ),
    Measure(
        "bar_to_head_sitting_m", "head bar to head, sitting", "length", "larger; loaded shape",
        "the same with head and trunk upright above the hips", _GEOMETRY, way="more",
    ),
    Measure(
        "hold_N", "held lengthwise by", "force", "smaller",
        "force along the hammock on the person that keeps him or her from sliding; positive towards the feet",
        "the friction that is needed; flesh half as stiff changes it by 0.4 % of the weight; what cloth and clothing "
        "offer is not known",
    ),
)  # fmt: skip


def find_measure(key: str) -> Measure:
    """Return the measure of that key.

    Parameters
    ----------
    key : str
        One of the keys of ``MEASURES``.

    Raises
    ------
    KeyError
        For any other key.

    Examples
    --------
    >>> find_measure("leg_pitch_rad").title
    'leg pitch, feet up'
    """
    return {measure.key: measure for measure in MEASURES}[key]
