"""Elements of the solver for every part of a hammock, by name."""

from collections.abc import Mapping

import numpy as np

from ..hammock.arrays import IntegerArray
from ..hammock.hammock import Attachment, Body, Channel, Hammock, HammockEnd
from ..hammock.outline import Edge
from ..hammock.suspension import EndSuspension
from ..hammock.suspension_line import compose_line
from ..solver import Cable, Element, FabricLaw, Membrane, SlidingCable, Strut
from .grid import Mesh
from .mirrored_strut import MirroredStrut
from .numbering import is_half

Nodes = Mapping[str, IntegerArray]

# Cloth gathered on a sliding cord packs solid: an edge shrinks to this share of its cut length and no
# further. Judgement, no source; halving or doubling it moves the side cord's tension by half a per cent.
_PACKED = 0.2
_PACKED_EA = 1000.0  # N, resistance of the packed folds; stops the edge without being stiff


def make_members(hammock: Hammock, mesh: Mesh, nodes: Nodes) -> dict[str, Element]:
    """Return the elements of ``hammock``.

    Names are "body", "left side cord" (sewn: one cable a mesh edge; otherwise one sliding cable), "head
    left lock" and its like (only where the cord is locked at the corners), "left gather" (how far the cloth
    can bunch where the cord slides), "head bar", "head left leg",
    "head line" and the same for right and foot. In a half model the lines lie in the plane of symmetry
    and carry half: double their tension.
    """
    members: dict[str, Element] = {"body": make_membrane(hammock.body, mesh)}
    sides = {"left": mesh.outline.left} if is_half(mesh) else {"left": mesh.outline.left, "right": mesh.outline.right}
    for side, edge in sides.items():
        members |= make_side_cord(hammock.channel, mesh, edge, nodes[f"{side} edge"])
    for end in hammock.ends:
        members |= _make_end(mesh, nodes, end)
    return members


def make_membrane(body: Body, mesh: Mesh) -> Membrane:
    """Return the cloth, flat coordinates along warp and weft, layers side by side."""
    fabric, layers = body.fabric, body.layers
    law = FabricLaw(fabric.warp * layers, fabric.weft * layers, fabric.poisson, fabric.shear * layers)
    cos, sin = np.cos(body.grain), np.sin(body.grain)
    flat = mesh.points @ np.array([[cos, -sin], [sin, cos]])
    return Membrane(mesh.triangles, flat[mesh.triangles], law, mass=fabric.areal_mass * layers)


def make_side_cord(channel: Channel, mesh: Mesh, edge: Edge, path: IntegerArray) -> dict[str, Element]:
    """Return one side cord: its length is shared out along the edge in proportion to the cut edge."""
    side = "left" if edge.side > 0 else "right"
    cord = channel.cord
    rest = edge.arc_lengths(mesh.stations)
    rest = rest * ((channel.cord_length or edge.length) / rest.sum())
    if channel.attachment is Attachment.FREE:
        sliding = SlidingCable(path, cord.ea, rest.sum(), mass=cord.linear_mass)
        return {f"{side} side cord": sliding, f"{side} gather": _make_gather(path, mesh, edge, 0)}
    pieces = np.stack([path[:-1], path[1:]], axis=1)
    if channel.attachment is Attachment.SEWN:
        return {f"{side} side cord": Cable(pieces, cord.ea, rest, mass=cord.linear_mass)}
    head, foot = _find_locks(channel, mesh, edge)
    return {
        f"head {side} lock": Cable(pieces[:head], cord.ea, rest[:head], mass=cord.linear_mass),
        f"{side} side cord": SlidingCable(path[head : foot + 1], cord.ea, rest[head:foot].sum(), mass=cord.linear_mass),
        f"foot {side} lock": Cable(pieces[foot:], cord.ea, rest[foot:], mass=cord.linear_mass),
        f"{side} gather": _make_gather(path[head : foot + 1], mesh, edge, head),
    }


def _make_gather(path: IntegerArray, mesh: Mesh, edge: Edge, first: int) -> Strut:
    """Return what keeps the nodes of a sliding edge from running together; it starts at column ``first``."""
    flat = edge.arc_lengths(mesh.stations[first : first + len(path)])
    return Strut(np.stack([path[:-1], path[1:]], axis=1), _PACKED_EA, _PACKED * flat)


def _find_locks(channel: Channel, mesh: Mesh, edge: Edge) -> tuple[int, int]:
    """Return the columns where the anchored lengths end, nearest to the lock length from either corner."""
    ends = [edge.find_station(d) for d in (channel.lock_length, edge.length - channel.lock_length)]
    head, foot = (int(np.argmin(np.abs(mesh.stations - x))) for x in ends)
    return head, foot


def _make_end(mesh: Mesh, nodes: Nodes, whole: HammockEnd) -> dict[str, Element]:
    """Return bar, legs and line of one end."""
    end, bar, _, hung = whole
    apex, tree = nodes[f"{end} apex"][0], nodes[f"{end} tree"][0]
    corners = {side: nodes[f"{end} {side} corner"][0] for side in ("left", "right") if f"{side} edge" in nodes}
    members: dict[str, Element] = {}
    if is_half(mesh):
        members[f"{end} bar"] = MirroredStrut(int(corners["left"]), bar.ea, bar.length)
    else:
        members[f"{end} bar"] = Strut([[corners["left"], corners["right"]]], bar.ea, bar.length)
    for side, corner in corners.items():
        members[f"{end} {side} leg"] = Cable([[corner, apex]], hung.leg.ea, hung.leg_length, mass=hung.leg.linear_mass)
    members[f"{end} line"] = _make_line(hung, (apex, tree), 0.5 if is_half(mesh) else 1.0)
    return members


def _make_line(hung: EndSuspension, nodes: tuple[int, int], share: float) -> Cable:
    """Return a line with its strap, or the share of it that belongs to the model."""
    line = compose_line(hung)
    return Cable([nodes], line.ea * share, hung.line_length, mass=line.linear_mass * share)
