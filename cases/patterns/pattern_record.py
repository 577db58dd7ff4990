"""Everything that is told of a pattern, as ``pattern.json`` keeps it."""

from dataclasses import dataclass
from typing import Annotated

from ...cutting import ClothPiece, Draft, Join, PieceEdge, Treatment
from ...cutting.lay import Lay
from ...hammock.arrays import FloatArray
from ..record import FlatPoint, Key, Metres, Radians, Record, SquareMetres


@dataclass(frozen=True, repr=False)
class PatternHeader(Record):
    """Of which design it is."""

    name: str
    file: str


@dataclass(frozen=True, repr=False)
class EdgeRecord(Record):
    """One edge of a piece: its finished length, where it begins on the whole edge, what is cut beyond it."""

    name: str
    treatment: Treatment
    length: Metres
    start: Metres
    allowance: Metres
    turning: Radians


@dataclass(frozen=True, repr=False)
class NotchRecord(Record):
    """One notch: its edge, its distance along the whole edge, its place on the cut, the join and its number there."""

    edge: str
    distance: Metres
    point: FlatPoint
    join: str
    number: int


@dataclass(frozen=True, repr=False)
class MarkRecord(Record):
    """A point that is marked inside a piece."""

    name: str
    point: FlatPoint


@dataclass(frozen=True, repr=False)
class PieceRecord(Record):
    """One piece; areas are those of one copy."""

    name: str
    part: str
    fabric: str
    cut: int
    cut_turned_over: int
    warp: Radians
    on_the_fold: bool
    length: Metres
    width: Metres
    cut_area: SquareMetres
    finished_area: SquareMetres
    edges: tuple[EdgeRecord, ...]
    notches: tuple[NotchRecord, ...]
    marks: tuple[MarkRecord, ...]


@dataclass(frozen=True, repr=False)
class LineRecord(Record):
    """A line that is sewn: its part and edge, how far beyond the finished edge it runs, its length."""

    part: str
    edge: str
    outward: Metres
    length: Metres


@dataclass(frozen=True, repr=False)
class MatchRecord(Record):
    """Two marks that meet, by their distances along the whole edges; the ease of the first up to here."""

    first: Metres
    second: Metres
    ease: Metres


@dataclass(frozen=True, repr=False)
class JoinRecord(Record):
    """Two lines that are sewn together; the first is longer by the ease."""

    name: str
    seam: str
    rows: int | None
    stitch_length: Metres | None
    first: LineRecord
    second: LineRecord
    ease: Metres
    misfit: Metres
    matches: tuple[MatchRecord, ...]


@dataclass(frozen=True, repr=False)
class LaidRecord(Record):
    """One copy on the cloth: where its origin lies, how it is turned."""

    piece: str
    turned_over: bool
    angle: Radians
    place: FlatPoint


@dataclass(frozen=True, repr=False)
class LayRecord(Record):
    """The lay of one cloth."""

    fabric: str
    width: Metres
    length: Metres
    used: Annotated[float, Key("share_used")]
    laid: tuple[LaidRecord, ...]


@dataclass(frozen=True, repr=False)
class PatternRecord(Record):
    """All of a pattern."""

    design: PatternHeader
    pieces: tuple[PieceRecord, ...]
    joins: tuple[JoinRecord, ...]
    lays: tuple[LayRecord, ...]
    notes: tuple[str, ...]


def record_pattern(header: PatternHeader, draft: Draft, lays: tuple[Lay, ...], notes: tuple[str, ...]) -> PatternRecord:
    """Return a pattern in plain numbers and words.

    Parameters
    ----------
    header : PatternHeader
        Of the design.
    draft : Draft
        Its pieces and joins.
    lays : tuple of Lay
        On every cloth.
    notes : tuple of str
        What a maker must know.
    """
    pieces, joins = map(_record_piece, draft.pieces), (_record_join(join, draft) for join in draft.joins)
    return PatternRecord(header, tuple(pieces), tuple(joins), tuple(map(_record_lay, lays)), notes)


def _record_piece(piece: ClothPiece) -> PieceRecord:
    """Return one piece."""
    length, width = piece.size
    notches = [NotchRecord(n.edge, n.distance, _point(n.point), n.join, n.number) for n in piece.notches]
    return PieceRecord(
        name=piece.name,
        part=piece.part,
        fabric=piece.fabric.name,
        cut=piece.count,
        cut_turned_over=piece.mirrored,
        warp=piece.grain,
        on_the_fold=piece.even,
        length=length,
        width=width,
        cut_area=piece.cut_area,
        finished_area=piece.finished_area,
        edges=tuple(map(_record_edge, piece.edges)),
        notches=tuple(notches),
        marks=tuple(MarkRecord(mark.name, _point(mark.point)) for mark in piece.drills),
    )


def _record_edge(edge: PieceEdge) -> EdgeRecord:
    """Return one edge."""
    return EdgeRecord(edge.name, edge.treatment, edge.length, edge.start, edge.allowance, edge.turning)


def _record_join(join: Join, draft: Draft) -> JoinRecord:
    """Return one join."""
    lengths = join.measure(draft.pieces)
    first, second = (
        LineRecord(line.part, line.edge, line.outward, length)
        for line, length in zip((join.first, join.second), lengths, strict=True)
    )
    sewn = join.stitching
    return JoinRecord(
        name=join.name,
        seam=join.seam,
        rows=None if sewn is None else sewn.rows,
        stitch_length=None if sewn is None else sewn.stitch_length,
        first=first,
        second=second,
        ease=join.ease,
        misfit=max(map(abs, join.list_misfits(draft.pieces))),
        matches=tuple(MatchRecord(*match) for match in join.matches),
    )


def _record_lay(lay: Lay) -> LayRecord:
    """Return one lay."""
    laid = [LaidRecord(each.piece.name, each.turned_over, each.angle, _point(each.place)) for each in lay.laid]
    return LayRecord(lay.fabric.name, lay.width, lay.length, lay.used, tuple(laid))


def _point(at: FloatArray) -> FlatPoint:
    """Return a point in plain numbers."""
    x, y = at
    return float(x), float(y)
