"""What records say of themselves in a session is one short line."""

import dataclasses
import importlib
from collections.abc import Mapping
from importlib.resources import files

import numpy as np
import pytest

from tautlay.cases import (
    DesignIssue,
    HangSheet,
    Judgement,
    Sweep,
    SweepRow,
    TipMargin,
    Trim,
    draft_pattern,
    read_design,
    read_sweep,
)
from tautlay.cases.judging.comfort.rim import RimPush
from tautlay.cases.judging.verdict.verdict import Verdict
from tautlay.cases.storage.gather_shape import gather_shape
from tautlay.cases.storage.stored_result import read_result
from tautlay.cases.studies.compare.ranking import rank_rows
from tautlay.cases.studies.hang.hang_option import HangOption
from tautlay.cases.studies.judge.case_solver import SolvedCase
from tautlay.cases.studies.lying.seat_stage import SeatStage
from tautlay.cases.studies.lying.sitting_across import SittingAcross
from tautlay.cases.studies.lying.sitting_up import SitStage, SittingUp, WayUp
from tautlay.cases.studies.sweep.sweep_row import RowStatus
from tautlay.hammock import GeometryIssue, draw_outline, list_segments
from tautlay.hammock.person import Posture
from tautlay.making import (
    FACTORS,
    BarIssue,
    SewnChannel,
    Slings,
    Weather,
    Wrap,
    build_column,
    cut_fold,
    find_share,
    find_unit_mass,
    list_weaknesses,
)
from tautlay.making.amount import Amount
from tautlay.making.capacity import CapacityStep, Multiplier
from tautlay.materials import PLAUSIBLE, list_units, read_library, read_toml
from tautlay.materials.short_repr import LONGEST
from tautlay.meshing import Fineness, RestraintResult, build_model, make_frame

CASES = files("tautlay.cases")
DEMOS = ("larch_ridge", "heron_ford", "otter_creek", "starter")
OTHERS = ("tautlay.solver.", "tautlay.cases.judging.")  # say it in their own way


def walk(value, found):
    """Collect every record that can be reached."""
    if id(value) in found or isinstance(value, str | bytes | np.ndarray):
        return
    found[id(value)] = value
    if isinstance(value, Mapping):
        parts = list(value.values())
    elif isinstance(value, list | tuple):
        parts = list(value)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        parts = [getattr(value, field.name) for field in dataclasses.fields(value)]
    else:
        parts = []
    for part in parts:
        walk(part, found)


def make_others(design, result):
    """Return records that a result does not hold."""
    library, outline, work = read_library(), draw_outline(design.hammock.body), design.workmanship
    build = design.hammock.head_bar.build
    section = cut_fold(work.fold, 1, design.hammock.channel.cord.diameter)
    pattern = draft_pattern(design)
    option = HangOption(4.123456789, 0.523456789, 640.123, 620.123, 0.61234, 0.71234, 0.41234, result.trees)
    step = CapacityStep("a step", "long words of a source, " * 20, "memory")
    return [
        library, FACTORS, Wrap(0.3123456789, 2, 0.3123456789, 0.123456789), Slings(design.hammock.suspension.head.leg, 0.3123456789, 0.2, 0.61234567), outline, list_segments(design.person), build, build_column(build, bow=0.001, eccentricity=0.0), make_frame(design.person), section,
        section.layers, list(list_weaknesses(build)), Posture(), Fineness(0.04), RestraintResult(1.0, 0.001),
        SewnChannel(work.fold, section, design.hammock.body.fabric, 1), PLAUSIBLE, list_units("force", "metric"),
        find_share(design.hammock.channel.cord, work.head_rigging.side_cord), library.table("cord"),
        find_unit_mass(design.hammock.body.fabric), read_toml(CASES / "larch_ridge.toml"),
        Amount(2.4, "length", (step,)), Multiplier("splice", "break", 0.9, (0.8, 1.0)), step,
        BarIssue(GeometryIssue("a long sentence " * 20, ("head_bar.length",)).sentence, 1, "head_bar.part"),
        GeometryIssue("a long sentence " * 20, ("head_bar.length",)),
        Weather(28800.123456, True, 5.123456), TipMargin(0.0951234567, 88.1234567, 0.1123456, "rolls out by himself or herself, as a long sentence tells"),
        SittingUp((WayUp("limp", (SitStage(0.1, 0.2234567, 0.3123456, "head", 12.345, 4.567),)),), 712.3),
        SittingAcross((SeatStage(0.1, -0.0823, 404.123, 274.123, RimPush(252.12, 906.12), 79123.0, 0.569, 0.53, 0.55, 0.17, 0.08, 0.19),), "turns over " * 20, None, 0.35, 374.12, 0.473, 1.2, 0.003), Trim("foot_strap_height", 1.723456, "hold_N", result, result),
        HangSheet(design, (option,), (3.9, 4.6), option, ()), option,
        SweepRow(3, {"cloth": "ripstop nylon 37 g/m2"}, RowStatus.REFUSED, "for a reason, " * 20, {"packed_kg": 0.2}),
        DesignIssue("larch.toml", "the unit is missing.", 4, "body.length", "2.05"),
        rank_rows([]), SolvedCase(design.terms.list_cases()[0], None, "a long reason " * 20), Judgement(design, (), Verdict((), (), ("lying",), ())), pattern, pattern.lays, pattern.shopping, pattern.check(), pattern.record, build_model(design.hammock, None, 0.2),
    ]  # fmt: skip


