"""Creep, and cloth, cords and straps that are soaked: formulas and the library's numbers against what was published."""

import math

import pytest
from scipy.optimize import brentq

from tautlay.making.creep import READ, Weather, count_decades, find_creep, find_fibre, soften
from tautlay.making.weathering import take_worst, weather_material
from tautlay.materials import (
    Cord,
    Fabric,
    QuantityError,
    TextileFibre,
    Thread,
    Tube,
    Webbing,
    parse_temperature,
    read_library,
)

LIBRARY = read_library()
DAY = 86400.0
TEXTILES = [material for kind in ("fabric", "cord", "webbing", "thread") for material in LIBRARY.select(kind)]


def test_after_no_time_dry_at_room_temperature_every_material_is_the_same_object():
    for material in (*TEXTILES, *LIBRARY.select("tube")):
        after = weather_material(material, find_fibre(material, LIBRARY), Weather())
        assert after.material is material
        assert after.unknown == ()


@pytest.mark.parametrize(("share", "days"), [(0.25, 569.0), (0.33, 569.0), (0.50, 115.0), (0.37, 180.0)])
def test_liquid_crystal_polyester_creeps_less_than_could_be_seen(share, days):
    """Published by a supplier of the fibre: no creep seen on 2 m of yarn, or on a braid; half a millimetre would not be."""
    fibre = LIBRARY.find(TextileFibre, "liquid-crystal polyester")
    assert 0.0 < 2.0 * find_creep(fibre, share, Weather(after=days * DAY)) < 0.5e-3


@pytest.mark.parametrize(("share", "published"), [(0.15, 0.119e-2), (0.30, 0.166e-2)])
def test_polyester_yarn_creeps_from_one_to_ten_days_as_tabled(share, published):
    """McKenna, Hearle and O'Hear, Handbook of Fibre Rope Technology (2004), table of yarn creep; quoted from memory.

    Twice the load gives 1.4 times the creep there and twice here, so that the range is what has to hold.
    """
    fibre = LIBRARY.find(TextileFibre, "polyester")
    found = find_creep(fibre, share, Weather(after=10 * DAY)) - find_creep(fibre, share, Weather(after=DAY))
    low, high = (end / fibre.creep * found for end in fibre.provenance["creep"].range)
    assert low <= published * 1.005
    assert published <= high
    if share == 0.15:
        assert found == pytest.approx(published, rel=0.005)


def test_creep_is_straight_in_the_logarithm_of_time_and_begins_at_zero():
    fibre = TextileFibre("demo", "polyamide", 1140.0, creep=0.02, creep_time=1e9)
    assert find_creep(fibre, 0.1, Weather()) == 0.0
    later = [find_creep(fibre, 0.1, Weather(after=time)) for time in (1e6, 1e7, 1e8)]
    assert later[1] - later[0] == pytest.approx(0.002, rel=1e-3)
    assert later[2] - later[1] == pytest.approx(0.002, rel=1e-3)


def test_a_warmer_fibre_is_ten_times_as_fast_and_one_without_a_shift_is_not():
    fibre = TextileFibre("demo", "polyethylene", 970.0, creep=0.004, creep_time=1e9, creep_shift=12.0)
    assert count_decades(Weather(READ, temperature=32.0), fibre) == pytest.approx(math.log10(11.0))
    plain = TextileFibre("demo", "polyethylene", 970.0, creep=0.004, creep_time=1e9)
    assert count_decades(Weather(READ, temperature=32.0), plain) == pytest.approx(math.log10(2.0))


def test_beyond_its_longest_time_creep_stops_and_says_so():
    cord = LIBRARY.find(Cord, "12-strand UHMWPE 2 mm")
    fibre = find_fibre(cord, LIBRARY)
    day, month = (weather_material(cord, fibre, Weather(after=days * DAY)) for days in (1.0, 30.0))
    assert day.unknown == ()
    assert month.material == day.material
    assert [each.what for each in month.unknown] == ["creep beyond 24 h, left out"]


