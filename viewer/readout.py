"""Values of a point that was picked, in words."""

import numpy as np

from ..cases.storage.shape import BARS, CellTag, FloatArray, Shape
from ..cases.unit_display import Units, show_quantity
from .field import STATES, list_fields, show_value, take_values
from .field_list import STATE
from .look import ColourScheme, find_bar_share


def describe_triangle(shape: Shape, triangle: int, units: Units) -> str:
    """Return every value of a triangle of the cloth, a line each.

    Parameters
    ----------
    shape : Shape
        Deformed hammock.
    triangle : int
        Which.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    lines = [_name_place(shape, triangle, units)]
    lines += [
        f"{field.title} {show_value(field, float(take_values(shape, field)[triangle]), units)}"
        for field in list_fields(shape)
        if field.dimension != STATE and not field.same_as
    ]
    return "\n".join([*lines, STATES[int(shape.state[triangle])]])


def _name_place(shape: Shape, triangle: int, units: Units) -> str:
    """Return of which piece of cloth a triangle is, and where on the body it lies."""
    if shape.sheet is not None and shape.sheet[triangle]:
        return CellTag(shape.sheet[triangle]).title
    along, left = shape.flat[shape.triangles[triangle]].mean(axis=0)
    place = f"{show_quantity(float(along), 'length', units)} from the head bar, "
    side = "left" if left > 0 else "right"
    return f"cloth, {place}{show_quantity(abs(float(left)), 'length', units)} {side} of the centre line"


def describe_segment(shape: Shape, look: ColourScheme, point: FloatArray, units: Units) -> str:
    """Return the force in the cord, line or bar nearest to a point (3,), m, in words."""
    ends = shape.points[shape.segments]
    run = ends[:, 1] - ends[:, 0]
    along = np.einsum("ij,ij->i", point - ends[:, 0], run) / np.maximum(np.einsum("ij,ij->i", run, run), 1e-300)
    away = np.linalg.norm(ends[:, 0] + np.clip(along, 0.0, 1.0)[:, None] * run - point, axis=1)
    nearest = int(away.argmin())
    part, force = CellTag(shape.part[nearest]), float(shape.force[nearest])
    shown = show_quantity(abs(force), "force", units)
    if part not in BARS:
        return f"{part.title}\ntension {shown}"
    share = find_bar_share(int(part), force, look)
    return f"{part.title}\nthrust {shown}\n" + ("NOT CHECKED" if share is None else f"{share:.0%} of its capacity")
