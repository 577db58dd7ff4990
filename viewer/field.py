"""What can be seen on the cloth: one value for each triangle, its name, its unit and its scale."""

from math import floor, log10
from typing import Literal, NamedTuple

import numpy as np

from ..cases.reading import Units, show_quantity
from ..cases.shape import Floats, Shape
from .graphics import ScreenError

Unit = Literal["line_load", "share", "pressure", "state"]
TAUT, WRINKLED, SLACK = 2, 1, 0  # Shape.state
STATES = {TAUT: "taut", WRINKLED: "wrinkled", SLACK: "slack"}
_LEAST = {"line_load": 1.0, "share": 0.01, "pressure": 100.0, "state": 2.0}  # end of a scale: N/m, 1, Pa
_ROUND = (1.0, 2.0, 5.0, 10.0)


class Field(NamedTuple):
    """A field: its name in a command, its name in words, and in what it is measured."""

    key: str
    title: str
    unit: Unit


FIELDS = (
    Field("larger-stress", "larger line stress", "line_load"),
    Field("smaller-stress", "smaller line stress", "line_load"),
    Field("direction", "direction of larger pull", "line_load"),
    Field("state", "taut, wrinkled, slack", "state"),
    Field("warp", "warp: pull over strength", "share"),
    Field("weft", "weft: pull over strength", "share"),
    Field("pressure", "contact pressure", "pressure"),
)
NAMES = {field.key: field for field in FIELDS}


def list_fields(shape: Shape) -> tuple[Field, ...]:
    """Return the fields a shape has: contact pressure only with a person in contact."""
    return FIELDS if shape.occupant is not None else FIELDS[:-1]


def find_field(shape: Shape, key: str) -> Field:
    """Return the field of that name.

    Raises
    ------
    ScreenError
        If there is none, or the shape has no such values.
    """
    known = {field.key: field for field in list_fields(shape)}
    if key in known:
        return known[key]
    if key in NAMES:
        raise ScreenError(f"There is no {NAMES[key].title} without a person in contact; solve with --load lying.")
    raise ScreenError(f"There is no field {key!r}; there is {', '.join(known)}.")


def take_values(shape: Shape, field: Field) -> Floats:
    """Return the value (m,) of a field on every triangle, SI; of the direction the line stress it belongs to.

    Contact pressure is zero where nobody lies in contact, as in the empty hammock.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> take_values(SimpleNamespace(warp_share=np.array([0.1])), NAMES["warp"])
    array([0.1])
    """
    if field.key == "pressure":
        return np.zeros(len(shape.triangles)) if shape.occupant is None else shape.occupant.pressure
    name = {
        "larger-stress": "larger_stress",
        "smaller-stress": "smaller_stress",
        "direction": "larger_stress",
        "state": "state",
        "warp": "warp_share",
        "weft": "weft_share",
    }[field.key]
    return np.asarray(getattr(shape, name), dtype=np.float64)


def round_up(value: float, least: float) -> float:
    """Return the first of 1, 2, 5, 10, 20 ... times a power of ten that is not below ``value``, ``least`` at least.

    Examples
    --------
    >>> round_up(446.0, 1.0), round_up(0.0, 0.01), round_up(0.109, 0.01)
    (500.0, 0.01, 0.2)
    """
    if value <= least:
        return least
    decade = 10.0 ** floor(log10(value))
    return next(step * decade for step in _ROUND if step * decade >= value * (1 - 1e-12))


def find_scale(shape: Shape, field: Field) -> tuple[float, float]:
    """Return the value at the top of the colour scale and the largest one.

    The scale ends at the first of 1, 2, 5, 10, 20, 50 ... with 99 % of the area below, since single triangles
    at corners stand out, and so that pictures of like designs have one scale.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    field : Field
        Which field.

    Returns
    -------
    tuple of float
        End of the scale (1 N/m, 1 % or 100 Pa at least) and maximum, SI.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> cloth = SimpleNamespace(points=np.eye(3), triangles=np.array([[0, 1, 2]]), larger_stress=np.array([80.0]))
    >>> find_scale(cloth, FIELDS[0])
    (100.0, 80.0)
    """
    values = take_values(shape, field)
    edges = np.diff(shape.points[shape.triangles], axis=1)
    area = np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1)
    order = np.argsort(values)
    below = np.cumsum(area[order]) / area.sum()
    end = values[order][min(int(np.searchsorted(below, 0.99)), len(order) - 1)]
    return round_up(float(end), _LEAST[field.unit]), float(values.max())


def show_value(field: Field, value: float, units: Units) -> str:
    """Return a value in words; one unit throughout, so that the marks of one scale compare at a glance.

    Examples
    --------
    >>> show_value(NAMES["warp"], 0.1234, "both"), show_value(FIELDS[0], 200.0, "both")
    ('12.3 %', '200 N/m (1.1 lbf/in)')
    """
    if field.unit == "state":
        return STATES[round(value)]
    if field.unit == "share":
        return f"{100 * value:.3g} %"
    if field.unit == "pressure":
        metric, imperial = f"{value / 1000:.3g} kPa", show_quantity(value, "stress", "imperial", digits=2)
    else:
        metric, imperial = f"{value:.0f} N/m", show_quantity(value, "line_load", "imperial", digits=2)
    return {"metric": metric, "imperial": imperial, "both": f"{metric} ({imperial})"}[units]
