"""Straps and slings round trees: strength left by the hitch, and tension of the two strands of a basket."""

from collections.abc import Iterator

from ....hammock.suspension import EndSuspension
from ....making import CordTermination, Hitch, Slings, TerminationType, TreeStrap, Wrap, find_share
from ....materials import make_sentence
from .case import Case
from .check import Check, Unchecked


def check_straps(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the check of every separate strap, and of its slings, under the pull of its line.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check or Unchecked
        A line that goes round the tree itself is looked at by ``check_endings``.
    """
    ends = {end.name: end.suspension for end in case.hammock.ends}
    untold = [name for name, hung in ends.items() if hung.tree is None]
    if len(untold) == len(ends):
        yield Unchecked("trees", "the design does not state girth and strap. Add [trees].")
        return
    for name in untold:
        yield Unchecked(f"{name} tree", f"the design does not state girth and strap. Add [{name}_tree].")
    for name, hung in ends.items():
        if hung.strap is not None and hung.wrap is not None:
            yield _check_strap(case, name, hung.strap, hung.wrap)
            if hung.strap.slings is not None and hung.wrap.sling:
                yield from _check_slings(case, name, hung, hung.strap.slings)


def _check_strap(case: Case, end: str, strap: TreeStrap, wrap: Wrap) -> Check:
    """Return the check of a strap away from its sewn ends; behind the trunk without help of friction."""
    asked = case.workmanship.factors["webbing"]
    whole = case.find_breaking_load(strap.webbing)
    pull = case.forces.pick_line(end) * wrap.share
    if wrap.sling:
        return Check(f"{end} strap", "breaks", pull, whole, asked, "behind the trunk")
    if strap.hitch is Hitch.BASKET:
        return Check(f"{end} strap", "breaks", pull, whole, asked, "one of its two strands")
    choked = find_share(strap.webbing, CordTermination(TerminationType.HITCH))
    assert choked is not None  # published for webbing
    return Check(f"{end} strap", "hitch breaks", pull, choked.leave(whole, str(TerminationType.HITCH)), asked)


def _check_slings(case: Case, end: str, hung: EndSuspension, slings: Slings) -> Iterator[Check | Unchecked]:
    """Yield the check of slings whose ends are not both described, and that a toggle cannot be checked."""
    rigging, wrap = case.workmanship.pick_rigging(end), hung.wrap
    assert wrap is not None
    pull, asked = case.forces.pick_line(end), case.workmanship.factors["cord"]
    endings = (rigging.sling_at_strap, rigging.sling_at_joint)
    if not all(ending is not None and find_share(slings.cord, ending) is not None for ending in endings):
        yield Check(f"{end} sling", "breaks", pull * wrap.share, case.find_breaking_load(slings.cord), asked)
    if slings.toggle_mass is not None:
        sentence = make_sentence(
            "its strength is not known. It bears {pull:force}: load it with five times as much before anyone lies in "
            "the hammock.",
            pull=pull,
        )
        yield Unchecked(f"{end} toggle", sentence)
