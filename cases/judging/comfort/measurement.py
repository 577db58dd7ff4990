"""A person in contact with the cloth: measures of comfort from the equilibrium."""

from math import atan2

import numpy as np

from ....hammock.arrays import FloatArray
from ....meshing import HammockModel, RestraintResult
from ....solver import ContactResult, State
from ..cloth.place import EVEN
from .body_angle import find_front, measure_angles
from .cloth_slice import WINDOW, ClothSlice, cut_cloth, find_bend
from .comfort import Comfort
from .gauge import read_gauge

_LEAST_TOUCH = 1e-3  # m2: a part that touches less is left out


def measure_comfort(model: HammockModel, state: State) -> Comfort:
    """Return how a person in contact lies.

    Parameters
    ----------
    model : HammockModel
        Built for the load case lying.
    state : State
        Its equilibrium.

    Returns
    -------
    Comfort
        SI.
    """
    body = _Sleeper(model, state)
    found = _measure_posture(body) | _measure_shoulders(body) | _measure_pressure(body) | _measure_head(body)
    found |= measure_angles(body.frame, body.places) | _read_gauge(body)
    return Comfort(high_pressure_part=_name_worst(body), **{name: float(value) for name, value in found.items()})


class _Sleeper:
    """Where the body lies and what presses on it."""

    def __init__(self, model: HammockModel, state: State) -> None:
        assert model.frame is not None
        self.model, self.state, self.frame = model, state, model.frame
        self.contact: ContactResult = state[model.elements["contact"]]
        self.hold: RestraintResult = state[model.elements["hold"]]

    @property
    def on_side(self) -> bool:
        """Whether the person has lain down on the side."""
        return self.model.person is not None and self.model.person.posture.on_side

    @property
    def weight(self) -> float:
        """Of the person, N; with friction the pressure on the skin carries only part of it."""
        return -float(self.model.loading.forces[-len(self.frame.names) :, 2].sum())

    def place(self, name: str) -> FloatArray:
        """Return where a node stands (3,), or the middle between left and right."""
        names = [name] if name in self.frame.names else [f"left {name}", f"right {name}"]
        found = [self.state.positions[self.model.nodes[f"person {one}"][0]] for one in names]
        return np.asarray(np.mean(found, axis=0))

    @property
    def places(self) -> FloatArray:
        """Where the nodes of the body are (h, 3)."""
        return self.state.positions[self.model.body]

    def radius(self, flesh: str) -> float:
        """Return the mean radius of a capsule, m."""
        return float(self.frame.radii[self.frame.flesh.index(flesh)].mean())

    def cut(self, x: float) -> ClothSlice:
        """Return the cross-section of the cloth at ``x``."""
        return cut_cloth(self.state.positions, self.model.triangles, x)


def _pitch(low: FloatArray, high: FloatArray, along: float) -> float:
    """Return the angle above the horizontal of the line from ``low`` to ``high``, walking towards ``along``."""
    step = high - low
    return atan2(step[2], along * step[0])


def _measure_posture(body: _Sleeper) -> dict[str, float]:
    """Return pitches, bends and the sag of the back."""
    shoulder, hip, knee, ankle = (body.place(name) for name in ("shoulder", "hip", "knee", "ankle"))
    trunk = _pitch(hip, shoulder, -1.0)
    bent = [trunk, _pitch(hip, knee, 1.0), _pitch(knee, ankle, 1.0)]
    if body.on_side:  # limbs bend in the plane in which the pelvis faces, not in the upright one
        front = find_front(body.frame, body.places)
        flat = [np.array([place[0], 0.0, place @ front]) for place in (shoulder, hip, knee, ankle)]
        bent = [_pitch(flat[1], flat[0], -1.0), _pitch(flat[1], flat[2], 1.0), _pitch(flat[2], flat[3], 1.0)]
    under = {"shoulder": "shoulders", "chest": "chest", "waist": "waist", "hip": "hips"}
    line = [body.place(name) - [0, 0, body.radius(flesh)] for name, flesh in under.items()]
    line += [knee - [0, 0, body.frame.radii[body.frame.flesh.index("left calf"), 0]]]
    line += [ankle - [0, 0, body.frame.radii[body.frame.flesh.index("left shank"), 1]]]
    x, _, z = np.array(line).T
    straight = z[0] + (z[-1] - z[0]) * (x - x[0]) / (x[-1] - x[0])
    return {
        "trunk_pitch": trunk,
        "leg_pitch": _pitch(hip, ankle, 1.0),
        "roll": _find_roll(body, "hip"),
        "shoulder_roll": _find_roll(body, "shoulder"),
        "back_sag": (straight - z).max(),
        "hip_angle": bent[0] + bent[1],
        "knee_flexion": bent[1] - bent[2],
    }


