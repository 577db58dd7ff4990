"""How one lies: measures of comfort from the equilibrium of a person in contact."""

from collections.abc import Mapping
from math import atan2, degrees
from typing import Any

import numpy as np

from ..meshing import HammockModel, HoldResult, Lie
from ..solver import ContactResult, State
from .cross_section import WINDOW, Section, cut_cloth, find_slope
from .measures import MEASURES
from .shape import Floats

_ON_SIDE = (45.0, 135.0)  # degrees of the hips that count as lying on the side
_SLIPPERY = 0.1  # of the weight: friction of cloth on cloth is some 0.2 to 0.5 (from memory), less when it is damp
_LEAST_TOUCH = 1e-3  # m2: a part that touches less is left out


def describe_comfort(model: HammockModel, state: State) -> dict[str, Any]:
    """Return every measure of :data:`~tautlay.cases.measures.MEASURES` for a person in contact.

    Parameters
    ----------
    model : HammockModel
        Built for the load case lying.
    state : State
        Its equilibrium.

    Returns
    -------
    dict
        SI, keys in the order of ``MEASURES``, and ``high_pressure_part``, the name of a part of the body.
    """
    body = _Sleeper(model, state)
    found = _describe_posture(body) | _describe_shoulders(body) | _describe_pressure(body) | _describe_head(body)
    numbers = {measure.key: float(found[measure.key]) for measure in MEASURES}
    return numbers | {"high_pressure_part": body.frame.flesh[_find_worst(body)]}


def note_lay(model: HammockModel, comfort: Mapping[str, Any]) -> list[str]:
    """Return a sentence for what a person ought to know before using the measures; none without contact."""
    if not comfort or model.person is None:
        return []
    notes = []
    roll, slide = degrees(comfort["roll_rad"]), comfort["slide"]
    if model.person.posture.lie is Lie.SIDE and not _ON_SIDE[0] < roll < _ON_SIDE[1]:
        notes.append(
            f"On smooth cloth the person does not stay on the side but rolls until the hips stand at {roll:.0f} "
            "degrees (0 on the back, 90 on the side, 180 on the belly): the measures are those of that position."
        )
    if abs(slide) > _SLIPPERY:
        towards, end = ("head", "foot") if slide > 0 else ("feet", "head")
        notes.append(
            f"It takes {abs(slide):.0%} of the weight to keep the person from sliding towards the {towards}: lower the "
            f"{end} end, or let `tautlay trim` find how far."
        )
    return notes


class _Sleeper:
    """Where the body lies and what presses on it."""

    def __init__(self, model: HammockModel, state: State) -> None:
        assert model.frame is not None
        self.model, self.state, self.frame = model, state, model.frame
        self.contact: ContactResult = state[model.elements["contact"]]
        self.hold: HoldResult = state[model.elements["hold"]]

    def place(self, name: str) -> Floats:
        """Return where a node stands (3,), or the middle between left and right."""
        names = [name] if name in self.frame.names else [f"left {name}", f"right {name}"]
        found = [self.state.positions[self.model.nodes[f"person {one}"][0]] for one in names]
        return np.asarray(np.mean(found, axis=0))

    def radius(self, flesh: str) -> float:
        """Return the mean radius of a capsule, m."""
        return float(self.frame.radii[self.frame.flesh.index(flesh)].mean())

    def cut(self, x: float) -> Section:
        """Return the cross-section of the cloth at ``x``."""
        return cut_cloth(self.state.positions, self.model.mesh.triangles, x)


def _pitch(low: Floats, high: Floats, along: float) -> float:
    """Return the angle above the horizontal of the line from ``low`` to ``high``, walking towards ``along``."""
    step = high - low
    return atan2(step[2], along * step[0])


