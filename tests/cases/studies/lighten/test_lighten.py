"""What could be lighter: swaps by themselves, and the best combination against a search through all of them."""

import tomllib
from dataclasses import replace
from importlib.resources import files

import pytest
from click.testing import CliRunner

from tautlay.cases import read_design, solve_case, weigh_design
from tautlay.cases.command.cli import main
from tautlay.cases.design_text import read_text
from tautlay.cases.studies.compare.export_design import extract_design
from tautlay.cases.studies.lighten.combination_search import find_best, find_saving
from tautlay.cases.studies.lighten.evaluation import SwapEvaluator
from tautlay.cases.studies.lighten.lightening import LightenSettings, lighten_design
from tautlay.cases.studies.lighten.part_swaps import PartError, ReplaceablePart, Swap, list_keys, list_parts
from tautlay.cases.studies.sweep.run import SweepRunner, open_runner
from tautlay.cases.studies.sweep.store import SweepRecord, open_store
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow
from tautlay.cases.studies.sweep.variant import MOST
from tautlay.cases.studies.sweep.worker_pool import PoolSettings
from tautlay.hammock import LoadCase
from tautlay.materials import Fabric

from .._light_materials import LIBRARY

DEMO = files("tautlay.cases") / "heron_ford.toml"
KEYS = ("body.fabric", "channel.cord", "suspension.leg")

OWN = ("cobweb", "filmy", "hair", "thin")
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
    now = library.find(Fabric, part.material).areal_mass
    lighter = {name for name in library.names("fabric") if library.find(Fabric, name).areal_mass < now - 1e-6}
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
    with pytest.raises(PartError, match=r"body\.fabrc names no material .* Did you mean body\.fabric\?"):
        list_parts(plan, read_text(design), ["body.fabrc"])


@pytest.mark.slow
@pytest.mark.parametrize("few", [1000, 1], ids=["from the lightest up", "integer programme"])
def test_the_best_combination_is_that_of_a_search_through_all(design, tmp_path, few):
    plan, content, parts = read_design(design, mesh_size=MESH_SIZE), read_text(design), list_own_parts(design)
    with open_runner(tmp_path / "a.sqlite", PoolSettings(1)) as runner:
        evaluator = SwapEvaluator(plan, content, parts, runner, loads=(LoadCase.DISTRIBUTED, LoadCase.SUDDEN))
        evaluator.solve(evaluator.list_alone())
        best = find_best(evaluator, at_once=2, most=30, few=few)
        every = dict(zip(evaluator.list_all(), evaluator.solve(evaluator.list_all()), strict=True))
        saved = {
            selection: find_saving(evaluator, selection) for selection, evaluation in every.items() if evaluation.passes
        }
    assert len(every) == 27
    assert 1 < len(saved) < 27
    lightest = max((selection for selection in saved), key=lambda selection: saved[selection])
    assert best.evaluation is not None
    assert best.evaluation.selection == lightest
    assert best.saved == saved[lightest] > 0.0
    assert best.proven == (few > 27)
    assert best.solved < 27


@pytest.mark.slow
def test_a_limit_of_comfort_is_kept(design, tmp_path):
    found = lighten_design(
        design, tmp_path / "a.sqlite",
        LightenSettings(("body.fabric",), ("lying",), ("packed_kg > 260 g", "back_sag_m < 30 cm")), settings=PoolSettings(1),
    )  # fmt: skip
    assert found.best.evaluation is None or found.best.evaluation.row.figures["packed_kg"] > 0.260
    assert [evaluation.reason for evaluation in found.alone.values() if evaluation.reason.startswith("not packed_kg")]
    with open_store(tmp_path / "a.sqlite") as store:
        heading = store.list_sweeps()[0]  # those with coarse triangles are told last
        kept = store.list_rows(heading.name)
    assert len(kept) == 1 + len(found.alone)
    lightest = min(kept, key=lambda row: row.figures["packed_kg"])
    text = extract_design(heading, lightest, tmp_path).text
    written = tmp_path / "lightest.toml"
    written.write_text(text, encoding="utf-8")
    assert weigh_design(read_design(written)).add(carried=False).mass == lightest.figures["packed_kg"]


@pytest.mark.slow
def test_a_limit_that_only_too_weak_a_cord_would_keep_is_told_with_what_it_excludes(tmp_path):
    coarse = tmp_path / "coarse.toml"
    coarse.write_text(DEMO.read_text(encoding="utf-8").replace('size = "40 mm"', 'size = "25 cm"'), encoding="utf-8")
    packed = weigh_design(read_design(coarse)).packed.mass
    limit = f"packed_kg < {packed * 1000.0 - 2.0:.0f} g"  # thinner legs save 4 g
    terms = LightenSettings(("suspension.leg",), ("distributed",), (limit,))
    found = lighten_design(coarse, tmp_path / "a.sqlite", terms, settings=PoolSettings(1))
    assert found.best.evaluation is None
    assert found.exclusion.startswith("No combination that was solved meets both ")
    assert f'"{limit}"' in found.exclusion
    assert "leg, " in found.exclusion
    assert "Nearest: the current design" in found.exclusion


