"""Pieces against independent geometry: quadrature of the curves, offsets and overlaps of another library."""

import itertools
from dataclasses import replace
from math import atan, cos, hypot

import numpy as np
import pytest
import shapely
from scipy.integrate import quad

from tautlay.cases import draft_pattern, read_design
from tautlay.cutting import BODY, Treatment, draft_pieces
from tautlay.cutting.drawing.drawing import LineKind
from tautlay.cutting.panels import FROM_CORNER
from tautlay.cutting.piece_drawing import draw_piece
from tautlay.hammock.extension_areas import measure_extension
from tautlay.hammock.outline import draw_outline
from tautlay.making import cut_fold
from tautlay.meshing import build_model

from .._patterns import DEMONSTRATIONS, NAMES, TEXTS, change, write_design

MM = 1e-3


def measure_edge(draft, name):
    return sum(edge.length for piece in draft.list_panels(BODY) for edge in piece.edges if edge.name == name)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("side", ["left", "right"])
def test_sides_are_as_long_as_the_curve(drafts, designs, name, side):
    edge = draw_outline(designs[name].hammock.body).pick_edge(side)
    true, _ = quad(lambda x: hypot(1.0, float(edge.curve.slope(np.array(x)))), 0.0, edge.span, epsabs=1e-10, limit=200)
    assert measure_edge(drafts[name], side) == pytest.approx(true, abs=0.02 * MM)


def test_side_of_a_known_parabola(drafts):
    """2.10 m long, 15 cm deep, 4 cm narrower on each side at the foot: worked out by hand quadrature."""
    assert measure_edge(drafts["heron_ford"], "left") == pytest.approx(2.128598, abs=0.02 * MM)


@pytest.mark.parametrize("name", NAMES)
def test_finished_area_is_that_of_the_outline(drafts, designs, name):
    found = sum(piece.finished_area for piece in drafts[name].list_panels(BODY))
    more = sum(measure_extension(end).sheet for end in designs[name].hammock.ends if end.bar.extension.darts)
    assert found == pytest.approx(draw_outline(designs[name].hammock.body).area + more, abs=50e-6)


@pytest.mark.parametrize("name", [*DEMONSTRATIONS, "uneven", "narrow cloth"])
def test_the_meshed_rim_lies_on_the_finished_edges(drafts, designs, name):
    design = designs[name]
    flat = build_model(replace(design.hammock), design.person, 0.15).mesh.points
    lines = shapely.union_all(
        [shapely.LineString(edge.points) for p in drafts[name].list_panels(BODY) for edge in p.edges]
    )
    hull = draw_outline(design.hammock.body)
    rim = [p for p in flat if min(abs(p[1] - hull.left.place(p[0])), abs(p[1] - hull.right.place(p[0]))) < 1e-9]
    assert len(rim) > 20
    assert max(lines.distance(shapely.Point(point)) for point in rim) < 0.02 * MM


