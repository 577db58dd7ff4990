"""Straps that do not fit their trees, and slings that cannot be set as long as they have to be."""

from collections.abc import Iterator

from ..making import SHORTEST_REACH, Slings, TreeStrap
from ..materials import Sentence, make_sentence
from .geometry_issue import GeometryIssue
from .hammock import Hammock
from .suspension import EndSuspension


def check_straps(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield straps that do not reach round their trees, or are longer than the line, and slings that cannot be set."""
    straps = {end.name: end.suspension.strap for end in hammock.ends}
    slings = {strap.slings: end for end, strap in reversed(straps.items()) if strap and strap.slings}
    tight = [issue for each, end in slings.items() if (issue := _check_room(end, each)) is not None]
    yield from tight
    for end in hammock.ends if not tight else ():
        yield from check_strap(end.name, end.suspension)


def check_strap(end: str, hung: EndSuspension) -> Iterator[GeometryIssue]:
    """Yield what is wrong with the strap at one end.

    Parameters
    ----------
    end : {"head", "foot"}
        Its name in the message.
    hung : EndSuspension
        With or without a tree.
    """
    strap, tree = hung.strap, hung.tree
    if strap is None or tree is None:
        return
    key = "strap.length"
    if strap.slings is not None and strap.length < tree.girth + SHORTEST_REACH:
        reach, key = strap.slings.reach, "strap.slings.reach"
        if (issue := _check_slings(end, hung, strap, strap.slings)) is not None:
            yield issue
            return
    else:
        reach = strap.wrap(tree.girth).reach if strap.length > tree.girth else 0.0
        if reach < SHORTEST_REACH:
            yield _refuse_short(end, strap, tree.girth)
            return
    if reach >= hung.line_length:
        sentence = make_sentence(
            "The strap of {strap.length:length.4} reaches {reach:length.4} from the {end} tree, more than the "
            "whole line of {line:length.4}. Shorten the strap or lengthen the line.",
            strap=strap,
            end=end,
            reach=reach,
            line=hung.line_length,
        )
        yield GeometryIssue(sentence, (*_name(end, key), f"suspension.{end}.line_length"))


def _name(end: str, *fields: str) -> tuple[str, ...]:
    """Return fields of the tree at one end as they are called in a hammock."""
    return tuple(f"suspension.{end}.tree.{field}" for field in fields)


def _refuse_short(end: str, strap: TreeStrap, girth: float) -> GeometryIssue:
    """Return that a strap does not reach round its tree."""
    sentence = make_sentence(
        "The strap of {strap.length:length.4} is too short for the {end} tree of {girth:length.4} girth. As a "
        "{strap.hitch} it must reach {least:length} beyond the bark. Lengthen the strap.",
        strap=strap,
        end=end,
        girth=girth,
        least=SHORTEST_REACH,
    )
    return GeometryIssue(sentence, _name(end, "strap.length", "girth"))


def _check_room(end: str, slings: Slings) -> GeometryIssue | None:
    """Return that slings have no room to adjust, or None."""
    if slings.shortest < slings.longest:
        return None
    sentence = make_sentence(
        "The slings have no room to adjust: shortest {slings.shortest:length.4}, longest "
        "{slings.longest:length.4}. Make sling_longest the larger one.",
        slings=slings,
    )
    return GeometryIssue(sentence, _name(end, "strap.slings.shortest", "strap.slings.longest"))


def _check_slings(end: str, hung: EndSuspension, strap: TreeStrap, slings: Slings) -> GeometryIssue | None:
    """Return what keeps slings from being set on a trunk too thick for the strap alone, or None."""
    assert hung.tree is not None
    keys = _name(end, "strap.length", "strap.slings.reach", "girth")
    if slings.reach < SHORTEST_REACH:
        sentence = make_sentence(
            "The {end} slings meet {reach:length} from the bark; they need at least {least:length}. Raise sling_reach.",
            end=end,
            reach=slings.reach,
            least=SHORTEST_REACH,
        )
        return GeometryIssue(sentence, (keys[1],))
    try:
        length = strap.wrap(hung.tree.girth).sling
    except ValueError:
        sentence = make_sentence(
            "The strap of {strap:length.4} is too long for slings on the {end} tree of {girth:length.4} girth and too "
            "short to go round it. Change its length or raise sling_reach.",
            strap=strap.length,
            end=end,
            girth=hung.tree.girth,
        )
        return GeometryIssue(sentence, keys)
    if slings.shortest <= length <= slings.longest:
        return None
    sentence = _write_sling(end, length, slings, hung.tree.girth)
    limit = "shortest" if length < slings.shortest else "longest"
    return GeometryIssue(sentence, (*_name(end, f"strap.slings.{limit}"), *keys))


def _write_sling(end: str, length: float, slings: Slings, girth: float) -> Sentence:
    """Return that slings cannot be set as long as they have to be."""
    advice = "Shorten the strap" if length < slings.shortest else "Lengthen strap or slings"
    return make_sentence(
        "The slings round the {end} tree of {girth:length.4} girth must be {length:length.4} long, but can be set to "
        "{slings.shortest:length.4} to {slings.longest:length.4} only. {advice}, or change sling_reach.",
        end=end,
        girth=girth,
        length=length,
        slings=slings,
        advice=advice,
    )