@pytest.mark.slow
def test_what_does_with_coarse_triangles_only_is_no_answer(tmp_path):
    path = tmp_path / "heron_ford.toml"  # asks a little more of cloth: the lightest just does, coarsely
    path.write_text(DEMO.read_text(encoding="utf-8") + "\n[factors]\ncloth = 5.3\n", encoding="utf-8")
    found = lighten_design(
        path, tmp_path / "a.sqlite", LightenSettings(("body.fabric",), ("lying",)), settings=PoolSettings(1)
    )
    assert found.rough
    (refuted,) = found.best.refuted
    assert found.alone[
        refuted.selection
    ].passes  # with triangles of 10 cm, which tell the pull at the seams a sixth too low
    assert found.best.evaluation is not None
    for evaluation, holds in ((refuted, False), (found.best.evaluation, True)):
        swap = found.parts[0].swaps[evaluation.selection[0] - 1].material
        text = path.read_text(encoding="utf-8").replace(found.parts[0].material, swap)
        other = path.with_name("other.toml")
        other.write_text(text, encoding="utf-8")
        assert (not solve_case(read_design(other), load="lying").findings.failed) == holds
    with open_store(tmp_path / "a.sqlite") as store:
        rows = store.list_rows(store.list_sweeps()[0].name)
    assert len(rows) == 1 + len(found.alone)  # what is told last is told whole


@pytest.mark.slow
def test_a_swap_that_takes_a_check_away_is_not_proposed(tmp_path):
    path = tmp_path / "heron_ford.toml"
    path.write_bytes(DEMO.read_bytes())
    keys = ("channel.fold.strip", "channel.fold.thread")
    found = lighten_design(
        path, tmp_path / "a.sqlite", LightenSettings(keys, ("lying",), most=2, few=1), settings=PoolSettings(1)
    )
    assert any(evaluation.reason.startswith("can no longer be checked") for evaluation in found.alone.values())
    assert found.best.evaluation is not None  # a nylon strip does, found among the first two proposals
    assert not found.best.given_up


def test_designs_of_many_parts_read_back_from_what_is_stored_of_them(tmp_path):
    path = tmp_path / "heron_ford.toml"
    path.write_bytes(DEMO.read_bytes())
    plan, content = read_design(path, mesh_size=MESH_SIZE), read_text(path)
    swaps = {"body.fabric": "ripstop nylon 30 g/m2", "suspension.leg": "12-strand UHMWPE 1.75 mm"}
    parts = tuple(
        ReplaceablePart(key, name, (Swap(swaps.get(key, f"{name}, unlike"), 0.01),))
        for key, name in list_keys(plan, content).items()
    )
    assert len(parts) > 12
    assert 2 ** len(parts) > MOST
    evaluator = SwapEvaluator(plan, content, parts, SweepRunner(None, PoolSettings(1)))
    winner = tuple(int(part.key in swaps) for part in parts)
    listed = evaluator.list_designs([evaluator.as_designed, winner, evaluator.as_designed])
    heading = SweepRecord(listed.name, str(path), listed.text, plan.text, (), "", "metric", "lying")
    row = SweepRow(2, listed.list_labels(listed.variants[1]), RowStatus.SOLVED)
    text = extract_design(heading, row, tmp_path).text
    assert "# Warp along the body: the stiffer direction carries the pull from bar to bar." in text.splitlines()
    for key, name in swaps.items():
        assert f'{key.rpartition(".")[2]} = "{name}"' in text
    assert tomllib.loads(text) == listed.set_tables(listed.variants[1])


@pytest.mark.slow
def test_the_winner_is_written_as_a_design(design, tmp_path):
    written = tmp_path / "lighter.toml"
    command = ["lighten", str(design), "--part", "suspension.leg", "--load", "distributed", "--processes", "1"]
    run = CliRunner().invoke(main, [*command, "-o", str(tmp_path / "a.sqlite"), "--write-design", str(written)])
    assert run.exit_code == 0, run.output
    with open_store(tmp_path / "a.sqlite") as store:
        rows = store.list_rows(store.list_sweeps()[0].name)
    assert f"Written to {written}" in run.output
    lightest = min(row.figures["packed_kg"] for row in rows if row.holds)
    assert weigh_design(read_design(written)).add(carried=False).mass == lightest
