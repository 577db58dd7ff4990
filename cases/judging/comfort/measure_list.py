"""The measures of lay and comfort: what each is, its formula, what a better value is and how certain it is.

Every measure compares designs under the same person. None is a medical statement, and none was calibrated on
people: which way is better is common practice, no source, unless a source is named.
"""

from dataclasses import dataclass
from math import radians
from typing import Literal

from .comfort import Comfort

BetterDirection = Literal["less", "more", ""]
STRAIGHT_KNEES = radians(-0.5)  # less is bent backwards; to here it is written as 0


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
        Target, or which direction is better, in words.
    formula : str
        How it is computed.
    sure : str
        How certain it is.
    way : {"less", "more", ""}
        Which direction is better; empty where neither is on its own, or the sign is a direction.
    aim : tuple of float or None
        Between which values it should be of somebody on the back, SI; judgement.
    drift, drift_share : float
        By how much it may differ on another mesh or from another shape to begin with, SI or as a share of itself, of
        somebody on the back: the most that ``benchmarks/repeats.py`` found, rounded up.
    """

    key: str
    title: str
    dimension: str
    better: str
    formula: str
    sure: str
    way: BetterDirection = ""
    aim: tuple[float, float] | None = None
    drift: float = 0.0
    drift_share: float = 0.0

    def read(self, comfort: Comfort) -> float:
        """Return the measure, SI, from how a person lies."""
        return float(getattr(comfort, self.key.rpartition("_")[0]))

    def find_drift(self, comfort: Comfort) -> float:
        """Return by how much another mesh or another start may move it, SI; 0 where that is not known: on the side."""
        if abs(comfort.roll) > _ON_BACK:
            return 0.0
        return max(self.drift, self.drift_share * abs(self.read(comfort)))

    def describe_aim(self, comfort: Comfort) -> str:
        """Return what to aim for, and whether that is missed; aims are those of somebody on the back."""
        if self.aim is not None and abs(comfort.roll) > _ON_BACK:
            return f"{self.better}, on the back"
        missed = self.name_miss(comfort)
        return f"{missed}: {self.better}" if missed else self.better

    def name_miss(self, comfort: Comfort) -> str:
        """Return how somebody on the back misses what to aim for, ``too low`` or ``too high``; else nothing."""
        if self.aim is None or abs(comfort.roll) > _ON_BACK:
            return ""
        low, high = self.aim
        value = self.read(comfort)
        return "" if low <= value <= high else f"too {'low' if value < low else 'high'}"


_ON_BACK = radians(45.0)  # of hip roll
# Effect of half or twice the stiffness of flesh, waist, hips, knees or arms, and of a back a little rounder or flatter,
# on the person in a demonstration.
_GEOMETRY = "follows from the shape; other plausible values for flesh, joints and back change it by up to 4 deg or 1 cm"
_SQUEEZED = "follows from the shape; other plausible values for waist, arms and back change it by up to 6 %"
_JUDGED = "an index: body tissue half or twice as stiff changes the area by 15 %, pressures by up to 33 %"
_ROLLED = (
    "on the side it depends on how one lies down and where the arms are: an upper arm along the body instead of before "
    "it turns hips and shoulders by up to 50 deg"
)
_SPINE = (
    "follows from the shape and from how freely waist and neck bend at first: twice as free changes it by up to 10 deg"
)
_ADDED = (
    "an index: where parts of the body overlap, at hips and shoulders, their pressures add up, so that the highest is "
    "up to twice too high there; the mesh changes it by up to a fifth"
)
MEASURES = (
    Measure(
        "trunk_pitch_rad", "torso tilt, head up", "angle", "0 to 10 deg (judgement)",
        "angle of the line from the middle of the hips to the middle of the shoulders above the horizontal", _GEOMETRY,
        aim=(0.0, radians(10)), drift=radians(0.4),
    ),
    Measure(
        "leg_pitch_rad", "leg tilt, feet up", "angle", "0 to 10 deg (judgement)",
        "angle of the line from the middle of the hips to the middle of the ankles above the horizontal", _GEOMETRY,
        aim=(0.0, radians(10)), drift=radians(0.2),
    ),
    Measure(
        "roll_rad", "hip roll", "angle", "0 on the back, 90 on a side",
        "angle of the line from the right to the left hip above the horizontal: 0 on the back, 90 deg on the side",
        _ROLLED, drift=radians(4),
    ),
    Measure(
        "shoulder_roll_rad", "shoulder roll", "angle", "0 on the back, 90 on a side",
        "the same of the line from the right to the left shoulder", _ROLLED, drift=radians(3),
    ),
    Measure(
        "back_sag_m", "back sag", "length", "less is better",
        "largest drop of the underside of chest, waist, hips and knees below the straight line from shoulders to heels",
        _GEOMETRY, way="less", drift=0.003,
    ),
    Measure(
        "shoulder_angle_rad", "shoulder wrap angle", "angle", "less is better, 0 is flat",
        "angle by which the cloth turns up from one end of the shoulders to the other: difference of its cross slopes "
        "there, each over 10 cm",
        _GEOMETRY, way="less", drift=radians(6),
    ),
    Measure(
        "trough_depth_m", "shoulder depth below cords", "length", "less is better",
        "mean height of both side cords above the lowest cloth in the cross-section at the shoulders",
        _GEOMETRY, way="less", drift=0.004,
    ),
    Measure(
        "shoulder_squeeze_N", "shoulder squeeze", "force", "less is better",
        "mean of both sides of the sideways force of the cloth from the shoulder to the elbow", _SQUEEZED, way="less",
        drift_share=0.04,
    ),
    Measure(
        "hip_angle_rad", "hip bend", "angle", "less is better, 0 is straight",
        "angle between the line shoulders-hips and the line hips-knees, 0 when straight", _GEOMETRY, way="less",
        drift=radians(0.5),
    ),
    Measure(
        "knee_flexion_rad", "knee bend", "angle", "5 to 15 deg, pad knees",
        "angle between thigh and shank, positive with the knee above the line from hip to ankle", _GEOMETRY,
        aim=(radians(5), radians(15)), drift=radians(0.5),
    ),
    Measure(
        "rib_cage_pitch_rad", "rib cage tilt, head up", "angle", "0 to 10 deg (judgement)",
        "angle by which the rib cage, as a stiff body, is turned head up against lying flat", _GEOMETRY,
        aim=(0.0, radians(10)), drift=radians(0.7),
    ),
    Measure(
        "pelvis_pitch_rad", "pelvis tilt, head up", "angle", "near 0 (judgement)",
        "angle by which the pelvis, as a stiff body, is turned head up against lying flat", _GEOMETRY,
        drift=radians(0.2),
    ),
    Measure(
        "trunk_bend_rad", "waist bend, forwards", "angle", "less is better",
        "rib cage tilt less pelvis tilt: 0 as when lying flat", _SPINE, way="less", drift=radians(0.8),
    ),
    Measure(
        "head_pitch_rad", "head tilt, chin up to chest", "angle", "no target: it depends on the pillow",
        "angle by which the line from neck to head is turned up against lying flat without a pillow", _SPINE,
        drift=radians(2),
    ),
    Measure(
        "neck_bend_rad", "neck bend, forwards", "angle", "0 to 30 deg (judgement)",
        "head tilt less rib cage tilt; negative is a neck bent back", _SPINE,
        aim=(0.0, radians(30)), drift=radians(3),
    ),
    Measure(
        "hip_joint_rad", "hip joint bend, forwards", "angle", "less is better; 50 deg on the side (judgement)",
        "angle by which both thighs are bent towards the belly against the pelvis, 0 as when lying flat", _GEOMETRY,
        drift=radians(0.3),
    ),
    Measure(
        "contact_area_m2", "contact area", "area", "more is better",
        "area of the loaded cloth that touches the body", _JUDGED, way="more", drift_share=0.11,
    ),
    Measure(
        "mean_pressure_Pa", "mean pressure", "stress", "less is better", "weight over the contact area",
        _JUDGED, way="less", drift_share=0.12,
    ),
    Measure(
        "high_pressure_Pa", "highest pressure", "stress", "less is better",
        "force of the cloth on head, part of the torso or limb over the cloth it touches, where that is highest; "
        "the part is named",
        _JUDGED, way="less", drift_share=0.4,
    ),
    Measure(
        "gauge_pressure_Pa", "pressure mat, highest", "stress", "less is better",
        "largest force square to the cloth on any square of 5 x 5 cm over its area, as a mat under the person shows",
        _ADDED, way="less", drift_share=0.3,
    ),
    Measure(
        "gauge_above_m2", "pressure mat, above 4.3 kPa", "area", "no limit: a customary line of reference",
        "area of cloth around which such squares show more than 4.3 kPa (32 mmHg)", _ADDED, drift_share=0.15,
    ),
    Measure(
        "gauge_area_m2", "pressure mat, touched", "area", "more is better",
        "area of cloth around which such squares show more than 0.7 kPa", _JUDGED, way="more", drift_share=0.06,
    ),
    Measure(
        "shoulder_pressure_Pa", "sideways arm pressure", "stress", "less is better",
        "sideways part of the force on an upper arm over the cloth it touches, mean of both arms; never above the "
        "highest pressure",
        _JUDGED, way="less", drift_share=0.08,
    ),
    Measure(
        "bar_to_face_m", "headroom to head bar, lying", "length", "more is better",
        "shortest distance in the loaded shape from the line of the head bar to the skin of the head; a design's "
        "head_from_bar is measured along the flat cloth",
        _GEOMETRY, way="more", drift=0.007,
    ),
    Measure(
        "bar_to_head_sitting_m", "headroom to head bar, sitting", "length", "more is better",
        "the same with head and torso upright above the hips", _GEOMETRY, way="more", drift=0.002,
    ),
    Measure(
        "hold_N", "friction needed", "force", "less is better",
        "force along the hammock that keeps the person from sliding; positive towards the feet",
        "body tissue half as stiff changes it by 0.4 % of the weight; the friction that cloth and clothing "
        "provide is not known", drift=6.0,
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
    'leg tilt, feet up'
    """
    return {measure.key: measure for measure in MEASURES}[key]
