"""Loads of a hammock on its trees."""

from dataclasses import dataclass
from math import hypot
from typing import Annotated

from ...hammock.suspension import EndSuspension
from ...materials import Cord, Webbing
from ...meshing import HammockModel
from ...solver import State
from ..record import Metres, Missing, NewtonMetres, Newtons, Pascals, Radians, Record
from .forces import find_anchors


@dataclass(frozen=True, repr=False)
class SlingLoad(Record):
    r"""What the two slings in front of one trunk bear, and how they are set.

    Parameters
    ----------
    angle : float
        Between the two cords at the joint, :math:`2\theta`, rad.
    tension : float
        Of each, :math:`S = T/(2\cos\theta)`, N; the strap behind the trunk bears as much, as if the bark were smooth.
    length : float
        Each has to be set to, from the loop of the strap to the joint, m.
    on_bark : float
        Of it that lies on the bark, m: the strap is shorter than its way behind the trunk.
    bark_pressure : float or None
        Of the cord there, Pa; None where none lies on the bark.
    """

    angle: Radians
    tension: Newtons
    length: Metres
    on_bark: Metres
    bark_pressure: Pascals | None


@dataclass(frozen=True, repr=False)
class TreeLoad(Record):
    r"""What one tree bears.

    Parameters
    ----------
    pull : float
        Along the line, :math:`\sqrt{X^2 + Y^2 + Z^2}`, N.
    sideways_pull : float
        Horizontal part, :math:`H = \sqrt{X^2 + Y^2}`, N.
    height : float
        Of the strap above the ground, h, m.
    moment_at_ground : float
        :math:`M = H h + V d / 2`, N m: the downward part V acts at the bark, half the trunk's diameter d from its axis;
        where no girth is told, on the axis.
    diameter : float or None
        Of the trunk at the strap, d, m; None where it is not told.
    bark_pressure : float or None
        Of the strap, or of a line that goes round the tree itself, :math:`p = S/(r\,b)`, Pa; None without a girth.
    slings : SlingLoad or None
        Where a strap with slings lies behind the trunk.
    """

    pull: Newtons
    sideways_pull: Newtons
    height: Metres
    moment_at_ground: NewtonMetres
    diameter: Metres | None
    bark_pressure: Annotated[Pascals | None, Missing.LEFT_OUT]
    slings: Annotated[SlingLoad | None, Missing.LEFT_OUT]


@dataclass(frozen=True, repr=False)
class TreeLoads(Record):
    """What both trees bear."""

    head: TreeLoad
    foot: TreeLoad

    def pick_tree(self, end: str) -> TreeLoad:
        """Return what the tree at ``"head"`` or ``"foot"`` bears."""
        return {"head": self.head, "foot": self.foot}[end]


def find_tree_loads(model: HammockModel, state: State) -> TreeLoads:
    """Return the pull on each tree, its height, the moment at the ground, and the pressure on the bark.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    TreeLoads
        SI.
    """
    anchors, suspension = find_anchors(model, state), model.hammock.suspension
    lines = [float(state[model.elements[f"{end} line"]].tension[0]) for end in ("head", "foot")]
    return TreeLoads(
        load_tree(suspension.head, anchors.head_tree, lines[0]), load_tree(suspension.foot, anchors.foot_tree, lines[1])
    )


def load_tree(hung: EndSuspension, pull: tuple[float, float, float], tension: float) -> TreeLoad:
    """Return what one end of a hammock does to its tree.

    Parameters
    ----------
    hung : EndSuspension
        Line, strap and trunk.
    pull : (3,)
        On the tree, N.
    tension : float
        Of the line, N.
    """
    along, across, up = pull
    diameter = None if hung.tree is None else hung.tree.diameter
    return TreeLoad(
        pull=hypot(along, across, up),
        sideways_pull=hypot(along, across),
        height=hung.strap_height,
        moment_at_ground=hypot(along, across) * hung.strap_height + abs(up) * (diameter or 0.0) / 2,
        diameter=diameter,
        bark_pressure=_press_bark(hung, tension),
        slings=load_slings(hung, tension),
    )


def _press_bark(hung: EndSuspension, tension: float) -> float | None:
    """Return the pressure of strap or line on the bark, Pa; None without a girth."""
    if hung.tree is None:
        return None
    if hung.wrap is not None and hung.strap is not None:
        return hung.tree.find_pressure(tension * hung.wrap.share, hung.strap.webbing.width)
    return hung.tree.find_pressure(tension, _find_width(hung.line))


def _find_width(around: Cord | Webbing) -> float:
    """Return how wide a cord or strap lies on the bark, m."""
    return around.width if isinstance(around, Webbing) else around.diameter


def load_slings(hung: EndSuspension, tension: float) -> SlingLoad | None:
    """Return what slings bear under the tension of their line, N; None where there are none or they are idle."""
    wrap, tree, strap = hung.wrap, hung.tree, hung.strap
    if wrap is None or tree is None or strap is None or strap.slings is None or not wrap.sling:
        return None
    each = tension * wrap.share
    pressure = tree.find_pressure(each, strap.slings.cord.diameter) if wrap.cord_on_bark else None
    return SlingLoad(2 * wrap.spread, each, wrap.sling, wrap.cord_on_bark, pressure)