@pytest.fixture(scope="module")
def records(solved_larch, shown_lying):
    found = {}
    designs = [read_design(str(CASES / f"{name}.toml")) for name in DEMOS]
    work = solved_larch.design.workmanship.reductions
    solved_larch.summary  # what is kept once it is worked out must not show  # noqa: B018
    for value in (
        solved_larch, designs, read_sweep(str(CASES / "heron_ford_cloths.toml")), read_result(shown_lying),
        gather_shape(solved_larch.model, solved_larch.state, work), make_others(designs[1], solved_larch),
    ):  # fmt: skip
        walk(value, found)
    return [value for value in found.values() if _is_ours(type(value))]


def _is_ours(kind):
    ours = kind.__module__.startswith("tautlay.") and not kind.__module__.startswith(OTHERS)
    return ours and (dataclasses.is_dataclass(kind) or hasattr(kind, "_fields"))


def test_every_record_says_what_it_is_in_one_short_line(records):
    assert len({type(record) for record in records}) > 60
    for record in records:
        line = repr(record)
        assert len(line) <= LONGEST < 120, line
        assert line.isprintable(), line
        assert type(record).__name__ in line


def test_all_public_records_are_among_them(records):
    met = {kind for record in records for kind in type(record).__mro__}
    for room in ("materials", "making", "hammock", "cutting", "meshing", "cases"):
        package = importlib.import_module(f"tautlay.{room}")
        kinds = [kind for kind in (getattr(package, name) for name in package.__all__) if isinstance(kind, type)]
        lacking = {kind.__name__ for kind in kinds if _is_ours(kind)} - {kind.__name__ for kind in met}
        assert lacking <= {"CaseProgress"}, room


def test_a_result_tells_its_key_numbers(solved_larch):
    head, foot = (solved_larch.summary["forces"][f"{end}_line_N"] for end in ("head", "foot"))
    count = solved_larch.summary["solution"]["triangles"]
    tensions = f"head line {head:.0f} N, foot line {foot:.0f} N"
    assert repr(solved_larch) == f"<Result Larch Ridge, distributed, converged, {count} triangles, {tensions}>"


def test_what_is_no_number_does_not_keep_a_record_from_showing():
    design = read_design(str(CASES / "larch_ridge.toml"))
    odd = dataclasses.replace(design, mesh_size=float("nan"), name="a\x1b[31m\nname " * 40)
    assert repr(odd).isprintable()
    assert len(repr(odd)) <= LONGEST
    assert "nan" in repr(dataclasses.replace(design.hammock.body, length=float("nan")))


def test_a_sweep_names_what_varies():
    sweep = read_sweep(str(CASES / "heron_ford_cloths.toml"))
    assert isinstance(sweep, Sweep)
    assert repr(sweep).startswith("<Sweep Cloth, cord and arc for Heron Ford, 36 designs")
