"""Ways of making compared: against SciPy's Welch test with whole degrees of freedom."""

from math import ceil

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from scipy import stats

from backend.core.catalogue import answer

pytestmark = pytest.mark.full

SITTING = some.tuples(some.integers(10, 3000), some.integers(1, 40), some.integers(0, 39))
SITTINGS = some.lists(SITTING, min_size=2, max_size=60)


def method(name, sittings, materials=0):
    rows = [
        {"minutes": minutes / 10, "made": made, "good": max(1, made - spoilt)}
        for minutes, made, spoilt in sittings
    ]
    return {"name": name, "rows": rows, "materials": materials}


def measured(told, wage):
    """Work out what a good piece takes in each sitting."""
    if wage is None:
        return [row["minutes"] / row["good"] for row in told["rows"]]
    return [
        (row["minutes"] * wage / 60 + told["materials"] * row["made"]) / row["good"] for row in told["rows"]
    ]


@given(SITTINGS, SITTINGS, some.none() | some.integers(0, 3000), some.integers(0, 200))
def test_two_ways_are_told_apart_as_scipy_tells_them(one, other, wage, materials):
    methods = [method("one", one, materials), method("other", other)]
    first, second = (measured(told, wage) for told in methods)
    assume(min(stats.sem(first), stats.sem(second)) > 1e-6)
    result = answer("method-compare", {"methods": methods, "wage": wage})["result"]
    best, worse = (first, second) if result["best"] == "one" else (second, first)
    difference = sum(worse) / len(worse) - sum(best) / len(best)
    assert difference >= -1e-9
    [against] = result["against"]
    assert against["difference"] == pytest.approx(difference, abs=1e-9)
    welch = stats.ttest_ind(worse, best, equal_var=False)
    # a float's last bits may tell a whole number of degrees from the one below it
    assume(welch.df % 1 < 1 - 1e-6)
    freedom = max(1, int(welch.df))
    t = stats.t.ppf(0.975, freedom)
    reach = t * (stats.sem(worse) ** 2 + stats.sem(best) ** 2) ** 0.5
    assert [against["low"], against["high"]] == pytest.approx(
        [difference - reach, difference + reach], rel=1e-9, abs=1e-9 * max(worse)
    )
    assume(abs(difference - reach) > 1e-9 * max(worse))
    assert against["verdict"] == ("clear" if difference > reach else "cannot tell")
    if against["more"] is not None:
        rows = t * t * (stats.tvar(worse) + stats.tvar(best)) / difference**2
        assert ceil(rows - 1e-6 * rows) <= against["more"] <= ceil(rows + 1e-6 * rows)
        # as many as there are did not tell, so it takes more than the fewer of them
        assert against["more"] >= min(len(one), len(other))


@given(SITTINGS, SITTINGS, some.integers(2, 50))
def test_everything_as_many_times_as_long_leaves_the_verdict(one, other, times):
    ways = [method("one", one), method("other", other)]
    longer = [method(*way) for way in (("one", multiplied(one, times)), ("other", multiplied(other, times)))]
    result, again = (answer("method-compare", {"methods": methods})["result"] for methods in (ways, longer))
    assert again["best"] == result["best"]
    assert again["against"][0]["verdict"] == result["against"][0]["verdict"]
    assert again["methods"][0]["mean"] == pytest.approx(times * result["methods"][0]["mean"])


def multiplied(sittings, times):
    return [(minutes * times, made, spoilt) for minutes, made, spoilt in sittings]


@given(some.lists(SITTINGS, min_size=2, max_size=5))
def test_the_best_has_the_least_mean_and_every_other_is_told(several):
    ways = [method(f"way {number}", sittings) for number, sittings in enumerate(several)]
    result = answer("method-compare", {"methods": ways})["result"]
    means = {row["name"]: row["mean"] for row in result["methods"]}
    assert means[result["best"]] == pytest.approx(min(means.values()))
    names = [way["name"] for way in ways]
    assert [row["name"] for row in result["against"]] == [name for name in names if name != result["best"]]
    for row, way in zip(result["methods"], ways, strict=True):
        values = measured(way, None)
        assert row["low"] is None or row["low"] < row["mean"] < row["high"]
        assert (row["low"] is None) == (max(values) - min(values) <= 1e-9 * max(values))


@given(some.integers(1, 3000), some.integers(1, 3000), some.integers(2, 60), some.integers(2, 60))
def test_sittings_that_are_all_alike_tell_no_more_than_one_of_each(one, other, count, more):
    several, single = (
        answer(
            "method-compare", {"methods": [method("a", [(one, 1, 0)] * a), method("b", [(other, 1, 0)] * b)]}
        )
        for a, b in ((count, more), (1, 1))
    )
    assert several["result"]["best"] == single["result"]["best"]
    [told], [of_one] = several["result"]["against"], single["result"]["against"]
    assert told["difference"] == pytest.approx(of_one["difference"])
    for name in ("low", "high", "verdict", "more"):
        assert told[name] == of_one[name]
