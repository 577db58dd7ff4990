"""Straps round trees: strength left by the hitch, and tension of the two strands of a basket."""

from collections.abc import Iterator

from ....making import CordTermination, Hitch, TerminationType, TreeStrap, Wrap, find_share
from .case import Case
from .check import Check, Unchecked


def check_straps(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the check of every separate strap under the pull of its line.

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
        yield Unchecked("trees", "the design does not state girth and strap. Add [trees].")
        return
    for end in ("head", "foot"):
        wrap = trees.wrap(end)
        if trees.strap is not None and wrap is not None:
            yield _check_strap(case, end, trees.strap, wrap)


def _check_strap(case: Case, end: str, strap: TreeStrap, wrap: Wrap) -> Check:
    """Return the check of a strap away from its sewn ends."""
    asked = case.workmanship.factors["webbing"]
    whole = case.find_breaking_load(strap.webbing)
    pull = case.forces.pick_line(end) * wrap.share
    if strap.hitch is Hitch.BASKET:
        return Check(f"{end} strap", "breaks", pull, whole, asked, "one of its two strands")
    choked = find_share(strap.webbing, CordTermination(TerminationType.HITCH))
    assert choked is not None  # published for webbing
    return Check(f"{end} strap", "hitch breaks", pull, choked.leave(whole, str(TerminationType.HITCH)), asked)
