"""market-result: against an exact mixed model and SciPy's t, and what holds whatever the days."""

from fractions import Fraction
from itertools import accumulate
from math import sqrt
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import t

from backend.core.catalogue import answer

pytestmark = pytest.mark.full
HOURS = 20
MARKETS = some.lists(some.lists(some.integers(-4000, 20000), min_size=1, max_size=6), min_size=1, max_size=6)
SALES = some.lists(some.tuples(some.integers(-900, 2000), some.integers(0, 500)), max_size=30)


def asked(markets, wage, **more):
    """Make days of so many minor units profit each, HOURS hours long."""
    bookings = [
        {"name": "day", "market": f"market {number}", "takings": max(0, profit), "refunds": max(0, -profit),
         "goods_cost": 0, "fee": 0, "own_minutes": 60 * HOURS}
        for number, row in enumerate(markets)
        for profit in row
    ]  # fmt: skip
    return answer("market-result", {"bookings": bookings, "wage": wage, **more})


def variances(markets):
    """Estimate by moments, in fractions: (within, between)."""
    count, groups = sum(map(len, markets)), len(markets)
    means = [sum(row) / len(row) for row in markets]
    middle = sum(map(sum, markets)) / count
    inside = sum((y - mean) ** 2 for row, mean in zip(markets, means, strict=True) for y in row)
    within = inside / (count - groups)
    apart = sum(len(row) * (mean - middle) ** 2 for row, mean in zip(markets, means, strict=True))
    usual = (count - Fraction(sum(len(row) ** 2 for row in markets), count)) / (groups - 1)
    return within, max(Fraction(0), (apart / (groups - 1) - within) / usual)


def best_unbiased(markets, within, between):
    """Solve Henderson's mixed model equations: (common level, [level], [variance of the level's error])."""
    count, groups = sum(map(len, markets)), len(markets)
    design = np.zeros((count, 1 + groups))
    design[:, 0] = 1
    places = [number for number, row in enumerate(markets) for _ in row]
    design[range(count), [1 + place for place in places]] = 1
    values = np.array([float(y) for row in markets for y in row])
    left = design.T @ design / within + np.diag([0.0] + [1 / between] * groups)
    inverse = np.linalg.inv(left)
    solved = inverse @ design.T @ values / within
    picks = np.hstack([np.ones((groups, 1)), np.eye(groups)])
    return solved[0], picks @ solved, np.diag(picks @ inverse @ picks.T)


def widened(markets, within, between, errors):
    """Add what not knowing `between` does, by the derivative of each weight; at most each market by itself.

    The variance of the estimate is that of (mean square between − within) ÷ its usual number of days, both
    mean squares taken as chi-squared.
    """
    count, groups = sum(map(len, markets)), len(markets)
    usual = (count - sum(len(row) ** 2 for row in markets) / count) / (groups - 1)
    of_squares = [(usual * between + within, groups - 1), (within, count - groups)]
    unsure = sum(2 * square**2 / freedom for square, freedom in of_squares) / usual**2
    alone = np.array([within / len(row) for row in markets])
    slope = alone / (between + alone) ** 2
    return np.maximum(errors, np.minimum(alone, errors + slope**2 * (between + alone) * unsure))


@given(MARKETS, some.integers(0, 900), some.sampled_from([80, 90, 95]))
def test_levels_and_intervals_are_those_of_the_mixed_model(markets, wage, confidence):
    exact = [[Fraction(profit, HOURS) for profit in row] for row in markets]
    if len(markets) == 1 or max(map(len, markets)) == 1:
        return
    result = asked(markets, wage, confidence=confidence)["result"]
    within, between = map(float, variances(exact))
    assert result["within"] == pytest.approx(within, rel=1e-9, abs=1e-9)
    assert result["between"] == pytest.approx(between, rel=1e-9, abs=1e-9 * max(1, within))
    if not 1e-3 < between / max(within, 1e-9) < 1e6:
        # the equations are hardly to be solved there
        return
    freedom = sum(map(len, markets)) - len(markets)
    level, levels, errors = best_unbiased(exact, within, between)
    assert result["mean"] == pytest.approx(level, rel=1e-6, abs=1e-6)
    errors = widened(exact, within, between, errors)
    for told, own, error in zip(result["markets"], levels, errors, strict=True):
        reach = t.ppf((1 + confidence / 100) / 2, freedom)
        assert told["shrunk"] == pytest.approx(own, rel=1e-6, abs=1e-6)
        assert told["high"] - told["low"] == pytest.approx(2 * reach * sqrt(error), rel=1e-5)
        further = sqrt(error + within)
        assert told["next_high"] - told["next_low"] == pytest.approx(2 * reach * further, rel=1e-5)
        chance = 100 * t.cdf((own - wage) / further, freedom)
        assert told["chance"] == pytest.approx(chance, rel=1e-5, abs=1e-6)


