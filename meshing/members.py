"""Elements of the solver for every part of a hammock, by name."""

from collections.abc import Mapping

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.cone import find_scale
from ..hammock.hammock import Attachment, Body, Channel, Hammock, HammockEnd
from ..hammock.outline import Edge
from ..hammock.suspension import EndSuspension
from ..hammock.suspension_line import compose_line
from ..solver import Cable, Element, FabricLaw, Membrane, SlidingCable, Strut
from .extension_mesh import ExtensionMesh
from .grid import Mesh
from .mirrored_strut import MirroredStrut

Nodes = Mapping[str, IntegerArray]

# Cloth gathered on a sliding cord packs solid: an edge shrinks to this share of its cut length and no
# further. Judgement, no source; halving or doubling it moves the side cord's tension by half a per cent.
_PACKED = 0.2
_PACKED_EA = 1000.0  # N, resistance of the packed folds; stops the edge without being stiff


def make_members(hammock: Hammock, mesh: Mesh, beyond: tuple[ExtensionMesh, ...], nodes: Nodes) -> dict[str, Element]:
    """Return the elements of ``hammock``.

    Names are "body", "left side cord" (sewn: one cable a mesh edge; otherwise one sliding cable), "head
    left lock" and its like (only where the cord is locked at the corners), "left gather" (how far the cloth
    can bunch where the cord slides), "head bar", "head left leg",
    "head line" and the same for right and foot. Beyond a bar that is set in there is "head extension": its sides slide
    on the legs ("head left gather" is how far they can bunch) up to its far corners, which are held there, and from
    there on "head left upper leg" is a cord of its own. In a half model the lines lie in the plane of symmetry and
    carry half: double their tension.
    """
    members: dict[str, Element] = {"body": make_membrane(hammock.body, mesh)}
    sides = {"left": mesh.outline.left} if mesh.is_half else {"left": mesh.outline.left, "right": mesh.outline.right}
    for side, edge in sides.items():
        members |= make_side_cord(hammock.channel, mesh, edge, nodes[f"{side} edge"])
    for end in hammock.ends:
        members |= _make_end(mesh, nodes, end)
    for part in beyond:
        share = part.area / part.find_areas().sum()  # chords leave out a little of the cloth, not of its mass
        members[f"{part.end} extension"] = _make_cloth(hammock.body, part.triangles, part.corners, share)
        for side in sides:
            members[f"{part.end} {side} gather"] = _make_leg_gather(part, nodes[f"{part.end} {side} leg"], side)
    return members


def make_membrane(body: Body, mesh: Mesh) -> Membrane:
    """Return the cloth, flat coordinates along warp and weft, layers side by side."""
    return _make_cloth(body, mesh.triangles, mesh.flat_corners(), 1.0)


def _make_cloth(body: Body, triangles: IntegerArray, corners: FloatArray, share: float) -> Membrane:
    """Return cloth of the body from flat corners (m, 3, 2), m, its areal mass times a share."""
    fabric, layers = body.fabric, body.layers
    law = FabricLaw(fabric.warp * layers, fabric.weft * layers, fabric.poisson, fabric.shear * layers)
    cos, sin = np.cos(body.grain), np.sin(body.grain)
    flat = corners @ np.array([[cos, -sin], [sin, cos]])
    return Membrane(triangles, flat, law, mass=fabric.areal_mass * layers * share)


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
    return _pack(path, edge.arc_lengths(mesh.stations[first : first + len(path)]))


def _make_leg_gather(part: ExtensionMesh, leg: IntegerArray, side: str) -> Strut:
    """Return what keeps the side of an extension from running together on its leg, and the leg's corner free."""
    line = 0 if side == "right" else -1
    places = part.shares[:, line] * part.find_side(line)
    if part.own[0, line]:
        places = np.concatenate([[0.0], places])
    return _pack(leg[:-1], np.diff(places))


def _pack(path: IntegerArray, flat: FloatArray) -> Strut:
    """Return struts that keep neighbours on a sliding edge apart; ``flat`` (p - 1,) as cut, m."""
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
    if mesh.is_half:
        members[f"{end} bar"] = MirroredStrut(int(corners["left"]), bar.ea, bar.length)
    else:
        members[f"{end} bar"] = Strut([[corners["left"], corners["right"]]], bar.ea, bar.length)
    for side in corners:
        members |= _make_leg(hung, nodes[f"{end} {side} leg"], find_scale(whole), f"{end} {side}")
    members[f"{end} line"] = _make_line(hung, (apex, tree), 0.5 if mesh.is_half else 1.0)
    return members


def _make_leg(hung: EndSuspension, path: IntegerArray, scale: float, where: str) -> dict[str, Element]:
    """Return one leg; on its way along cloth it slides up to where the far corner of the cloth is held on it."""
    leg, length = hung.leg, hung.leg_length
    if len(path) == 2:
        return {f"{where} leg": Cable([path], leg.ea, length, mass=leg.linear_mass)}
    return {
        f"{where} leg": SlidingCable(path[:-1], leg.ea, (1 - scale) * length, mass=leg.linear_mass),
        f"{where} upper leg": Cable([path[-2:]], leg.ea, scale * length, mass=leg.linear_mass),
    }


def _make_line(hung: EndSuspension, nodes: tuple[int, int], share: float) -> Cable:
    """Return a line with its strap, or the share of it that belongs to the model."""
    line = compose_line(hung)
    return Cable([nodes], line.ea * share, hung.line_length, mass=line.linear_mass * share)
