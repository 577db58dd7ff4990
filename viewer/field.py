"""Values and scales of what can be seen on the cloth, one value for each triangle.

Window, pictures and page take all of it from here; which fields there are stands in ``field_list.py``.
"""

import numpy as np

from ..cases.storage.shape import FloatArray, Shape
from ..cases.unit_display import SHARE, Units, choose_unit, find_main_system, show_quantity
from .field_list import FIELDS, NAMES, STATE, Field
from .graphics import DisplayError
from .scale import find_high, list_ticks, pick_step

TAUT, WRINKLED, SLACK = 2, 1, 0  # Shape.state
STATES = {TAUT: "taut", WRINKLED: "wrinkled", SLACK: "slack"}
_LEAST = {"line_load": 1.0, SHARE: 0.01, "stress": 100.0, "force": 1.0}  # end of a scale: N/m, 1, Pa, N


def list_fields(shape: Shape) -> tuple[Field, ...]:
    """Return the fields a shape has: those of contact only with a person in contact."""
    return tuple(field for field in FIELDS if shape.occupant is not None or not field.of_contact)


def find_field(shape: Shape, key: str) -> Field:
    """Return the field of that name.

    Raises
    ------
    DisplayError
        If there is none, or the shape has no such values.
    """
    known = {field.key: field for field in list_fields(shape)}
    if key in known:
        return known[key]
    if key in NAMES:
        raise DisplayError(f"{NAMES[key].title} needs a person in contact. Solve with `--load lying`.")
    raise DisplayError(f"unknown field {key!r}. Choose from {', '.join(known)}.")


def take_values(shape: Shape, field: Field) -> FloatArray:
    """Return the value (m,) of a field on every triangle, SI; of the direction the cloth tension it belongs to.

    Contact pressure is zero where nobody lies in contact, as in the empty hammock.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> take_values(SimpleNamespace(warp_share=np.array([0.1])), NAMES["warp"])
    array([0.1])
    """
    if field.of_contact and shape.occupant is None:
        return np.zeros(len(shape.triangles))
    return np.asarray(getattr(shape.occupant if field.of_contact else shape, field.values), dtype=np.float64)


def measure_areas(shape: Shape) -> FloatArray:
    """Return twice the area of every triangle (m,), m2."""
    edges = np.diff(shape.points[shape.triangles], axis=1)
    return np.asarray(np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1))


def find_scale(shape: Shape, field: Field, units: Units = "metric") -> tuple[float, float]:
    """Return the value at the top of the colour scale and the largest one.

    The scale ends at the first of 1, 2, 5, 10, 20, 50 ... units with 99 % of what is above 0, by area, below, since
    single triangles at corners stand out, and so that pictures of like designs have one scale.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    field : Field
        Which field.
    units : {"metric", "imperial", "both"}
        In which the end is round; with both in metric ones.

    Returns
    -------
    tuple of float
        End of the scale and maximum, SI.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> cloth = SimpleNamespace(points=np.eye(3), triangles=np.array([[0, 1, 2]]), larger_stress=np.array([80.0]))
    >>> find_scale(cloth, FIELDS[0])
    (100.0, 80.0)
    """
    values = take_values(shape, field)
    if field.dimension == STATE:
        return float(TAUT), float(values.max())
    return round_end(find_high(values, measure_areas(shape)), field.dimension, units), float(values.max())


def round_end(value: float, dimension: str, units: Units) -> float:
    """Return a round end of a scale that holds a value, SI: 1 N/m, 1 %, 100 Pa or 1 N at least.

    Examples
    --------
    >>> round_end(446.0, "line_load", "both"), round(round_end(446.0, "line_load", "imperial"), 3)
    (500.0, 875.634)
    """
    unit = _find_unit(dimension, units)
    return pick_step(max(value, _LEAST[dimension]) / unit) * unit


def place_ticks(end: float, dimension: str, units: Units) -> list[float]:
    """Return the marks of a scale, SI, round in the units, from 0 to its end.

    Examples
    --------
    >>> place_ticks(200.0, "line_load", "metric")
    [0.0, 50.0, 100.0, 150.0, 200.0]
    """
    unit = _find_unit(dimension, units)
    return [tick * unit for tick in list_ticks(0.0, end / unit)]


def _find_unit(dimension: str, units: Units) -> float:
    """Return in what the numbers of a scale are round, SI."""
    return choose_unit(0.0, dimension, find_main_system(units)).factor


def show_value(field: Field, value: float, units: Units) -> str:
    """Return a value in words.

    Examples
    --------
    >>> show_value(NAMES["warp"], 0.1234, "both"), show_value(FIELDS[0], 200.0, "both")
    ('12.3 %', '200 N/m (1.14 lbf/in)')
    """
    return STATES[round(value)] if field.dimension == STATE else show_quantity(value, field.dimension, units)
