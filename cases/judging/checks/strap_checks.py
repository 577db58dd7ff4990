"""Straps round trees: what the hitch leaves, and what the two strands of a basket carry."""

from collections.abc import Iterator

from ....making import CordTermination, Hitch, TerminationType, TreeStrap, Wrap, find_share
from .case import Case
from .check import Check, Unchecked


def check_straps(case: Case) -> Iterator[Check | Unchecked]:
    """Yield for every strap of its own whether it bears the pull of its line round the tree.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check or Unchecked
        A line that goes round the tree itself is looked at by ``check_endings``.
    """
    trees = case.hammock.suspension.trees
    if trees is None:
        yield Unchecked("trees", "not told: girth of the trunk and strap; write [trees].")
        return
    for end in ("head", "foot"):
        wrap = trees.wrap(end)
        if trees.strap is not None and wrap is not None:
            yield _check_strap(case, end, trees.strap, wrap)


def _check_strap(case: Case, end: str, strap: TreeStrap, wrap: Wrap) -> Check:
    """Return how a strap breaks away from its sewn ends."""
    asked = case.workmanship.factors["webbing"]
    whole = case.find_breaking_load(strap.webbing)
    pull = case.forces.pick_line(end) * wrap.share
    if strap.hitch is Hitch.BASKET:
        return Check(f"{end} strap", "breaks", pull, whole, asked, "one of its two strands")
    choked = find_share(strap.webbing, CordTermination(TerminationType.HITCH))
    assert choked is not None  # published for webbing
    return Check(f"{end} strap", "breaks at the hitch", pull, choked.leave(whole, str(TerminationType.HITCH)), asked)
