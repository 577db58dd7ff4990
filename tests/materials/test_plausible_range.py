"""A slip of the unit is caught at the door and named; the bounds are judgement, no source."""

import pytest

from tautlay.materials import PLAUSIBLE, QuantityError, check_plausible, parse_quantity

SLIPS = [
    ("30 kg/m2", "fabric areal mass", "Did you mean 30 g/m2?"),
    ("1.1 g/m2", "fabric areal mass", "Did you mean 1.1 oz/yd2?"),
    ("2 m", "cord diameter", "Did you mean 2 mm?"),
    ("1.75 in", "cord diameter", "Did you mean 1.75 mm?"),
    ("2.6 kg/m", "linear mass", "Did you mean 2.6 g/m?"),
    ("16 m", "tube diameter", "Did you mean 16 mm?"),
    ("1 in", "tube wall", "Did you mean 1 mm?"),
    ("2.8 mm", "body length", "Did you mean 2.8 m?"),
    ("280 m", "body length", "Did you mean 280 cm?"),
    ("110 mm", "body width", "Did you mean 110 cm?"),
    ("20 m", "arc depth", "Did you mean 20 cm?"),
    ("90 mm", "bar length", "Did you mean 90 cm?"),
    ("120 m", "leg length", "Did you mean 120 cm?"),
    ("150 m", "line length", "Did you mean 150 cm?"),
    ("400 m", "tree distance", "Did you mean 400 cm?"),
    ("6 in", "strap height", "Did you mean 6 ft?"),
    ("178 m", "stature", "Did you mean 178 cm?"),
    ("80 g", "person mass", "Did you mean 80 kg?"),
    ("6 N", "breaking load", "Did you mean 6 kN?"),
    ("25 m", "mesh size", "Did you mean 25 mm?"),
    ("25 cm", "strap width", "Did you mean 25 mm?"),
]


@pytest.mark.parametrize(("text", "what", "advice"), SLIPS)
def test_slip_is_refused_and_named(text, what, advice):
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, PLAUSIBLE[what].dimension, what)
    assert text in str(caught.value)
    assert what in str(caught.value)
    assert advice in str(caught.value)


@pytest.mark.parametrize(
    ("text", "what", "bound"),
    [
        ("600 lb", "person mass", "551 lb"),  # 250 kg: NIST SP 811 B.8
        ("600 kg", "person mass", "250 kg"),
        ("1100 lb", "person mass", "551 lb"),
    ],
)
def test_no_unlikelier_unit_is_suggested_and_the_bound_is_in_the_same_units(text, what, bound):
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, PLAUSIBLE[what].dimension, what)
    assert f"({bound})" in str(caught.value)
    assert "oz" not in str(caught.value)
    assert "Check the number and its unit" in str(caught.value)


ORDINARY = [
    ("1.1 oz/yd2", "fabric areal mass"),
    ("2 mm", "cord diameter"),
    ("225 ft/lb", "linear mass"),
    ("16 mm", "tube diameter"),
    ("0.035 in", "tube wall"),
    ("6 ft 10 in", "body length"),
    ("43 in", "body width"),
    ("0 mm", "arc depth"),
    ("36 in", "bar length"),
    ("18 in", "leg length"),
    ("10 ft", "line length"),
    ("15 ft", "tree distance"),
    ("5 ft", "strap height"),
    ("6 ft 2 in", "stature"),
    ("180 lb", "person mass"),
    ("1000 lbf", "breaking load"),
    ("25 mm", "mesh size"),
    ("1 in", "strap width"),
]


@pytest.mark.parametrize(("text", "what"), ORDINARY)
def test_ordinary_value_passes(text, what):
    assert PLAUSIBLE[what].low <= parse_quantity(text, PLAUSIBLE[what].dimension, what) <= PLAUSIBLE[what].high


@pytest.mark.parametrize("what", PLAUSIBLE)
def test_bounds_themselves_pass_and_beyond_them_nothing_does(what):
    bounds = PLAUSIBLE[what]
    assert check_plausible(bounds.low, what) is None
    assert check_plausible(bounds.high, what) is None
    assert "largest plausible" in check_plausible(1.001 * bounds.high, what)
    below = 0.999 * bounds.low if bounds.low else -1e-3
    assert "smallest plausible" in check_plausible(below, what)


def test_factor_beyond_the_bound_is_told():
    assert check_plausible(30.0, "fabric areal mass") == (
        "30 kg/m2 is 50 times the largest plausible fabric areal mass (600 g/m2). Did you mean 30 g/m2?"
    )


def test_number_that_fits_no_unit_gets_no_invented_advice():
    assert "Check the number" in check_plausible(0.0, "cord diameter")


def test_slip_of_an_inverse_unit_is_told_in_that_unit():
    with pytest.raises(QuantityError, match=r"0\.01 ft/lb is"):
        parse_quantity("0.01 ft/lb", "linear_mass", "linear mass")


def test_meaning_must_exist_and_match_the_dimension():
    with pytest.raises(ValueError, match="unknown meaning 'girth'"):
        parse_quantity("1 m", "length", "girth")
    with pytest.raises(ValueError, match="'stature' is not a mass"):
        parse_quantity("80 kg", "mass", "stature")
    with pytest.raises(ValueError, match="unknown unit 'stone' of mass"):
        check_plausible(1000.0, "person mass", "stone")