def test_a_cord_under_a_weight_hangs_lower_by_its_creep():
    cord = LIBRARY.find(Cord, "polyester braid 3 mm")
    fibre = find_fibre(cord, LIBRARY)
    night, weight = Weather(after=8 * 3600.0), 300.0
    after = weather_material(cord, fibre, night).material
    creep = find_creep(fibre, weight / cord.breaking_load, night)
    assert weight / after.ea - weight / cord.ea == pytest.approx(creep, rel=1e-12)


def _find_angle(strain_at) -> float:
    """Return the angle of two lines over 4 m, 4.1 m long unloaded, with 300 N in the middle: a closed form."""

    def gap(angle: float) -> float:
        return 4.1 * (1.0 + strain_at(150.0 / math.sin(angle))) * math.cos(angle) - 4.0

    return brentq(gap, 0.05, 1.2, xtol=1e-14)


def test_softer_is_what_growing_by_the_creep_of_its_own_tension_comes_to():
    """Unstressed length grown by the creep of the tension found, again and again until it stays."""
    ea, strength, grown = 15.5e3, 2200.0, 0.0079 * 2.68
    softer = _find_angle(lambda tension: tension / soften(ea, strength, grown))
    before = _find_angle(lambda tension: tension / ea)
    angle = before
    for _ in range(50):
        creep = grown * 150.0 / math.sin(angle) / strength
        angle = _find_angle(lambda tension, creep=creep: (1.0 + creep) * (1.0 + tension / ea) - 1.0)
    assert angle - before == pytest.approx(softer - before, rel=0.03)  # they differ by creep times stretch
    assert angle > before


def test_soaked_nylon_is_softer_and_heavier():
    cloth = LIBRARY.find(Fabric, "ripstop nylon 37 g/m2")
    fibre = find_fibre(cloth, LIBRARY)
    soaked = weather_material(cloth, fibre, Weather(wet=True)).material
    assert soaked.strength_warp == cloth.strength_warp  # the factors of safety count it as wet already
    assert soaked.weft == pytest.approx(0.85 * cloth.weft)
    assert soaked.areal_mass == pytest.approx(1.52 * cloth.areal_mass)
    assert soaked.shear == cloth.shear
    thread = LIBRARY.find(Thread, "nylon size E")
    sewn = weather_material(thread, fibre, Weather(8 * 3600.0, wet=True)).material
    assert sewn.linear_mass == pytest.approx(1.52 * thread.linear_mass)
    worst = weather_material(cloth, take_worst(fibre, Weather(wet=True)), Weather(wet=True)).material
    assert worst.warp < soaked.warp


def test_what_no_source_tells_is_named_and_left():
    strap = LIBRARY.find(Webbing, "UHMWPE/polyester 1 in")
    found = weather_material(strap, find_fibre(strap, LIBRARY), Weather(3600.0, wet=True, temperature=0.0))
    assert found.material == strap
    assert {each.what for each in found.unknown} == {
        "creep, left out", "stiffness when wet, taken as dry", "water held, left out",
        "stiffness and strength at this temperature, taken as at 20 degC",
    }  # fmt: skip
    with pytest.raises(ValueError, match="creep is not known"):
        find_creep(LIBRARY.find(TextileFibre, "polypropylene"), 0.1, Weather(3600.0))


def test_blends_films_and_bars_have_no_fibre_of_their_own():
    names = {material.name: find_fibre(material, LIBRARY) for material in TEXTILES}
    assert {name for name, fibre in names.items() if fibre is None} == {
        "UHMWPE laminate 35 g/m2", "UHMWPE laminate 50 g/m2", "UHMWPE/polyester 1 in", "cotton lawn 80 g/m2",
        "cotton sheeting 105 g/m2",
    }  # fmt: skip
    tube = LIBRARY.find(Tube, "carbon 12 x 1 mm")
    assert weather_material(tube, None, Weather(3600.0, wet=True)).material is tube


def test_temperatures_are_read_in_three_scales():
    assert parse_temperature("104 degF") == pytest.approx(40.0)
    assert parse_temperature("-4 degF") == pytest.approx(-20.0)
    assert parse_temperature("300 K") == pytest.approx(26.85)
    for text in ("5", "5 C", "warm", "5 deg"):
        with pytest.raises(QuantityError, match="5 degC or 41 degF"):
            parse_temperature(text)
