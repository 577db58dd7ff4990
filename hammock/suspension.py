"""From the corners of a hammock to its trees, in SI units.

Each end has a record of its own, whether or not the two differ: what a design file gives once stands in both.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..making import Tree, TreeStrap, Wrap
from ..materials import Cord, Webbing
from ..materials.short_repr import write_repr, write_value


@dataclass(frozen=True)
class EndSuspension:
    """From the two corners of one end to its tree.

    Parameters
    ----------
    leg_length : float
        Unstretched cord from corner to apex, m.
    leg : Cord
        Cord of both legs.
    line_length : float
        Unstretched length of the line (strap included) from apex to tree, m.
    line : Cord or Webbing
        What the line is made of, up to a separate strap.
    strap_height : float
        Height of the strap on the tree above the ground, m.
    tree : Tree or None
        The trunk, and the strap in which the line ends; None is not given.
    """

    leg_length: float
    leg: Cord
    line_length: float
    line: Cord | Webbing
    strap_height: float
    tree: Tree | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"legs {write_value(self.leg_length, 'length')} of {self.leg.name}",
            f"line {write_value(self.line_length, 'length')} of {self.line.name}",
        )

    @property
    def strap(self) -> TreeStrap | None:
        """The separate strap at the end of the line, if it has one."""
        return None if self.tree is None else self.tree.strap

    @property
    def wrap(self) -> Wrap | None:
        """How that strap lies round its tree."""
        return None if self.tree is None else self.tree.wrap


@dataclass(frozen=True)
class Suspension:
    """From the corners to the trees.

    Exactly one of ``hang_angle`` and ``tree_distance`` is given.

    Parameters
    ----------
    head, foot : EndSuspension
        Legs, line, strap and tree of each end.
    hang_angle : float or None
        Mean angle of the two loaded lines above the horizontal, rad; the distance of the trees follows.
    tree_distance : float or None
        Horizontal distance between the straps, m; the angles follow.
    """

    head: EndSuspension
    foot: EndSuspension
    hang_angle: float | None = None
    tree_distance: float | None = None

    def __repr__(self) -> str:
        return write_repr(self, *(f"{name}: {self.pick(name)!r}" for name in ("head", "foot")))

    def pick(self, end: str) -> EndSuspension:
        """Return what belongs to the ``"head"`` or ``"foot"`` end."""
        return {"head": self.head, "foot": self.foot}[end]

    def change(self, head: Mapping[str, object], foot: Mapping[str, object] | None = None) -> "Suspension":
        """Return the same with fields of each end changed; None for the foot changes it as the head."""
        changes: Any = head, head if foot is None else foot  # fields of many kinds
        ends = [replace(end, **change) for end, change in zip((self.head, self.foot), changes, strict=True)]
        return replace(self, head=ends[0], foot=ends[1])

    def between(self, distance: float) -> "Suspension":
        """Return the same between trees ``distance`` m apart, whatever angle the lines then have."""
        return replace(self, hang_angle=None, tree_distance=distance)
