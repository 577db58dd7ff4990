"""The grammar of quantities; each trap is something people type that a unit library reads wrongly."""

import time
from math import isclose, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tautlay.materials import DIMENSIONS, QuantityError, format_quantity, parse_quantity
from tautlay.materials.units import find_dimension, unit_factor

# NIST Special Publication 811 (2008), Appendix B.8 and B.9, to the seven digits printed there.
NIST = [
    ("1 ft", "length", 3.048e-1),
    ("1 in", "length", 2.54e-2),
    ("1 yd", "length", 9.144e-1),
    ("1 oz", "mass", 2.834952e-2),
    ("1 lb", "mass", 4.535924e-1),
    ("1 oz/yd2", "areal_mass", 3.390575e-2),
    ("1 den", "linear_mass", 1.111111e-7),
    ("1 tex", "linear_mass", 1e-6),
    ("1 lb/ft", "linear_mass", 1.488164),
    ("1 lbf", "force", 4.448222),
    ("1 kgf", "force", 9.80665),
    ("1 lbf/in", "line_load", 1.751268e2),
    ("1 lbf/ft", "line_load", 1.459390e1),
    ("1 deg", "angle", 1.745329e-2),
    ("1 psi", "stress", 6.894757e3),
    ("1 ksi", "stress", 6.894757e6),
    ("1 lb/in3", "density", 2.767990e4),
    ("1 lb/ft3", "density", 1.601846e1),
]
# Products of exact factors: avoirdupois ounce 28.349523125 g, yard 0.9144 m, foot 0.3048 m, pound 0.45359237 kg.
EXACT = [
    ("1 oz/yd", "linear_mass", 28.349523125e-3 / 0.9144),
    ("1 oz/ft", "linear_mass", 28.349523125e-3 / 0.3048),
    ("1 g/ft", "linear_mass", 1e-3 / 0.3048),
    ("225 ft/lb", "linear_mass", 0.45359237 / (225 * 0.3048)),
    ("1 dtex", "linear_mass", 1e-7),
    ("1 daN", "force", 10.0),
    ("1 kN/m", "line_load", 1e3),
    ("1 N/mm", "line_stiffness", 1e3),
    ("10 N/5cm", "line_load", 200.0),
    ("10 N/5 cm", "line_load", 200.0),
    ("10.1 Msi", "stress", 10.1e6 * 6894.757293168361),
    ("1 g/cm3", "density", 1e3),
    ("180 °", "angle", pi),
    ("15 %", "ratio", 0.15),
    ("0.15", "ratio", 0.15),
    ("-0.15", "ratio", -0.15),
    ("37 gsm", "areal_mass", 0.037),
    ("37 g/m^2", "areal_mass", 0.037),
    ("37 g/m²", "areal_mass", 0.037),
]
# The traps measured on a general unit library, and how they are to be read.
MAKERS_NOTATION = [
    ("6 ft 2 in", 74 * 0.0254),
    ("6' 2\"", 74 * 0.0254),
    ("6'2\"", 74 * 0.0254),
    ("6′ 2″", 74 * 0.0254),
    ("6 ft 2 1/2 in", 74.5 * 0.0254),
    ("6 feet 2.5 inches", 74.5 * 0.0254),
    ("1 3/4 in", 1.75 * 0.0254),
    ("1-3/4 in", 1.75 * 0.0254),
    ("1¾ in", 1.75 * 0.0254),
    ("3/4 in", 0.75 * 0.0254),
    ('70"', 70 * 0.0254),
    ("70''", 70 * 0.0254),
    ("6'", 6 * 0.3048),
    ("  2.5   mm ", 0.0025),
    ("2.5mm", 0.0025),
    ("1e-3 m", 0.001),
    (".5 mm", 0.0005),
    ("0 mm", 0.0),
]
REFUSED = [
    ("2,5 mm", "length", "comma"),
    ("1,000 lbf", "force", "comma"),
    ("40 D", "linear_mass", "write den"),
    ("9**9**9", "length", "has an unknown unit"),
    ("9**9**9 m", "length", "has an unknown unit"),
    ('__import__("os")', "length", "plain number"),
    ("1e400 m", "length", "too large"),
    ("1e308 km", "length", "too large"),
    ("1e-400 m", "length", "too small"),
    ("nan", "length", "plain number"),
    ("nan m", "length", "plain number"),
    ("inf m", "length", "plain number"),
    ("9" * 65, "length", "longer than 64"),
    ("9" * 100_000 + " m", "length", "longer than 64"),
    ("1/0 in", "length", "zero"),
    ("1 7/4 in", "length", "one or more after a whole number"),
    ("1 1/2 1/2 in", "length", "has an unknown unit"),
    ("1 --3/4 in", "length", "has an unknown unit"),
    ("6 ft 14 in", "length", "12 or more inches"),
    ("6 ft 2", "length", "no inches with their unit"),
    ("6 ft 2 cm", "length", "no inches with their unit"),
    ("6.5 ft 2 in", "length", "has an unknown unit"),
    ("2 mm x 3 mm", "length", "has an unknown unit"),
    ("1.2.3 mm", "length", "plain number"),
    ("٣ mm", "length", "plain number"),
    ("2 mm\n", "length", "plain number"),
    ("-5 mm", "length", "negative"),
    ("5", "length", "needs a unit"),
    ("37", "areal_mass", "needs a unit"),
    ("", "length", "empty"),
    ("mm", "length", "plain number"),
    ("3 MM", "length", "write mm"),
    ("180 lb", "force", "write lbf"),
    ("180 lbf", "mass", "write lb for"),
    ("80 kg", "force", "write kgf or N"),
    ("42 lb/in", "line_load", "write lbf/in"),
    ("1.1 oz", "areal_mass", "write oz/yd2"),
    ("0 ft/lb", "linear_mass", "must not be zero"),
    ("5 m", "mass", "has an unknown unit"),
    (5, "length", "not text"),
    (5.0, "length", "not text"),
    (True, "length", "not text"),
    (None, "length", "not text"),
    ([1, "m"], "length", "not text"),
    (10**6000, "length", "not text"),
]


