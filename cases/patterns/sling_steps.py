"""How the slings of a strap behind a thick trunk are made and set."""

from collections.abc import Iterator
from math import degrees

from ...hammock.described import Described
from ...making import CordTermination, Slings, Wrap, measure_end, name_ends_table
from ...materials import make_sentence
from .sewing_step import SewingStep

_PULL = 50.0  # N under which a cord is measured; engineering judgement, no source


def make_slings(described: Described) -> Iterator[SewingStep]:
    """Yield how the slings of each end are made; nothing where straps have none.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    """
    for end in described.hammock.ends:
        strap, wrap = end.suspension.strap, end.suspension.wrap
        if strap is not None and strap.slings is not None and wrap is not None:
            rigging = described.workmanship.pick_rigging(end.name)
            endings = (rigging.sling_at_strap, rigging.sling_at_joint)
            yield SewingStep(
                f"Make the slings of the {end.name} strap",
                (
                    *_tell_making(strap.slings, endings),
                    _tell_setting(strap.slings, wrap),
                    _tell_joining(strap.slings),
                ),
                "Set both slings alike, put the strap round the tree and pull the line by hand: the joint must "
                "stand in front of the middle of the trunk, and neither sling may slip.",
            )


def _tell_making(slings: Slings, endings: tuple[CordTermination | None, CordTermination | None]) -> Iterator[str]:
    """Yield how long each sling is cut, and how its ends are made."""
    yield make_sentence(
        "Two cords of {cord}, each {longest:length.4} long from the loop of the strap to the joint when it is let out "
        "all the way, measured under about {pull:force}.",
        cord=slings.cord.name,
        longest=slings.longest,
        pull=_PULL,
    )
    needed = slings.longest
    for ending, place, key in zip(
        endings, ("In the loop of the strap", "At the joint"), ("sling_at_strap", "sling_at_joint"), strict=True
    ):
        if ending is None:
            table = name_ends_table(["head", "foot"], key)
            yield f"{place} their ends are not described: add [{table}], with bury and tail."
        else:
            more, step = measure_end(ending)
            needed += more
            yield make_sentence("{place} make each end as {what}.", place=place, what=step.text)
    if None not in endings:
        yield make_sentence("With both ends, cut {needed:length.4} for each.", needed=needed)


def _tell_setting(slings: Slings, wrap: Wrap) -> str:
    """Return how long the slings are set round the trunk of the design."""
    if not wrap.sling:
        return "Round this trunk the strap reaches all the way: put it through its own loop and take the slings off."
    return make_sentence(
        "Let them be set between {shortest:length} and {longest:length}. Round this trunk each is {set:length.4} long; "
        "the joint then stands {reach:length} before the bark, and the slings meet at {angle:.0f} degrees.",
        shortest=slings.shortest,
        longest=slings.longest,
        set=wrap.sling,
        reach=wrap.reach,
        angle=2 * degrees(wrap.spread),
    )


def _tell_joining(slings: Slings) -> str:
    """Return how slings and line are joined."""
    if slings.toggle_mass is None:
        return "Join both slings and the line with the knot of the joint; leave each sling free to be set."
    return "Join both slings and the line with the toggle; leave each sling free to be set."
