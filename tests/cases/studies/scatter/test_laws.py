"""Distributions, indices and chances against closed forms, a test function and plain Monte Carlo."""

from math import erf, exp, pi, sqrt

import numpy as np
import pytest
from scipy.stats import lognorm, norm, uniform

from tautlay.cases.display.scatter_words import LIMITS, write_chance
from tautlay.cases.judging.sensitivity.range_input import Input
from tautlay.cases.studies.scatter.chance import draw_spread
from tautlay.cases.studies.scatter.distribution import REACH, Distribution, choose_distribution
from tautlay.cases.studies.scatter.draw import draw_many, draw_scores
from tautlay.cases.studies.scatter.indices import find_indices
from tautlay.cases.studies.scatter.rare_chance import find_rare_chance
from tautlay.cases.studies.scatter.response import Response, fit_response

CORD = Distribution("log-normal", 3800.0, 4700.0, "a test")
SHARE = Distribution("even", 0.6, 0.8, "a test")
PULL = Distribution("normal", 380.0, 450.0, "a test")
LAWS = (CORD, SHARE, PULL)
NORMAL = Distribution("normal", 0.0, 1.0, "a test")


def find_factor(scores):
    """Return a factor of safety as a check has it: strength times share kept over the pull."""
    strength, share, pull = (law.take(column) for law, column in zip(LAWS, scores.T, strict=True))
    return strength * share / pull


def phi(z):
    return (1 + erf(z / sqrt(2))) / 2


@pytest.mark.parametrize(
    ("law", "reference"),
    [
        (CORD, lognorm(s=np.log(4700 / 3800) / 2 / norm.ppf(0.95), scale=sqrt(3800 * 4700))),
        (SHARE, uniform(0.6, 0.2)),
        (PULL, norm(415.0, 35 / norm.ppf(0.95))),
    ],
)
def test_scores_become_the_law(law, reference):
    shares = np.array([0.01, 0.05, 0.3, 0.5, 0.95, 0.999])
    assert law.take(law.score(shares)) == pytest.approx(reference.ppf(shares), rel=1e-9)


def test_ends_that_make_no_law_are_refused():
    with pytest.raises(ValueError, match="wrong order"):
        Distribution("normal", 2.0, 1.0, "a test")
    with pytest.raises(ValueError, match="positive"):
        Distribution("log-normal", 0.0, 1.0, "a test")
    with pytest.raises(ValueError, match="no range"):
        choose_distribution(Input("pull", 1.0, None, "force", ""))
    assert choose_distribution(Input("Poisson ratio", 0.15, (0.0, 0.3), "ratio", "")).kind == "even"


def test_chance_is_that_of_plain_monte_carlo():
    """20,000 draws of another generator; 128 drawn hammocks instead, to two standard errors of the draws."""
    generator = np.random.default_rng(2026)
    count = 20_000
    factors = (
        np.exp(generator.normal(np.log(3800 * 4700) / 2, np.log(4700 / 3800) / 2 / norm.ppf(0.95), count))
        * generator.uniform(0.6, 0.8, count)
        / generator.normal(415.0, 35 / norm.ppf(0.95), count)
    )
    scores = draw_scores(LAWS, 128, 5)
    spread = draw_spread(fit_response(scores, np.log(find_factor(scores))), draw_many(LAWS))
    for limit in (6.0, 6.5, 7.0, 8.0):
        plain = float((factors < limit).mean())
        error = sqrt(plain * (1 - plain) / count)
        assert spread.find_chance(np.log(limit)) == pytest.approx(plain, abs=2 * error), limit


@pytest.mark.parametrize("beta", [0.5, 1.5, 2.5])
def test_normal_variables_and_a_linear_limit_have_the_closed_form(beta):
    """P(R < S) = Phi(-beta), beta = (mR - mS)/sqrt(sR^2 + sS^2); any text on structural reliability."""
    deviations = np.array([3.0, 4.0])
    laws = [NORMAL] * 2
    scores = draw_scores(laws, 32, 1)
    margin = beta * 5.0 + scores @ (deviations * [1, -1])
    spread = draw_spread(fit_response(scores, margin), draw_many(laws))
    exact = phi(-beta)
    assert spread.find_chance(0.0) == pytest.approx(exact, abs=2 * sqrt(exact * (1 - exact) / len(spread.values)))


@pytest.mark.parametrize("beta", [3.0, 5.0, 8.0])
def test_rare_chance_of_normal_variables_and_a_linear_limit_has_the_closed_form(beta):
    """Phi(-beta) down to 6e-16, where plain draws see nothing; FORM is exact here, importance sampling to 4 errors."""
    response = Response(((0,), (1,)), np.array([beta * 5.0, 3.0, -4.0]), np.zeros(30), 1.0)
    found = find_rare_chance(response, [NORMAL] * 2, 0.0)
    assert found.beta == pytest.approx(beta, rel=1e-6)
    assert found.first_order == pytest.approx(phi(-beta), rel=1e-5)
    assert found.error < 0.02 * found.chance
    assert found.chance == pytest.approx(phi(-beta), abs=4 * found.error)