@pytest.mark.parametrize(("text", "dimension", "si"), NIST)
def test_factor_is_that_of_nist_sp_811(text, dimension, si):
    assert float(f"{parse_quantity(text, dimension):.6e}") == si


@pytest.mark.parametrize(("text", "dimension", "si"), EXACT)
def test_factor_is_the_product_of_exact_ones(text, dimension, si):
    assert isclose(parse_quantity(text, dimension), si, rel_tol=1e-12)


@pytest.mark.parametrize(("text", "metres"), MAKERS_NOTATION)
def test_notation_of_makers_is_read_as_meant(text, metres):
    assert isclose(parse_quantity(text, "length"), metres, rel_tol=1e-12)


@pytest.mark.parametrize(("text", "dimension", "reason"), REFUSED, ids=range(len(REFUSED)))
def test_refusal_says_why_what_is_allowed_and_gives_an_example(text, dimension, reason):
    began = time.process_time()
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, dimension)
    message = str(caught.value)
    assert reason in message
    assert find_dimension(dimension).example in message
    assert "\n" not in message
    assert len(message) < 400
    assert time.process_time() - began < 2.0  # nothing is evaluated, so nothing can hang


def test_pound_of_mass_and_pound_of_force_are_kept_apart():
    assert isclose(parse_quantity("1 lbf", "force") / parse_quantity("1 lb", "mass"), 9.80665, rel_tol=1e-12)


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_unit_has_its_dimension_and_a_positive_factor(dimension):
    assert all(unit_factor(dimension, unit) > 0.0 for unit in find_dimension(dimension).units)


def test_unit_of_another_dimension_in_the_table_is_caught(monkeypatch):
    from tautlay.materials import units

    monkeypatch.setitem(units.find_dimension("length").units, "wrong", units.Unit("kilogram"))
    with pytest.raises(ValueError, match="another dimension"):
        unit_factor("length", "wrong")


def test_unknown_dimension_is_a_mistake_of_the_caller():
    with pytest.raises(ValueError, match="unknown dimension 'lenght'"):
        parse_quantity("1 m", "lenght")