@given(MARKETS, some.integers(0, 900))
def test_a_verdict_is_given_where_the_interval_leaves_the_wage_out(markets, wage):
    told = asked(markets, wage)
    for market in told["result"]["markets"]:
        if market["low"] is None:
            assert market["verdict"] == "cannot tell" and market["chance"] is None
            continue
        assert market["next_low"] <= market["low"] <= market["shrunk"] <= market["high"]
        assert market["high"] <= market["next_high"]
        if market["verdict"] == "keep":
            assert market["low"] > wage and market["chance"] >= 50
        elif market["verdict"] == "drop":
            assert market["high"] < wage and market["chance"] <= 50
        else:
            assert market["low"] - 1e-6 <= wage <= market["high"] + 1e-6
    rules = [note["rule"] for note in told["notes"]]
    assert ("one_day" in rules) == (sum(map(len, markets)) == 1)
    assert ("markets_as_one" in rules) == (len(markets) > 1 and max(map(len, markets)) == 1)


@pytest.mark.parametrize("between", [0, 0.3, 0.6, 0.9])
@pytest.mark.parametrize("count", [2, 4, 8])
def test_an_interval_holds_where_no_market_has_a_second_day(between, count):
    # markets whose levels and next days are known; `between` is the part of their variance that parts them
    random, spread, makers = Random(20260102 + count), 100000.0, 1000
    held, of_the_worst = [], []
    for _ in range(makers):
        levels = [random.gauss(0, spread * sqrt(between)) for _ in range(count)]
        days, further = [
            [random.gauss(level, spread * sqrt(1 - between)) for level in levels] for _ in range(2)
        ]
        told = asked([[round(day * HOURS)] for day in days], 0)["result"]["markets"]
        for level, day, market in zip(levels, further, told, strict=True):
            held.append((market["low"] <= level <= market["high"], market["low"] <= day <= market["high"]))
        of_the_worst.append(held[-count + days.index(min(days))])
    # 80 % are said, and as it is not known how far markets differ, there may be more
    for found in (held, of_the_worst):
        for right in zip(*found, strict=True):
            assert sum(right) / len(right) > 0.77


@given(some.lists(some.integers(-4000, 20000), min_size=2, max_size=12), some.integers(0, 900))
def test_a_day_of_each_market_tells_as_much_as_every_part_of_its_variance_does(days, wage):
    result = asked([[day] for day in days], wage)["result"]
    exact = [Fraction(day, HOURS) for day in days]
    count, mean = len(days), sum(exact) / len(days)
    variance = float(sum((day - mean) ** 2 for day in exact) / (count - 1))
    reach = t.ppf(0.9, count - 1) * sqrt(variance)
    assert result["within"] == pytest.approx(variance)
    for day, market in zip(exact, result["markets"], strict=True):
        assert (market["low"], market["high"]) == (market["next_low"], market["next_high"])
        part = np.linspace(0, 1, 101)
        middle = float(mean) + part * float(day - mean)
        # of a next day, were so much of the variance that between markets: a mixed model's, its parts known
        error = np.sqrt((1 - part) * (1 + part + (1 - part) / count))
        assert market["low"] <= min(middle - reach * error) + 1e-6
        assert market["high"] >= max(middle + reach * error) - 1e-6
        # and no more than a day that is none of them would, beside how far the own one lies off
        most = reach * sqrt(1 + 1 / count) + abs(float(day - mean))
        assert market["high"] - market["low"] <= 2 * most + 1e-6


@given(MARKETS.filter(lambda markets: sum(map(len, markets)) > 1))
def test_a_market_is_drawn_between_its_own_mean_and_that_of_all(markets):
    result = asked(markets, 0)["result"]
    for market in result["markets"]:
        ends = sorted((market["mean"], result["mean"]))
        assert ends[0] - 1e-6 <= market["shrunk"] <= ends[1] + 1e-6


@given(some.integers(0, 3000), SALES)
def test_the_day_is_paid_for_from_that_sale_on_and_not_before(fee, sales):
    rows = [{"at": number, "amount": amount, "cost": cost} for number, (amount, cost) in enumerate(sales)]
    booking = {"name": "day", "market": "Quay", "takings": 0, "goods_cost": 0, "fee": fee, "own_minutes": 60}
    told = answer("market-result", {"bookings": [booking], "wage": 0, "sales": rows})["result"]
    left = list(accumulate(amount - cost for amount, cost in sales))
    paid = [at for at in range(len(left)) if min(left[at:]) >= fee]
    assert told["broke_even_at"] == (paid[0] if paid else None)
