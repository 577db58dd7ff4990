"""The files of a pattern, read by libraries that know nothing of what wrote them."""

import csv
import json
import xml.etree.ElementTree as ET
from math import hypot

import numpy as np
import pyogrio
import pypdf
import pytest
import shapely
from scipy.integrate import quad

from tautlay.cases import weigh_design
from tautlay.cutting import BODY
from tautlay.cutting.drawing.paper import find_paper
from tautlay.hammock.extension_areas import measure_extension
from tautlay.hammock.outline import draw_outline

from ..._patterns import NAMES

MM = 1e-3
POINT = 25.4 / 72  # mm
FILES = {"pieces.dxf", "pieces.svg", "whole.pdf", "sheets.pdf", "lay.svg", "cut_list.csv", "pattern.json"}


def open_dxf(folder):
    """Return document and auditor of the DXF."""
    import ezdxf

    document = ezdxf.readfile(folder / "pieces.dxf")
    return document, document.audit()


def read_lines(block, layer):
    """Return the lines of a layer of a block, mm, and whether each is closed."""
    found = []
    for entity in block:
        if entity.dxf.layer != layer:
            continue
        if entity.dxftype() == "POLYLINE":
            found.append((np.array([tuple(v.dxf.location)[:2] for v in entity.vertices]), entity.is_closed))
        elif entity.dxftype() == "LINE":
            found.append((np.array([tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]]), False))
    return found


def read_points(block, layer):
    return np.array(
        [tuple(e.dxf.location)[:2] for e in block if e.dxf.layer == layer and e.dxftype() == "POINT"]
    ).reshape(-1, 2)


def measure(line):
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


@pytest.fixture(params=NAMES)
def name(request):
    return request.param


@pytest.mark.filterwarnings("ignore::DeprecationWarning")
def test_dxf_has_one_closed_simple_block_a_piece(folders, patterns, name):
    document, auditor = open_dxf(folders[name])
    assert auditor.errors == []
    assert document.dxfversion == "AC1009"
    assert document.header["$INSUNITS"] == 4  # mm
    blocks = [block for block in document.blocks if not block.name.startswith("*")]
    assert [block.name for block in blocks] == [piece.name.replace(" ", "_") for piece in patterns[name].pieces]
    assert blocks[0].name == "body"
    inserted = [entity.dxf.name for entity in document.modelspace().query("INSERT")]
    assert sorted(inserted) == sorted(block.name for block in blocks)
    for block in blocks:
        ((ring, closed),) = read_lines(block, "1")
        assert closed
        assert shapely.Polygon(ring).is_valid
        corners = np.concatenate([read_points(block, "2"), read_points(block, "3")])
        assert len(corners) == len(ring)
        assert max(np.hypot(*(ring - corner).T).min() for corner in corners) < 1e-5
        assert len(read_lines(block, "7")) == 3  # the arrow along the warp and its barbs
        exterior = shapely.Polygon(ring).exterior
        notches = read_points(block, "4")
        assert len(notches) or not patterns[name].joins
        assert all(exterior.distance(shapely.Point(notch)) < 1e-5 for notch in notches)


def test_another_reader_finds_the_same_lines(folders, patterns, name):
    """GDAL, which resolves inserted blocks by itself."""
    table = pyogrio.raw.read(folders[name] / "pieces.dxf", layer="entities")
    blocks = [shape for shape in map(shapely.from_wkb, table[2]) if shape.geom_type == "GeometryCollection"]
    rings = [
        [shapely.Polygon(line) for line in block.geoms if line.geom_type == "LineString" and line.is_ring]
        for block in blocks
    ]
    cuts = [max(each, key=lambda ring: ring.area).area * MM**2 for each in rings]
    assert sorted(cuts) == pytest.approx(sorted(piece.cut_area for piece in patterns[name].pieces), abs=1e-9)