@pytest.mark.slow
def test_rare_chance_is_that_of_plain_monte_carlo_where_that_reaches():
    """Chances of some 1 in 100 to 1 in 10,000 of a fitted response, by a million draws."""
    scores = draw_scores(LAWS, 128, 5)
    response = fit_response(scores, np.log(find_factor(scores)))
    generator, count = np.random.default_rng(7), 1_000_000
    columns = [
        generator.uniform(-law.reach, law.reach, count) if law.kind == "even" else generator.normal(size=count)
        for law in LAWS
    ]
    missed = generator.normal(scale=np.sqrt(np.mean(response.left**2)), size=count)
    drawn = response.predict(np.column_stack(columns)) + missed
    for limit in np.log([5.6, 5.3, 5.0]):
        plain = float((drawn < limit).mean())
        found = find_rare_chance(response, LAWS, limit)
        assert 5e-5 < plain < 2e-2, limit
        assert found.error < 0.02 * found.chance
        assert found.chance == pytest.approx(plain, abs=4 * sqrt(plain / count + found.error**2)), limit


def test_a_limit_that_an_even_law_never_meets_has_no_chance():
    even = Distribution("even", 0.0, 1.0, "a test")
    response = Response(((0,),), np.array([0.0, 1.0]), np.zeros(30), 1.0)
    assert find_rare_chance(response, [even], -1.8) == (0.0, 0.0, float("inf"))
    assert find_rare_chance(response, [even], -1.7).chance == pytest.approx((1.0 - 1.7 / sqrt(3.0)) / 2, rel=0.05)


def test_a_response_without_a_slope_in_the_middle_still_has_its_chance():
    """x^2 - 1 over root 2 falls below nothing, turned round it does on both sides: one of them is what is found."""
    response = Response(((0, 0),), np.array([5.0, -1.0]), np.zeros(30), 1.0)
    found = find_rare_chance(response, [NORMAL], 0.0)
    assert found.beta == pytest.approx(sqrt(1.0 + 5.0 * sqrt(2.0)), rel=1e-5)
    assert found.chance == pytest.approx(found.first_order, rel=0.05)


def test_indices_of_the_ishigami_function():
    """sin x1 + a sin^2 x2 + b x3^4 sin x1, a = 7, b = 0.1; T. Ishigami and T. Homma 1990, closed form."""
    a, b = 7.0, 0.1

    def ishigami(scores):
        x = scores * pi / REACH
        return np.sin(x[:, 0]) + a * np.sin(x[:, 1]) ** 2 + b * x[:, 2] ** 4 * np.sin(x[:, 0])

    one, two = (1 + b * pi**4 / 5) ** 2 / 2, a**2 / 8
    both = b**2 * pi**8 * (1 / 18 - 1 / 50)
    whole = one + two + both
    found = find_indices(ishigami, [Distribution("even", -pi, pi, "a test")] * 3)
    assert found.first == pytest.approx([one / whole, two / whole, 0.0], abs=0.02)
    assert found.total == pytest.approx([(one + both) / whole, two / whole, both / whole], abs=0.02)


def test_indices_of_a_product_add_up():
    """z1 z2 + z3: the product alone does nothing, together half."""
    found = find_indices(lambda scores: scores[:, 0] * scores[:, 1] + scores[:, 2], [NORMAL] * 3)
    assert found.first == pytest.approx([0.0, 0.0, 0.5], abs=0.03)
    assert found.total == pytest.approx([0.5, 0.5, 0.5], abs=0.03)


def test_what_does_not_scatter_has_no_indices():
    assert find_indices(lambda scores: np.ones(len(scores)), [NORMAL] * 2).total.tolist() == [0.0, 0.0]


def test_what_nothing_explains_is_not_explained():
    """Pure noise: the polynomial keeps nearly nothing, and the spread is that of the noise."""
    generator = np.random.default_rng(4)
    values = generator.normal(size=100)
    fitted = fit_response(generator.normal(size=(100, 12)), values)
    assert fitted.explained < 0.3
    spread = draw_spread(fitted, draw_many([NORMAL] * 12))
    assert spread.find_quantile(0.95) - spread.find_quantile(0.05) == pytest.approx(3.29 * values.std(), rel=0.2)


def test_a_wide_law_is_met_by_the_quadratic_terms():
    scores = draw_scores([NORMAL] * 2, 64, 3)
    values = np.exp(0.5 * scores[:, 0])
    fitted = fit_response(scores, values)
    assert fitted.explained > 0.97
    assert fitted.weights[0] == pytest.approx(exp(0.125), rel=0.02)  # mean of a log-normal variable


def test_chances_are_counts_and_no_claim():
    assert write_chance(0.0) == "under 1 of 10,000"
    assert "safe" in LIMITS
    assert "No chance says" in LIMITS
