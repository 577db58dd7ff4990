"""Cloth beyond a bar that is set in: laid flat against its shape in space, one way of making it against the other."""

from math import acos, degrees, dist, hypot, pi, sqrt

import numpy as np
import pytest
import shapely

from tautlay.cases import DesignError, draft_pattern, read_design, weigh_design
from tautlay.cutting import BODY, Treatment, draft_pieces
from tautlay.hammock.cone import draw_cone, estimate_trough
from tautlay.hammock.facet import list_darts, list_facets

from .._patterns import TEXTS, change

MM = 1e-3
FOOT, INCH = 0.3048, 0.0254  # exact, NIST SP 811 B.8
HERON = TEXTS["heron_ford"]


def read_text(folder, text):
    (folder / "a.toml").write_text(text, encoding="utf-8")
    return read_design(folder / "a.toml")


def make_runs_on(text):
    return text.replace('made = "sewn on"', 'made = "runs on"')


def find_edge(piece, name):
    parts = sorted((edge for edge in piece.edges if edge.name == name), key=lambda edge: edge.start)
    return np.concatenate([edge.points for edge in parts])


@pytest.fixture(scope="module")
def heron(tmp_path_factory):
    return read_text(tmp_path_factory.mktemp("sewn"), HERON)


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    return read_text(tmp_path_factory.mktemp("runs"), make_runs_on(HERON))


def test_opening_of_nine_inches_in_an_extension_of_a_foot(tmp_path):
    """Common practice, no source: the seam left open for nine inches at each corner, the extension one foot long."""
    text = change(HERON, ('set_in = "20 cm"', 'set_in = "1 ft"'), ('opening = "20 cm"', 'opening = "9 in"'))
    design = read_text(tmp_path, text)
    draft = draft_pieces(design)
    (sheet,) = draft.list_panels("head extension")
    (seam,) = (join for join in draft.joins if join.name == "head extension")
    assert seam.measure(draft.pieces) == pytest.approx([1.22 - 18 * INCH] * 2, abs=MM)
    reach = sqrt(0.70**2 - 0.45**2)
    length, room = 0.70 * FOOT / reach, 0.05
    for side in ("left side", "right side"):
        (edge,) = (edge for edge in sheet.edges if edge.name == side)
        assert edge.length == pytest.approx(length - room, abs=0.01 * MM)
    (triangle,) = draft.list_panels("head closing triangle")
    assert triangle.number == 2
    assert [edge.length for edge in triangle.edges][::2] == pytest.approx([9 * INCH, room], abs=0.01 * MM)
    # on the flat cone, a corner of about a right angle
    assert 0.2 < [edge.length for edge in triangle.edges][1] < hypot(9 * INCH, room)


@pytest.mark.parametrize("place", [0, 1])
def test_trough_is_as_long_as_the_cloth_is_wide_and_ends_on_the_bar(heron, place):
    end = heron.hammock.ends[place]
    trough = estimate_trough(end)
    steps = np.linalg.norm(np.diff(trough.points, axis=0), axis=1)
    assert steps.sum() == pytest.approx(end.width, abs=0.05 * MM)
    assert trough.points[[0, -1], 1] == pytest.approx([-end.bar.length / 2, end.bar.length / 2], abs=1e-9)
    legs = [dist(trough.apex, trough.points[corner]) for corner in (0, -1)]
    assert legs == pytest.approx([end.leg_length] * 2, abs=1e-9)


@pytest.mark.parametrize("place", [0, 1])
def test_cone_folded_back_lies_on_legs_and_trough(heron, place):
    """From the flat piece alone: where its sides meet is the apex; distances from there, and lengths along the edge."""
    end = heron.hammock.ends[place]
    (sheet,) = draft_pieces(heron).list_panels(f"{end.name} extension")
    sides = [find_edge(sheet, f"{side} side") for side in ("right", "left")]
    ways = [side[1] - side[0] for side in sides]
    share = np.linalg.solve(np.stack([ways[0], -ways[1]], -1), sides[1][0] - sides[0][0])
    apex = sides[0][0] + share[0] * ways[0]
    trough = estimate_trough(end)
    (sewn,) = (edge for edge in sheet.edges if edge.name == "sewn edge")
    points = sewn.points if end.name == "head" else sewn.points[::-1]
    along = sewn.start + np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    for at, point in zip(along, points, strict=True):
        space = np.array([np.interp(at, trough.along, column) for column in trough.points.T])
        assert dist(point, apex) == pytest.approx(dist(space, trough.apex), abs=0.05 * MM)
    # folded back, the far edge is the trough scaled towards the apex, and its ends lie on the legs
    scale = 1 - end.bar.set_in / sqrt(end.leg_length**2 - end.bar.length**2 / 4)
    far = find_edge(sheet, "far edge")
    assert np.hypot(*np.diff(far, axis=0).T).sum() == pytest.approx(scale * end.width, abs=0.05 * MM)
    for corner in far[[0, -1]]:
        assert dist(corner, apex) == pytest.approx(scale * end.leg_length, abs=0.01 * MM)


