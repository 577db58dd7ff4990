"""The weight of cords, lines and straps with their ends."""

from collections.abc import Iterator

from ....hammock.part import Part, title_part
from ....making import END_TITLES, CapacityStep, CordTermination, TerminationType, is_tail_told, measure_end
from ....materials import Cord, Webbing, make_sentence
from .build import Build, take_finished
from .weight import Unweighed, Weight, weigh_amount

_ENDS = {  # last words of a part's name -> fields of ``Rigging``, both of its ends
    "side cord": ("side_cord", "side_cord"),
    "leg": ("leg_at_corner", "leg_at_apex"),
    "line": ("line_at_apex", "line_at_tree"),
    "strap": ("strap", "strap"),
}


def weigh_cords(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield cords, legs, lines and straps, from the finished length up to buries and tails.

    Parameters
    ----------
    build : Build
        What is weighed.

    Yields
    ------
    Weight or Unweighed
        Of an end that is not described only the finished length is weighed.
    """
    keys: dict[str, CordTermination | None] = {}
    for part in build.parts:
        if isinstance(part.material, Cord | Webbing):
            yield _weigh_cord(build, part)
            keys.update((key, getattr(build.workmanship.rigging, key)) for key in _find_ends(part))
    yield from _list_untold(keys)
    if _find_round(build, "head") is None and not _has_strap(build):
        reason = (
            "they are missing. Add strap, strap_length and hitch to [trees]. If the line itself goes round the tree, "
            'add girth to [trees] and made = "girth hitch" to [ends.line_at_tree].'
        )
        yield Unweighed("straps round the trees", reason)


def _weigh_cord(build: Build, part: Part) -> Weight:
    """Return one cord with its ends; a line without a strap also goes round its tree."""
    used = take_finished(part, "length")
    for key in _find_ends(part):
        if (ending := getattr(build.workmanship.rigging, key)) is not None:
            used = used.add(*measure_end(ending))
    if part.name.endswith("line") and (girth := _find_round(build, part.name.split()[0])) is not None:
        text = make_sentence("once round a tree of {girth:length.4}", girth=girth)
        used = used.add(girth, CapacityStep(text, "the design", "stated"))
    return weigh_amount(title_part(part.name), part.material, used, part.group)


def _find_ends(part: Part) -> tuple[str, str]:
    """Return which fields of ``Rigging`` the ends of a cord are."""
    return next(ends for words, ends in _ENDS.items() if part.name.endswith(words))


def _has_strap(build: Build) -> bool:
    """Return whether a line ends in a separate strap."""
    trees = build.hammock.suspension.trees
    return trees is not None and trees.strap is not None


def _find_round(build: Build, end: str) -> float | None:
    """Return the length of a line round its tree, m; None where it does not go round, or is not described."""
    trees, ending = build.hammock.suspension.trees, build.workmanship.rigging.line_at_tree
    if trees is None or trees.strap is not None or ending is None or ending.method is not TerminationType.HITCH:
        return None
    return trees.girth(end)


def _list_untold(keys: dict[str, CordTermination | None]) -> Iterator[Unweighed]:
    """Yield the ends of which nothing, or not everything, is described."""
    silent = [key for key, ending in keys.items() if ending is None]
    short = [key for key, ending in keys.items() if ending is not None and not is_tail_told(ending)]
    if silent:
        tables = ", ".join(f"[ends.{key}]" for key in silent)
        yield Unweighed(_name_ends(silent), f"their splices, knots and loops are missing. Add {tables}.")
    if short:
        tables = ", ".join(f"[ends.{key}]" for key in short)
        reason = f"the cord in eyes, knots, loops and free ends is missing. Add tail to {tables}."
        yield Unweighed(_name_ends(short), reason)


def _name_ends(keys: list[str]) -> str:
    """Return which ends they are, in words."""
    return "; ".join(END_TITLES[key] for key in keys)
