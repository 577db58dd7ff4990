"""What could be lighter: swaps by themselves, and the best combination against a search through all of them."""

from dataclasses import replace
from importlib.resources import files

import pytest

from tautlay.cases import read_design, weigh_design
from tautlay.cases.design_text import read_text
from tautlay.cases.lighten.lightening import Terms, lighten_design
from tautlay.cases.lighten.search import find_best, find_saving
from tautlay.cases.lighten.swap import PartError, list_keys, list_parts
from tautlay.cases.lighten.trial import Bench
from tautlay.cases.sweep.run import open_workshop
from tautlay.cases.sweep.store import open_store
from tautlay.cases.sweep.workers import Hands

DEMO = files("tautlay.cases") / "heron_ford.toml"
# INVENTED materials: three cloths and three cords, some of which cannot hold
LIBRARY = """
[fabric."cobweb"]
base = "ripstop nylon 22 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "12 g/m2"
strength_warp = "1.2 N/mm"
strength_weft = "1.2 N/mm"

[fabric."gossamer"]
base = "ripstop nylon 30 g/m2"
source = "invented for a test"
status = "memory"
areal_mass = "26 g/m2"

[cord."hair"]
base = "12-strand UHMWPE 1.75 mm"
source = "invented for a test"
status = "memory"
linear_mass = "0.9 g/m"
breaking_load = "900 N"

[cord."thin"]
base = "12-strand UHMWPE 2 mm"
source = "invented for a test"
status = "memory"
linear_mass = "1.6 g/m"
"""
KEYS = ("body.fabric", "channel.cord", "suspension.leg")

OWN = ("cobweb", "gossamer", "hair", "thin")
MESH_SIZE = 0.2


@pytest.fixture(scope="module")
def design(tmp_path_factory):
    """Return a design file whose library holds the invented materials too."""
    folder = tmp_path_factory.mktemp("lighten")
    (folder / "own.toml").write_text(LIBRARY, encoding="utf-8")
    path = folder / "design.toml"
    path.write_text(DEMO.read_text(encoding="utf-8") + '\n[materials]\nfiles = ["own.toml"]\n', encoding="utf-8")
    return path


def list_own_parts(path):
    """Return the parts with the invented materials as their only swaps."""
    parts = list_parts(read_design(path, mesh_size=MESH_SIZE), read_text(path), KEYS)
    own = [replace(part, swaps=tuple(swap for swap in part.swaps if swap.material in OWN)) for part in parts]
    return tuple(part for part in own if part.swaps)


def test_every_lighter_material_of_the_library_is_a_swap_and_saves_what_the_scales_say(design):
    plan = read_design(design, mesh_size=MESH_SIZE)
    (part,) = list_parts(plan, read_text(design), ["body.fabric"])
    library = plan.library
    now = library.fabric(part.material).areal_mass
    lighter = {name for name in library.names("fabric") if library.fabric(name).areal_mass < now - 1e-6}
    assert {swap.material for swap in part.swaps if not swap.refusal} == lighter
    for swap in part.swaps:
        text = design.read_text(encoding="utf-8").replace(f'fabric = "{part.material}"', f'fabric = "{swap.material}"')
        other = design.with_name("swapped.toml")
        other.write_text(text, encoding="utf-8")
        saved = [weigh_design(read_design(path)).add(carried=False).mass for path in (design, other)]
        assert swap.saved == pytest.approx(saved[0] - saved[1], abs=1e-9)


def test_what_is_carried_anyway_saves_nothing(design):
    plan = read_design(design, mesh_size=MESH_SIZE)
    assert "head_bar.part.1.section" in list_keys(plan, read_text(design))  # a walking pole that is carried anyway
    assert not list_parts(plan, read_text(design), ["head_bar.part.1.section"])


def test_an_unknown_part_is_told_with_those_there_are(design):
    plan = read_design(design, mesh_size=MESH_SIZE)
    with pytest.raises(PartError, match=r"body\.fabrc names no material .* did you mean body\.fabric\?"):
        list_parts(plan, read_text(design), ["body.fabrc"])


@pytest.mark.slow
@pytest.mark.parametrize("few", [1000, 1], ids=["from the lightest up", "integer programme"])
def test_the_best_combination_is_that_of_a_search_through_all(design, tmp_path, few):
    plan, content, parts = read_design(design, mesh_size=MESH_SIZE), read_text(design), list_own_parts(design)
    with open_workshop(tmp_path / "a.sqlite", Hands(1)) as shop:
        bench = Bench(plan, content, parts, shop, loads=("distributed", "sudden"))
        bench.solve(bench.list_alone())
        best = find_best(bench, at_once=2, most=30, few=few)
        every = dict(zip(bench.list_all(), bench.solve(bench.list_all()), strict=True))
        saved = {picks: find_saving(bench, picks) for picks, trial in every.items() if trial.does}
    assert len(every) == 27
    assert 1 < len(saved) < 27
    lightest = max((picks for picks in saved), key=lambda picks: saved[picks])
    assert best.trial is not None
    assert best.trial.picks == lightest
    assert best.saved == saved[lightest] > 0.0
    assert best.proven == (few > 27)
    assert best.solved < 27


@pytest.mark.slow
def test_a_limit_of_comfort_is_kept(design, tmp_path):
    found = lighten_design(
        design, tmp_path / "a.sqlite",
        Terms(("body.fabric",), ("lying",), ("packed_kg > 260 g", "back_sag_m < 30 cm")), hands=Hands(1),
    )  # fmt: skip
    assert found.best.trial is None or found.best.trial.worst.figures["packed_kg"] > 0.260
    assert [trial.reason for trial in found.alone.values() if trial.reason.startswith("not packed_kg")]


def test_everything_that_was_tried_stands_in_the_file(design, tmp_path):
    plan, content, parts = read_design(design, mesh_size=MESH_SIZE), read_text(design), list_own_parts(design)[:1]
    file = tmp_path / "a.sqlite"
    with open_workshop(file, Hands(1)) as shop:
        bench = Bench(plan, content, parts, shop, loads=("distributed",))
        for picks in bench.list_all():
            bench.solve([picks])
        bench.enter_tried()
        tried = {trial.rows[0].title: trial.rows[0].figures for trial in bench.tried.values()}
    with open_store(file) as store:
        (heading,) = store.list_sweeps()
        assert {row.title: row.figures for row in store.list_rows(heading.name)} == tried
    assert len(tried) == 3


def test_a_part_or_load_that_is_named_twice_counts_once(design):
    plan, content = read_design(design, mesh_size=MESH_SIZE), read_text(design)
    assert len(list_parts(plan, content, ["body.fabric", "body.fabric"])) == 1
