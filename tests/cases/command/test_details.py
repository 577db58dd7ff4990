import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis.strategies import floats, lists
from rich.console import Console

from tautlay.cases.command.printing.details import print_details
from tautlay.cases.display.safety_cautions import CAUTIONS
from tautlay.cases.judging.bar_summary import BarRecord, Bars
from tautlay.cases.judging.checks import Check, Findings, Unchecked
from tautlay.cases.judging.checks.verdict import write_verdict
from tautlay.cases.judging.clearance import MARGIN, Clearance
from tautlay.cases.judging.cloth.channel_summary import ChannelRecord, ChannelSide, CornerRecord, Corners
from tautlay.cases.judging.cloth.cloth_summary import FabricRecord
from tautlay.cases.judging.cloth.fold_record import FoldRecord
from tautlay.cases.judging.cloth.hot_spot import HotSpot
from tautlay.cases.judging.forces import Anchors, Forces
from tautlay.cases.judging.loaded_shape import LoadedShape
from tautlay.cases.judging.stretch import CordStretch
from tautlay.cases.judging.trees import TreeLoad, TreeLoads
from tautlay.cases.judging.weighing import Weights
from tautlay.cases.result_record import DesignHeader, ResultRecord, SolutionRecord
from tautlay.cases.unit_display import round_shares
from tautlay.hammock import LoadCase
from tautlay.making import FACTORS, Capacity, CapacityStep
from tautlay.materials import make_sentence
from tautlay.solver import Reason

from ..._records import make_record

CHANNEL = ChannelRecord(
    0.025,
    *[ChannelSide(400.0, 160.0, 1550.0, 1.1e6)] * 2,
    Corners(*[make_record(CornerRecord, jump=178.0)] * 4),
    make_record(
        FoldRecord,
        finished_width=0.01905,
        stitching_width=0.009525,
        layers_pulled=3,
        layers_sewn=6,
        stitches_per_inch=8.0,
    ),
)
RECORD = make_record(
    ResultRecord,
    design=DesignHeader("A [bold]name[/bold]", "", "a.toml", LoadCase.DISTRIBUTED, 1.0),
    solution=SolutionRecord(Reason.CONVERGED, 1e-7, 40, 40, 900, 0.04, 1.0),
    forces=Forces(*[400.0] * 9, 250.0),
    anchors=Anchors((-300.0, 0.0, 400.0), (300.0, 400.0, 1.0)),
    shape=LoadedShape(0.4, 0.25, 0.5, 0.6, 0.55, 4.5),
    channel=CHANNEL,
    trees=TreeLoads(*[make_record(TreeLoad, moment_at_ground=900.0)] * 2),
    stretch={
        "head line": CordStretch(0.8, 0.012, None, None),
        "head left leg": CordStretch(0.7, 0.003, 0.0035, 0.014),
    },
    hot_spots=(
        make_record(
            HotSpot,
            place=make_sentence("{a:length} from the head bar, {b:length} right of centre", a=2.0, b=0.45),
            line_stress=900.0,
            share=0.12,
            thread="weft",
            off_warp=1.0,
        ),
    ),
    fabric=make_record(FabricRecord, taut_fraction=0.3, wrinkled_fraction=0.6, slack_fraction=0.1),
    weights=make_record(Weights, person=64.0, hammock=0.321, total=0.345, packed=0.145),
    bars=make_record(
        Bars, head_bar=make_record(BarRecord, parts=2, path=make_sentence("cord - pole ({a:length}) - cord.", a=0.762))
    ),
    notes=(
        "The head line leaves its tree at about 15 degrees.",
        make_sentence("The body is only {a:length} wide.", a=0.381),
    ),
)


def bears(value, basis="seen", dimension="force"):
    return Capacity(value, dimension, (CapacityStep("breaking load", "a test", basis),))


HOLDS = Check("left head leg", "splice breaks", 400.0, bears(2000.0), FACTORS["cord"])
FINDINGS = Findings((HOLDS,), (Unchecked("channel", make_sentence("a fold of {a:length} is not told.", a=0.0254)),))


def show(units, width=80, findings=FINDINGS, record=RECORD):
    console = Console(width=width, record=True, force_terminal=False, quiet=False, file=open("/dev/null", "w"))  # noqa: PTH123, SIM115
    with console.file:
        print_details(replace(record, verdict=write_verdict(findings)), findings, units, console)
        return console.export_text()


@pytest.mark.parametrize("units", ["metric", "imperial", "both"])
@pytest.mark.parametrize("width", [80, 200])
def test_summary_fits_80_columns(units, width):
    text = show(units, width)
    assert max(map(len, text.splitlines())) <= 80


def test_summary_tells_everything_in_both_units():
    text = show("both")
    # 400 N is 89.9 lbf, 0.25 m is 9.84 in, 0.5 rad is 28.6 deg, 321 g is 11.3 oz: NIST SP 811 B.8
    for words in ("400 N", "89.9 lbf", "25.0 cm", "9.84 in", "28.6 deg", "321 g", "11.3 oz", "30% taut, 60% wrinkled"):
        assert words in text
    # 178 N is 40.0 lbf, 160 N/m is 0.914 lbf/in
    assert all(
        words in text for words in ("40.0 lbf", "0.914 lbf/in", "8.0 stitches per inch", "cord on 3, stitches in 6")
    )
    assert "A [bold]name[/bold]" in text  # a name is no markup
    assert "Note: The head line leaves" in text
    assert "Thrust path, head bar: cord - pole (76.2 cm (30.0 in)) - cord." in " ".join(text.split())
    assert "145.0 g (5.11 oz) to your pack, and weighs 345.0 g (12.17 oz) with dual-use parts" in " ".join(text.split())


