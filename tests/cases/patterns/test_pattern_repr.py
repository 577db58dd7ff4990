"""What a pattern and its parts say of themselves in a session is one short line."""

import pytest

from tautlay.cases.patterns.pattern_drawings import draw_all
from tautlay.cutting.drawing.paper import find_paper
from tautlay.cutting.drawing.sheets import tile_drawing
from tautlay.materials.short_repr import LONGEST

from ..._patterns import NAMES


@pytest.mark.parametrize("name", NAMES)
def test_reprs_are_short(patterns, name):
    pattern = patterns[name]
    drawn = draw_all("a", pattern.draft, pattern.lays, "metric")
    tiling = tile_drawing(drawn.pick(pattern.pieces[0], half=True), find_paper("a3"))
    first = drawn.pieces[0][1]
    parts = [
        *(
            pattern,
            pattern.draft,
            pattern.shopping,
            drawn,
            tiling,
            tiling.paper,
            tiling.sheets[0],
            tiling.sheets[0].window,
        ),
        *(first, first.strokes[0], first.points[0], first.captions[0], pattern.design.workmanship.cutting),
        *(*pattern.pieces, *pattern.joins, *pattern.lays, *(each for lay in pattern.lays for each in lay.laid)),
        *(edge for piece in pattern.pieces for edge in (*piece.edges, *piece.guides, *piece.notches, *piece.drills)),
    ]
    assert [repr(each) for each in parts if len(repr(each)) > LONGEST or "\n" in repr(each)] == []
