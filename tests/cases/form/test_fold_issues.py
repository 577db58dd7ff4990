"""Channels that cannot be folded or sewn are refused with a plain sentence."""

from pathlib import Path

import pytest

from tautlay.cases import read_design

from ._design_issues import list_faults

CASES = Path(__file__).parents[3] / "cases"
LARCH = (CASES / "larch_ridge.toml").read_text(encoding="utf-8")
OTTER = (CASES / "otter_creek.toml").read_text(encoding="utf-8")
LOCKED = OTTER.replace('attachment = "sewn"', 'attachment = "locked"\nlock_length = "32 in"').replace(
    'corner_length = "2 in"\n', ""
)


@pytest.mark.parametrize(
    ("text", "old", "new", "key", "words"),
    [
        (OTTER, '"3 1/4 in"', '"2 1/2 in"', "strip_width", "too narrow: to wrap the edge and reach its own seam it must be at least 6.98 cm (2.75 in)"),
        (OTTER, "rows = 2", "rows = 4", "rows", "4 rows need a stitching width of 12.0 mm"),
        (OTTER, "rows = 2", 'rows = 2\nfinished_width = "1 in"', "finished_width", "gives a channel 17.5 mm (0.688 in) wide, not 25.4 mm"),
        (OTTER, '"3/8 in"', '"0.6 in"', "strip_inset", "too thick for a channel 17.5 mm (0.688 in) wide: it needs a pocket of 3.14 mm"),
        (LOCKED, "rows = 2\n\n[channel.lock]", 'rows = 2\n[channel.lock]\ncorner_length = "4 cm"', "corner_length", "Remove it"),
        (OTTER, 'strip_inset = "1 3/8 in"\n', "", "strip_inset", "is missing. A strip needs"),
        (LARCH, "rows = 2", 'rows = 2\nstrip_width = "9 cm"', "strip", "is missing. A strip needs"),
        (LARCH, 'finished_width = "20 mm"\n', "", "finished_width", "is missing: flat width"),
        (LARCH, '"20 mm"', '"5 mm"', "rows", "2 rows need a stitching width of 6.00 mm"),
        (LARCH, 'stitch_length = "3 mm"', 'stitch_length = "3 cm"', "stitch_length", "Did you mean 3 mm"),
        (LARCH, 'stitch_length = "3 mm"', "stitch_length = 3", "stitch_length", "in quotes"),
        (LARCH, 'stitch_length = "3 mm"\n', "", "stitch_length", "3 mm is 8.5 stitches per inch"),
        (LARCH, "folds = 2", "folds = 3", "folds", "at most 2"),
        (LARCH, '"nylon size B"', '"nylon size Q"', "thread", "not a thread in the library"),
        (LARCH, "rows = 2\n", 'rows = 2\nstitch = "zigzag"\n', "stitch", "Choose lock or chain"),
        (LARCH, "rows = 2\n", 'rows = 2\nseam_efficiency = "120 %"\n', "seam_efficiency", "between"),
        (LARCH, '"sewn"', '"free"', "lock", "Remove the table"),
        (LARCH, "folds = 2", 'folds = 1\nstrip = "cotton lawn 80 g/m2"\nstrip_width = "5 cm"\nstrip_inset = "25 mm"', "finished_width", "Make the channel wider"),
    ],
)  # fmt: skip
def test_channel_that_cannot_be_sewn_is_refused(tmp_path, text, old, new, key, words):
    assert old in text
    faults = list_faults(tmp_path, text.replace(old, new, 1))
    assert len(faults) == 1, [str(fault) for fault in faults]
    assert any(part.endswith(key) for part in faults[0].key.split(" and ")), faults[0].key
    assert words in faults[0].message
    assert faults[0].line


def test_thick_cord_is_refused_with_the_one_that_fits(tmp_path):
    """A cord of 15 mm has half a girth of 23.6 mm; a pocket of 20 mm takes 12.7 mm."""
    thick = (
        '[cord."thick"]\nbase = "12-strand UHMWPE 2 mm"\nsource = "invented"\nstatus = "memory"\ndiameter = "15 mm"\n'
    )
    (tmp_path / "m.toml").write_text(thick, encoding="utf-8")
    text = LARCH.replace('cord = "12-strand UHMWPE 2 mm"', 'cord = "thick"', 1)
    (fault,) = list_faults(tmp_path, '[materials]\nfiles = ["m.toml"]\n' + text)
    assert "needs a pocket of 23.6 mm" in fault.message
    assert "enough for 12.7 mm" in fault.message


def test_demo_channels_are_what_their_comments_say():
    otter, larch = (read_design(CASES / f"{name}.toml") for name in ("otter_creek", "larch_ridge"))
    assert otter.workmanship.fold.width == pytest.approx(11 / 16 * 0.0254)
    assert otter.workmanship.fold.seam.per_inch == pytest.approx(8.0)
    assert round(larch.workmanship.fold.seam.per_inch, 1) == 8.5
    assert otter.sources["channel.fold.strip"].kind == "coated nylon"


def test_starters_commented_strip_can_be_used(tmp_path):
    text = (CASES / "starter.toml").read_text(encoding="utf-8").replace('finished_width = "20 mm"', "# finished_width")
    for key in ("strip", "strip_width", "strip_inset", "stitching_width", "seam_efficiency"):
        assert text.count(f"\n# {key} = ") == 1, key
        text = text.replace(f"\n# {key} = ", f"\n{key} = ")
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    fold = read_design(tmp_path / "a.toml").workmanship.fold
    assert (fold.width, fold.efficiency) == (pytest.approx(0.02), pytest.approx(0.7))
