"""What choices do, on invented designs made from known effects."""

from itertools import product
from math import sqrt

import pytest

from tautlay.cases.studies.compare.choice_effects import find_effects
from tautlay.cases.studies.sweep.sweep_form import Combine

from ...._rows import make_row

CLOTH = {"light": 0.0, "heavy": 0.050}
DEPTH = {"12 cm": 0.0, "16 cm": -0.004, "20 cm": -0.008}


def make_sum(drop=()):
    """Return a grid whose weights are a sum of effects, so that each is known exactly."""
    rows = [
        make_row(number, {"depth": depth, "cloth": cloth}, packed_kg=0.25 + CLOTH[cloth] + DEPTH[depth])
        for number, (depth, cloth) in enumerate(product(DEPTH, CLOTH), 1)
    ]
    return [row for row in rows if row.number not in drop]


@pytest.mark.parametrize("drop", [(), (2,), (1, 6), (3, 4)])
def test_a_grid_of_sums_gives_its_terms_even_with_designs_missing(drop):
    found = find_effects(make_sum(drop), "packed_kg", Combine.GRID)
    assert [influence.choice for influence in found.influences] == ["cloth", "depth"]  # what moves most first
    for influence in found.influences:
        for effect in influence.effects:
            known = {**CLOTH, **DEPTH}
            asked = known[effect.label] - known[effect.against]
            assert (effect.mean, effect.least, effect.most) == pytest.approx((asked, asked, asked), abs=1e-12)


def test_spread_is_the_least_and_the_most_of_the_pairs():
    values = {("a", "x"): 1.0, ("b", "x"): 1.5, ("a", "y"): 2.0, ("b", "y"): 4.5}
    rows = [make_row(n, {"one": o, "two": t}, line_N=v) for n, ((o, t), v) in enumerate(values.items(), 1)]
    found = find_effects(rows, "line_N", Combine.GRID)
    (one,) = (influence for influence in found.influences if influence.choice == "one")
    assert one.effects[0][2:] == (1.5, 0.5, 2.5, 2)
    assert one.reach == 1.5


def test_one_at_a_time_is_told_against_the_design_as_it_is():
    as_it_is = {"cloth": "as designed", "depth": "as designed"}
    rows = [
        make_row(1, as_it_is, packed_kg=0.30),
        make_row(2, as_it_is | {"cloth": "heavy"}, packed_kg=0.35),
        make_row(3, as_it_is | {"depth": "12 cm"}, packed_kg=0.29),
    ]
    found = find_effects(rows, "packed_kg", Combine.ALONE)
    cloth, depth = found.influences
    assert cloth.effects[0].against == depth.effects[0].against == "as designed"
    assert (cloth.effects[0].mean, depth.effects[0].mean) == pytest.approx((0.05, -0.01))
    assert "relative to the unchanged design" in found.how
    lost = find_effects(rows[1:], "packed_kg", Combine.ALONE)
    assert lost.influences == ()
    assert "cannot be compared with it" in lost.how


def test_samples_are_told_with_two_standard_errors():
    values = {"a": [1.0, 2.0, 3.0], "b": [5.0, 7.0, 9.0]}
    rows = [
        make_row(number, {"cloth": label}, line_N=value)
        for number, (label, value) in enumerate([(k, v) for k, all_ in values.items() for v in all_], 1)
    ]
    found = find_effects(rows, "line_N", Combine.LATIN)
    (effect,) = found.influences[0].effects
    error = sqrt(1.0 / 3 + 4.0 / 3)  # variances 1 and 4 of three values each
    assert effect[2:] == pytest.approx((5.0, 5.0 - 2 * error, 5.0 + 2 * error, 3))


def test_a_sampled_quantity_is_cut_in_halves_of_equally_many():
    rows = [make_row(n, {"depth": f"{20 - n} cm"}, line_N=100.0 * (20 - n)) for n in range(1, 9)]
    (effect,) = find_effects(rows, "line_N", Combine.SOBOL).influences[0].effects
    assert (effect.against, effect.label, effect.size) == ("12 cm to 15 cm", "16 cm to 19 cm", 4)
    assert effect.mean == pytest.approx(400.0)


def test_one_design_of_a_label_tells_no_spread():
    rows = [make_row(1, {"cloth": "a"}, line_N=1.0), make_row(2, {"cloth": "b"}, line_N=3.0)]
    (effect,) = find_effects(rows, "line_N", Combine.LATIN).influences[0].effects
    assert effect[2:] == (2.0, None, None, 1)


def test_choices_that_vary_together_are_not_told_apart():
    rows = [make_row(n, {"one": str(n), "two": str(n)}, line_N=n) for n in (1, 2, 3)]
    found = find_effects(rows, "line_N", Combine.PAIRED)
    assert found.influences == ()
    assert "vary together" in found.how
