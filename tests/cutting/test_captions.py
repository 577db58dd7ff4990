"""Words on pieces, in boxes as wide as Helvetica sets them and as whole.pdf prints them."""

import itertools

import numpy as np
import pytest
import shapely
from reportlab.pdfbase.pdfmetrics import stringWidth

from tautlay.cases.unit_display import show_quantity
from tautlay.cutting.drawing.caption_room import measure_words, stack_words
from tautlay.cutting.drawing.drawing import LineKind
from tautlay.cutting.piece_drawing import draw_piece

from .._patterns import NAMES

CAPITAL, TAIL = 0.72, 0.21  # of the size of type: Helvetica's capitals, and what hangs below the base line


def frame(caption):
    """Return the polygon that the words of a caption fill."""
    size = caption.height / CAPITAL
    half, angle = stringWidth(caption.text, "Helvetica", size) / 2, caption.angle
    across, up = np.array([np.cos(angle), np.sin(angle)]), np.array([-np.sin(angle), np.cos(angle)])
    sides = ((-half, -TAIL * size), (half, -TAIL * size), (half, caption.height), (-half, caption.height))
    return shapely.Polygon([caption.at + a * across + b * up for a, b in sides])


def show(length):
    """Return a length in both units, the longest words that there are."""
    return show_quantity(length, "length", "both")


@pytest.fixture(scope="module", params=NAMES)
def drawn(request, drafts):
    """Every piece of a design with its drawing."""
    return [(piece, draw_piece(piece, show)) for piece in drafts[request.param].pieces]


def test_no_words_stand_over_others_or_over_the_arrow(drawn):
    for piece, drawing in drawn:
        boxes = [frame(caption) for caption in drawing.captions]
        names = [caption.text for caption in drawing.captions]
        over = [
            (names[a], names[b])
            for a, b in itertools.combinations(range(len(boxes)), 2)
            if boxes[a].intersects(boxes[b])
        ]
        assert over == [], piece.name
        arrow = shapely.MultiLineString([s.points for s in drawing.strokes if s.kind is LineKind.GRAIN])
        assert [name for name, box in zip(names, boxes, strict=True) if box.intersects(arrow)] == [], piece.name


def test_words_stand_inside_the_cut_and_can_be_read(drawn):
    for piece, drawing in drawn:
        cut = shapely.Polygon(piece.boundary)
        outside = [caption.text for caption in drawing.captions if not cut.contains(frame(caption))]
        assert outside == [], piece.name
        assert min(caption.height for caption in drawing.captions) >= 1.6e-3, piece.name  # type of 6 points


def test_every_edge_and_the_cloth_are_named(drawn):
    for piece, drawing in drawn:
        words = " ".join(caption.text for caption in drawing.captions)
        assert all(words.count(edge.name) >= 1 for edge in piece.edges)
        for line in (piece.name, piece.fabric.name, "warp along the arrow"):
            assert line in words


def test_the_box_that_is_kept_free_holds_the_words(drawn):
    for _, drawing in drawn:
        for caption in drawing.captions:
            width, _ = measure_words((caption.text,), caption.height)
            assert stringWidth(caption.text, "Helvetica", caption.height / CAPITAL) <= width


def test_an_even_piece_names_its_ends_on_the_half_that_is_printed(drawn):
    for piece, drawing in drawn:
        if piece.even:
            printed = " ".join(caption.text for caption in drawing.halve().captions)
            ends = [edge.name for edge in piece.edges if edge.points[:, 1].min() < 0.0 < edge.points[:, 1].max()]
            assert ends
            assert [name for name in ends if name not in printed] == [], piece.name


def test_a_stack_of_words_has_its_middle_where_it_is_asked_to_stand():
    captions = stack_words(("one", "two", "three"), 0.01, np.array([1.0, 2.0]), np.pi / 2)
    assert [caption.text for caption in captions] == ["three", "two", "one"]
    ends = np.array([captions[0].at, captions[-1].at + [-0.01, 0.0]])  # base of the lowest, top of the highest
    assert ends.mean(axis=0) == pytest.approx([1.0, 2.0], abs=1e-12)
