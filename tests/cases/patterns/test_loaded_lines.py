"""Cloth beyond a bar cut to the solved line under it: the DXF, folded back into space, against the solved shape."""

from dataclasses import replace
from functools import cache
from math import acos, degrees, pi, sqrt

import ezdxf
import numpy as np
import pytest
import shapely

from tautlay.cases import draft_pattern, read_design, solve_case
from tautlay.cases.patterns.pattern_error import PatternError
from tautlay.cutting import BODY, draft_pieces
from tautlay.cutting.drawing.dxf import write_dxf
from tautlay.cutting.piece_drawing import draw_piece
from tautlay.hammock.extension import ExtensionMake

from ..._patterns import TEXTS, change

MM = 1e-3
DESIGNS = {
    "heron_ford": TEXTS["heron_ford"],
    "otter_creek": change(TEXTS["otter_creek"], ('made = "runs on"\ndarts = 3', 'made = "sewn on"')),
    "uneven": TEXTS["sewn on"],  # grain 30 deg, two layers, unlike arcs; open corners at the head alone
}


NAMED = ["heron_ford", *(pytest.param(name, marks=pytest.mark.slow) for name in ("otter_creek", "uneven"))]


@pytest.fixture(scope="module")
def solved(tmp_path_factory):
    folder = tmp_path_factory.mktemp("designs")

    @cache
    def find(name):
        """Return design and result, and folders with the DXF cut to its line and to an estimate."""
        (folder / f"{name}.toml").write_text(DESIGNS[name], encoding="utf-8")
        design = read_design(folder / f"{name}.toml")
        result = solve_case(design, mesh_size=0.05, hot_spots=False)
        places = folder / name, folder / f"{name} estimated"
        for place, given in zip(places, (result, None), strict=True):
            drawings = [draw_piece(piece, str) for piece in draft_pattern(design, given).pieces]
            place.mkdir()
            (place / "pieces.dxf").write_bytes(write_dxf(drawings, []))
        return design, result, *places

    return find


def read_sheet(folder, end):
    """Return the sewing lines of an extension in the DXF, m, from the right: sewn edge, far edge, both sides."""
    lines = []
    for entity in ezdxf.readfile(folder / "pieces.dxf").blocks.get(f"{end}_extension").query('*[layer=="14"]'):
        vertices = entity.vertices if entity.dxftype() == "POLYLINE" else (entity.dxf.start, entity.dxf.end)
        points = [vertex.dxf.location if entity.dxftype() == "POLYLINE" else vertex for vertex in vertices]
        line = np.array([tuple(point)[:2] for point in points]) * [MM if end == "head" else -MM, MM]
        lines.append(line[np.argsort(line[:, 1])])
    far, sewn = sorted((line for line in lines if len(line) > 2), key=lambda line: line[:, 0].min())
    sides = [
        next(line for line in lines if len(line) == 2 and np.hypot(*(line - corner).T).min() < 1e-6)
        for corner in far[[0, -1]]
    ]
    return sewn, far, sides


def find_apex(sides):
    """Return where the lines of both sides meet."""
    ways = [side[1] - side[0] for side in sides]
    share = np.linalg.solve(np.stack([ways[0], -ways[1]], -1), sides[1][0] - sides[0][0])
    return sides[0][0] + share[0] * ways[0]


def read_space(result, end):
    """Return from the right, m: the end of the body in space and how far along it is cut; the apex; both legs."""
    places, nodes = result.state.positions, result.model.nodes
    edge = nodes[f"{end} edge"]
    edge = edge[np.argsort(result.model.mesh.points[edge, 1])]
    cut = result.model.mesh.points[edge, 1]
    legs = [places[nodes[f"{end} {side} leg"]] for side in ("right", "left")]
    return places[edge], cut - cut[0], places[nodes[f"{end} apex"][0]], legs


def measure_along(line):
    return np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])


def measure_gap(line, point):
    """Return how far a point is from a line of straight pieces in space."""
    starts, ways = line[:-1], np.diff(line, axis=0)
    share = np.clip(((point - starts) * ways).sum(axis=1) / (ways**2).sum(axis=1), 0.0, 1.0)
    return np.linalg.norm(starts + share[:, None] * ways - point, axis=1).min()


def list_ends(design):
    return [end for end in design.hammock.ends if end.bar.set_in > 0]


def lay_nodes(sheet, cut, opening):
    """Return which nodes of the body's end are sewn to a flat extension, and where they lie seen from its apex, m."""
    sewn, _, sides = sheet
    along = opening + measure_along(sewn)
    inside = (cut > along[0] - 1e-9) & (cut < along[-1] + 0.01 * MM)  # chords are that much shorter than the curve
    flat = np.stack([np.interp(cut[inside], along, column) for column in (sewn - find_apex(sides)).T], -1)
    return inside, flat


