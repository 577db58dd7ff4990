"""Mesh of the cloth beyond a bar that is set in: lines from the bar to the far edge, divided alike."""

from dataclasses import dataclass

import numpy as np

from ..hammock.arrays import FloatArray, IntegerArray
from ..hammock.cone import find_scale
from ..hammock.extension_areas import measure_extension
from ..hammock.hammock import HammockEnd
from ..hammock.polygon import measure_triangles
from ..hammock.ruled_sheet import RuledSheet, rule_sheet
from ..materials.short_repr import write_repr
from .grading import grade_line
from .grid import Fineness, Mesh


@dataclass(frozen=True)
class ExtensionMesh:
    """Triangles on the flat extension of one end.

    Parameters
    ----------
    end : str
        ``"head"`` or ``"foot"``.
    levels : (ny + 1,)
        Place along the bar, those of the body's mesh: -1 right corner to 1 left corner.
    rows : (nr + 1,)
        Place along each line, from where the cloth begins on it, 0, to the far edge, 1.
    shares : (nr + 1, ny + 1)
        Of the way along each line from the bar to the far edge, 0 to 1.
    numbers : (nr + 1, ny + 1)
        Nodes in the structure; where body and extension are one or sewn together those of the body.
    own : (nr + 1, ny + 1) bool
        Which nodes are not the body's.
    flat : (nr + 1, ny + 1, 2)
        Where they lie as cut, m, in the axes of the flat body; at a dart on its left.
    triangles : (m, 3)
        Nodes in the structure, counter-clockwise seen from above.
    corners : (m, 3, 2)
        Where these lie as cut, m.
    darts : tuple of int
        Lines along which darts run.
    width : float
        Of the body at the bar, m.
    scale : float
        Of the far edge to the edge at the bar.
    area : float
        Of the finished piece, m2: chords of the mesh leave out a little.
    """

    end: str
    levels: FloatArray
    rows: FloatArray
    shares: FloatArray
    numbers: IntegerArray
    own: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]
    flat: FloatArray
    triangles: IntegerArray
    corners: FloatArray
    darts: tuple[int, ...]
    width: float
    scale: float
    area: float

    def __repr__(self) -> str:
        return write_repr(self, self.end, f"{len(self.triangles)} triangles", f"{self.count} nodes of its own")

    @property
    def count(self) -> int:
        """How many nodes are its own."""
        return int(self.own.sum())

    def flat_corners(self) -> FloatArray:
        """Return the flat corners of the triangles (m, 3, 2), m."""
        return self.corners

    def find_areas(self) -> FloatArray:
        """Return the flat areas of the triangles (m,), m2."""
        return measure_triangles(self.corners)

    def list_darts(self) -> IntegerArray:
        """Return the nodes (k,) along darts; none of an extension that is sewn on."""
        return np.unique(self.numbers[:, list(self.darts)])

    def stand(self, near: FloatArray, apex: FloatArray) -> FloatArray:
        """Return where its own nodes stand (count, 3) on straight lines towards the apex, m.

        Parameters
        ----------
        near : (ny + 1, 3)
            The end of the body at the bar, m.
        apex : (3,)
            m.
        """
        return np.asarray(near + (1 - self.scale) * self.shares[..., None] * (apex - near))[self.own]

    def place(self, depth: FloatArray, lines: IntegerArray) -> tuple[IntegerArray, FloatArray]:
        """Return on which rows, and how far between them, points at a depth beyond the bar lie on lines.

        Parameters
        ----------
        depth : (p,)
            Along the cloth from the bar, m; where there is no cloth its edge is taken.
        lines : (p,) int
            Across, from the right.

        Returns
        -------
        (p,) int, (p,)
            The row before, and the share of the way to the next.
        """
        lengths = np.hypot(*np.moveaxis(self.flat[-1] - self.flat[0], -1, 0)) / (1 - self.shares[0])
        along = (depth / lengths[lines] - self.shares[0, lines]) / (1 - self.shares[0, lines])
        along = np.clip(along, 0.0, 1.0)
        row = np.clip(np.searchsorted(self.rows, along, side="right") - 1, 0, len(self.rows) - 2)
        return row, (along - self.rows[row]) / (self.rows[row + 1] - self.rows[row])

    def cut(self, positions: FloatArray, depth: float) -> FloatArray:
        """Return points (ny + 1, 3), m, across the cloth from the right at a depth beyond the bar, m.

        Parameters
        ----------
        positions : (n, 3)
            Of all nodes of the structure, m.
        depth : float
            Along the cloth from the bar, m.
        """
        lines = np.arange(len(self.levels))
        row, share = self.place(np.full(len(lines), depth), lines)
        first, second = positions[self.numbers[row, lines]], positions[self.numbers[row + 1, lines]]
        return np.asarray(first + share[:, None] * (second - first))

    def share_out(self, depth: FloatArray, level: FloatArray) -> tuple[IntegerArray, FloatArray]:
        """Return between which nodes (p, 4) points lie, and their shares (p, 4), which add up to 1.

        Parameters
        ----------
        depth : (p,)
            Along the cloth from the bar, m.
        level : (p,)
            Place along the bar of the line each lies on, -1 to 1.
        """
        right = np.clip(np.searchsorted(self.levels, level, side="right") - 1, 0, len(self.levels) - 2)
        across = (level - self.levels[right]) / (self.levels[right + 1] - self.levels[right])
        nodes, shares = [], []
        for line, part in ((right, 1 - across), (right + 1, across)):
            row, out = self.place(depth, line)
            nodes += [self.numbers[row, line], self.numbers[row + 1, line]]
            shares += [part * (1 - out), part * out]
        return np.stack(nodes, -1), np.stack(shares, -1)

    def carry(self, coarse: "ExtensionMesh", positions: FloatArray) -> FloatArray:
        """Return where its own nodes stand (count, 3), m, on the solved shape of another mesh of such an extension.

        Parameters
        ----------
        coarse : ExtensionMesh
            Of the same end.
        positions : (n, 3)
            Of all nodes of the other structure, m.
        """
        grid = positions[coarse.numbers]
        column = np.clip(np.searchsorted(coarse.levels, self.levels, side="right") - 1, 0, len(coarse.levels) - 2)
        start, stop = coarse.levels[column], coarse.levels[column + 1]
        across = ((self.levels - start) / (stop - start))[:, None]
        lines = grid[:, column] + across * (grid[:, column + 1] - grid[:, column])
        row = np.clip(np.searchsorted(coarse.rows, self.rows, side="right") - 1, 0, len(coarse.rows) - 2)
        out = ((self.rows - coarse.rows[row]) / (coarse.rows[row + 1] - coarse.rows[row]))[:, None, None]
        return np.asarray(lines[row] + out * (lines[row + 1] - lines[row]))[self.own]

    def find_side(self, line: int) -> float:
        """Return how long one of the lines is from bar to far edge as cut, m; 0 is the right side, -1 the left."""
        first, last = self.shares[0, line], self.shares[-1, line]
        return float(np.hypot(*(self.flat[-1, line] - self.flat[0, line])) / (last - first))