def _describe_posture(body: _Sleeper) -> dict[str, float]:
    """Return pitches, bends and the sag of the back."""
    shoulder, hip, knee, ankle = (body.place(name) for name in ("shoulder", "hip", "knee", "ankle"))
    trunk, thigh, shank = _pitch(hip, shoulder, -1.0), _pitch(hip, knee, 1.0), _pitch(knee, ankle, 1.0)
    under = {"shoulder": "shoulders", "chest": "chest", "waist": "waist", "hip": "hips"}
    line = [body.place(name) - [0, 0, body.radius(flesh)] for name, flesh in under.items()]
    line += [knee - [0, 0, body.frame.radii[body.frame.flesh.index("left shank"), 0]]]
    line += [ankle - [0, 0, body.frame.radii[body.frame.flesh.index("left shank"), 1]]]
    x, _, z = np.array(line).T
    straight = z[0] + (z[-1] - z[0]) * (x - x[0]) / (x[-1] - x[0])
    return {
        "trunk_pitch_rad": trunk,
        "leg_pitch_rad": _pitch(hip, ankle, 1.0),
        "roll_rad": _find_roll(body),
        "back_sag_m": (straight - z).max(),
        "hip_angle_rad": trunk + thigh,
        "knee_flexion_rad": thigh - shank,
    }


def _find_roll(body: _Sleeper) -> float:
    """Return the angle of the hips above the horizontal."""
    step = body.place("left hip") - body.place("right hip")
    return atan2(step[2], step[1])


def _describe_shoulders(body: _Sleeper) -> dict[str, float]:
    """Return how flat and how tight it is at the shoulders."""
    left, right, elbow = body.place("left shoulder"), body.place("right shoulder"), body.place("elbow")
    section = body.cut((left[0] + right[0]) / 2)
    z = section.line[:, 1]
    triangles = body.state.positions[body.model.mesh.triangles].mean(axis=1)
    thick = body.radius("shoulders")
    x = triangles[:, 0]
    share = _ramp(x - (left[0] - thick)) * _ramp(elbow[0] - x)
    sideways = (share * np.abs(body.contact.push[:, 1])).sum() / 2
    arm = "left upper arm"
    length = float(np.linalg.norm(body.place("left elbow") - left))
    return {
        "shoulder_angle_rad": find_slope(section, left[1]) - find_slope(section, right[1]),
        "trough_depth_m": (z[0] + z[-1]) / 2 - z.min(),
        "shoulder_squeeze_N": sideways,
        "shoulder_pressure_Pa": sideways / (length * 2 * body.radius(arm)),
    }


def _ramp(inside: Floats) -> Floats:
    """Return 1 well inside a border and 0 well outside, so that no triangle counts all or nothing."""
    return np.asarray(np.clip(inside / (2 * WINDOW) + 0.5, 0.0, 1.0))


def _describe_pressure(body: _Sleeper) -> dict[str, float]:
    """Return area and pressures of the contact, and the hold against sliding."""
    contact = body.contact
    weight, worst = -contact.force[2], _find_worst(body)
    return {
        "contact_area_m2": contact.area,
        "mean_pressure_Pa": weight / contact.area,
        "high_pressure_Pa": np.linalg.norm(contact.by_segment[worst]) / contact.touched[worst],
        "slide": body.hold.force / weight,
    }


def _find_worst(body: _Sleeper) -> int:
    """Return the part of the body under which the pressure is highest."""
    contact = body.contact
    force = np.linalg.norm(contact.by_segment, axis=1)
    mean = force / np.maximum(contact.touched, np.finfo(float).tiny)
    return int(np.argmax(np.where(contact.touched > _LEAST_TOUCH, mean, 0.0)))


def _describe_head(body: _Sleeper) -> dict[str, float]:
    """Return the distance of the head from the head bar, lying and sitting up."""
    ends = [body.state.positions[body.model.nodes[f"head {side} corner"][0]] for side in ("left", "right")]
    head, hip, neck = body.place("head"), body.place("hip"), body.place("neck")
    upright = hip + np.array([0, 0, np.linalg.norm(neck - hip) + np.linalg.norm(head - neck)])
    radius = body.radius("head")
    return {
        "bar_to_face_m": _measure_gap(head, *ends) - radius,
        "bar_to_head_sitting_m": _measure_gap(upright, *ends) - radius,
    }


def _measure_gap(point: Floats, a: Floats, b: Floats) -> float:
    """Return the distance of a point (3,) from the straight piece from a to b."""
    step = b - a
    share = np.clip((point - a) @ step / (step @ step), 0.0, 1.0)
    return float(np.linalg.norm(point - a - share * step))
