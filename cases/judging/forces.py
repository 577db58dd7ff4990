"""Forces of cords, lines, bars and trees."""

from dataclasses import dataclass

import numpy as np

from ...hammock.arrays import FloatArray
from ...meshing import HammockModel
from ...solver import State
from ..record import ForceVector, Newtons, Record


@dataclass(frozen=True, repr=False)
class Forces(Record):
    r"""Largest tension of each cord, leg and line, and thrust of each bar, N.

    Parameters
    ----------
    side_cord_left_max, side_cord_right_max : float
        :math:`\max_k T_k` over the pieces of a side cord between two nodes of the edge.
    head_leg_left, head_leg_right, foot_leg_left, foot_leg_right : float
        Tension between corner and apex.
    head_line, foot_line : float
        Tension between apex and tree.
    head_bar_thrust, foot_bar_thrust : float
        Compression along the bar, positive.

    Examples
    --------
    >>> found = Forces(388.0, 388.0, 486.0, 486.0, 747.0, 422.0, 415.0, 415.0, 712.0, 275.0)
    >>> found.head_bar_thrust, found.pick_line("foot"), found.pick_leg("head", "left")
    (422.0, 712.0, 486.0)
    """

    side_cord_left_max: Newtons
    side_cord_right_max: Newtons
    head_leg_left: Newtons
    head_leg_right: Newtons
    head_line: Newtons
    head_bar_thrust: Newtons
    foot_leg_left: Newtons
    foot_leg_right: Newtons
    foot_line: Newtons
    foot_bar_thrust: Newtons

    def pick_line(self, end: str) -> float:
        """Return the tension of the line at ``"head"`` or ``"foot"``, N."""
        return {"head": self.head_line, "foot": self.foot_line}[end]

    def pick_thrust(self, end: str) -> float:
        """Return the thrust of the bar at ``"head"`` or ``"foot"``, N."""
        return {"head": self.head_bar_thrust, "foot": self.foot_bar_thrust}[end]

    def pick_leg(self, end: str, side: str) -> float:
        """Return the tension of the leg at ``"head"`` or ``"foot"``, ``"left"`` or ``"right"``, N."""
        legs = {
            "head": {"left": self.head_leg_left, "right": self.head_leg_right},
            "foot": {"left": self.foot_leg_left, "right": self.foot_leg_right},
        }
        return legs[end][side]


@dataclass(frozen=True, repr=False)
class Anchors(Record):
    """Pull on each tree, N: x towards the foot, y to the occupant's left, z up.

    Parameters
    ----------
    head_tree, foot_tree : (3,)
        Reaction at the fixed end of the line, turned round.
    """

    head_tree: ForceVector
    foot_tree: ForceVector

    def pick_tree(self, end: str) -> tuple[float, float, float]:
        """Return the pull on the tree at ``"head"`` or ``"foot"``, N."""
        return {"head": self.head_tree, "foot": self.foot_tree}[end]


def find_forces(model: HammockModel, state: State) -> Forces:
    """Return what every cord, leg, line and bar carries.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    Forces
        N.
    """

    def pull(name: str) -> float:
        pieces = [model.elements[each] for each in (name, name.replace(" leg", " upper leg")) if each in model.elements]
        return max(float(np.max(state[piece].tension)) for piece in pieces)

    def push(name: str) -> float:
        return float(state[model.elements[name]].thrust[0])

    return Forces(
        side_cord_left_max=float(find_cord_tension(model, state, "left").max()),
        side_cord_right_max=float(find_cord_tension(model, state, "right").max()),
        head_leg_left=pull("head left leg"),
        head_leg_right=pull("head right leg"),
        head_line=pull("head line"),
        head_bar_thrust=push("head bar"),
        foot_leg_left=pull("foot left leg"),
        foot_leg_right=pull("foot right leg"),
        foot_line=pull("foot line"),
        foot_bar_thrust=push("foot bar"),
    )


def find_cord_tension(model: HammockModel, state: State, side: str) -> FloatArray:
    """Return the tension (k,), N, of each piece of a side cord from head to foot, one a mesh edge."""
    pieces = []
    for name in (f"head {side} lock", f"{side} side cord", f"foot {side} lock"):
        element = model.elements.get(name)
        if element is not None:
            count = len(element.connectivity)
            pieces.append(np.broadcast_to(np.asarray(state[element].tension, dtype=np.float64), (count,)))
    return np.concatenate(pieces)


def find_anchors(model: HammockModel, state: State) -> Anchors:
    """Return the pull on each tree.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    Anchors
        N.
    """
    head, foot = (-state.reactions[int(model.nodes[f"{end} tree"][0])] + 0.0 for end in ("head", "foot"))
    return Anchors((float(head[0]), float(head[1]), float(head[2])), (float(foot[0]), float(foot[1]), float(foot[2])))