def mesh_extensions(
    ends: tuple[HammockEnd, ...], mesh: Mesh, fineness: Fineness, first: int
) -> tuple[ExtensionMesh, ...]:
    """Return the mesh of every extension, their own nodes numbered from ``first``.

    Parameters
    ----------
    ends : tuple of HammockEnd
        Head and foot.
    mesh : Mesh
        Of the body.
    fineness : Fineness
        As that of the body: fine at the bar and at the far edge.
    first : int
        How many nodes there are before them.
    """
    meshes: list[ExtensionMesh] = []
    for end in ends:
        if end.bar.set_in > 0.0:
            meshes.append(_mesh_extension(end, mesh, fineness, first))
            first += meshes[-1].count
    return tuple(meshes)


def join_triangles(mesh: Mesh, beyond: tuple[ExtensionMesh, ...]) -> IntegerArray:
    """Return the nodes (m, 3) of all triangles of cloth: the body's, then those beyond the bars."""
    return np.concatenate([mesh.triangles, *(part.triangles for part in beyond)])


def _mesh_extension(end: HammockEnd, mesh: Mesh, fineness: Fineness, first: int) -> ExtensionMesh:
    """Return the mesh of one extension, its own nodes numbered from ``first``."""
    head = end.name == "head"
    sheets = rule_sheet(end, (1 + mesh.levels) / 2 * end.width, 0.0 if head else mesh.outline.length)
    middle = float(mesh.outline.middle(mesh.stations[[0 if head else -1]])[0])
    starts = _find_starts(end, mesh.levels, sheets)
    lengths = [np.hypot(*(sheet.far - sheet.near).T).max() for sheet in sheets]
    length, (rim, ratio) = float(max(lengths)), fineness.find_rim()
    rows = grade_line(length, rim, fineness.size, ratio) / length
    shares = starts + (1 - starts) * rows[:, None]
    own = np.ones(shares.shape, dtype=bool)
    own[0] = starts > 0.0
    numbers = np.broadcast_to(mesh.column(0 if head else -1), shares.shape).copy()
    numbers[own] = first + np.arange(own.sum())
    flat = np.empty((*shares.shape, 2))
    triangles, corners = [], []
    for sheet in sheets:
        part = shares[:, sheet.lines, None]
        laid = sheet.near + part * (sheet.far - sheet.near) + [0.0, middle]
        flat[:, sheet.lines] = laid
        cells = _join_cells(laid.shape[:2], mesh.levels[sheet.lines], outwards=head)
        triangles.append(numbers[:, sheet.lines].reshape(-1)[cells])
        corners.append(laid.reshape(-1, 2)[cells])
    area = measure_extension(end).sheet * (0.5 if mesh.is_half else 1.0)
    return ExtensionMesh(
        end.name, mesh.levels, rows, shares, numbers, own, flat, np.concatenate(triangles), np.concatenate(corners),
        tuple(sheet.lines.start for sheet in sheets[1:]), end.width, find_scale(end), area,
    )  # fmt: skip


