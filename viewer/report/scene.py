"""What the turnable scene of the page is made of: numbers as JSON, arrays as base64 of their bytes."""

from base64 import b64encode
from collections.abc import Mapping
from typing import Any

import numpy as np

from ...cases.kept_result import KeptResult
from ...cases.reading import tabulate_units, write_sentence
from ...cases.shape import BARS, Part, Shape
from ..extension import EXTENSION_COLOUR, find_extensions
from ..field import FIELDS, STATE, STATES, Field, find_scale, list_fields, take_values
from ..labels import ABOVE, BELOW, describe_parts
from ..look import BAR_COLOUR, CLOTH_MAP, SLACK_COLOUR, STATE_COLOURS
from ..mannequin import list_rods
from ..person import FLESH_COLOUR
from ..view import CORD_COLOUR, GROUND_COLOUR, TREE_COLOUR, find_trees
from ..viewpoint import cut_lines

_STEPS = 256  # of the colour map
_LINE = 0.3  # m from the apex
_SHOWN = [field for field in FIELDS if field.dimension != STATE and field.key != "direction"]


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
    shapes = [result.shape for result in results]
    return {
        "shapes": [_pack_shape(result) for result in results],
        "fields": [
            _pack_field(shapes, field) for field in FIELDS if any(field in list_fields(shape) for shape in shapes)
        ],
        "states": [STATES[state] for state in sorted(STATES)],
        "units": {
            dimension: {system: [unit._asdict() for unit in units] for system, units in systems.items()}
            for dimension, systems in tabulate_units().items()
        },
        "colours": _pack_colours(),
    }


def encode_array(values: Any, kind: str) -> str:  # noqa: ANN401
    """Return an array as base64 of its bytes, the low ones first.

    Examples
    --------
    >>> encode_array([1, 2], "u2")
    'AQACAA=='
    """
    return b64encode(np.ascontiguousarray(values, dtype=f"<{kind}").tobytes()).decode("ascii")


def _pack_field(shapes: list[Shape], field: Field) -> dict[str, Any]:
    """Return name, dimension and end of the scale of a field."""
    ends = [find_scale(shape, field)[0] for shape in shapes]
    return {"key": field.key, "title": field.title, "dimension": field.dimension, "end": max(ends)}


def _pack_shape(result: KeptResult) -> dict[str, Any]:
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
        "fields": {
            field.key: encode_array(take_values(shape, field), "f8") for field in _SHOWN if field in list_fields(shape)
        },
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

    scale = colormaps[CLOTH_MAP](np.linspace(0.0, 1.0, _STEPS), bytes=True)[:, :3]
    return {
        "scale": encode_array(scale, "u1"),
        "slack": to_hex(SLACK_COLOUR),
        "wrinkled": to_hex(STATE_COLOURS[1]),
        "taut": to_hex(STATE_COLOURS[2]),
        "flesh": to_hex(FLESH_COLOUR),
        "cord": CORD_COLOUR,
        "bar": BAR_COLOUR,
        "tree": TREE_COLOUR,
        "ground": GROUND_COLOUR,
        "extension": EXTENSION_COLOUR,
    }