def test_area_is_that_of_the_cone(heron):
    """A fan of triangles in space from the apex to the trough, less the open corners."""
    for end in heron.hammock.ends:
        cone, extension = draw_cone(end), end.bar.extension
        rays = estimate_trough(end).points - estimate_trough(end).apex
        whole = np.linalg.norm(np.cross(rays[:-1], rays[1:]), axis=1).sum() / 2 * (1 - cone.scale**2)
        corners = extension.opening * extension.corner_room * np.sin(cone.corner_angles).sum() / 2
        (sheet,) = draft_pieces(heron).list_panels(f"{end.name} extension")
        assert sheet.finished_area == pytest.approx(whole - corners, rel=2e-3)
        (part,) = (w for w in weigh_design(heron).weights if w.part == f"{end.name} extension")
        assert part.amount.value == pytest.approx(sheet.finished_area, rel=1e-9)


@pytest.mark.parametrize("darts", [2, 3, 5])
def test_running_on_has_the_far_edge_of_sewing_on(heron, tmp_path, darts):
    design = read_text(tmp_path, make_runs_on(HERON).replace("close = true", f"close = true\ndarts = {darts}"))
    (body,) = draft_pieces(design).list_panels(BODY)
    for end, sewn in zip(design.hammock.ends, heron.hammock.ends, strict=True):
        parts = [edge for edge in body.edges if edge.name == f"{end.name} far edge"]
        (sheet,) = draft_pieces(heron).list_panels(f"{end.name} extension")
        far = find_edge(sheet, "far edge")
        assert sum(edge.length for edge in parts) == pytest.approx(
            np.hypot(*np.diff(far, axis=0).T).sum(), abs=0.2 * MM
        )
        assert len(parts) == darts + 1
        cone = draw_cone(sewn)
        for name in (f"{end.name} left side", f"{end.name} right side"):
            (edge,) = (edge for edge in body.edges if edge.name == name)
            assert edge.length == pytest.approx(cone.side - end.bar.extension.corner_room, abs=0.01 * MM)


@pytest.mark.parametrize("darts", [2, 3, 5])
def test_darts_close(heron, tmp_path, darts):
    """Both edges of one length; the far edge, folded shut, turns by less than a degree; all of them take in K."""
    text = make_runs_on(HERON).replace("close = true", f"close = true\ndarts = {darts}")
    (body,) = draft_pieces(read_text(tmp_path, text)).list_panels(BODY)
    for end in heron.hammock.ends:
        edges = {edge.name: edge for edge in body.edges}
        far = sorted((e for e in body.edges if e.name == f"{end.name} far edge"), key=lambda edge: edge.start)
        for number in range(1, darts + 1):
            a, b = (edges[f"{end.name} dart {number} {each}"] for each in "ab")
            assert a.length == pytest.approx(b.length, abs=0.05 * MM)
            before, after = far[number - 1].normals[-1], far[number].normals[0]
            along = [np.array([y, -x]) for x, y in (before, -after)]  # from the dart along the far edge, on either side
            inside = [
                acos(way @ side / hypot(*side))
                for way, side in zip(along, (a.points[1] - a.points[0], b.points[0] - b.points[1]), strict=True)
            ]
            assert degrees(abs(sum(inside) - pi)) < 1.0
        cone = draw_cone(end)
        assert sum(list_darts(list_facets(cone, darts))) == pytest.approx(cone.turning, rel=0.1)


