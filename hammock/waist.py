"""Side arcs so deep that they leave no body between them."""

from collections.abc import Iterator
from dataclasses import replace

from ..materials import Sentence, make_sentence
from .geometry_issue import GeometryIssue
from .hammock import Body
from .outline import Outline, draw_outline

ARCS = ("body.left_arc.depth", "body.right_arc.depth")
_LEAST_WAIST = (
    0.20  # m, engineering judgement: half the breadth of a person's hips; under it the mesh has no room either
)
_NEARLY = 1e-6  # m


def check_waist(body: Body, outline: Outline) -> Iterator[GeometryIssue]:
    """Yield an issue if the arcs leave too little cloth between them, with the depth that fits."""
    where, waist = outline.waist
    if waist >= _LEAST_WAIST:
        return
    deepest = _find_deepest_arcs(body)
    advice = make_sentence("Make the body wider") if deepest is None else _describe_deepest_arcs(*deepest)
    sentence = make_sentence(
        "The two side arcs {verb} at {where:length} from the head bar, where the body would be {waist:length} wide. "
        "It must be at least {least:length} wide. {advice}.",
        verb="meet" if waist <= 0 else "nearly meet",
        where=where,
        waist=waist,
        least=_LEAST_WAIST,
        advice=advice,
    )
    yield GeometryIssue(sentence, (*ARCS, "body.head_width", "body.foot_width"))


def _find_deepest_arcs(body: Body) -> tuple[float, float] | None:
    """Return the depths, m, at which the arcs, both shallower by one factor, leave the least waist; None if none do."""
    low, high = 0.0, 1.0
    for _ in range(40):
        share = (low + high) / 2
        left, right = (replace(arc, depth=share * arc.depth) for arc in (body.left_arc, body.right_arc))
        waist = draw_outline(replace(body, left_arc=left, right_arc=right)).waist[1]
        low, high = (share, high) if waist >= _LEAST_WAIST else (low, share)
    return (low * body.left_arc.depth, low * body.right_arc.depth) if low > 0 else None


def _describe_deepest_arcs(left: float, right: float) -> Sentence:
    """Return the greatest depths of the arcs, as advice."""
    if abs(left - right) < _NEARLY:
        return make_sentence("Keep both arcs no deeper than {left:length}, or make the body wider", left=left)
    return make_sentence(
        "Keep the left arc no deeper than {left:length} and the right one no deeper than {right:length}, or make the "
        "body wider",
        left=left,
        right=right,
    )
