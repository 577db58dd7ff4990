"""Edges of a piece cut apart along a straight line."""

import itertools
from dataclasses import replace

import numpy as np

from ..hammock.arrays import FloatArray
from .edge import PieceEdge, Treatment, draw_straight_edge

Loop = tuple[PieceEdge, ...]
_BESIDE = 1e-9  # m; no vertex may lie on the line itself


def split_edges(edges: Loop, across: FloatArray, place: float, name: str) -> tuple[list[Loop], list[Loop]]:
    """Return what lies below and what lies above a line, each as closed edges.

    Parameters
    ----------
    edges : tuple of PieceEdge
        All around, with the cloth on their left.
    across : (2,)
        Unit vector across the line.
    place : float
        Where the line lies: ``points @ across == place``, m.
    name : str
        Of the new edges; they are counted along the line, and told apart by a below and b above it.

    Returns
    -------
    tuple of two lists
        Below and above. The new edges, without allowance, are sewn together again.

    Examples
    --------
    >>> corners = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]])
    >>> ends = zip("abcd", corners, np.roll(corners, -1, axis=0))
    >>> square = tuple(draw_straight_edge(*each, Treatment.RAW) for each in ends)
    >>> below, above = split_edges(square, np.array([0.0, 1.0]), 0.4, "seam")
    >>> [edge.name for edge in below[0]], [edge.name for edge in above[0]]
    (['d', 'a', 'b', 'seam.1 a'], ['b', 'c', 'd', 'seam.1 b'])
    """
    heights = [edge.points @ across - place for edge in edges]
    if any((np.abs(height) < _BESIDE).any() for height in heights):
        return split_edges(edges, across, place + 3 * _BESIDE, name)
    along = np.array([-across[1], across[0]])
    below = _keep(edges, (across, place), along, f"{name}.{{}} a")
    return below, _keep(edges, (-across, -place), along, f"{name}.{{}} b")


def _keep(edges: Loop, line: tuple[FloatArray, float], along: FloatArray, name: str) -> list[Loop]:
    """Return the closed edges below a line; crossings are joined in pairs, in their order along the line."""
    across, place = line
    if not any((edge.points @ across > place).any() for edge in edges):
        return [edges]
    chains = _list_chains(edges, across, place)
    entries = {float(chain[0].points[0] @ along): chain for chain in chains}
    exits = [float(chain[-1].points[-1] @ along) for chain in chains]
    marks = sorted([*entries, *exits])
    loops, left = [], dict(sorted(entries.items()))
    while left:
        start = next(iter(left))
        loop, chain, entry = [], left.pop(start), None
        while entry != start:
            number = marks.index(float(chain[-1].points[-1] @ along))
            entry = marks[number ^ 1]
            ends = chain[-1].points[-1], entries[entry][0].points[0]
            loop += [*chain, draw_straight_edge(name.format(number // 2 + 1), *ends, Treatment.SEAM)]
            chain = left.pop(entry, chain)
        loops.append(tuple(loop))
    return loops


def _list_chains(edges: Loop, across: FloatArray, place: float) -> list[list[PieceEdge]]:
    """Return what of the edges lies below a line, each chain from where it comes in to where it goes out."""
    runs = [run for edge in edges for run in _cut_edge(edge, across, place)]
    chains: list[list[PieceEdge]] = []
    for run, enters in runs:
        if enters or not chains:
            chains.append([run])
        else:
            chains[-1].append(run)
    if len(chains) > 1 and not runs[0][1]:  # the first run goes on from the last
        chains[0] = [*chains.pop(), *chains[0]]
    return chains


def _cut_edge(edge: PieceEdge, across: FloatArray, place: float) -> list[tuple[PieceEdge, bool]]:
    """Return the parts of an edge below a line, and whether each comes in across it."""
    height = edge.points @ across - place
    crossings = np.flatnonzero(np.sign(height[:-1]) != np.sign(height[1:]))
    shares = height[crossings] / (height[crossings] - height[crossings + 1])
    stops = edge.distances[crossings] + shares * np.diff(edge.distances)[crossings]
    ends = [0.0, *map(float, stops), edge.length]
    below = bool(height[0] < 0)
    found = []
    for number, (first, last) in enumerate(itertools.pairwise(ends)):
        if below == (number % 2 == 0):
            found.append((_take(edge, first, last), number > 0))
    return found


def _take(edge: PieceEdge, first: float, last: float) -> PieceEdge:
    """Return the part of an edge between two distances from its first vertex, m."""
    inside = edge.distances[(edge.distances > first) & (edge.distances < last)]
    stops = np.concatenate([[first], inside, [last]])
    points, normals = (
        np.stack([np.interp(stops, edge.distances, column) for column in values.T], -1)
        for values in (edge.points, edge.normals)
    )
    return replace(edge, points=points, normals=normals, start=edge.start + first)