@given(st.sampled_from(DIMENSIONS), st.floats(1e-9, 1e9), st.data())
def test_number_with_any_unit_is_read_back(dimension, number, data):
    unit = data.draw(st.sampled_from(sorted(find_dimension(dimension).units)))
    value = parse_quantity(f"{number!r} {unit}", dimension)
    factor = unit_factor(dimension, unit)
    expected = 1.0 / (number * factor) if find_dimension(dimension).units[unit].inverse else number * factor
    assert isclose(value, expected, rel_tol=1e-12)


@given(st.sampled_from(DIMENSIONS), st.sampled_from(["metric", "imperial"]), st.floats(1e-7, 1e12))
def test_what_is_written_can_be_read_back(dimension, system, value):
    text = format_quantity(value, dimension, system, digits=6)
    assert isclose(parse_quantity(text, dimension), value, rel_tol=1e-5)


@given(st.integers(0, 20), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_add_up(feet, inches, sixteenths):
    value = parse_quantity(f"{feet} ft {inches} {sixteenths}/16 in", "length")
    assert isclose(value, (feet * 12 + inches + sixteenths / 16) * 0.0254, rel_tol=1e-12)


def read_or_refuse(text, dimension):
    """Return the value or the refusal; any other exception is a failure."""
    try:
        return parse_quantity(text, dimension)
    except QuantityError as refusal:
        return str(refusal)


@given(st.text(max_size=80) | st.text("0123456789.,eE+-/ *'\"ftinm%()", max_size=64), st.sampled_from(DIMENSIONS))
def test_any_text_is_read_as_a_finite_number_or_refused(text, dimension):
    answer = read_or_refuse(text, dimension)
    if isinstance(answer, str):
        assert " Write " in answer
    else:
        assert abs(answer) < float("inf")


def test_reading_is_cheap_once_the_factor_is_known():
    parse_quantity("1 mm", "length")
    began = time.process_time()
    for number in range(1000):
        parse_quantity(f"{number} mm", "length")
    assert time.process_time() - began < 0.5  # about 10 ms; with pint in the loop it would be far above


@pytest.mark.parametrize(
    ("value", "dimension", "metric", "imperial"),
    [
        (0.0373, "areal_mass", "37.3 g/m2", "1.10 oz/yd2"),
        (1.1, "length", "110 cm", "43.3 in"),
        (0.002, "length", "2.00 mm", "0.0787 in"),
        (0.016, "length", "16.0 mm", "0.630 in"),
        (4.0, "length", "4.00 m", "13.1 ft"),
        (0.25, "mass", "250 g", "8.82 oz"),
        (80.0, "mass", "80.0 kg", "176 lb"),
        (448.0, "force", "448 N", "101 lbf"),
        (30e3, "line_stiffness", "30000 N/m", "171 lbf/in"),
        (54.0, "line_stiffness", "54.0 N/m", "0.308 lbf/in"),
        (70e-6, "linear_mass", "70.0 tex", "630 den"),
        (69.6e9, "stress", "69.6 GPa", "10.1 Msi"),
        (0.5236, "angle", "30.0 deg", "30.0 deg"),
        (0.0, "length", "0 mm", "0 in"),
    ],
)
def test_value_is_written_in_the_unit_a_maker_would_choose(value, dimension, metric, imperial):
    assert format_quantity(value, dimension) == metric
    assert format_quantity(value, dimension, "imperial") == imperial


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_value_that_is_not_finite_is_not_written(value):
    with pytest.raises(ValueError, match="not a finite length"):
        format_quantity(value, "length")


def test_unknown_system_and_no_digits_are_refused():
    with pytest.raises(ValueError, match="choose one of metric, imperial"):
        format_quantity(1.0, "length", "nautical")
    with pytest.raises(ValueError, match="at least one significant digit"):
        format_quantity(1.0, "length", digits=0)


@pytest.mark.parametrize("text", ["1² m", "2³ mm", "³ m", "1 ²", "7 ft -2 in"])
def test_superscripts_are_no_digits_and_inches_have_no_sign(text):
    with pytest.raises(QuantityError):
        parse_quantity(text, "length")


def test_superscript_of_a_unit_is_read():
    assert parse_quantity("37 g/m²", "areal_mass") == pytest.approx(0.037)