@pytest.mark.parametrize("name", NAMED)
def test_folded_back_it_lies_on_legs_and_trough(solved, name):
    """Each point of the sewn edge on the ray from the apex through the cloth it is sewn to, the sides on the legs.

    So folded, neighbours are as far apart as on the flat piece but for the strain of the cloth between them.
    """
    design, result, folder, estimated = solved(name)
    for end in list_ends(design):
        trough, cut, apex, legs = read_space(result, end.name)
        sheet, opening = read_sheet(folder, end.name), end.bar.extension.opening
        inside, flat = lay_nodes(sheet, cut, opening)
        rays, lengths = trough[inside] - apex, np.hypot(*flat.T)
        reach = np.linalg.norm(rays, axis=1)
        folded = apex + rays * (lengths / reach)[:, None]
        assert np.linalg.norm(folded - trough[inside], axis=1).max() < 0.5 * MM
        steps, as_cut = (np.linalg.norm(np.diff(points, axis=0), axis=1) for points in (folded, flat))
        strain = np.linalg.norm(np.diff(trough[inside], axis=0), axis=1) / np.diff(cut[inside]) - 1
        assert (np.abs(steps - as_cut) < 0.5 * MM + np.abs(strain) * as_cut).all()
        for side, leg in zip(sheet[2], legs, strict=True):
            way = (leg[0] - apex) / np.linalg.norm(leg[0] - apex)
            bent = np.linalg.norm(np.cross(leg - apex, way), axis=1).max()
            assert bent < (0.1 if design.hammock.body.is_even else 5.0) * MM  # cloth on the bias pulls a leg aside
            away = np.hypot(*(side - find_apex(sheet[2])).T)
            assert all(measure_gap(leg, apex + each * way) < 0.5 * MM + bent for each in away)
            # where the far corner is held on the leg
            assert away.min() == pytest.approx(np.linalg.norm(leg[-2] - apex), abs=0.5 * MM)
        _, off = lay_nodes(read_sheet(estimated, end.name), cut, opening)
        assert np.abs(np.hypot(*off.T) - reach).max() > 1.5 * MM  # an estimate misses it by thrice what is allowed


@pytest.mark.parametrize("name", NAMED)
def test_far_edge_is_the_sewn_edge_scaled_towards_the_apex(solved, name):
    design, _, folder, _ = solved(name)
    for end in list_ends(design):
        sewn, far, sides = read_sheet(folder, end.name)
        apex, scale = find_apex(sides), 1 - end.bar.set_in / sqrt(end.leg_length**2 - end.bar.length**2 / 4)
        line = shapely.LineString(far - apex)
        assert max(line.distance(shapely.Point(scale * point)) for point in sewn - apex) < 0.01 * MM
        assert measure_along(far)[-1] == pytest.approx(scale * end.width, abs=0.05 * MM)


@pytest.mark.parametrize("name", NAMED)
def test_what_is_cut_to_a_solved_line_fits_and_is_what_is_weighed(solved, name):
    design, result, _, _ = solved(name)
    pattern = draft_pattern(design, result)
    assert not any(note.fails for note in pattern.check())
    assert all(max(map(abs, join.list_misfits(pattern.pieces))) < 0.01 * MM for join in pattern.joins)
    for fabric in {piece.fabric for piece in pattern.pieces}:
        cut = sum(shapely.Polygon(p.boundary).area * p.number for p in pattern.pieces if p.fabric == fabric)
        weighed = sum(weight.mass for weight in pattern.scales.weights if weight.material == fabric.name)
        assert cut * fabric.areal_mass == pytest.approx(weighed, rel=1e-3)


def run_on(hammock, darts):
    """Return a hammock whose extensions run on instead of being sewn on, cut to the same lines."""
    bars = {}
    for end in hammock.ends:
        extension = replace(end.bar.extension, made=ExtensionMake.RUNS_ON, darts=darts)
        bars[f"{end.name}_bar"] = replace(end.bar, extension=extension)
    return replace(hammock, **bars)


