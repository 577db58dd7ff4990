"""The same hammock between trees of another girth, and how far its slings must adjust for that."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from ....hammock.strap_fit import check_strap
from ....hammock.suspension import EndSuspension
from ....hammock.suspension_line import compose_line
from ....making import Slings
from ....materials import make_sentence
from ...design import Design


def set_girth(design: Design, girth: float) -> Design:
    """Return a design between trees of another girth; the cord of each line stays as long as it is.

    Parameters
    ----------
    design : Design
        With a separate strap at both ends.
    girth : float
        Of both trees, m.

    Raises
    ------
    ValueError
        For a design without such straps, or a tree that they do not fit; the message says which.
    """
    suspension = design.hammock.suspension
    head, foot = (_fit_end(end, suspension.pick(end), girth) for end in ("head", "foot"))
    return design.hang(replace(suspension, head=head, foot=foot))


def _fit_end(name: str, end: EndSuspension, girth: float) -> EndSuspension:
    """Return one end at a tree of another girth, m."""
    strap = end.strap
    if strap is None or end.tree is None:
        raise ValueError(
            "the design has no separate strap, so the girth has no effect. Add strap, strap_length and hitch to "
            "[trees]."
        )
    if strap.slings is None and strap.length <= girth:
        raise ValueError(
            make_sentence(
                "the strap of {a:length} does not reach round a tree of {b:length} girth.", a=strap.length, b=girth
            )
        )
    changed = replace(end, tree=replace(end.tree, girth=girth))
    roomy = replace(changed, line_length=end.line_length + strap.length)  # the line follows the strap
    for issue in check_strap(name, roomy) if strap.slings is not None else ():
        raise ValueError(issue.sentence)
    return replace(changed, line_length=compose_line(end).cord + strap.wrap(girth).reach)


class SlingSpan(NamedTuple):
    """How long the slings of one end have to be over several trees.

    Parameters
    ----------
    end : str
        Head or foot.
    slings : Slings
        What they can be set to.
    least, most : float
        Shortest and longest that is needed, m.
    idle : int
        Number of trees round which the strap goes without them.
    """

    end: str
    slings: Slings
    least: float
    most: float
    idle: int

    @property
    def travel(self) -> float:
        """How far they must adjust, m."""
        return self.most - self.least


def list_sling_spans(designs: Sequence[Design]) -> Iterator[SlingSpan]:
    """Yield how far the slings of each end must adjust from the thinnest to the thickest tree.

    Parameters
    ----------
    designs : sequence of Design
        The same hammock between different trees.
    """
    for end in ("head", "foot"):
        hung = [design.hammock.suspension.pick(end) for design in designs]
        slings = [each.strap.slings for each in hung if each.strap is not None and each.strap.slings is not None]
        lengths = [each.wrap.sling for each in hung if each.wrap is not None and each.wrap.sling]
        if slings and lengths:
            yield SlingSpan(end, slings[0], min(lengths), max(lengths), len(hung) - len(lengths))
