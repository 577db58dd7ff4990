"""What a maker must know before cutting: what is missing, what is hard to sew, what does not fit."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from ...cutting import BODY, Draft, Join, PieceEdge, Treatment
from ...hammock.described import Described
from ...materials import make_sentence
from ...materials.short_repr import write_repr

FIT = 0.001  # m, of two edges that are sewn together; a sewing magazine asks 1/16 in, secondary source
_OFF = 0.015  # m: the most of three bars of two demonstrations, solved under a spread weight and lying
_HARD, _TOO_HARD = 0.015, 0.025  # growth of a folded edge; engineering judgement, no source


class PatternNote(NamedTuple):
    """Something that a maker must know.

    Parameters
    ----------
    sentence : str
        What, and what to do; may be a ``Sentence``.
    fails : bool
        Whether the pattern must not be cut like that.
    """

    sentence: str
    fails: bool = False

    def __repr__(self) -> str:
        return write_repr(self, "fails" if self.fails else "", self.sentence)


def check_draft(described: Described, draft: Draft) -> tuple[PatternNote, ...]:
    """Return what is wrong with a draft, and what it leaves out, the worst first.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    draft : Draft
        Its pieces.
    """
    found = [
        *_check_joins(draft),
        *_check_folds(draft),
        *_check_far_edges(draft),
        *_list_missing(described),
        *_note_panels(draft),
        *_note_lines(described),
    ]
    return tuple(sorted(found, key=lambda note: not note.fails))


def _check_joins(draft: Draft) -> Iterator[PatternNote]:
    """Yield edges that do not fit each other."""
    for join in draft.joins:
        worst = max(map(abs, join.list_misfits(draft.pieces)))
        if worst > FIT:
            sentence = make_sentence("The {name}: its edges differ by {worst:length}.", name=join.name, worst=worst)
            yield PatternNote(sentence, fails=True)


def _check_folds(draft: Draft) -> Iterator[PatternNote]:
    """Yield curved edges that must grow too much when they are turned."""
    for join in draft.joins:
        if join.is_turned and (grows := find_growth(draft, join)) > _HARD:
            fails = grows > _TOO_HARD
            sentence = make_sentence(
                "The {name}: turned onto itself, the curved edge must stretch by {grows:.1f} %, {verdict} (limits "
                "{hard:.1f} and {most:.1f} %, engineering judgement). Make the channel narrower, the arc shallower, or "
                "add a strip.",
                name=join.name,
                grows=100 * grows,
                hard=100 * _HARD,
                most=100 * _TOO_HARD,
                verdict="more than it will" if fails else "which is hard to sew without puckers",
            )
            yield PatternNote(sentence, fails=fails)


def _check_far_edges(draft: Draft) -> Iterator[PatternNote]:
    """Yield bent far edges beyond a bar, one note a piece, that must grow too much for a hem."""
    for piece in draft.pieces:
        bent = [edge for edge in piece.edges if edge.treatment is Treatment.ROLLED]
        grows = max((2 * edge.fold * find_curvature(edge) for edge in bent), default=0.0)
        if grows > _HARD:
            yield PatternNote(
                make_sentence(
                    "The far edge of the {name}: turned in twice, it must stretch by {grows:.1f} % where it is bent "
                    "most. Bind it with tape cut on the bias instead, or close the end with a cap.",
                    name=piece.name,
                    grows=100 * grows,
                )
            )


def find_growth(draft: Draft, join: Join) -> float:
    """Return by which share of its length the edge of a turned channel must grow, where it is bent most."""
    edges = [edge for piece in draft.list_panels(BODY) for edge in piece.edges if edge.name == join.first.edge]
    depth = join.first.outward - join.second.outward
    return depth * max(find_curvature(edge) for edge in edges)


def find_curvature(edge: PieceEdge) -> float:
    """Return the greatest turning of an edge per length, rad/m."""
    if len(edge.points) < 3:
        return 0.0
    (x0, y0), (x1, y1) = edge.normals[:-1].T, edge.normals[1:].T
    turns = np.abs(np.arctan2(x0 * y1 - y0 * x1, x0 * x1 + y0 * y1))
    return float((turns / np.diff(edge.distances)).max())


def _list_missing(described: Described) -> Iterator[PatternNote]:
    """Yield what the pattern leaves out."""
    work = described.workmanship
    if work.fold is None:
        yield PatternNote(
            "The channels are not described: there is no cloth for them beyond the long sides. Add [channel.fold].",
            fails=True,
        )
    for end in described.hammock.ends:
        if end.bar.set_in > 0 and not end.bar.extension.opening:
            yield PatternNote(
                f"The {end.name} extension has no opening at its corners for the tips of the bar. Add opening = "
                f'"20 cm" to [{end.name}_extension].'
            )
    if work.hem is None:
        yield PatternNote("The hems are not described: 3 cm are taken (engineering judgement). Add [body.hem].")


def _note_lines(described: Described) -> Iterator[PatternNote]:
    """Yield to which line the cloth beyond the bars is cut: a result has that of both."""
    set_in = [end for end in described.hammock.ends if end.bar.set_in > 0]
    if set_in:
        which = "Both extensions are" if len(set_in) > 1 else f"The {set_in[0].name} extension is"
        words = (
            "an estimate of the line of the cloth under the bar, up to {off:length} off. Give a result, or leave out "
            "--estimate, to cut to the solved line."
            if described.hammock.is_estimated
            else "the solved line of the loaded cloth under the bar."
        )
        yield PatternNote(make_sentence("{which} cut to " + words, which=which, off=_OFF))


def _note_panels(draft: Draft) -> Iterator[PatternNote]:
    """Yield seams of a body that is wider than its cloth."""
    if seams := draft.panel_seams:
        yield PatternNote(
            make_sentence(
                "The body is wider than the cloth and is sewn from {count} panels with {length:length} of felled "
                "seams, where the pull is least. `tautlay solve` checks them: sew and pull a sample first.",
                count=len(draft.list_panels(BODY)),
                length=sum(join.measure(draft.pieces)[0] for join in seams),
            )
        )
