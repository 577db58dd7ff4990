"""The weight of cords, lines and straps with their ends."""

from collections.abc import Iterator
from typing import NamedTuple

from ....hammock.part import Part, title_part
from ....making import (
    END_TITLES,
    CapacityStep,
    CordTermination,
    TerminationType,
    is_tail_told,
    measure_end,
    name_ends_table,
)
from ....materials import Cord, Webbing, make_sentence
from .build import Build, take_finished
from .weight import Unweighed, Weight, weigh_amount

_SIDE_CORD = "side cord"
_ENDS = {  # last words of a part's name -> fields of ``Rigging``, both of its ends
    _SIDE_CORD: ("side_cord", "side_cord"),
    "leg": ("leg_at_corner", "leg_at_apex"),
    "line": ("line_at_apex", "line_at_tree"),
    "strap": ("strap", "strap"),
    "sling": ("sling_at_strap", "sling_at_joint"),
}


class EndKey(NamedTuple):
    """Head or foot, and a field of ``Rigging``."""

    end: str
    key: str


def weigh_cords(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield cords, legs, lines, straps and slings, from the finished length up to buries and tails.

    Parameters
    ----------
    build : Build
        What is weighed.

    Yields
    ------
    Weight or Unweighed
        Of an end that is not described only the finished length is weighed.
    """
    endings: dict[EndKey, CordTermination | None] = {}
    for part in build.parts:
        if isinstance(part.material, Cord | Webbing):
            yield _weigh_cord(build, part)
            endings.update((end, _find_ending(build, end)) for end in _find_ends(part))
    yield from _list_untold(endings)
    yield from _list_bare(build)


def _weigh_cord(build: Build, part: Part) -> Weight:
    """Return one cord with its ends; a line without a strap also goes round its tree."""
    used = take_finished(part, "length")
    for end in _find_ends(part):
        if (ending := _find_ending(build, end)) is not None:
            used = used.add(*measure_end(ending))
    if part.name.endswith("line") and (girth := _find_round(build, part.name.split()[0])) is not None:
        text = make_sentence("once round a tree of {girth:length.4}", girth=girth)
        used = used.add(girth, CapacityStep(text, "the design", "stated"))
    return weigh_amount(title_part(part.name), part.material, used, part.group)


def _find_ends(part: Part) -> tuple[EndKey, EndKey]:
    """Return which the two ends of a cord are; those of a side cord are at the head and at the foot."""
    first, second = next(ends for words, ends in _ENDS.items() if part.name.endswith(words))
    if part.name.endswith(_SIDE_CORD):
        return EndKey("head", first), EndKey("foot", second)
    return EndKey(part.name.split()[0], first), EndKey(part.name.split()[0], second)


def _find_ending(build: Build, end: EndKey) -> CordTermination | None:
    """Return how an end is made, None if it is not described."""
    ending: CordTermination | None = getattr(build.workmanship.pick_rigging(end.end), end.key)
    return ending


def _list_bare(build: Build) -> Iterator[Unweighed]:
    """Yield the trees round which nothing goes that could be weighed."""
    ends = [end.name for end in build.hammock.ends if end.suspension.strap is None]
    bare = [end for end in ends if _find_round(build, end) is None]
    if not bare:
        return
    one = len(bare) == 1
    tree, ends_table = (f"{bare[0]}_tree", f"{bare[0]}_ends") if one else ("trees", "ends")
    what = f"strap round the {bare[0]} tree" if one else "straps round the trees"
    reason = (
        f"{'it is' if one else 'they are'} missing. Add strap, strap_length and hitch to [{tree}]. If the line itself "
        f'goes round the tree, add girth to [{tree}] and made = "girth hitch" to [{ends_table}.line_at_tree].'
    )
    yield Unweighed(what, reason)


def _find_round(build: Build, end: str) -> float | None:
    """Return the length of a line round its tree, m; None where it does not go round, or is not described."""
    tree, ending = build.hammock.suspension.pick(end).tree, build.workmanship.pick_rigging(end).line_at_tree
    if tree is None or tree.strap is not None or ending is None or ending.method is not TerminationType.HITCH:
        return None
    return tree.girth


def _list_untold(endings: dict[EndKey, CordTermination | None]) -> Iterator[Unweighed]:
    """Yield the ends of which nothing, or not everything, is described."""
    silent = _join_ends([end for end, ending in endings.items() if ending is None])
    short = _join_ends([end for end, ending in endings.items() if ending is not None and not is_tail_told(ending)])
    if silent:
        tables = ", ".join(f"[{table}]" for table in silent)
        yield Unweighed("; ".join(silent.values()), f"their splices, knots and loops are missing. Add {tables}.")
    if short:
        tables = ", ".join(f"[{table}]" for table in short)
        reason = f"the cord in eyes, knots, loops and free ends is missing. Add tail to {tables}."
        yield Unweighed("; ".join(short.values()), reason)


def _join_ends(ends: list[EndKey]) -> dict[str, str]:
    """Return tables of the design and titles of some ends, head and foot as one."""
    places = {key: [end.end for end in ends if end.key == key] for key in dict.fromkeys(end.key for end in ends)}
    return {name_ends_table(sides, key): END_TITLES[key] for key, sides in places.items()}
