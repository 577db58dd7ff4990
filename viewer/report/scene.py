"""What the turnable scene of the page is made of: numbers as JSON, arrays as base64 of their bytes."""

from base64 import b64encode
from typing import Any

import numpy as np

from ...cases.judging.cloth.hot_spot import HotSpot
from ...cases.storage.shape import BARS, CellTag, Shape
from ...cases.storage.stored_result import StoredResult
from ...cases.unit_display import SYSTEMS, tabulate_units, write_sentence
from ..field import STATES, find_scale, list_fields, place_ticks, take_values
from ..field_list import FIELDS, STATE, Field
from ..labels import ABOVE, BELOW, describe_parts
from ..legend_words import BAR_TITLE, CORDS, NOT_CHECKED, list_signs, list_things
from ..look import (
    BAR,
    BAR_COLOUR,
    BAR_LIGHTEST,
    BAR_MAP,
    CLOTH_MAP,
    CORD_LIGHTEST,
    CORD_MAP,
    GROWTH,
    KNOB,
    PLAIN_COLOUR,
    POINT,
    SLACK_COLOUR,
    STATE_COLOURS,
    find_cord_end,
)
from ..mannequin import list_rods
from ..person import FLESH_COLOUR
from ..view import GROUND_COLOUR, TREE_COLOUR, find_trees, find_trunks
from ..viewpoint import cut_lines

_STEPS = 256  # of a colour map
_LINE = 0.3  # m from the apex


def pack_scene(results: list[StoredResult]) -> dict[str, Any]:
    """Return everything the scene shows.

    Parameters
    ----------
    results : list of StoredResult
        One, or two that are overlaid.

    Returns
    -------
    dict
        Ready for JSON. Two results share their scales.
    """
    shapes = [result.shape for result in results]
    return {
        "shapes": [_pack_shape(result) for result in results],
        "fields": [
            _pack_field(shapes, field) for field in FIELDS if any(field in list_fields(shape) for shape in shapes)
        ],
        "cords": {
            "title": CORDS,
            "ticks": {system: [0.0, max(find_cord_end(shape, system) for shape in shapes)] for system in SYSTEMS},
            "growth": [POINT / 2 * width for width in GROWTH],
        },
        "bars": {"title": BAR_TITLE, "none": NOT_CHECKED, "radius": POINT / 2 * BAR, "knob": POINT / 2 * KNOB},
        "states": [STATES[state] for state in sorted(STATES)],
        "units": pack_units(),
        "colours": _pack_colours(),
    }


def pack_units() -> dict[str, dict[str, list[dict[str, Any]]]]:
    """Return the units of every dimension and system as the programs of the pages read them."""
    return {
        dimension: {system: [unit._asdict() for unit in units] for system, units in systems.items()}
        for dimension, systems in tabulate_units().items()
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
    """Return name, dimension, marks of the scale and key of a field."""
    ends = {system: max(find_scale(shape, field, system)[0] for shape in shapes) for system in SYSTEMS}
    state = field.dimension == STATE
    return {
        "key": field.key,
        "title": field.title,
        "dimension": field.dimension,
        "values": field.same_as or field.key,
        "ticks": {system: [] if state else place_ticks(ends[system], field.dimension, system) for system in SYSTEMS},
        "rule": field.marks,
        "signs": [sign._asdict() for sign in list_signs(field)],
    }


def _pack_shape(result: StoredResult) -> dict[str, Any]:
    """Return one loaded shape."""
    shape = result.shape
    rods = [] if shape.occupant is None else list_rods(shape.occupant)
    return {
        "name": result.name,
        "points": encode_array(shape.points, "f4"),
        "triangles": encode_array(shape.triangles, "u4"),
        "state": encode_array(shape.state, "u1"),
        "direction": encode_array(shape.direction, "f4"),
        "fields": {
            field.key: encode_array(take_values(shape, field), "f4")
            for field in list_fields(shape)
            if field.dimension != STATE and not field.same_as
        },
        "segments": encode_array(shape.segments, "u4"),
        "bar": encode_array(np.isin(shape.part, BARS), "u1"),
        "force": encode_array(shape.force, "f8"),
        "bar_share": encode_array([result.bar_shares.get(CellTag(part), -1.0) for part in shape.part], "f4"),
        "rods": encode_array([[*rod.start, *rod.end, rod.first, rod.last] for rod in rods], "f4"),
        "trees": np.column_stack([find_trees(shape), find_trunks(shape)]).round(5).tolist(),
        "labels": _pack_labels(shape),
        "spots": [_pack_spot(number, spot) for number, spot in enumerate(result.spots, 1)],
        "signs": [sign._asdict() for sign in list_things(shape)],
    }


def _pack_labels(shape: Shape) -> list[dict[str, Any]]:
    """Return the force in each part, in words, and where."""
    found, near = [], cut_lines(shape, _LINE)  # or the label of a line would belong to a place far out of sight
    for parts in (*ABOVE, *BELOW):
        pair = [describe_parts(near, parts, units) for units in SYSTEMS]
        if pair[0] is not None and pair[1] is not None:
            found.append({"metric": pair[0].text, "imperial": pair[1].text, "at": pair[0].at.round(5).tolist()})
    return found


def _pack_spot(number: int, spot: HotSpot) -> dict[str, Any]:
    """Return one hot spot."""
    return {
        "number": number,
        "at": list(spot.loaded),
        "triangle": spot.triangle,
        "metric": write_sentence(spot.place, "metric"),
        "imperial": write_sentence(spot.place, "imperial"),
    }


def _pack_colours() -> dict[str, Any]:
    """Return the colours of the pictures."""
    from matplotlib import colormaps
    from matplotlib.colors import to_hex

    maps = {"scale": (CLOTH_MAP, 1.0), "cords": (CORD_MAP, CORD_LIGHTEST), "bars": (BAR_MAP, BAR_LIGHTEST)}
    scales = {
        key: encode_array(colormaps[name](np.linspace(0.0, lightest, _STEPS), bytes=True)[:, :3], "u1")
        for key, (name, lightest) in maps.items()
    }
    return {
        **scales,
        "states": [to_hex(STATE_COLOURS[state]) for state in sorted(STATES)],
        "slack": to_hex(SLACK_COLOUR),
        "plain": to_hex(PLAIN_COLOUR),
        "flesh": to_hex(FLESH_COLOUR),
        "bar": BAR_COLOUR,
        "tree": TREE_COLOUR,
        "ground": GROUND_COLOUR,
    }
