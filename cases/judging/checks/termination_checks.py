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
    name_fibre,
)
from ....making.cord_termination import SHORTEST_LAP, SLIP
from ....materials import Cord, Webbing, make_sentence
from ..forces import find_cord_tension
from .case import Case
from .check import Check, Unchecked

_PLACES = {"corner": "at the corner", "apex": "at the apex", "tree": "at the tree"}


_AT_CORNER = ("side_cord", "leg_at_corner")


class EndInUse(NamedTuple):
    """One end of one cord: the part, field of ``Rigging``, tension, N, and where it is, in words."""

    part: str
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
    trees = case.hammock.suspension.trees
    for key, title in END_TITLES.items():
        if key == "strap" and (trees is None or trees.strap is None):
            continue
        ending = getattr(case.workmanship.rigging, key)
        if ending is None:
            yield Unchecked(title, f"the design does not state how they are made. Add [ends.{key}].")
            continue
        material = find_material(case, key)
        rows = [row for end in list_ends(case, key) for row in _check_end(case, end, material, ending)]
        seen: set[str] = set()
        for row in rows:
            if isinstance(row, Check):
                yield row
            elif row.reason not in seen:
                seen.add(row.reason)
                yield row


def find_material(case: Case, key: str) -> Cord | Webbing:
    """Return what the end of that field of ``Rigging`` is made in."""
    hammock = case.hammock
    if key == "side_cord":
        return hammock.channel.cord
    trees = hammock.suspension.trees
    if key == "strap" and trees is not None and trees.strap is not None:
        return trees.strap.webbing
    return hammock.suspension.leg if key.startswith("leg") else hammock.suspension.line


def list_ends(case: Case, key: str) -> Iterator[EndInUse]:
    """Yield the ends that one field of ``Rigging`` is about, with the tension each sees."""
    if key == "side_cord":
        for side in ("left", "right"):
            pieces = find_cord_tension(case.model, case.state, side)
            for end, piece in (("head", 0), ("foot", -1)):
                yield EndInUse(f"{side} side cord", key, float(pieces[piece]), f"at the {end} corner")
        return
    if key == "strap":
        yield from _list_strap_ends(case)
        return
    noun, place = key.split("_at_")
    for end in ("head", "foot"):
        if noun == "line":
            yield EndInUse(f"{end} line", key, case.forces.pick_line(end), _PLACES[place])
            continue
        for side in ("left", "right"):
            yield EndInUse(f"{side} {end} leg", key, case.forces.pick_leg(end, side), _PLACES[place])


def _list_strap_ends(case: Case) -> Iterator[EndInUse]:
    """Yield the ends of the straps, each with the tension of one strand."""
    trees = case.hammock.suspension.trees
    for end in ("head", "foot"):
        wrap = trees.wrap(end) if trees else None
        if wrap is not None:
            yield EndInUse(f"{end} strap", "strap", case.forces.pick_line(end) * wrap.share, "at the ring")


def _check_end(
    case: Case, end: EndInUse, material: Cord | Webbing, ending: CordTermination
) -> Iterator[Check | Unchecked]:
    """Yield the failure modes of one end."""
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
    if over is None:
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
