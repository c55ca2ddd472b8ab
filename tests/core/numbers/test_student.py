"""Student's t and what is made of it, against SciPy."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy import stats

from backend.core.numbers.samples import mean_of, reach_of_difference, reach_of_mean, variance_of
from backend.core.numbers.student import student_below, student_quantile

CHANCES = (0.0005, 0.01, 0.025, 0.1, 0.3, 0.5, 0.6, 0.75, 0.9, 0.95, 0.975, 0.99, 0.9995)
VALUES = some.lists(some.floats(0.01, 1000), min_size=2, max_size=30)


@pytest.mark.parametrize("freedom", range(1, 301))
def test_the_chance_below_a_value_is_scipys(freedom):
    for t in (-40, -3.25, -1, -0.001, 0, 0.2, 1, 1.96, 2.5, 7, 100):
        assert student_below(float(t), freedom) == pytest.approx(stats.t.cdf(t, freedom), abs=1e-12)


@pytest.mark.parametrize("freedom", range(1, 301))
def test_however_far_a_value_lies_its_chance_is_one(freedom):
    for power in range(160):
        low, high = student_below(-(10.0**power), freedom), student_below(10.0**power, freedom)
        assert 0 <= low <= high <= 1
        if power >= 16:
            assert (low, high) == (pytest.approx(0, abs=1e-15), pytest.approx(1, abs=1e-15))


@pytest.mark.parametrize("freedom", range(1, 301))
def test_the_value_of_a_chance_is_scipys(freedom):
    for chance in CHANCES:
        wanted = stats.t.ppf(chance, freedom)
        assert student_quantile(chance, freedom) == pytest.approx(wanted, rel=1e-12, abs=1e-12)


def test_a_textbooks_table_is_met():
    # Abramowitz & Stegun, table 26.10: 12.706 and 2.571 and 2.228 and 2.042 for 0.975
    told = [student_quantile(0.975, freedom) for freedom in (1, 5, 10, 30)]
    assert told == pytest.approx([12.706, 2.571, 2.228, 2.042], abs=0.0005)


@given(VALUES)
def test_a_mean_is_as_sure_as_scipy_says(values):
    mean = mean_of(values)
    assert mean == pytest.approx(sum(values) / len(values))
    spread = sqrt(variance_of(values) / len(values))
    # what never varies is left to the tables of cases
    if spread > 1e-6 * mean:
        low, high = stats.t.interval(0.95, len(values) - 1, loc=mean, scale=stats.sem(values))
        reach = reach_of_mean(values, 0.95)
        assert (mean - reach, mean + reach) == pytest.approx((low, high), rel=1e-9, abs=1e-9 * mean)


@given(VALUES, VALUES)
def test_a_difference_is_as_sure_as_scipy_says_with_whole_degrees_of_freedom(one, other):
    first, second = stats.sem(one) ** 2, stats.sem(other) ** 2
    if min(first, second) < 1e-9:
        return
    welch = stats.ttest_ind(one, other, equal_var=False)
    reach, t = reach_of_difference(one, other, 0.9)
    freedom = max(1, int(welch.df + 1e-9))
    assert t == pytest.approx(stats.t.ppf(0.95, freedom))
    assert reach == pytest.approx(t * sqrt(first + second), rel=1e-9)


def test_one_value_says_nothing_of_how_sure_it_is():
    assert reach_of_mean([3.0], 0.95) is None
    assert reach_of_difference([3.0], [2.0, 4.0], 0.95) == (None, None)


def test_values_that_never_vary_say_no_more_than_one():
    assert reach_of_difference([3.0, 3.0], [2.0, 2.0], 0.95) == (None, None)
    # to a float's last bits: each is three tenths
    assert reach_of_difference([0.9 / 3, 2.1 / 7], [0.3, 0.3], 0.95) == (None, None)
    assert reach_of_difference([0.0, 0.0], [0.0, 0.0], 0.95) == (None, None)
    # where one varies, Welch's degrees of freedom are its own: SciPy's interval of a mean
    reach, _ = reach_of_difference([3.0, 3.0], [1.0, 2.0, 3.0], 0.95)
    assert reach == pytest.approx(2 - stats.t.interval(0.95, 2, loc=2, scale=stats.sem([1, 2, 3]))[0])
