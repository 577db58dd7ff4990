"""``[corner]``: the joint of side cord, leg and bar at each corner."""

import itertools
from collections.abc import Iterator
from enum import StrEnum
from typing import Annotated, Any

from pydantic import Field

from ...hammock import GeometryIssue, Hammock
from ...making import Corner, CornerPlate, TipLoop
from ...materials import Plate, make_sentence
from .ends import HOMES, FieldIssue
from .fields import ChoiceField, QuantityField, find_material
from .toml_table import TomlTable

Small = Annotated[float, QuantityField("length", low=0.0005, high=0.3)]


class CornerKind(StrEnum):
    """What it is."""

    PLATE = "plate"
    LOOP = "loop"


class CornerTable(TomlTable):
    """``[corner]``, the same at all four corners."""

    made: Annotated[CornerKind, ChoiceField(CornerKind)] = Field(
        description="way the corner is made, plate or loop", examples=['"loop"']
    )
    tip: Annotated[float, QuantityField("length", low=0.0005, high=0.06)] | None = None  # as thick as a bar may be
    plate: Annotated[Plate, find_material(Plate)] | None = Field(
        default=None, description="name of the plate in the library; for a plate"
    )
    width: Small | None = Field(default=None, description="width of the plate")
    tip_hole: Small | None = Field(default=None, description="hole for the tip of the bar")
    tip_edge: Small | None = Field(
        default=None, description="from the middle of that hole to the nearest edge of the plate"
    )
    cord_hole: Small | None = Field(default=None, description="hole for a cord")
    cord_edge: Small | None = Field(
        default=None, description="from the middle of that hole to the nearest edge of the plate"
    )
    edge_radius: Annotated[float, QuantityField("length", low=0.00001, high=0.02)] | None = Field(
        default=None, description="radius of the rounded edges over which the cords bend"
    )
    length: Small | None = None


# Which keys belong to which kind, each with an example.
KEYS = {
    CornerKind.LOOP: {"tip": '"10 mm"'},
    CornerKind.PLATE: {
        "plate": '"6061-T6 sheet 2 mm"',
        "width": '"30 mm"',
        "tip_hole": '"10 mm"',
        "tip_edge": '"15 mm"',
        "cord_hole": '"6 mm"',
        "cord_edge": '"12 mm"',
        "edge_radius": '"1 mm"',
    },
}
_BENT = ("side_cord", "leg_at_corner")  # ends that the corner bends


def build_corner(table: CornerTable | None) -> Corner | None:
    """Return the corner that a table without conflicts describes; None is not given."""
    if table is None:
        return None
    fields = {key: getattr(table, key) for key in KEYS[table.made]}
    return TipLoop(**fields) if table.made is CornerKind.LOOP else CornerPlate(**fields, length=table.length)


def find_wrong_corner(raw: dict[str, Any]) -> Iterator[FieldIssue]:
    """Yield keys that a kind of corner needs or cannot have.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Examples
    --------
    >>> [wrong.sentence for wrong in find_wrong_corner({"corner": {"made": "loop"}})]
    ['is missing: tip of a corner made as a loop. Example: tip = "10 mm"']
    """
    corner = raw.get("corner")
    if not isinstance(corner, dict):
        return
    for home, key in itertools.product(HOMES, _BENT):
        table = ends.get(key) if isinstance(ends := raw.get(home), dict) else None
        if isinstance(table, dict) and "over" in table:
            yield FieldIssue((home, key, "over"), "has no effect: [corner] gives the bend of this end. Remove it.")
    made = corner.get("made")
    if not isinstance(made, str) or made not in list(CornerKind):
        return
    if made == CornerKind.LOOP and "length" in corner:
        yield FieldIssue(("corner", "length"), "does not belong to a corner made as a loop. Remove it.")
    for kind, keys in KEYS.items():
        for key, example in keys.items():
            if kind == made and key not in corner:
                sentence = f"is missing: {key} of a corner made as a {kind}. Example: {key} = {example}"
                yield FieldIssue(("corner", key), sentence)
            if kind != made and key in corner:
                yield FieldIssue(("corner", key), f"does not belong to a corner made as a {made}. Remove it.")


def find_corner_issues(corner: Corner | None, hammock: Hammock) -> list[GeometryIssue]:
    """Return everything that keeps a plate from being made: holes over an edge, or too narrow for cord or leg.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> find_corner_issues(TipLoop(0.01), example_hammock())
    []
    """
    if not isinstance(corner, CornerPlate):
        return []
    flaws = list(_check_threading(corner, hammock))
    for name in ("tip", "cord"):
        hole = getattr(corner, f"{name}_hole")
        for key, reach in ((f"{name}_edge", 2 * getattr(corner, f"{name}_edge")), ("width", corner.width)):
            if reach <= hole:
                sentence = make_sentence(
                    "The {name} hole of {hole:length} reaches over the edge of its plate. Make the hole smaller or "
                    "{key} larger.",
                    name=name,
                    hole=hole,
                    key=key,
                )
                flaws.append(GeometryIssue(sentence, (f"corner.{key}", f"corner.{name}_hole")))
    least = corner.tip_edge + corner.cord_edge
    if corner.length is not None and corner.length <= least:
        sentence = make_sentence(
            "A plate {length:length} long is too short: tip_edge and cord_edge together take {least:length}. Make it "
            "longer.",
            length=corner.length,
            least=least,
        )
        flaws.append(GeometryIssue(sentence, ("corner.length", "corner.tip_edge", "corner.cord_edge")))
    return flaws


def _check_threading(corner: CornerPlate, hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield cords that do not go through their hole."""
    legs = {end.suspension.leg: (f"suspension.{end.name}.leg", f"{end.name} leg") for end in reversed(hammock.ends)}
    thin = len(legs) == 1
    cords = [("side cord", "channel.cord", hammock.channel.cord)]
    cords += [("leg" if thin else name, key, leg) for leg, (key, name) in reversed(legs.items())]
    for name, key, cord in cords:
        if cord.diameter > corner.cord_hole:
            sentence = make_sentence(
                "The {name} of {cord:length} does not fit the cord hole of {hole:length}. Make the hole larger.",
                name=name,
                cord=cord.diameter,
                hole=corner.cord_hole,
            )
            yield GeometryIssue(sentence, ("corner.cord_hole", key))
