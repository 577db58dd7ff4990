"""Loads of a hammock on its trees, and what parks require of trees and straps."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from ...hammock.hammock import Suspension
from ...materials import Cord, Sentence, Webbing, make_sentence
from ...meshing import HammockModel
from ...solver import State
from ..record import Metres, NewtonMetres, Newtons, Record
from .forces import find_anchors

_PARK = "Three Rivers Park District"
LEAST_TRUNK = 0.305  # m, 12 in: Three Rivers Park District; Hutchinson MN; City of Madison
WIDEST, NARROWEST = 0.0508, 0.0254  # m: 2 in flat webbing, Three Rivers Park District; 1 in, Hutchinson MN
HIGHEST_STRAP = 1.8288  # m, 6 ft: Three Rivers Park District
_ROUNDING = 1e-3  # m, of 12 in in mm


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
    """

    pull: Newtons
    sideways_pull: Newtons
    height: Metres
    moment_at_ground: NewtonMetres
    diameter: Metres | None


@dataclass(frozen=True, repr=False)
class TreeLoads(Record):
    """What both trees bear."""

    head: TreeLoad
    foot: TreeLoad

    def pick_tree(self, end: str) -> TreeLoad:
        """Return what the tree at ``"head"`` or ``"foot"`` bears."""
        return {"head": self.head, "foot": self.foot}[end]


def find_tree_loads(model: HammockModel, state: State) -> TreeLoads:
    """Return the pull on each tree, its height, and the moment at the ground.

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
    diameters = [suspension.trees.diameter(end) if suspension.trees else None for end in ("head", "foot")]
    return TreeLoads(
        _find_load(anchors.head_tree, suspension.head_strap_height, diameters[0]),
        _find_load(anchors.foot_tree, suspension.foot_strap_height, diameters[1]),
    )


def _find_load(pull: tuple[float, float, float], height: float, diameter: float | None) -> TreeLoad:
    """Return what a pull, N, at a height, m, does to a trunk of a diameter, m."""
    along, across, up = pull
    return TreeLoad(
        pull=hypot(along, across, up),
        sideways_pull=hypot(along, across),
        height=height,
        moment_at_ground=hypot(along, across) * height + abs(up) * (diameter or 0.0) / 2,
        diameter=diameter,
    )


def note_trees(suspension: Suspension) -> list[Sentence]:
    """Return where trees and straps do not meet the requirements of some parks.

    Parameters
    ----------
    suspension : Suspension
        Without errors.

    Returns
    -------
    list of Sentence
        Empty if nothing stands out; local rules may require more.
    """
    return [*_note_trunks(suspension), *_note_heights(suspension), *_note_width(suspension)]


def _note_trunks(suspension: Suspension) -> Iterator[Sentence]:
    """Yield thin trunks."""
    for end in ("head", "foot"):
        if suspension.trees and suspension.trees.diameter(end) < LEAST_TRUNK - _ROUNDING:
            yield make_sentence(
                "The {end} tree is {diameter:length} thick. Some parks require {least:length} at the strap "
                f"({_PARK}; Hutchinson MN; City of Madison).",
                end=end,
                diameter=suspension.trees.diameter(end),
                least=LEAST_TRUNK,
            )


def _note_heights(suspension: Suspension) -> Iterator[Sentence]:
    """Yield straps that lie high."""
    for end in ("head", "foot"):
        height = getattr(suspension, f"{end}_strap_height")
        if height > HIGHEST_STRAP:
            yield make_sentence(
                "The {end} strap is {height:length} above the ground. Some parks allow {most:length} "
                f"({_PARK}, 6 ft).",
                end=end,
                height=height,
                most=HIGHEST_STRAP,
            )


def _note_width(suspension: Suspension) -> Iterator[Sentence]:
    """Yield straps that are narrow, and cord round a tree."""
    strap = suspension.trees.strap if suspension.trees else None
    around: Cord | Webbing = strap.webbing if strap else suspension.line
    if isinstance(around, Cord):
        yield make_sentence(f"A cord goes round the tree. Some parks require flat webbing and forbid rope ({_PARK}).")
    elif around.width < NARROWEST - _ROUNDING:
        yield make_sentence(
            "The strap is {width:length} wide. Some parks require {least:length} (Hutchinson MN) to {most:length} "
            f"({_PARK}), some a pad (City of Madison).",
            width=around.width,
            least=NARROWEST,
            most=WIDEST,
        )
    elif suspension.trees and around.width < WIDEST - _ROUNDING:
        yield make_sentence(
            f"The strap is {{width:length}} wide. Some parks require {{most:length}}, some a pad ({_PARK}; City of "
            "Madison).",
            width=around.width,
            most=WIDEST,
        )