@pytest.mark.parametrize("name", NAMES)
def test_cuts_are_simple_and_hold_the_finished_piece(drafts, name):
    for piece in drafts[name].pieces:
        cut = shapely.Polygon(piece.boundary)
        assert cut.is_valid
        assert cut.exterior.is_ccw
        assert cut.area == pytest.approx(piece.cut_area, rel=1e-12)
        kept = sum(piece.measure_allowances(treatment) for treatment in Treatment)
        assert piece.cut_area == pytest.approx(piece.finished_area + kept, rel=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_every_cut_is_its_allowance_away_from_the_edge(drafts, name):
    """Off the corners, where a hem is shaped and two cuts meet."""
    for piece in drafts[name].pieces:
        for edge, cut in zip(piece.edges, piece.cuts, strict=True):
            line, ends = shapely.LineString(edge.points), shapely.MultiPoint(edge.points[[0, -1]])
            near = 3.3 * max(abs(each.allowance) for each in piece.edges) + 1e-6
            away = [line.distance(shapely.Point(p)) for p in cut if ends.distance(shapely.Point(p)) > near]
            assert away == pytest.approx([abs(edge.allowance)] * len(away), abs=0.02 * MM)


@pytest.mark.parametrize("name", [name for name in NAMES if "starter" not in name])
def test_a_hem_lies_on_what_it_is_turned_onto(drafts, name):
    """Each point of a hem's end, mirrored about both folds in turn, comes to lie on the cut of the long side."""
    checked = 0
    for piece in drafts[name].pieces:
        cuts = dict(zip([(edge.name, edge.start) for edge in piece.edges], piece.cuts, strict=True))
        sides = [
            shapely.LineString(cuts[edge.name, edge.start])
            for edge in piece.edges
            if edge.treatment is Treatment.CHANNEL
        ]
        count = len(piece.edges)
        for place, edge in enumerate(piece.edges):
            if edge.treatment is not Treatment.HEM:
                continue
            normal, foot = edge.normals[0], edge.points[0]
            beside = [piece.edges[place - 1].treatment, piece.edges[(place + 1) % count].treatment]
            cut = cuts[edge.name, edge.start]
            depth = (cut - foot) @ normal
            for end, treatment in zip((cut[: len(cut) // 2], cut[len(cut) // 2 :]), beside, strict=True):
                if treatment is not Treatment.CHANNEL:
                    continue
                for point in end:
                    out = float((point - foot) @ normal)
                    once = out if out <= edge.fold else 2 * edge.fold - out  # turned in at the second fold
                    if once < 0:
                        continue  # what a hot knife melts
                    lies = point - (out + once) * normal  # and at the finished edge
                    assert min(side.distance(shapely.Point(lies)) for side in sides) < 0.02 * MM
                    checked += 1
            assert depth.max() == pytest.approx(edge.allowance, abs=1e-9)
    assert checked or not any(e.treatment is Treatment.HEM for p in drafts[name].list_panels(BODY) for e in p.edges)


@pytest.mark.parametrize("name", NAMES)
def test_joins_fit_between_every_two_marks(drafts, name):
    for join in drafts[name].joins:
        assert max(map(abs, join.list_misfits(drafts[name].pieces))) < 0.01 * MM
        first, second = join.measure(drafts[name].pieces)
        assert first - second - join.ease == pytest.approx(0.0, abs=0.01 * MM)


@pytest.mark.parametrize("name", ["heron_ford", "otter_creek", "strip folded once"])
def test_a_strip_is_as_long_as_the_middle_of_its_channel(drafts, designs, name):
    design = designs[name]
    edge, width = draw_outline(design.hammock.body).left, design.workmanship.fold.width
    ends = [atan(float(edge.curve.slope(np.array(x)))) for x in (0.0, edge.span)]
    (strip,) = drafts[name].list_panels("channel strip")
    assert strip.size[0] - 2 * 0.03 == pytest.approx(edge.length + width / 2 * (ends[1] - ends[0]), abs=0.02 * MM)
    assert strip.size[1] == pytest.approx(design.workmanship.fold.strip.width)
    assert (strip.count, strip.mirrored) == (1, 1)


def test_the_edge_of_a_known_channel_grows_by_one_per_cent(drafts):
    """18 mm beyond the edge laid 18 mm inside it over a turning of 31.88 deg: 20 mm of 2.119 m."""
    (join,) = [join for join in drafts["heron_ford"].joins if join.name == "left channel"]
    first, second = join.measure(drafts["heron_ford"].pieces)
    assert (first, second) == pytest.approx((2.1186, 2.1386), abs=0.1 * MM)


@pytest.mark.parametrize("name", NAMES)
def test_every_mark_of_a_join_is_on_both_pieces(drafts, name):
    """A notch on the cut, or a cross where the mate is inside or at a corner; each as far along as the join says."""
    draft = drafts[name]
    for join in draft.joins:
        for side, line in enumerate((join.first, join.second)):
            panels = draft.list_panels(line.part)
            for match in join.matches:
                found = [
                    e
                    for p in panels
                    for e in p.edges
                    if e.name == line.edge and e.start - 1e-9 <= match[side] <= e.end + 1e-9
                ]
                inside = join.is_turned and side == 1
                at = found[0].locate(match[side], line.outward if inside else 0.0)
                sides = [
                    e.allowance for p in panels for e in p.edges if np.hypot(*(e.points[[0, -1]] - at).T).min() < 1e-6
                ]
                if min(sides, default=0.0) < 0:
                    continue  # the cloth ends short of this corner
                marks = [
                    n.point - found[0].allowance * -n.inward for p in panels for n in p.notches if n.edge == line.edge
                ]
                crosses = [mark.point for p in panels for mark in p.drills]
                assert min(np.hypot(*(mark - at)) for mark in [*marks, *crosses]) < 1e-6


@pytest.mark.parametrize("name", NAMES)
def test_notches_stand_on_the_cut_and_close_enough(drafts, designs, name):
    most = designs[name].workmanship.cutting.notch_spacing
    for piece in drafts[name].pieces:
        ring = shapely.Polygon(piece.boundary).exterior
        assert all(ring.distance(shapely.Point(notch.point)) < 1e-9 for notch in piece.notches)
        assert all(
            shapely.Polygon(piece.boundary).buffer(1e-9).contains(shapely.Point(mark.point)) for mark in piece.drills
        )
    for join in drafts[name].joins:
        assert all(abs(b.second - a.second) <= most + 1e-9 for a, b in itertools.pairwise(join.matches))


@pytest.mark.parametrize("name", NAMES)
def test_guides_stay_on_the_cloth(drafts, name):
    for piece in drafts[name].pieces:
        cut = shapely.Polygon(piece.boundary).buffer(1e-6)
        assert all(cut.contains(shapely.LineString(guide.points)) for guide in piece.guides)


@pytest.mark.parametrize("name", NAMES)
def test_even_pieces_mirror_themselves(drafts, designs, name):
    for piece in drafts[name].pieces:
        mirrored = shapely.Polygon(piece.boundary * [1.0, -1.0])
        same = mirrored.symmetric_difference(shapely.Polygon(piece.boundary)).area < 1e-12
        assert not piece.even or same
        assert piece.count == (1 if "strip" in piece.name else designs[name].hammock.body.layers)
    assert drafts["heron_ford"].pieces[0].even
    assert not any(piece.even for piece in drafts["uneven"].pieces)


@pytest.mark.parametrize("name", ["narrow cloth", "uneven", "across the warp"])
def test_a_wide_body_is_seamed_along_the_warp_away_from_the_corners(drafts, designs, name):
    design, panels = designs[name], drafts[name].list_panels(BODY)
    grain, width = design.hammock.body.grain, design.workmanship.cutting.cloth_width
    across = np.array([-np.sin(grain), np.cos(grain)])
    whole = shapely.union_all([shapely.Polygon(piece.outline) for piece in panels])
    assert len(panels) > 1
    assert whole.area == pytest.approx(sum(piece.finished_area for piece in panels), rel=1e-9)
    corners = [p for piece in panels for edge in piece.edges if edge.name.endswith("end") for p in edge.points]
    outer = shapely.MultiPoint(whole.minimum_rotated_rectangle.exterior.coords)
    for piece in panels:
        assert np.ptp(piece.boundary @ across) <= width + 1e-9
        for edge in piece.edges:
            if edge.name.startswith("seam"):
                assert abs((edge.points[1] - edge.points[0]) @ across) < 1e-9
                for corner in (point for point in corners if outer.distance(shapely.Point(point)) < 1e-3):
                    assert abs((corner - edge.points[0]) @ across) >= FROM_CORNER - 1e-6


def test_seams_lie_where_a_pull_that_is_given_is_least(tmp_path):
    design = read_design(write_design(tmp_path, "narrow cloth"))

    def pull(points):
        return np.where(points[:, 1] > 0, 1.0, 100.0)

    def mirrored(points):
        return pull(points * [1.0, -1.0])

    for given, sign in ((pull, 1.0), (mirrored, -1.0)):
        panels = draft_pieces(design, given).list_panels(BODY)
        seams = [edge for piece in panels for edge in piece.edges if edge.name.startswith("seam")]
        assert all(sign * edge.points[0, 1] > 0.2 for edge in seams)


def test_what_a_knife_melts_is_cut_beyond(drafts, designs, tmp_path):
    (tmp_path / "cold.toml").write_text(
        change(TEXTS["cut hot"], ("hot_cut = true", "hot_cut = false")), encoding="utf-8"
    )
    cold = draft_pieces(read_design(tmp_path / "cold.toml"))
    for hot, usual in zip(drafts["cut hot"].pieces[0].edges, cold.pieces[0].edges, strict=True):
        assert hot.allowance == pytest.approx(usual.allowance + 2 * MM)


def test_a_body_ends_short_inside_a_strip_folded_once(drafts, designs):
    design = designs["strip folded once"]
    section = cut_fold(design.workmanship.fold, 1, design.hammock.channel.cord.diameter)
    piece = drafts["strip folded once"].pieces[0]
    assert section.body_allowance < 0
    assert piece.edges[0].allowance == pytest.approx(section.body_allowance)
    assert piece.measure_allowances(Treatment.CHANNEL) < 0
    assert not any(join.is_turned for join in drafts["strip folded once"].joins)


def test_a_straight_side_turns_nowhere(tmp_path):
    text = change(TEXTS["heron_ford"], ('depth = "15 cm"', 'depth = "0 cm"'))
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    draft = draft_pieces(read_design(tmp_path / "a.toml"))
    assert all(join.ease == pytest.approx(0.0, abs=1e-12) for join in draft.joins)
    slope = 0.04 / 2.10
    assert measure_edge(draft, "left") == pytest.approx(2.10 / cos(atan(slope)), abs=1e-9)


def test_a_body_without_arcs_in_panels_has_simple_cuts(tmp_path):
    """Many points on straight lines: pieces of one line that go on from each other do not cross."""
    text = change(
        TEXTS["cut hot"], ('depth = "17 cm"', 'depth = "0 cm"'), ('head_width = "1.20 m"', 'head_width = "2.49 m"')
    )
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    pattern = draft_pattern(read_design(tmp_path / "a.toml"))
    assert len(pattern.draft.list_panels(BODY)) == 2
    assert all(shapely.Polygon(piece.boundary).is_valid for piece in pattern.pieces)


@pytest.mark.parametrize("name", NAMES)
def test_the_arrow_lies_along_the_warp_inside_its_piece(drafts, name):
    for piece in drafts[name].pieces:
        arrow, *_ = [stroke for stroke in draw_piece(piece, str).strokes if stroke.kind is LineKind.GRAIN]
        start, end = arrow.points
        assert shapely.Polygon(piece.outline).buffer(1e-9).contains(shapely.LineString(arrow.points))
        assert np.arctan2(*(end - start)[::-1]) == pytest.approx(piece.grain, abs=1e-9)
        assert np.hypot(*(end - start)) > 0.1


@pytest.mark.parametrize("name", NAMES)
def test_no_line_lies_on_another_but_the_arrow_on_the_middle(drafts, name):
    """Where a cutter or a laser would go twice, and dashes of two lines look like one that is whole."""
    kinds = (LineKind.CUT, LineKind.SEW, LineKind.FOLD, LineKind.PLACE)
    for piece in drafts[name].pieces:
        paths = [stroke.path for stroke in draw_piece(piece, str).strokes if stroke.kind in kinds]
        for first, second in itertools.combinations(map(shapely.LineString, paths), 2):
            assert first.intersection(second.buffer(1e-6)).length < 1 * MM


@pytest.mark.parametrize("name", NAMES)
def test_the_fold_of_a_half_runs_from_cut_to_cut(drafts, name):
    for piece in drafts[name].pieces:
        if piece.even:
            strokes = draw_piece(piece, str).halve().strokes
            flat = [
                stroke for stroke in strokes if not np.ptp(stroke.points[:, 1]) and stroke.kind is not LineKind.GRAIN
            ]
            (fold,) = [stroke for stroke in flat if not stroke.points[0, 1] and stroke.kind is not LineKind.NOTCH]
            assert fold.kind is LineKind.FOLD
            low, high = np.sort(fold.points[:, 0])
            axis = shapely.LineString([[low - 1.0, 0.0], [high + 1.0, 0.0]])
            inside = shapely.Polygon(piece.boundary).intersection(axis)
            assert inside.bounds == pytest.approx((low, 0.0, high, 0.0), abs=1e-9)
