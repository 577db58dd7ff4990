"""The first screen: does it pass, what do I change, how close is the rest, in 48 lines of 80 columns."""

import dataclasses
from importlib.resources import files

import pytest
from click.testing import CliRunner
from rich.console import Console

from tautlay.cases import read_design, solve_case
from tautlay.cases.command.cli import main
from tautlay.cases.command.printing.overview import print_overview
from tautlay.cases.display.safety_cautions import CAUTIONS
from tautlay.cases.judging.checks import Check, Findings
from tautlay.cases.judging.checks.findings import rank_check
from tautlay.cases.judging.checks.verdict import write_verdict
from tautlay.cases.unit_display import show_quantity
from tautlay.making import FACTORS, Capacity, CapacityStep

LARCH = str(files("tautlay.cases") / "larch_ridge.toml")


def show(result, units="both"):
    console = Console(width=80, record=True, force_terminal=False, file=open("/dev/null", "w"))  # noqa: PTH123, SIM115
    with console.file:
        print_overview(result.record, result.findings, units, console)
        return console.export_text()


def bears(value, kind):
    return Capacity(value, "force", (CapacityStep("breaking load", "a test", "seen"),)), FACTORS[kind]


@pytest.fixture(scope="module")
def overloaded():
    """The demonstration under 2.7 times the weight: a bar breaks, and a leg only misses its factor."""
    design = dataclasses.replace(read_design(LARCH), sudden_factor=2.7)
    return solve_case(design, load="sudden", mesh_size=0.08)


def test_first_screen_of_the_demonstration_fits_and_stands_in_order(tmp_path):
    found = CliRunner().invoke(
        main, ["solve", LARCH, "--load", "lying", "-o", str(tmp_path / "out"), "--no-picture", "--no-page"]
    )
    lines = found.output.splitlines()
    assert found.exit_code == 0
    assert len(lines) <= 48
    assert max(len(line) for line in lines if str(tmp_path) not in line) <= 80  # a path is as long as it is
    places = [
        next(place for place, line in enumerate(lines) if line.startswith(words))
        for words in ("PASS", "To do", "Strength", "Forces", "Hang", "Lay", "Weight")
    ]
    assert places == sorted(places)
    assert CAUTIONS[0].text in found.output
    assert CAUTIONS[4].text in " ".join(found.output.split())


def test_details_print_every_caution(tmp_path):
    found = CliRunner().invoke(
        main,
        ["solve", LARCH, "--details", "-o", str(tmp_path / "out"), "--no-picture", "--no-page", "--mesh-size", "12 cm"],
    )
    words = " ".join(found.output.split())
    assert all(caution.text in words for caution in CAUTIONS)


def test_a_part_that_fails_at_the_load_stands_first_whatever_its_factor(overloaded):
    checks = overloaded.findings.checks
    assert "bar" in checks[0].part
    assert checks[0].found < 1.0
    legs = [check for check in checks if check.part.endswith("leg") and not check.passed]
    assert legs
    assert all(1.0 <= check.found < check.asked.value for check in legs)
    # by utilisation alone the leg would stand before the bar's lesser checks
    broken = [place for place, check in enumerate(checks) if check.found < 1.0]
    assert broken == list(range(len(broken)))
    first = next(line for line in show(overloaded).splitlines() if "FAIL " in line)
    assert first.startswith(checks[0].part)


def test_what_fails_is_the_first_thing_to_do(overloaded):
    lines = show(overloaded).splitlines()
    first = overloaded.findings.checks[0]
    task = " ".join("\n".join(lines[lines.index("To do") + 1 :]).split(" ! ")[1].split())
    assert task.startswith(f"{first.part.capitalize()}, {first.mechanism}: needs ")
    assert show_quantity(first.asked.value * first.demand, "force") in task
    assert show_quantity(first.capacity.value, "force") in task


def test_verdict_says_what_breaks_before_what_only_misses_its_factor(overloaded):
    words = write_verdict(overloaded.findings)
    assert words.startswith("FAIL: ")
    assert words.index("At this load foot bar") < words.index("Too little reserve")


def test_order_is_by_load_and_then_by_utilisation():
    """A bar at 0.95 of 2 is used less than a cord at 2.2 of 5, but the bar breaks."""
    bar = Check("foot bar", "buckles", 1000.0, *bears(950.0, "metal"))
    cord = Check("foot line", "breaks", 1000.0, *bears(2200.0, "cord"))
    assert cord.margin < bar.margin
    assert sorted([cord, bar], key=rank_check) == [bar, cord]
    verdict = write_verdict(Findings((bar, cord), ()))
    assert verdict == (
        "FAIL: 2 of 2 checks. At this load foot bar, buckles (factor 0.95). "
        "Too little reserve: foot line, breaks, factor 2.2, required 5."
    )


def test_nothing_to_check_is_said():
    assert write_verdict(Findings((), ())).startswith("NOT CHECKED")