def test_sewing_lines_of_the_dxf_are_as_long_as_the_curves(folders, patterns, name):
    outline = draw_outline(patterns[name].design.hammock.body)
    true = []
    for edge in (outline.left, outline.right):
        length, _ = quad(
            lambda x, edge=edge: hypot(1.0, float(edge.curve.slope(np.array(x)))), 0.0, edge.span, epsabs=1e-10
        )
        true.append(length)
    document, _ = open_dxf(folders[name])
    bodies = [block for block in document.blocks if block.name.startswith("body")]
    lines = [line for block in bodies for line, _ in read_lines(block, "14")]
    between = [line for line in lines if 0.0 < line[:, 0].mean() * MM < outline.length]  # the bars
    curved = [line for line in between if len(line) > 2]
    assert sum(map(measure, curved)) * MM == pytest.approx(sum(true), abs=2 * 0.02 * MM)
    if len(bodies) == 1:
        assert sorted(measure(line) * MM for line in curved) == pytest.approx(sorted(true), abs=0.02 * MM)
        ring = np.concatenate(lines)  # raw edges, from the end of one line to the start of the next, have none
        ends = patterns[name].design.hammock.ends
        beyond = sum(measure_extension(end).sheet for end in ends if end.bar.extension.darts)
        assert shapely.Polygon(ring).area * MM**2 == pytest.approx(outline.area + beyond, abs=50e-6)


def test_cloth_that_is_cut_is_cloth_on_the_scales(folders, patterns, name):
    """Cut area times areal mass, of each cloth."""
    design, folder = patterns[name].design, folders[name]
    found = json.loads((folder / "pattern.json").read_text(encoding="utf-8"))
    document, _ = open_dxf(folder)
    cut = {}
    for piece in found["pieces"]:
        ((ring, _),) = read_lines(document.blocks.get(piece["name"].replace(" ", "_")), "1")
        area = shapely.Polygon(ring).area * MM**2 * (piece["cut"] + piece["cut_turned_over"])
        cut[piece["fabric"]] = cut.get(piece["fabric"], 0.0) + area
    areas = {fabric.name: fabric.areal_mass for fabric in {piece.fabric for piece in patterns[name].pieces}}
    for fabric, mass in areas.items():
        expected = sum(w.mass for w in weigh_design(design).weights if w.material == fabric)
        assert cut[fabric] * mass == pytest.approx(expected, rel=1e-3)


def test_every_notch_of_the_dxf_has_its_mate(folders, patterns, name):
    """The table of matches says how far along each mark stands; at that distance there is a notch or a cross."""
    found = json.loads((folders[name] / "pattern.json").read_text(encoding="utf-8"))
    document, _ = open_dxf(folders[name])
    for join in found["joins"]:
        assert join["misfit_m"] < 1e-3
        assert join["first"]["length_m"] - join["second"]["length_m"] - join["ease_m"] == pytest.approx(0.0, abs=1e-5)
        for side in ("first", "second"):
            panels = [p for p in found["pieces"] if p["part"] == join[side]["part"]]
            notches = [n["distance_m"] for p in panels for n in p["notches"] if n["edge"] == join[side]["edge"]]
            edges = [e for p in panels for e in p["edges"] if e["name"] == join[side]["edge"]]
            ends = [at for e in edges for at in (e["start_m"], e["start_m"] + e["length_m"])]  # marked by crosses
            inner = [match[f"{side}_m"] for match in join["matches"][1:-1]]
            inner = [at for at in inner if min(abs(at - end) for end in ends) > 1e-6]
            turned = join["first"]["part"] == join["second"]["part"] and join["first"]["edge"] == join["second"]["edge"]
            if not (turned and side == "second"):
                assert all(min(abs(n - at) for n in notches) < 1e-9 for at in inner)
    for piece in found["pieces"]:
        block = document.blocks.get(piece["name"].replace(" ", "_"))
        points = read_points(block, "4") * MM
        listed = np.array([n["point_m"] for n in piece["notches"]]).reshape(-1, 2)
        assert len(points) == len(listed)
        assert all(np.hypot(*(points - at).T).min() < 1e-8 for at in listed)