def _find_starts(end: HammockEnd, levels: FloatArray, sheets: tuple[RuledSheet, ...]) -> FloatArray:
    """Return where the cloth begins on each line (k,), as a share of its length: zero where it is sewn to the body."""
    starts, extension = np.zeros(len(levels)), end.bar.extension
    if not extension.opening:
        return starts
    beside = 1 - 2 * extension.opening / end.width
    for sign, sheet in ((1.0, sheets[-1]), (-1.0, sheets[0])):
        stop = int(np.argmin(np.abs(levels - sign * beside)))
        lines = [line for line in range(*sheet.lines.indices(len(levels))) if sign * (levels[line] - levels[stop]) > 0]
        if not lines:
            continue
        rows = np.array(lines) - sheet.lines.start
        corner = int(rows[-1] if sign > 0 else rows[0])
        side = sheet.far[corner] - sheet.near[corner]
        leg = sheet.near[corner] + side * (extension.corner_room / np.hypot(*side))
        starts[lines] = _cross_lines(sheet.near[rows], sheet.far[rows], sheet.near[stop - sheet.lines.start], leg)
    return starts


def _cross_lines(near: FloatArray, far: FloatArray, a: FloatArray, b: FloatArray) -> FloatArray:
    """Return at which share of each line from ``near`` to ``far`` (k, 2) it meets the line through ``a`` and ``b``."""
    normal = np.array([a[1] - b[1], b[0] - a[0]])
    return np.asarray(((a - near) @ normal) / ((far - near) @ normal))


def _join_cells(shape: tuple[int, ...], levels: FloatArray, *, outwards: bool) -> IntegerArray:
    """Return the triangles (m, 3) of a grid of rows from the bar, counter-clockwise; mirrored about the middle.

    ``outwards``: rows run against the first axis of the flat body, as at the head.
    """
    numbers = np.arange(shape[0] * shape[1]).reshape(shape)
    a, b, d, c = numbers[1:, :-1], numbers[:-1, :-1], numbers[1:, 1:], numbers[:-1, 1:]
    if not outwards:
        a, b, d, c = b, a, c, d
    back = np.broadcast_to((levels[:-1] + levels[1:]) > 0, a.shape)
    lower = np.stack([a, b, np.where(back, c, d)], axis=-1)
    upper = np.stack([np.where(back, a, b), c, d], axis=-1)
    return np.concatenate([lower.reshape(-1, 3), upper.reshape(-1, 3)])
