"""Levels of a lying body: how thick it is there, how far from the crown, and how far its sides are from the middle."""

from collections.abc import Mapping

from ..hammock.body_segments import Segment
from .limb_shape import shape_limb

_ROUNDNESS = 0.4  # radius of the back's edge over the depth of the trunk; 0.5 would be a round trunk
_SHOULDER = 1.2  # thickness of the shoulder over that of the upper arm
_CALF, CALF_DOWN = 1.17, 0.25  # thickness over that of a plain cone, and how far down the shank
_BLADE, _BLADE_ASIDE = 0.75, 0.043  # of stature: height and distance from the middle


def find_radii(size: Mapping[str, float], segments: Mapping[str, Segment]) -> dict[str, float]:
    """Return the radius of the flesh at every level, m."""
    thigh, shank = shape_limb(segments["thighs"]), shape_limb(segments["shanks"])
    arm = shape_limb(segments["upper arms"], straight=True)[0]
    return {
        "head": (size["head breadth"] + size["head length"]) / 4,
        "neck": size["head breadth"] / 2.5,
        "shoulder": _SHOULDER * arm,
        "blade": _ROUNDNESS * size["chest depth"],
        "chest": _ROUNDNESS * size["chest depth"],
        "waist": _ROUNDNESS * size["waist depth"],
        "hip": _ROUNDNESS * size["buttock depth"],
        "thigh": thigh[0],
        "knee": (thigh[1] + shank[0]) / 2,
        "calf": _CALF * (shank[0] + CALF_DOWN * (shank[1] - shank[0])),
        "ankle": shank[1],
        "arm": arm,
        "elbow": arm,
        "hand": 0.7 * arm,
    }


def find_heights(stature: float, segments: Mapping[str, Segment]) -> dict[str, float]:
    """Return the distance of every level from the crown, m."""
    s = segments
    head = s["head and neck"]
    return {
        "head": head.start + head.centre * (head.end - head.start),
        "neck": head.end,
        "breast": (s["upper trunk"].end + s["upper arms"].start) / 2,
        "belly": (s["lower trunk"].start + s["lower trunk"].end) / 2,
        "shoulder": s["upper arms"].start,
        "blade": (1 - _BLADE) * stature,
        "chest": s["upper trunk"].end,
        "waist": s["middle trunk"].end,
        "hip": s["lower trunk"].end,
        "knee": s["thighs"].end,
        "calf": s["thighs"].end + CALF_DOWN * (s["shanks"].end - s["thighs"].end),
        "ankle": s["shanks"].end,
        "elbow": s["upper arms"].end,
        "hand": s["hands"].end,
    }


def find_offsets(stature: float, size: Mapping[str, float], radius: Mapping[str, float]) -> dict[str, float]:
    """Return the distance of every level's nodes from the middle, m."""
    hips = size["hip breadth"] / 2
    return {
        "shoulder": size["shoulder breadth"] / 2 - radius["shoulder"],
        "blade": _BLADE_ASIDE * stature,
        "chest": max(size["chest breadth"] / 2 - radius["chest"], 0.25 * radius["chest"]),
        "waist": max(size["waist breadth"] / 2 - radius["waist"], 0.25 * radius["waist"]),
        "hip": hips - radius["hip"],
        "knee": max(hips / 2, radius["knee"]),
        "calf": max(hips / 2, radius["knee"]),
        "ankle": max(hips / 2, radius["ankle"]),
        "elbow": size["shoulder breadth"] / 2 - radius["arm"],
        "hand": max(hips, size["shoulder breadth"] / 2 - radius["arm"]) + radius["hand"],
    }