def test_svg_is_drawn_in_millimetres(folders, patterns, name):
    tree = ET.parse(folders[name] / "pieces.svg").getroot()
    space = {"s": "http://www.w3.org/2000/svg"}
    assert tree.get("width") == f"{tree.get('viewBox').split()[2]}mm"
    groups = tree.findall("s:g", space)
    assert [group.get("id") for group in groups] == [piece.name for piece in patterns[name].pieces]
    boxes = []
    for group, piece in zip(groups, patterns[name].pieces, strict=True):
        (cut,) = [path.get("d") for path in group.findall("s:path", space) if path.get("class") == "cut"]
        assert cut.endswith("Z")
        ring = shapely.Polygon([tuple(map(float, pair.split(","))) for pair in cut[1:-1].split("L")])
        assert ring.area * MM**2 == pytest.approx(piece.cut_area, abs=5e-6)
        boxes.append(ring)
        assert group.find("s:text", space).text
    assert all(not a.intersects(b) for place, a in enumerate(boxes) for b in boxes[:place])


def list_pdf_lines(page):
    """Return the straight lines that are drawn on a page, points, each with its colour."""
    found, line, colour = [], [], None
    for operands, operator in page.get_contents().operations:
        values = [float(each) for each in operands] if operator in (b"m", b"l", b"RG") else []
        if operator == b"RG":
            colour = tuple(round(each, 3) for each in values)
        elif operator == b"m":
            line = [values]
        elif operator == b"l":
            line.append(values)
        elif operator in (b"S", b"s", b"n", b"B", b"f"):
            if len(line) > 1:
                found.append((np.array(line), colour))
            line = []
    return found


def read_pdf(path):
    return pypdf.PdfReader(path, strict=True)


def test_whole_pdf_is_true_to_size(folders, patterns, name):
    reader = read_pdf(folders[name] / "whole.pdf")
    assert len(reader.pages) == len(patterns[name].pieces)
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    for page, piece in zip(reader.pages, patterns[name].pieces, strict=True):
        assert "/UserUnit" not in page
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        assert max(width, height) <= 14400
        lines = [line for line, colour in list_pdf_lines(page) if colour == (0.0, 0.0, 0.0)]
        cut = max(lines, key=measure) * POINT
        assert np.ptp(cut, axis=0) == pytest.approx(np.array(piece.size) / MM, abs=0.001)
        assert measure(cut) * MM == pytest.approx(shapely.Polygon(piece.boundary).exterior.length, abs=0.01 * MM)


PRINTED = [("no extensions", paper) for paper in ("a4", "letter", "a3", "a0", "36 in roll")]
PRINTED += [
    pytest.param(name, "a4", marks=pytest.mark.slow) for name in ("heron_ford", "otter_creek", "starter", "uneven")
]


@pytest.mark.parametrize(("name", "paper"), PRINTED)
def test_sheets_moved_back_give_the_pieces(patterns, tmp_path, name, paper):
    """Every line is on some sheet, no sheet is without one, and each point is where it belongs to 0.001 mm."""
    from tautlay.cases.patterns.pattern_drawings import draw_all
    from tautlay.cutting.drawing.sheets import tile_drawing

    pattern = patterns[name]
    drawn = draw_all("a", pattern.draft, pattern.lays, "metric")
    halves = [drawn.pick(piece, half=True) for piece in pattern.choose_printed(())]
    tilings = [tile_drawing(half, find_paper(paper)) for half in halves]
    pattern.save(tmp_path / "p", paper=find_paper(paper))
    reader = read_pdf(tmp_path / "p" / "sheets.pdf")
    assert len(reader.pages) == 1 + sum(len(tiling.sheets) for tiling in tilings)
    pages = iter(list(reader.pages)[1:])
    for half, tiling in zip(halves, tilings, strict=True):
        true = shapely.union_all([shapely.LineString(stroke.path / MM) for stroke in half.strokes])
        shapely.prepare(true)
        back = []
        for sheet in tiling.sheets:
            shift = sheet.window.low / MM - 10.0
            found = list_pdf_lines(next(pages))
            lines = [line * POINT + shift for line, colour in found if colour != (0.533, 0.533, 0.533)]
            assert lines, f"{sheet.name} is without a line"
            assert shapely.distance(true, shapely.points(np.concatenate(lines))).max() < 0.001
            back += [shapely.LineString(line) for line in lines]
        whole = shapely.union_all(back)
        assert max(shapely.distance(whole, shapely.points(s.path / MM)).max() for s in half.strokes) < 0.01
        assert true.difference(whole.buffer(0.01)).length < 0.01


