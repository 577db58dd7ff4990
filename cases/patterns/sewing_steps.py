"""How to sew it, step by step: what is joined to what, by which marks and seam, and what to try before going on.

The order is that of makers (common practice, no source): hems before channels, channels before cords.
"""

from ...cutting import BODY, Draft, PieceEdge, Treatment
from ...cutting.body import FOOT, HEAD
from ...cutting.drawing.sheets import SQUARE
from ...cutting.panels import FELLED
from ...hammock.described import Described
from ...making import Workmanship
from ...materials import make_sentence
from .channel_steps import close_channels, sew_strips, thread_cords
from .extension_steps import close_triangles, fold_leg_channels, hem_extensions, sew_darts, sew_extensions
from .sewing_step import SewingStep, describe_rows
from .sling_steps import make_slings


def list_steps(described: Described, draft: Draft) -> tuple[SewingStep, ...]:
    """Return the steps in their order.

    Parameters
    ----------
    described : Described
        Hammock and how it is made.
    draft : Draft
        Its pieces and joins.
    """
    work = described.workmanship
    steps = [_cut(described, draft)]
    if draft.panel_seams:
        steps.append(_sew_panels(draft))
    steps += sew_darts(draft)
    steps.append(_hem_ends(work, draft))
    if work.fold is not None and work.fold.strip is not None:
        steps.append(sew_strips(work.fold, draft))
    steps += sew_extensions(draft)
    if work.fold is not None:
        steps.append(close_channels(work.fold, draft))
    steps += fold_leg_channels(draft)
    return (*steps, thread_cords(described), *make_slings(described), _hang_up(), *close_triangles(draft))


def _cut(described: Described, draft: Draft) -> SewingStep:
    """Return how the pieces are marked and cut."""
    body = draft.list_panels(BODY)
    sentences = [
        make_sentence(
            "From paper: print sheets.pdf at 100 %, then measure the square on its first sheet with a steel rule. Each "
            "side must be {side:length}; half a millimetre off is 1 cm on 2 m of cloth, so print again before you cut.",
            side=SQUARE,
        ),
        "Lay the cloth flat and single, the arrow of every piece along the selvedge. Slippery cloth moves: weight it.",
        "Cut along the full lines. Mark every notch with a pen or a snip no deeper than 3 mm, two ticks for the one "
        "nearest to the head; mark every cross with a pen. Number them from the head.",
        "Sew a trial seam on two scraps with the thread, needle and stitch length that you will use.",
    ]
    if described.workmanship.cutting.hot_cut:
        sentences.append(
            make_sentence("Cut hot: {more:length} to melt are in every cut.", more=described.workmanship.cutting.melted)
        )
    trial = (
        "Fold the body along its middle: its long sides must lie on each other within 2 mm (1/16 in)."
        if body[0].even
        else "Lay the pieces on the drawing: every edge must be as long as the table says within 2 mm (1/16 in)."
    )
    return SewingStep("Mark and cut", tuple(sentences), trial)


def _sew_panels(draft: Draft) -> SewingStep:
    """Return how the panels of the body are sewn together."""
    joins = draft.panel_seams
    sentences = [
        make_sentence(
            "{name}: {length:length.4} long, {count} pairs of notches between its ends.",
            name=join.name.capitalize(),
            length=join.measure(draft.pieces)[0],
            count=len(join.matches) - 2,
        )
        for join in joins
    ]
    how = make_sentence(
        "Felled: right sides together, sew on the line, fold the wider allowance ({outer:length}) round the narrower "
        "({inner:length}), press flat and sew it down.",
        outer=FELLED[1],
        inner=FELLED[0],
    )
    rows = describe_rows(joins[0].stitching, "[channel.fold]")
    return SewingStep(
        "Sew the panels of the body together",
        (*sentences, how, rows),
        "Pull across a seam with both hands: no thread may slip and no hole may open.",
    )


def _hem_ends(work: Workmanship, draft: Draft) -> SewingStep:
    """Return how the ends of the body are hemmed."""
    edges: dict[str, list[PieceEdge]] = {}
    for piece in draft.list_panels(BODY):
        for edge in piece.edges:
            if edge.treatment is Treatment.HEM or (edge.treatment is Treatment.SEAM and edge.name in (HEAD, FOOT)):
                edges.setdefault(edge.name, []).append(edge)
    sentences: list[str] = []
    for name, parts in edges.items():
        hemmed = [part for part in parts if part.treatment is Treatment.HEM]
        length = sum(part.length for part in hemmed or parts)
        template = (
            "{name}: turn in {fold:length} at the fold line, then once more at the finished edge{where}. It is "
            "{length:length.4} long."
            if hemmed
            else "{name}: leave it raw, with {allowance:length} to sew the extension on. It is {length:length.4} long."
        )
        sentences.append(
            make_sentence(
                template,
                name=name.capitalize(),
                fold=parts[0].allowance - parts[0].fold,
                where=", beside the openings only, up to the crosses" if len(hemmed) < len(parts) else "",
                allowance=parts[0].allowance,
                length=length,
            )
        )
    sentences += hem_extensions(draft)
    if any(parts[0].treatment is Treatment.HEM for parts in edges.values()):
        sentences.append(describe_rows(None if work.hem is None else work.hem.seam, "[body.hem]"))
    if not sentences:
        return SewingStep("Ends", ("Both ends run on beyond the bars: nothing is hemmed there.",), "Look at both ends.")
    if all(parts[0].treatment is Treatment.SEAM for parts in edges.values()):
        return SewingStep("Leave the ends raw", tuple(sentences), "Measure both ends from cross to cross.")
    return SewingStep(
        "Hem the ends",
        tuple(sentences),
        "At its corners the raw end of a hem must lie on the cut of the long side, neither short of it nor over it.",
    )


def _hang_up() -> SewingStep:
    """Return the first trial."""
    sentences = (
        "Put the eyes and the legs on the bars, hang the hammock low between two trees, and look at every seam.",
        "Load it with weights, more than the person's, before anyone lies in it. Get in slowly.",
    )
    return SewingStep("Try it", sentences, "No seam may open, no stitch break, no cord slip.")
