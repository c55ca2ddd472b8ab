"""offer-check: what must be extra against its gains, days against SciPy."""

import warnings
from math import floor, isclose, sqrt
from statistics import mean, variance

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from scipy.stats import t, ttest_ind

from backend.core.catalogue import answer

pytestmark = pytest.mark.full
USE = some.fixed_dictionaries({
    "pieces": some.integers(1, 12), "full": some.integers(0, 6000), "taken": some.integers(0, 6000),
    "variable": some.integers(0, 3000),
})  # fmt: skip
DAY = some.fixed_dictionaries({
    "hours": some.integers(2, 10), "sales": some.integers(1, 80), "pieces": some.integers(30, 120),
    "group_pieces": some.integers(0, 30), "contribution": some.integers(-9000, 90000),
})  # fmt: skip
DAYS = some.lists(DAY, min_size=2, max_size=12)


@given(some.lists(USE, min_size=1, max_size=20))
def test_the_gain_is_nothing_where_just_so_many_were_extra(uses):
    told = answer("offer-check", {"uses": uses})["result"]
    full, variable = sum(use["full"] for use in uses), sum(use["variable"] for use in uses)
    taken, pieces = sum(use["taken"] for use in uses), sum(use["pieces"] for use in uses)
    assert told["given_away"] == full - taken
    extra = told["must_be_extra"]
    if extra["percent"] is None:
        assert full <= variable or taken < variable
    else:
        share = extra["percent"] / 100
        # the rest would have been sold at full price
        assert taken - variable == pytest.approx((1 - share) * (full - variable), abs=1e-6)
        assert extra["pieces"] == pytest.approx(share * pieces)
    for row in told["gains"]:
        exact = taken - variable - (1 - row["extra"] / 100) * (full - variable)
        assert abs(row["gain"] - exact) <= 0.5


@given(some.lists(USE, min_size=1, max_size=20))
def test_more_extra_pieces_never_gain_less_where_full_prices_leave_something(uses):
    assume(sum(use["full"] - use["variable"] for use in uses) >= 0)
    gains = [row["gain"] for row in answer("offer-check", {"uses": uses})["result"]["gains"]]
    assert gains == sorted(gains)


@given(DAYS, DAYS)
def test_days_differ_as_scipy_says(with_it, without):
    told = answer("offer-check", {"uses": [], "with": with_it, "without": without})["result"]["days"]
    for row, value in zip(told, (
        lambda day: day["contribution"] / day["hours"],
        lambda day: day["pieces"] / day["sales"],
        lambda day: 100 * day["group_pieces"] / day["pieces"],
    ), strict=True):  # fmt: skip
        one, other = [value(day) for day in with_it], [value(day) for day in without]
        assert isclose(row["with"], mean(one), abs_tol=1e-9)
        assert isclose(row["without"], mean(other), abs_tol=1e-9)
        error = sqrt(variance(one) / len(one) + variance(other) / len(other))
        if error > 1e-9:
            with warnings.catch_warnings():
                # of values that hardly vary SciPy says that it cannot be exact
                warnings.simplefilter("ignore")
                freedom = ttest_ind(one, other, equal_var=False).df
            assume(abs(freedom - round(freedom)) > 1e-6)
            reach = float(t.ppf(0.975, max(1, floor(freedom)))) * error
            middle = mean(one) - mean(other)
            assert row["low"] == pytest.approx(middle - reach, rel=1e-9, abs=1e-9)
            assert row["high"] == pytest.approx(middle + reach, rel=1e-9, abs=1e-9)