def test_cap_closes_what_the_far_edge_leaves(heron, tmp_path):
    """Two straight edges as long as the far edge over the chord between the legs: depth k sqrt(W2 - B2) / 2."""
    reach = sqrt(0.70**2 - 0.45**2)
    scale = 1 - 0.20 / reach
    (cap,) = draft_pieces(heron).list_panels("head end cap")
    (top,) = (edge for edge in cap.edges if edge.name == "top edge")
    assert top.length == pytest.approx(scale * 0.90, abs=0.01 * MM)
    assert np.ptp(cap.outline[:, 0]) == pytest.approx(scale * sqrt(1.22**2 - 0.90**2) / 2, abs=0.01 * MM)
    shaped = read_text(tmp_path, HERON.replace('cap = "two edges"', 'cap = "shaped"'))
    (cap,) = draft_pieces(shaped).list_panels("head end cap")
    lower = find_edge(cap, "lower edge")
    assert np.hypot(*np.diff(lower, axis=0).T).sum() == pytest.approx(scale * 1.22, abs=0.1 * MM)
    assert lower[[0, -1], 1] == pytest.approx([-scale * 0.45, scale * 0.45], abs=0.01 * MM)


@pytest.mark.parametrize("make", [str, make_runs_on])
def test_every_piece_beyond_a_bar_is_sewn_all_round_or_hemmed(tmp_path, make):
    """Every edge that is a seam has a join over its whole length; nothing else has one but openings."""
    draft = draft_pieces(read_text(tmp_path, make(HERON)))
    for piece in draft.pieces:
        if piece.name.endswith("strip"):
            continue
        for edge in piece.edges:
            lines = [
                sorted(match[side] for match in join.matches)
                for join in draft.joins
                for side, line in enumerate((join.first, join.second))
                if (line.part, line.edge) == (piece.part, edge.name)
            ]
            covered = sum(max(0.0, min(marks[-1], edge.end) - max(marks[0], edge.start)) for marks in lines)
            sides = 2 if piece.name.endswith("triangle") else 1  # of both corners
            if edge.treatment is Treatment.SEAM:
                assert covered == pytest.approx(sides * edge.length, abs=0.1 * MM), (piece.name, edge.name)
            elif edge.treatment is Treatment.HEM and "opening" not in edge.name and not edge.name.endswith("end"):
                assert covered == 0.0


def test_pattern_with_extensions_takes_less_than_a_second(running):
    from time import process_time

    start = process_time()
    pattern = draft_pattern(running)
    assert process_time() - start < 1.0
    for piece in pattern.pieces:
        assert shapely.Polygon(piece.boundary).is_valid


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ([('opening = "20 cm"', 'opening = "60 cm"')], "leave nothing to sew: the head bar is 90.00 cm"),
        ([('corner_room = "5 cm"', 'corner_room = "40 cm"')], "too short for the 40.0 cm"),
        ([('cap = "two edges"', 'cap = "flounce"')], "unknown value 'flounce'"),
        ([('cap = "two edges"', "darts = 2")], "has no effect on an extension that is sewn on"),
        ([('opening = "20 cm"', "")], "corner_room has no effect without an opening"),
        ([('set_in = "20 cm"', "")], "has no effect: the head bar is not set in"),
        ([('made = "sewn on"', 'made = "runs on"\ndarts = 1')], "more than its edges of"),
        ([('made = "sewn on"', 'made = "runs on"\ndarts = 0')], "darts"),
        ([('made = "sewn on"', 'made = "runs on"\ndarts = 99')], "darts"),
    ],
)
def test_what_cannot_be_sewn_is_one_sentence(tmp_path, changes, said):
    with pytest.raises(DesignError) as caught:
        read_text(tmp_path, change(HERON, *changes))
    assert said in str(caught.value)
    assert all("Traceback" not in line for line in str(caught.value).splitlines())


def test_a_bent_far_edge_without_a_cap_is_said_to_be_hard_to_hem(heron, tmp_path):
    said = [note.sentence for note in draft_pattern(heron).check()]
    assert not any("far edge" in sentence for sentence in said)
    bare = draft_pattern(read_text(tmp_path, HERON.replace('cap = "two edges"', 'cap = "none"')))
    notes = [note for note in bare.check() if "far edge of the" in note.sentence]
    assert len(notes) == 2
    assert all("tape cut on the bias" in note.sentence and not note.fails for note in notes)
