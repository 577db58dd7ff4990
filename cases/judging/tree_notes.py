"""What parks require of trees and straps, and slings that spread wide or cut into the bark."""

from collections.abc import Iterator, Mapping

from ...hammock.suspension import EndSuspension, Suspension
from ...materials import Cord, Sentence, Webbing, make_sentence

_PARK = "Three Rivers Park District"
LEAST_TRUNK = 0.305  # m, 12 in: Three Rivers Park District; Hutchinson MN; City of Madison
WIDEST, NARROWEST = 0.0508, 0.0254  # m: 2 in flat webbing, Three Rivers Park District; 1 in, Hutchinson MN
HIGHEST_STRAP = 1.8288  # m, 6 ft: Three Rivers Park District
_ROUNDING = 1e-3  # m, of 12 in in mm


def note_trees(suspension: Suspension) -> list[Sentence]:
    """Return where trees and straps do not meet the requirements of some parks, and slings that spread wide.

    Parameters
    ----------
    suspension : Suspension
        Without errors.

    Returns
    -------
    list of Sentence
        Empty if nothing stands out; local rules may require more.
    """
    ends = {"head": suspension.head, "foot": suspension.foot}
    return [
        *_note_trunks(ends),
        *_note_heights(ends),
        *_note_widths(suspension),
        *(note for end, hung in ends.items() for note in _note_slings(end, hung)),
    ]


def _note_trunks(ends: Mapping[str, EndSuspension]) -> Iterator[Sentence]:
    """Yield thin trunks."""
    for end, hung in ends.items():
        if hung.tree and hung.tree.diameter < LEAST_TRUNK - _ROUNDING:
            yield make_sentence(
                "The {end} tree is {diameter:length} thick. Some parks require {least:length} at the strap "
                f"({_PARK}; Hutchinson MN; City of Madison).",
                end=end,
                diameter=hung.tree.diameter,
                least=LEAST_TRUNK,
            )


def _note_heights(ends: Mapping[str, EndSuspension]) -> Iterator[Sentence]:
    """Yield straps that lie high."""
    for end, hung in ends.items():
        if hung.strap_height > HIGHEST_STRAP:
            yield make_sentence(
                "The {end} strap is {height:length} above the ground. Some parks allow {most:length} "
                f"({_PARK}, 6 ft).",
                end=end,
                height=hung.strap_height,
                most=HIGHEST_STRAP,
            )


def _note_widths(suspension: Suspension) -> Iterator[Sentence]:
    """Yield straps that are narrow, and cord round a tree; head and foot as one where the same is said of both."""
    head, foot = (_note_width(hung) for hung in (suspension.head, suspension.foot))
    if head == foot:
        yield from [] if head is None else [head]
        return
    for end, note in (("head", head), ("foot", foot)):
        if note is not None:
            yield make_sentence("At the {end}: {note}", end=end, note=note)


def _note_width(hung: EndSuspension) -> Sentence | None:
    """Return that a strap is narrow, or that cord goes round the tree; None where neither is so."""
    around: Cord | Webbing = hung.strap.webbing if hung.strap else hung.line
    if isinstance(around, Cord):
        return make_sentence(f"A cord goes round the tree. Some parks require flat webbing and forbid rope ({_PARK}).")
    if around.width < NARROWEST - _ROUNDING:
        return make_sentence(
            "The strap round the tree is {width:length} wide. Some parks require {least:length} (Hutchinson MN) to "
            f"{{most:length}} ({_PARK}), some a pad (City of Madison).",
            width=around.width,
            least=NARROWEST,
            most=WIDEST,
        )
    if hung.tree and around.width < WIDEST - _ROUNDING:
        return make_sentence(
            "The strap round the tree is {width:length} wide. Some parks require {most:length}, some a pad "
            f"({_PARK}; City of Madison).",
            width=around.width,
            most=WIDEST,
        )
    return None


def _note_slings(end: str, hung: EndSuspension) -> Iterator[Sentence]:
    """Yield slings whose cord lies on the bark, and slings that bear more than the line."""
    wrap = hung.wrap
    if wrap is None or not wrap.sling:
        return
    if wrap.cord_on_bark > 0.0:
        yield make_sentence(
            "The {end} strap is too short for its trunk: {bark:length} of sling cord lies on the bark on each side and "
            "cuts into it. Lengthen the strap by {more:length}.",
            end=end,
            bark=wrap.cord_on_bark,
            more=2 * wrap.cord_on_bark,
        )
    if wrap.share > 1.0:
        yield make_sentence(
            "The {end} slings meet at {angle:angle}, so that each bears {share:.2f} times the pull of the line. Raise "
            "sling_reach.",
            end=end,
            angle=2 * wrap.spread,
            share=wrap.share,
        )
