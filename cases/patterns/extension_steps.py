"""How the cloth beyond the bars is sewn: darts, extensions, caps, closing triangles.

The order is that of makers (common practice, no source): what stays free is hemmed first, triangles are closed last.
"""

from collections.abc import Iterator

from ...cutting import Draft, Join, PieceEdge, Treatment
from ...cutting.extension_seams import DART, LAPPED_SEAM, PLAIN_SEAM
from ...materials import make_sentence
from .sewing_step import SewingStep, describe_rows

_HAND = 0.003  # m before the point of a dart; engineering judgement, no source


def sew_darts(draft: Draft) -> Iterator[SewingStep]:
    """Yield how the darts of extensions that run on are closed."""
    joins = [join for join in draft.joins if join.seam == DART]
    if joins:
        sentences = [_tell_join(join, draft) for join in joins]
        sentences.append(
            make_sentence(
                "Right sides together, from the far edge to {short:length} short of the cross at the point; knot the "
                "threads there.",
                short=_HAND,
            )
        )
        yield SewingStep(
            "Close the darts",
            (*sentences, describe_rows(joins[0].stitching, "[channel.fold]")),
            "Laid along the far edge, the cloth must run on smoothly across every dart.",
        )


def hem_extensions(draft: Draft) -> Iterator[str]:
    """Yield how the free edges beyond the bars are hemmed: openings at the corners, far edges without a cap."""
    for piece in draft.pieces:
        for edge in piece.edges:
            if edge.treatment is Treatment.ROLLED or (
                edge.treatment is Treatment.HEM and edge.name.endswith("opening")
            ):
                yield _tell_hem(piece.name, edge)


def _tell_hem(piece: str, edge: PieceEdge) -> str:
    """Return how one free edge is hemmed."""
    return make_sentence(
        "{name}: turn in {fold:length} twice{bent}. It is {length:length.4} long.",
        name=f"{piece}, {edge.name}".capitalize(),
        fold=edge.fold,
        bent="; the edge is bent, so stretch it as you sew" if len(edge.points) > 2 else "",
        length=edge.length,
    )


def sew_extensions(draft: Draft) -> Iterator[SewingStep]:
    """Yield how extensions are sewn to the body, and caps to the extensions."""
    joins = [join for join in draft.joins if join.seam == PLAIN_SEAM]
    onto = [join for join in joins if join.first.part.endswith("extension")]
    caps = [join for join in joins if join not in onto]
    if onto:
        yield SewingStep(
            "Sew the extensions to the body",
            (
                *(_tell_join(join, draft) for join in onto),
                "The edge of the extension is bent, that of the body straight, both are of one length: clip the "
                "allowance of the bent one every 2 cm, never across the line.",
                describe_rows(onto[0].stitching, "[channel.fold]"),
            ),
            "Between every two notches both edges must lie on each other without a fold.",
        )
    if caps:
        yield SewingStep(
            "Sew the caps to the far edges",
            (
                "Turn in the top edge of each cap twice along its fold line.",
                *(_tell_join(join, draft) for join in caps),
                describe_rows(caps[0].stitching, "[channel.fold]"),
            ),
            "Pull the top edge straight: the cap must hang without a tight line.",
        )


def fold_leg_channels(draft: Draft) -> Iterator[SewingStep]:
    """Yield how the sides of extensions become channels in which the legs slide."""
    edges = [
        (piece, edge)
        for piece in draft.pieces
        for edge in piece.edges
        if edge.treatment is Treatment.LEG and not piece.name.endswith("triangle")
    ]
    if edges:
        sentences: list[str] = [
            make_sentence(
                "{name}: turn in {fold:length} twice round the leg; it slides in this channel. {length:length.4} long.",
                name=(edge.name if piece.part == "body" else f"{piece.name}, {edge.name}").capitalize(),
                fold=edge.fold,
                length=edge.length,
            )
            for piece, edge in edges
        ]
        sentences.append("Stitch the far end of each channel to its leg: else the extension slides down to the bar.")
        yield SewingStep(
            "Make the channels of the legs",
            tuple(sentences),
            "Pull each leg through: its splice and its eye must pass, or thread it before you close the channel.",
        )


def close_triangles(draft: Draft) -> Iterator[SewingStep]:
    """Yield how the openings at the corners are closed, once the bars have been tried."""
    joins = [join for join in draft.joins if join.seam == LAPPED_SEAM]
    if joins:
        sentences = [
            "Put the hammock on its bars first: see that plate, eyes and tip of the bar move freely in each opening.",
            "Turn in the allowances of each triangle and lay it on the hems of its opening.",
            *(_tell_join(join, draft) for join in joins),
            describe_rows(joins[0].stitching, "[channel.fold]"),
        ]
        yield SewingStep(
            "Close the corners", tuple(sentences), "Take the bars out and put them in again: nothing may catch."
        )


def _tell_join(join: Join, draft: Draft) -> str:
    """Return which marks meet over which length."""
    return make_sentence(
        "{name}: match marks 0 to {last}, {length:length.4}.",
        name=join.name.capitalize(),
        last=len(join.matches) - 1,
        length=join.measure(draft.pieces)[0],
    )