@pytest.mark.parametrize("darts", [3, 5])
@pytest.mark.parametrize("name", NAMED[:2])
def test_sewn_on_and_running_on_have_one_far_edge(solved, name, darts):
    """Cut to one solved line: sides alike; the far edge as long from dart to dart, and as far from end to end there."""
    design, result, _, _ = solved(name)
    sewn = draft_pattern(design, result)
    running = draft_pieces(replace(sewn.design, hammock=run_on(sewn.design.hammock, darts)))
    (body,) = running.list_panels(BODY)
    for end in list_ends(design):
        (sheet,) = sewn.draft.list_panels(f"{end.name} extension")
        (far,) = (edge for edge in sheet.edges if edge.name == "far edge")
        parts = sorted((e for e in body.edges if e.name == f"{end.name} far edge"), key=lambda edge: edge.start)
        assert len(parts) == darts + 1
        assert parts[-1].end == pytest.approx(far.length, abs=0.5 * MM)
        for part in parts:
            places = [np.clip(at * far.length / parts[-1].end, 0.0, far.length) for at in (part.start, part.end)]
            chord = np.hypot(*(far.locate(places[1], 0.0) - far.locate(places[0], 0.0)))
            assert np.hypot(*(part.points[-1] - part.points[0])) == pytest.approx(chord, abs=0.5 * MM)
        edges = {edge.name: edge for edge in body.edges}
        for number in range(1, darts + 1):
            a, b = (edges[f"{end.name} dart {number} {each}"] for each in "ab")
            assert a.length == pytest.approx(b.length, abs=0.05 * MM)
            before, after = parts[number - 1].normals[-1], parts[number].normals[0]
            along = [np.array([y, -x]) for x, y in (before, -after)]  # from the dart along the far edge, on either side
            ways = [a.points[1] - a.points[0], b.points[0] - b.points[1]]
            inside = [acos(w @ side / np.hypot(*side)) for w, side in zip(along, ways, strict=True)]
            assert degrees(abs(sum(inside) - pi)) < 1.0  # folded shut it runs on smoothly
        for side in ("left", "right"):
            lengths = [
                next(edge.length for edge in piece.edges if edge.name == name)
                for piece, name in ((sheet, f"{side} side"), (body, f"{end.name} {side} side"))
            ]
            assert lengths[0] == pytest.approx(lengths[1], abs=0.01 * MM)


@pytest.mark.slow
def test_unlike_halves_have_unlike_triangles_that_fit(solved):
    """Of an uneven body: each with its name, its corner where body and leg meet, as long as both sides it closes."""
    design, result, _, _ = solved("uneven")
    draft = draft_pattern(design, result).draft
    ((right, left),) = [[draft.list_panels(f"head {side} closing triangle")[0] for side in ("right", "left")]]
    assert (right.number, right.mirrored, left.number, left.mirrored) == (2, 0, 2, 0)  # two layers
    spans = [{edge.name: edge.length for edge in piece.edges} for piece in (right, left)]
    assert abs(spans[0]["side on the extension"] - spans[1]["side on the extension"]) > 0.1 * MM
    for piece, side in ((right, "right"), (left, "left")):
        (corner,) = {tuple(np.round(edge.points[0], 9)) for edge in piece.edges} & {(0.0, 0.0)}
        (join,) = (join for join in draft.joins if join.name == f"head {side} triangle to body")
        for match in (join.matches[0], join.matches[-1]):
            own, body = (locate(draft, line, at) for line, at in zip((join.first, join.second), match, strict=False))
            at_corner = np.hypot(*(body - draft_corner(design, side))) < 1e-9
            assert at_corner == (np.hypot(*(own - corner)) < 1e-9)
        (join,) = (join for join in draft.joins if join.name == f"head {side} triangle to extension")
        for match in (join.matches[0], join.matches[-1]):
            own, sheet = (locate(draft, line, at) for line, at in zip((join.first, join.second), match, strict=False))
            on_leg = np.hypot(*own) == pytest.approx(design.hammock.head_bar.extension.corner_room, abs=1e-9)
            (edge,) = (e for p in draft.list_panels("head extension") for e in p.edges if e.name == f"{side} side")
            assert on_leg == (np.hypot(*(edge.points - sheet).T).min() < 1e-9)


def draft_corner(design, side):
    """Return where a corner of the body lies at the head."""
    return np.array([0.0, design.hammock.body.head_width / 2 * (1 if side == "left" else -1)])


def locate(draft, line, distance):
    """Return where a distance along an edge lies on its piece."""
    edges = [e for piece in draft.list_panels(line.part) for e in piece.edges if e.name == line.edge]
    (edge, *_) = [e for e in edges if e.start - 1e-9 <= distance <= e.end + 1e-9]
    return edge.locate(distance, 0.0)


@pytest.mark.slow
def test_darts_that_a_solved_line_leaves_no_room_for_are_a_sentence_that_names_the_estimate(tmp_path):
    """Of two layers cut at 30 deg the solved line turns most beside an opening: a dart would stand in it."""
    (tmp_path / "a.toml").write_text(TEXTS["runs on"], encoding="utf-8")
    design = read_design(tmp_path / "a.toml")
    draft_pattern(design)
    with pytest.raises(PatternError, match=r"run into the darts of the head extension.* With --estimate, or without"):
        draft_pattern(design, solve_case(design, mesh_size=0.08, hot_spots=False))
