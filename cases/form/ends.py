"""``[ends]``, ``[head_ends]`` and ``[foot_ends]``: how the ends of cords, lines and straps are made."""

from collections.abc import Iterator
from typing import Annotated, Any, NamedTuple

from pydantic import Field

from ...making import CordTermination, TerminationType
from .fields import ChoiceField, QuantityField
from .toml_table import TomlTable

_AT_CORNER = ("side_cord", "leg_at_corner")  # one piece, if it runs on
_LAST = (
    "line_at_apex",
    "line_at_tree",
    "strap",
    "sling_at_strap",
    "sling_at_joint",
)  # of another piece than what they hang on
HOMES = ("ends", "head_ends", "foot_ends")  # tables of a file that tell it


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
    lap: Annotated[float, QuantityField("length", low=0.002, high=0.5)] | None = Field(
        default=None, description="overlap of a sewn loop"
    )
    over: Annotated[float, QuantityField("length", low=0.0001, high=0.5)] | None = None
    keeps: Annotated[float, QuantityField("ratio", low=0.02, high=1.0)] | None = Field(
        default=None, description="share of the strength that this end kept in your own tests"
    )
    tail: Annotated[float, QuantityField("length", low=0.0, high=5.0)] | None = None


class EndsTable(TomlTable):
    """``[ends]``; missing ends are not described."""

    side_cord: EndTable | None = None
    leg_at_corner: EndTable | None = None
    leg_at_apex: EndTable | None = None
    line_at_apex: EndTable | None = None
    line_at_tree: EndTable | None = None
    strap: EndTable | None = None
    sling_at_strap: EndTable | None = None
    sling_at_joint: EndTable | None = None


def build_ending(table: EndTable | None) -> CordTermination | None:
    """Return how an end is made; missing values stay None."""
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
    for home in HOMES:
        ends = raw.get(home)
        for key, table in ends.items() if isinstance(ends, dict) else ():
            if isinstance(table, dict) and isinstance(made := table.get("made"), str) and made in list(TerminationType):
                for name, sentence in _judge_end(TerminationType(made), table):
                    yield FieldIssue((home, key, name), sentence)
                if made == TerminationType.RUNS_ON and key in _LAST:
                    sentence = "must be a real end: nothing follows here. State how it is made."
                    yield FieldIssue((home, key, "made"), sentence)
    yield from dict.fromkeys(issue for end in ("head", "foot") for issue in _check_running_on(raw, end))


def _check_running_on(raw: dict[str, Any], end: str) -> Iterator[FieldIssue]:
    """Yield ends at one end of the hammock that run on where another piece follows."""
    made = {key: found for key in _AT_CORNER if (found := _find_made(raw, end, key))}
    on = [key for key, (_, method) in made.items() if method == TerminationType.RUNS_ON]
    for key, (home, _) in made.items():
        if on and key not in on:
            word = TerminationType.RUNS_ON
            sentence = f'must be "{word}" too, as {made[on[0]][0]}.{on[0]} runs on here. Change one of them.'
            yield FieldIssue((home, key, "made"), sentence)
    cord = table.get("cord") if isinstance(table := raw.get("channel"), dict) else None
    legs = table if isinstance(table := raw.get("suspension"), dict) else {}
    name = f"{end}_leg" if f"{end}_leg" in legs else "leg"
    if on and isinstance(cord, str) and isinstance(leg := legs.get(name), str) and cord != leg:
        sentence = (
            f"a side cord that runs on becomes the leg, but channel.cord and suspension.{name} differ. Change one."
        )
        yield FieldIssue((made[on[0]][0], on[0], "made"), sentence)


def _find_made(raw: dict[str, Any], end: str, key: str) -> tuple[str, object] | None:
    """Return the table that tells how an end of a cord is made, of one end of the hammock or of both, and the word."""
    for home in (f"{end}_ends", "ends"):
        table = ends.get(key) if isinstance(ends := raw.get(home), dict) else None
        if isinstance(table, dict) and "made" in table:
            return home, table["made"]
    return None


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