def _find_roll(body: _Sleeper, level: str) -> float:
    """Return the angle of the line from right to left hip, or shoulder, above the horizontal."""
    step = body.place(f"left {level}") - body.place(f"right {level}")
    return atan2(step[2], step[1])


def _measure_shoulders(body: _Sleeper) -> dict[str, float]:
    """Return how flat and how tight it is at the shoulders."""
    left, right, elbow = body.place("left shoulder"), body.place("right shoulder"), body.place("elbow")
    section = body.cut((left[0] + right[0]) / 2)
    z = section.line[:, 1]
    triangles = body.state.positions[body.model.triangles].mean(axis=1)
    thick = body.radius("shoulders")
    x = triangles[:, 0]
    share = _ramp(x - (left[0] - thick)) * _ramp(elbow[0] - x)
    sideways = (share * np.abs(body.contact.push[:, 1])).sum() / 2
    return {
        "shoulder_angle": find_bend(section, left[1], right[1]),
        "trough_depth": (z[0] + z[-1]) / 2 - z.min(),
        "shoulder_squeeze": sideways,
        "shoulder_pressure": _press_arms(body),
    }


def _press_arms(body: _Sleeper) -> float:
    """Return the sideways pressure on the upper arms that touch the cloth, mean of both, Pa."""
    contact, flesh = body.contact, body.frame.flesh
    arms = [place for place, name in enumerate(flesh) if "upper arm" in name and contact.touched[place] > _LEAST_TOUCH]
    return float(np.mean(np.abs(contact.by_segment[arms, 1]) / contact.touched[arms])) if arms else 0.0


def _ramp(inside: FloatArray) -> FloatArray:
    """Return 1 well inside a border and 0 well outside, so that no triangle counts all or nothing."""
    return np.asarray(np.clip(inside / (2 * WINDOW) + 0.5, 0.0, 1.0))


def _measure_pressure(body: _Sleeper) -> dict[str, float]:
    """Return area and pressures of the contact, and the hold against sliding."""
    contact = body.contact
    weight = body.weight
    return {
        "contact_area": contact.area,
        "mean_pressure": weight / contact.area,
        "high_pressure": _press_parts(body).max(),
        "hold": body.hold.force,
        "slide": body.hold.force / weight,
    }


def _read_gauge(body: _Sleeper) -> dict[str, float]:
    """Return what a gauge of squares shows."""
    reading = read_gauge(body.model, body.state)
    return {"gauge_pressure": reading.largest, "gauge_above": reading.above, "gauge_area": reading.touched}


def _press_parts(body: _Sleeper) -> FloatArray:
    """Return the pressure (c,), Pa, on each part of the body: force over touched cloth, 0 where it hardly touches."""
    contact = body.contact
    force = np.linalg.norm(contact.by_segment, axis=1)
    mean = force / np.maximum(contact.touched, np.finfo(float).tiny)
    return np.asarray(np.where(contact.touched > _LEAST_TOUCH, mean, 0.0))


def _name_worst(body: _Sleeper) -> str:
    """Return the part of the body under which the pressure is highest, left and right together where they are even."""
    pressed, flesh = _press_parts(body), body.frame.flesh
    worst = flesh[int(np.argmax(pressed))]
    side, _, part = worst.partition(" ")
    pair = [pressed[flesh.index(f"{each} {part}")] for each in ("left", "right") if f"{each} {part}" in flesh]
    even = side in ("left", "right") and len(pair) == 2 and min(pair) > (1 - EVEN) * max(pair)
    return f"left and right {part}" if even else worst


def _measure_head(body: _Sleeper) -> dict[str, float]:
    """Return the distance of the head from the head bar, lying and sitting up."""
    ends = [body.state.positions[body.model.nodes[f"head {side} corner"][0]] for side in ("left", "right")]
    head, hip, neck = body.place("head"), body.place("hip"), body.place("neck")
    upright = hip + np.array([0, 0, np.linalg.norm(neck - hip) + np.linalg.norm(head - neck)])
    radius = body.radius("head")
    return {
        "bar_to_face": _measure_gap(head, *ends) - radius,
        "bar_to_head_sitting": _measure_gap(upright, *ends) - radius,
    }


def _measure_gap(point: FloatArray, a: FloatArray, b: FloatArray) -> float:
    """Return the distance of a point (3,) from the straight piece from a to b."""
    step = b - a
    share = np.clip((point - a) @ step / (step @ step), 0.0, 1.0)
    return float(np.linalg.norm(point - a - share * step))
