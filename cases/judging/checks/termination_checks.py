"""Ends of cords and lines: breaking load left by splices, knots, sewn loops, hitches and bends."""

from collections.abc import Iterator
from typing import NamedTuple

from ....making import (
    END_TITLES,
    Capacity,
    CordTermination,
    CornerPlate,
    TerminationType,
    bend_cord,
    find_share,
    measure_bury,
    name_ends_table,
    name_fibre,
)
from ....making.cord_termination import SHORTEST_LAP
from ....making.retained_strength import SLIP
from ....materials import Cord, Webbing, make_sentence
from ..forces import find_cord_tension
from .bury_rule import find_material, has_ends
from .case import Case
from .check import Check, Unchecked

_PLACES = {
    "corner": "at the corner",
    "apex": "at the apex",
    "tree": "at the tree",
    "strap": "at the strap",
    "joint": "at the joint",
}


_AT_CORNER = ("side_cord", "leg_at_corner")


class EndInUse(NamedTuple):
    """One end of one cord: the part, head or foot, field of ``Rigging``, tension, N, and where it is, in words."""

    part: str
    end: str
    key: str
    tension: float
    place: str


def check_endings(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of every end of a cord or line: retained strength, and slip.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check or Unchecked
        An end that is not described, or about which nothing is published, is not checked.
    """
    for key, title in END_TITLES.items():
        there = [end for end in ("head", "foot") if has_ends(case.hammock, end, key)]
        lacking = [end for end in there if getattr(case.workmanship.pick_rigging(end), key) is None]
        told = [row for end in there if end not in lacking for row in list_ends(case, end, key)]
        seen: set[str] = set()
        if lacking:
            table = name_ends_table(lacking, key)
            yield Unchecked(title, f"the design does not state how they are made. Add [{table}].")
        for row in (row for each in told for row in _check_end(case, each)):
            if isinstance(row, Check):
                yield row
            elif row.reason not in seen:
                seen.add(row.reason)
                yield row


def list_ends(case: Case, end: str, key: str) -> Iterator[EndInUse]:
    """Yield the ends at head or foot that one field of ``Rigging`` is about, with the tension each sees."""
    if key == "side_cord":
        for side in ("left", "right"):
            piece = find_cord_tension(case.model, case.state, side)[0 if end == "head" else -1]
            yield EndInUse(f"{side} side cord", end, key, float(piece), f"at the {end} corner")
        return
    pull = case.forces.pick_line(end)
    if key == "strap" or key.startswith("sling"):
        yield from _list_strap_ends(case, end, key, pull)
        return
    noun, place = key.split("_at_")
    if noun == "line":
        yield EndInUse(f"{end} line", end, key, pull, _PLACES[place])
        return
    for side in ("left", "right"):
        yield EndInUse(f"{side} {end} leg", end, key, case.forces.pick_leg(end, side), _PLACES[place])


def _list_strap_ends(case: Case, end: str, key: str, pull: float) -> Iterator[EndInUse]:
    """Yield the ends of the strap, or of its slings where they bear, with the tension of one strand."""
    wrap = case.hammock.suspension.pick(end).wrap
    assert wrap is not None  # see _has_ends
    if key == "strap":
        yield EndInUse(f"{end} strap", end, key, pull * wrap.share, "at the slings" if wrap.sling else "at the ring")
    else:
        yield EndInUse(f"{end} sling", end, key, pull * wrap.share, _PLACES[key.split("_at_")[1]])


def _check_end(case: Case, end: EndInUse) -> Iterator[Check | Unchecked]:
    """Yield the failure modes of one end that is described."""
    material = find_material(case.hammock, end.end, end.key)
    ending = getattr(case.workmanship.pick_rigging(end.end), end.key)
    whole = case.find_breaking_load(material)
    if ending.method is not TerminationType.RUNS_ON:
        yield from _check_make(case, end, material, ending, whole)
    yield from _check_bend(case, end, material, ending, whole)


def _check_make(
    case: Case, end: EndInUse, material: Cord | Webbing, ending: CordTermination, whole: Capacity
) -> Iterator[Check | Unchecked]:
    """Yield whether a splice is long enough, whether a knot slips, and the strength that is left."""
    asked, slippery = case.workmanship.factors[material.category], name_fibre(material) == "UHMWPE"
    if ending.method.is_buried and slippery and isinstance(material, Cord):
        needed, made, rule = measure_bury(ending, material)
        bury = Check(end.part, "splice slips", needed, made, rule, end.place)
        if not bury.passed:
            yield bury
            return  # at a load nobody knows
        # long enough, it outlasts the cord: a step of its strength and not a failure mode of its own
        whole = whole.keep(1.0, made.steps[0].text, rule.source, rule.basis)
    if ending.method.is_knot and slippery and ending.keeps is None:
        yield Check(end.part, "knot slips", end.tension, SLIP.leave(whole, "knot that slips"), asked, end.place)
    share = find_share(material, ending)
    if ending.method is TerminationType.SEWN and isinstance(material, Cord) and (ending.lap or 0.0) < SHORTEST_LAP:
        share = share if ending.keeps is not None else None
    if share is not None:
        left = share.leave(whole, str(ending.method))
        yield Check(end.part, f"{ending.method.place} breaks", end.tension, left, asked, end.place)
    elif not (ending.method.is_knot and slippery):
        yield Unchecked(END_TITLES[end.key], _say_unknown(end.key, material, ending))


def _say_unknown(key: str, material: Cord | Webbing, ending: CordTermination) -> str:
    """Return that no strength is published for a termination, and what to add."""
    article = "an" if ending.method.value[0] in "aeiou" else "a"
    what = make_sentence("{article} {made} in {kind}", article=article, made=ending.method.value, kind=material.kind)
    if ending.method is TerminationType.SEWN and ending.lap is not None and ending.lap < SHORTEST_LAP:
        what = make_sentence(
            "a lap of {lap:length} in {kind} (shortest tested: {least:length})",
            lap=ending.lap,
            kind=material.kind,
            least=SHORTEST_LAP,
        )
    return make_sentence(
        "no published strength was found for {what}. Break a few and add keeps to [ends.{key}].", what=what, key=key
    )


def _check_bend(
    case: Case, end: EndInUse, material: Cord | Webbing, ending: CordTermination, whole: Capacity
) -> Iterator[Check | Unchecked]:
    """Yield the check of the cord in its bend; in an eye each of two strands takes half the tension."""
    if isinstance(material, Webbing):
        if ending.over is not None:
            sentence = "no published strength was found for webbing bent over an edge. Remove over."
            yield Unchecked(END_TITLES[end.key], sentence)
        return
    over, where = _find_bend(case, end.key, ending)
    if name_fibre(material) == "other":
        sentence = make_sentence("no published strength was found for {kind} in a bend.", kind=material.kind)
        yield Unchecked(END_TITLES[end.key], sentence)
    elif over is None:
        home = "[corner]" if end.key in _AT_CORNER else f"over to [ends.{end.key}]"
        yield Unchecked(END_TITLES[end.key], f"diameter that the cord bends over is missing. Add {home}.")
    else:
        strands = 1 if ending.method is TerminationType.RUNS_ON else 2
        bears = bend_cord(whole, material, over)
        place = end.place if strands == 1 else f"{end.place}, one of the two strands of the eye, sharing evenly"
        asked = case.workmanship.factors[material.category]
        yield Check(end.part, f"breaks {where}", end.tension / strands, bears, asked, place)


def _find_bend(case: Case, key: str, ending: CordTermination) -> tuple[float | None, str]:
    """Return the diameter an end is bent over, m, and where that is, in words."""
    corner = case.workmanship.corner
    if key not in _AT_CORNER or corner is None:
        return ending.over, "in bend"
    return corner.bend_diameter, "over hole" if isinstance(corner, CornerPlate) else "over tip"