@pytest.mark.parametrize("name", ["heron_ford", "uneven", "sewn on"])
def test_names_of_sheets_stand_off_lines_and_words(folders, name):
    """Boxes of the large signs as another library finds them: 28 points, larger than all that is drawn on a piece."""
    import pypdfium2

    path = folders[name] / "sheets.pdf"
    pages = list(read_pdf(path).pages)[1:]
    with pypdfium2.PdfDocument(path) as document:
        for number, page in enumerate(pages, 1):
            text = document[number].get_textpage()
            boxes = [shapely.box(*text.get_charbox(place)) for place in range(text.count_chars())]
            large, small = [], []
            for box, sign in zip(boxes, text.get_text_range(), strict=True):
                if sign.strip():
                    (large if box.bounds[3] - box.bounds[1] > 18 and sign.isupper() else small).append(box)
            assert large
            name_of_sheet = shapely.union_all(large)
            lines = [
                shapely.LineString(line) for line, colour in list_pdf_lines(page) if colour != (0.533, 0.533, 0.533)
            ]
            assert not any(name_of_sheet.intersects(other) for other in lines)
            assert not any(shapely.box(*name_of_sheet.bounds).contains(other.centroid) for other in small)


def test_known_numbers_of_sheets(patterns):
    from tautlay.cases.patterns.pattern_drawings import draw_all
    from tautlay.cutting.drawing.sheets import tile_drawing

    pattern = patterns["no extensions"]
    drawn = draw_all("a", pattern.draft, pattern.lays, "metric")
    counts = {
        paper: tuple(
            len(tile_drawing(drawn.pick(pattern.pieces[0], half=half), find_paper(paper)).sheets)
            for half in (False, True)
        )
        for paper in ("a0", "36 in roll")
    }
    assert counts == {"a0": (4, 2), "36 in roll": (2, 1)}


def test_lay_svg_and_cut_list_name_everything(folders, patterns, name):
    lay = (folders[name] / "lay.svg").read_text(encoding="utf-8")
    ET.fromstring(lay)
    rows = list(csv.DictReader((folders[name] / "cut_list.csv").read_text(encoding="utf-8").splitlines()))
    for piece in patterns[name].pieces:
        assert f">{piece.name}" in lay
        (row,) = [row for row in rows if row["kind"] == "piece" and row["name"] == piece.name]
        assert int(row["count"]) == piece.number
        assert float(row["area_each_m2"]) == pytest.approx(piece.cut_area, abs=1e-6)
    cords = [row for row in rows if row["kind"] == "length" and "side cord" in row["name"]]
    assert sum(int(row["count"]) for row in cords) == 2
    edges = {
        round(draw_outline(patterns[name].design.hammock.body).pick_edge(side).length, 6) for side in ("left", "right")
    }
    ending = patterns[name].design.workmanship.head_rigging.side_cord
    for row in cords:
        finished = float(row["length_m"]) - 2 * (ending.bury + ending.tail)
        assert min(abs(finished - edge) for edge in edges) < 2e-6


def test_nothing_else_is_written_and_always_the_same(folders, patterns, name, tmp_path):
    assert {path.name for path in folders[name].iterdir()} == FILES
    patterns[name].save(tmp_path / "again")
    for path in folders[name].iterdir():
        assert path.read_bytes() == (tmp_path / "again" / path.name).read_bytes(), path.name


def test_a_body_with_like_sides_has_one_pair_of_strips(patterns):
    assert [piece.name for piece in patterns["no extensions"].pieces] == [BODY, "channel strip"]


def test_cloth_is_bought_by_the_quarter_yard_and_ten_centimetres(patterns):
    for pattern in patterns.values():
        for cloth in pattern.shopping.cloth:
            metres, yards = float(cloth.buy("metric").split()[0]), float(cloth.buy("imperial").split()[0])
            assert cloth.used < cloth.needed <= metres < cloth.needed + 0.1 + 1e-9
            assert cloth.needed <= yards * 0.9144 < cloth.needed + 0.25 * 0.9144 + 1e-9
            assert yards * 4 == pytest.approx(round(yards * 4))
