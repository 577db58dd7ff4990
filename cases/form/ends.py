"""``[ends]``: how the ends of cords, lines and straps are made."""

from collections.abc import Iterator
from typing import Annotated, Any, NamedTuple

from pydantic import Field

from ...making import CordTermination, Rigging, TerminationType
from .fields import ChoiceField, QuantityField
from .toml_table import TomlTable

_AT_CORNER = ("side_cord", "leg_at_corner")  # one piece, if it runs on
_LAST = ("line_at_apex", "line_at_tree", "strap")  # of another piece than what they hang on
_PIECES = (("channel", "cord"), ("suspension", "leg"))


class FieldIssue(NamedTuple):
    """An issue at a key of the file, given by its path."""

    path: tuple[str, ...]
    sentence: str


class EndTable(TomlTable):
    """``[ends.side_cord]`` and its like."""

    made: Annotated[TerminationType, ChoiceField(TerminationType)] = Field(
        description="way the end is made", examples=['"spliced eye"']
    )
    bury: Annotated[float, QuantityField("length", low=0.005, high=2.0)] | None = None
    coated: bool | None = None
    locked: bool = False
    lap: Annotated[float, QuantityField("length", low=0.002, high=0.5)] | None = None
    over: Annotated[float, QuantityField("length", low=0.0001, high=0.5)] | None = None
    keeps: Annotated[float, QuantityField("ratio", low=0.02, high=1.0)] | None = None
    tail: Annotated[float, QuantityField("length", low=0.0, high=5.0)] | None = None


class EndsTable(TomlTable):
    """``[ends]``; missing ends are not described."""

    side_cord: EndTable | None = None
    leg_at_corner: EndTable | None = None
    leg_at_apex: EndTable | None = None
    line_at_apex: EndTable | None = None
    line_at_tree: EndTable | None = None
    strap: EndTable | None = None


def build_rigging(table: EndsTable) -> Rigging:
    """Return how the ends are made.

    Parameters
    ----------
    table : EndsTable
        Without conflicts.

    Returns
    -------
    Rigging
        In SI.
    """
    return Rigging(**{key: _build_ending(getattr(table, key)) for key in EndsTable.model_fields})


def _build_ending(table: EndTable | None) -> CordTermination | None:
    """Return one termination; missing values stay None."""
    if table is None:
        return None
    return CordTermination(
        table.made, table.bury, table.coated, table.locked, table.lap, table.over, table.keeps, table.tail
    )


def find_wrong_ends(raw: dict[str, Any]) -> Iterator[FieldIssue]:
    """Yield keys of ``[ends]`` that an ending needs or cannot have.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Yields
    ------
    FieldIssue
        One for each key.

    Examples
    --------
    >>> [wrong.sentence for wrong in find_wrong_ends({"ends": {"strap": {"made": "spliced eye"}}})]
    ['is missing: buried length of a spliced eye. Example: bury = "15 cm"']
    """
    ends = raw.get("ends")
    for key, table in ends.items() if isinstance(ends, dict) else ():
        if isinstance(table, dict) and isinstance(made := table.get("made"), str) and made in list(TerminationType):
            for name, sentence in _judge_end(TerminationType(made), table):
                yield FieldIssue(("ends", key, name), sentence)
    if isinstance(ends, dict):
        yield from _check_running_on(raw, ends)


def _check_running_on(raw: dict[str, Any], ends: dict[str, Any]) -> Iterator[FieldIssue]:
    """Yield ends that cannot run on: where nothing follows, or another piece follows."""
    made = {key: table.get("made") for key, table in ends.items() if isinstance(table, dict)}
    on = [key for key, method in made.items() if method == TerminationType.RUNS_ON]
    for key in on:
        if key in _LAST:
            yield FieldIssue(("ends", key, "made"), "must be a real end: nothing follows here. State how it is made.")
    corner = [key for key in _AT_CORNER if key in on]
    for key in _AT_CORNER:
        if corner and key in made and key not in on:
            word = TerminationType.RUNS_ON
            sentence = f'must be "{word}" too, as ends.{corner[0]} runs on here. Change one of them.'
            yield FieldIssue(("ends", key, "made"), sentence)
    cord, leg = (table.get(key) if isinstance(table := raw.get(name), dict) else None for name, key in _PIECES)
    if corner and isinstance(cord, str) and isinstance(leg, str) and cord != leg:
        sentence = "a side cord that runs on becomes the leg, but channel.cord and suspension.leg differ. Change one."
        yield FieldIssue(("ends", corner[0], "made"), sentence)


def _judge_end(method: TerminationType, table: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield key and message for every issue of one termination."""
    if method.is_buried and "bury" not in table:
        article = "an" if method is TerminationType.ADJUSTABLE else "a"
        yield "bury", f'is missing: buried length of {article} {method}. Example: bury = "15 cm"'
    if method is TerminationType.OTHER and "keeps" not in table:
        yield "keeps", 'is missing: share of strength kept in your own tests of this end. Example: keeps = "70 %"'
    for name, owners in (
        ("bury", (TerminationType.SPLICE, TerminationType.ADJUSTABLE)),
        ("coated", (TerminationType.SPLICE, TerminationType.ADJUSTABLE)),
        ("locked", (TerminationType.SPLICE,)),
        ("lap", (TerminationType.SEWN,)),
    ):
        if name in table and method not in owners:
            homes = " and ".join(f'"{owner}"' for owner in owners)
            yield name, f'does not belong to "{method}", only to {homes}. Remove it.'
    if "keeps" in table and method is TerminationType.RUNS_ON:
        yield "keeps", "has no effect: a cord that runs on has no end here. Remove it, or state how the end is made."