def test_sudden_load_is_named_with_its_factor_and_not_doubled_again():
    """The factor is in the forces already: no words may ask for it once more."""
    design = replace(RECORD.design, load=LoadCase.SUDDEN, load_factor=2.5)
    text = " ".join(show("both", record=replace(RECORD, design=design)).split())
    assert "loaded shape, sudden, 2.5 x weight" in text
    assert "The spread weight times 2.5" in text
    assert "computed load" not in text


METRIC = r"[0-9] ?(m|cm|mm|N|kN|N/m|N/mm|g|kg)\b"
IMPERIAL = r"[0-9] ?(in|ft|lbf|lbf/in|oz|lb)\b"


@pytest.mark.parametrize(("units", "foreign"), [("imperial", METRIC), ("metric", IMPERIAL)])
def test_notes_and_places_follow_the_units(units, foreign):
    text = show(units).split("Cautions")[0]
    # 2.00 m is 78.7 in, 0.45 m is 17.7 in, 0.381 m is 15.0 in: NIST SP 811 B.8
    wanted = {
        "imperial": ("78.7 in from the", "17.7", "only 15.0 in"),
        "metric": ("200 cm from", "only 38.1 cm"),
    }
    assert all(words in " ".join(text.split()) for words in wanted[units])
    assert re.findall(foreign, text) == []


def test_hang_angle_is_said_to_be_the_mean_of_both():
    (line,) = [line for line in show("both").splitlines() if line.startswith("hang angle, mean of both")]
    assert "31.5 deg" in line  # 0.55 rad


@pytest.mark.parametrize(
    ("height", "verdict", "start"),
    [(MARGIN, "", None), (0.299, "TOO LOW", "TOO LOW: the lowest point is 29.9 cm above the ground")]
    + [(0.0, "TOO LOW", "TOO LOW: "), (-0.32, "BELOW GROUND", "BELOW GROUND: the lowest point is 32.0 cm under the ground")],
)  # fmt: skip
def test_height_above_ground_is_judged(height, verdict, start):
    clearance = Clearance(height)
    assert clearance.passed == (start is None)
    assert start is None or clearance.sentence.startswith(start)
    low = replace(RECORD, shape=replace(RECORD.shape, ground_clearance=height))
    (line,) = [line for line in show("metric", record=low).splitlines() if line.startswith("lowest point above ground")]
    assert line.rstrip().endswith(verdict or "cm")


def test_pull_on_a_tree_is_split_into_horizontal_and_vertical():
    lines = show("metric").splitlines()
    found = {line.split("  ")[0]: line for line in lines if " tree, " in line}
    assert "300 N" in found["head tree, horizontal"]
    assert "400 N" in found["head tree, vertical"]
    assert "500 N" in found["foot tree, horizontal"]


def test_every_caution_is_printed_with_its_source():
    text = " ".join(show("both").split())
    for caution in CAUTIONS:
        assert f"{caution.text} [{caution.source}]" in text


@pytest.mark.parametrize(
    "words",
    [
        "weights before anyone lies", "licensed professionals come before", "No conformity is claimed",
        "low over clear, soft ground", "while just touching the cloth pulls twice", "Do not stand or swing", "no second hammock",
        "strike the person", "before each use", "bleached", "living trees, thicker", "Keep children away",
    ],
)  # fmt: skip
def test_cautions_of_the_trade_are_all_there(words):
    assert words in " ".join(show("both").split())


def test_verdict_and_what_was_not_checked_stand_on_lines_of_their_own():
    lines = [line.strip() for line in show("imperial").splitlines()]
    assert any(line.startswith("PASS: 1 check. Closest to its limit, 100 % used: left head leg") for line in lines[:4])
    assert any(line.startswith("NOT CHECKED, channel: a fold of 1.00 in is not told.") for line in lines)


def test_shares_of_the_cloth_add_up_to_a_hundred():
    """15.5, 80.5 and 4.0 would be rounded to 16, 81 and 4 each by itself."""
    fabric = replace(RECORD.fabric, taut_fraction=0.155, wrinkled_fraction=0.805, slack_fraction=0.040)
    shares = [
        int(share)
        for share in re.findall(r"(\d+)% (?:taut|wrinkled|slack)", show("both", record=replace(RECORD, fabric=fabric)))
    ]
    assert len(shares) == 3
    assert sum(shares) == 100


@given(weights=lists(floats(1e-3, 1.0), min_size=1, max_size=6))
def test_rounded_shares_stay_within_one_per_cent(weights):
    shares = [weight / sum(weights) for weight in weights]
    rounded = round_shares(shares)
    assert sum(rounded) == 100
    assert all(abs(part - 100 * share) < 1 for part, share in zip(rounded, shares, strict=True))


def test_a_factor_just_below_the_one_asked_does_not_look_like_it():
    weak = Check("foot line", "breaks", 400.0, bears(1999.0, "memory"), FACTORS["webbing"])
    text = show("metric", findings=Findings((weak, HOLDS), ()))
    (row,) = [line for line in text.splitlines() if line.startswith("foot line ") and "breaks" in line]
    assert row.split()[-5:] == ["4.9*", "5", "FAIL", "101", "%"]
    assert "FAIL: 1 of 2 checks. Too little reserve" in text
    assert "* no source found: test a sample" in text


def test_left_and_right_share_a_row_unless_they_fail():
    twin = Check("right head leg", "splice breaks", 399.0, bears(2000.0), FACTORS["cord"])
    text = show("both", findings=Findings((HOLDS, twin), ()))
    assert "head leg  splice breaks" in text
    assert "right head leg" not in text.split("Forces")[0].split("Strength")[1]
