"""What the turnable scene of the page is made of: numbers as JSON, arrays as base64 of their bytes."""

from base64 import b64encode
from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...cases.kept_result import KeptResult
from ...cases.reading import tabulate_units, write_sentence
from ...cases.shape import BARS, Part, Shape
from ..cloth import COLOUR_MAP, SLACK_COLOUR, scale_stress
from ..extension import EXTENSION_COLOUR, find_extensions
from ..labels import ABOVE, BELOW, describe_parts
from ..mannequin import list_rods
from ..person import FLESH_COLOUR
from ..picture import cut_lines
from ..view import BAR_COLOUR, CORD_COLOUR, GROUND_COLOUR, TREE_COLOUR, find_trees
from .scale import round_end

_STEPS = 256  # of the colour map
_LINE = 0.3  # m from the apex
_STATES = ("slack", "wrinkled", "taut")


class Field(NamedTuple):
    """A number on every triangle (m,), its name in words and its dimension."""

    key: str
    title: str
    dimension: str
    values: NDArray[np.float64]
    end: float


def pack_scene(results: list[KeptResult]) -> dict[str, Any]:
    """Return everything the scene shows.

    Parameters
    ----------
    results : list of KeptResult
        One, or two that are laid over each other.

    Returns
    -------
    dict
        Ready for JSON. Fields of two results share one scale.
    """
    fields = [list_fields(result.shape) for result in results]
    known: dict[str, Field] = {}
    for field in (field for own in fields for field in own):
        known[field.key] = max(known.get(field.key, field), field, key=lambda each: each.end)
    return {
        "shapes": [_pack_shape(result, own) for result, own in zip(results, fields, strict=True)],
        "fields": [
            {"key": key, "title": field.title, "dimension": field.dimension, "end": field.end}
            for key, field in known.items()
        ],
        "states": _STATES,
        "units": pack_units(),
        "colours": _pack_colours(),
    }


def pack_units() -> dict[str, dict[str, list[dict[str, Any]]]]:
    """Return the units of every dimension and system as the programs of the pages read them."""
    return {
        dimension: {system: [unit._asdict() for unit in units] for system, units in systems.items()}
        for dimension, systems in tabulate_units().items()
    }


def list_fields(shape: Shape) -> list[Field]:
    """Return the numbers that can be shown on the cloth, in the order of the switch.

    Parameters
    ----------
    shape : Shape
        Loaded shape.

    Returns
    -------
    list of Field
        Line stress, and with a person in contact the pressure; the state of the cloth is shown besides.
    """
    areas, smaller = measure_areas(shape), shape.smaller_stress
    fields = [
        Field("larger", "larger line stress", "line_load", shape.larger_stress, scale_stress(shape)[0]),
        Field("smaller", "smaller line stress", "line_load", smaller, round_end(smaller, areas)),
    ]
    if shape.occupant is not None:
        pressure = shape.occupant.pressure
        fields.append(Field("pressure", "contact pressure", "stress", pressure, round_end(pressure, areas)))
    return fields


def measure_areas(shape: Shape) -> NDArray[np.float64]:
    """Return twice the area of every triangle (m,), m2."""
    edges = np.diff(shape.points[shape.triangles], axis=1)
    return np.asarray(np.linalg.norm(np.cross(edges[:, 0], edges[:, 1]), axis=1))


def encode_array(values: Any, kind: str) -> str:  # noqa: ANN401
    """Return an array as base64 of its bytes, the low ones first.

    Examples
    --------
    >>> encode_array([1, 2], "u2")
    'AQACAA=='
    """
    return b64encode(np.ascontiguousarray(values, dtype=f"<{kind}").tobytes()).decode("ascii")


def _pack_shape(result: KeptResult, fields: list[Field]) -> dict[str, Any]:
    """Return one loaded shape."""
    shape = result.shape
    rods = [] if shape.occupant is None else list_rods(shape.occupant)
    trees = find_trees(shape)
    return {
        "name": result.summary["design"]["name"],
        "points": encode_array(shape.points, "f4"),
        "triangles": encode_array(shape.triangles, "u4"),
        "state": encode_array(shape.state, "u1"),
        "direction": encode_array(shape.direction, "f4"),
        "fields": {field.key: encode_array(field.values, "f8") for field in fields},
        "segments": encode_array(shape.segments, "u4"),
        "bar": encode_array(np.isin(shape.part, BARS), "u1"),
        "free": encode_array(np.isin(shape.part, [Part.HEAD_EXTENSION, Part.FOOT_EXTENSION]), "u1"),
        "force": encode_array(shape.force, "f8"),
        "rods": encode_array([[*rod.start, *rod.end, rod.first, rod.last] for rod in rods], "f4"),
        "extensions": find_extensions(shape).round(5).tolist(),
        "trees": trees.round(5).tolist(),
        "labels": _pack_labels(shape),
        "spots": [_pack_spot(number, spot) for number, spot in enumerate(result.summary["hot_spots"], 1)],
    }


def _pack_labels(shape: Shape) -> list[dict[str, Any]]:
    """Return what each part carries, in words, and where."""
    found, near = [], cut_lines(shape, _LINE)  # or the label of a line would belong to a place far out of sight
    for parts in (*ABOVE, *BELOW):
        pair = [describe_parts(near, parts, units) for units in ("metric", "imperial")]
        if pair[0] is not None and pair[1] is not None:
            found.append({"metric": pair[0].text, "imperial": pair[1].text, "at": pair[0].at.round(5).tolist()})
    return found


def _pack_spot(number: int, spot: Mapping[str, Any]) -> dict[str, Any]:
    """Return one hot spot."""
    return {
        "number": number,
        "at": spot["loaded_m"],
        "triangle": spot["triangle"],
        "metric": write_sentence(spot["place"], "metric"),
        "imperial": write_sentence(spot["place"], "imperial"),
    }


def _pack_colours() -> dict[str, Any]:
    """Return the colours of the pictures."""
    from matplotlib import colormaps
    from matplotlib.colors import to_hex

    scale = colormaps[COLOUR_MAP](np.linspace(0.0, 1.0, _STEPS), bytes=True)[:, :3]
    return {
        "scale": encode_array(scale, "u1"),
        "slack": to_hex(SLACK_COLOUR),
        "wrinkled": to_hex(colormaps[COLOUR_MAP](0.72)),
        "taut": to_hex(colormaps[COLOUR_MAP](0.33)),
        "flesh": to_hex(FLESH_COLOUR),
        "cord": CORD_COLOUR,
        "bar": BAR_COLOUR,
        "tree": TREE_COLOUR,
        "ground": GROUND_COLOUR,
        "extension": EXTENSION_COLOUR,
    }
