"""How pieces lie on the cloth: no overlap, inside the width, along the warp, no longer than boxes on shelves."""

import itertools
from math import degrees

import pytest
import shapely

from tautlay.cutting.lay import GAP, LayError, lay_pieces
from tautlay.cutting.nest import nest_lay

from .._patterns import NAMES

NESTED = ("heron_ford", "narrow cloth", "sewn on")  # many pieces, panels, grain 30 deg with two layers


@pytest.fixture(scope="module")
def lays(drafts, designs):
    found = {name: lay_pieces(drafts[name], designs[name].workmanship.cutting.cloth_width) for name in NAMES}
    return found | {f"{name}, nested": tuple(map(nest_lay, found[name])) for name in NESTED}


ALL = (*NAMES, *(f"{name}, nested" for name in NESTED))


@pytest.mark.parametrize("name", NESTED)
def test_a_nested_lay_is_no_longer_and_the_same_each_time(lays, name):
    for plain, nested in zip(lays[name], lays[f"{name}, nested"], strict=True):
        assert nested.length <= plain.length + 1e-9
        assert sorted(each.piece.name for each in nested.laid) == sorted(each.piece.name for each in plain.laid)
        again = nest_lay(plain)
        assert all((a.place == b.place).all() for a, b in zip(nested.laid, again.laid, strict=True))
    if name == "heron_ford":
        assert lays["heron_ford, nested"][0].length < lays["heron_ford"][0].length - 0.1


@pytest.mark.parametrize("name", ALL)
def test_no_copy_lies_on_another_or_over_the_selvedge(lays, drafts, name):
    laid = [each for lay in lays[name] for each in lay.laid]
    assert len(laid) == sum(piece.number for piece in drafts[name.removesuffix(", nested")].pieces)
    for lay in lays[name]:
        shapes = [shapely.Polygon(each.boundary) for each in lay.laid]
        for a, b in itertools.combinations(shapes, 2):
            assert a.distance(b) >= GAP - 1e-9
        cloth = shapely.box(0.0, 0.0, lay.length, lay.width).buffer(1e-9)
        assert all(cloth.contains(shape) for shape in shapes)
        assert lay.used == pytest.approx(sum(shape.area for shape in shapes) / (lay.length * lay.width))
        assert 0 < lay.used <= 1


@pytest.mark.parametrize("name", ALL)
def test_the_warp_runs_along_the_bolt(lays, name):
    for lay in lays[name]:
        for each in lay.laid:
            assert min(abs(degrees(each.warp) - turn) for turn in (-180.0, 0.0, 180.0)) < 0.1


@pytest.mark.parametrize("name", ALL)
def test_a_turned_over_copy_is_the_mirror_of_the_other(lays, name):
    for lay in lays[name]:
        for each in lay.laid:
            sign = -1.0 if each.turned_over else 1.0
            ring = shapely.Polygon(each.boundary).exterior
            assert ring.is_ccw == (sign > 0)
            assert ring.length == pytest.approx(shapely.Polygon(each.piece.boundary).exterior.length)


@pytest.mark.parametrize("name", ALL)
def test_a_lay_is_no_longer_than_boxes_on_shelves(lays, name):
    """First fit: boxes by their width, each beside the others as long as the cloth is wide enough."""
    for lay in lays[name]:
        boxes = sorted((shapely.Polygon(each.boundary).bounds for each in lay.laid), key=lambda b: b[1] - b[3])
        shelves = []
        for box in boxes:
            length, width = box[2] - box[0], box[3] - box[1]
            for shelf in shelves:
                if shelf[1] + GAP + width <= lay.width:
                    shelf[0], shelf[1] = max(shelf[0], length), shelf[1] + GAP + width
                    break
            else:
                shelves.append([length, width])
        assert lay.length <= sum(shelf[0] for shelf in shelves) + GAP * (len(shelves) - 1) + 1e-9


def test_panels_reach_into_the_waist_of_each_other(lays, drafts):
    (lay,) = lays["uneven"]
    assert len(lay.laid) == 4
    assert lay.length < sum(each.boundary[:, 0].max() - each.boundary[:, 0].min() for each in lay.laid) - 0.5


def test_cloth_narrower_than_a_piece_is_refused(drafts):
    with pytest.raises(LayError, match="wider than the cloth"):
        lay_pieces(drafts["heron_ford"], 0.9)
