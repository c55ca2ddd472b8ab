"""bring-to-market: against a Poisson regression, SciPy's laws and all boxes; what holds for any market."""

import json
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core import working
from backend.core.catalogue import answer
from backend.core.deciding.box import Wanted, fill_box
from backend.core.deciding.scoring import crps
from backend.core.deciding.strength import strength
from backend.core.deciding.two_ways import Row, fit_two_ways
from backend.core.declaring.errors import Problems
from backend.core.numbers.counts import chances, left_above
from tests.core.deciding.market_oracle import (
    best_box,
    expected_sold,
    foretold,
    law,
    poisson_regression,
    score,
)

pytestmark = pytest.mark.full
SIZES = some.none() | some.floats(0.5, 20)
MEANS = some.floats(0, 12)
LAW = some.fixed_dictionaries({
    "mean": MEANS, "size": SIZES, "gain": some.integers(-50, 900), "carry": some.integers(0, 200),
    "stock": some.integers(0, 15), "at_least": some.integers(0, 3),
})  # fmt: skip


def boxed(rows, capacity):
    """Ask for a box of products whose laws are given."""
    products = [{**row, "product": f"p{number}", "group": "all"} for number, row in enumerate(rows)]
    asked = {"products": products, "capacity": capacity, "market": "Quay", "hours": 6}
    return answer("bring-to-market", asked)["result"]


def random_question(seed):
    """Make a question whose products all sold on its days, some sold out."""
    random = Random(f"bring {seed}")
    names = [f"p{number}" for number in range(random.randint(1, 6))]
    asked = {
        "products": [
            {"product": name, "group": random.choice("ab"), "stock": random.randint(0, 30),
             "gain": random.randint(0, 500), "carry": random.choice((0, 20))}
            for name in names
        ],
        "capacity": random.randint(0, 60), "market": random.choice(("Quay", "Mill", "new")),
        "hours": random.choice((5, 6.5)), "market_days": random.randint(1, 3),
        "factor": random.choice((100, 130)), "asked_share": random.choice((0, 30, 100)),
    }  # fmt: skip

    def row(name):
        told = {"product": name, "sold": random.randint(1, 20)}
        if random.random() < 0.3:
            told |= {"hours": random.choice((1, 2.5, 4)), "asked": random.randint(0, 4)}
        return told

    asked["days"] = [
        {"market": random.choice(("Quay", "Mill")), "hours": 6, "rows": [row(name) for name in names]}
        for _ in range(random.randint(1, 8))
    ]
    return asked


def test_what_is_foretold_is_what_regression_moments_and_scipy_tell(how_many):
    for seed in range(how_many(60, 600)):
        asked = random_question(seed)
        result = answer("bring-to-market", asked)["result"]
        wanted, level = foretold(asked)
        assert result["level"] == pytest.approx(level, rel=1e-6)
        for told, (mean, size, share) in zip(result["products"], wanted, strict=True):
            assert told["mean"] == pytest.approx(mean, rel=1e-6)
            assert told["share"] == pytest.approx(100 * share, rel=1e-6)
            assert told["sell_out"] == pytest.approx(100 * law(mean, size).sf(told["bring"]), abs=1e-3)
            assert told["sold"] == pytest.approx(expected_sold(mean, size, told["bring"]), abs=1e-4)
            assert told["sold"] + told["left"] == pytest.approx(told["bring"])


def test_two_days_and_two_products_are_fitted_as_a_poisson_regression_does():
    # a sell-out after three hours of six
    rows = [Row(0, 0, 10, 6.0), Row(0, 1, 5, 3.0, 3.0), Row(1, 0, 8, 6.0), Row(1, 1, 9, 6.0)]
    levels, shares = fit_two_ways(rows, 2, 2)
    wanted = poisson_regression([10, 5, 8, 9], [6, 3, 6, 6], [0, 0, 1, 1], [0, 1, 0, 1])
    assert levels == pytest.approx(wanted[0], rel=1e-12) and shares == pytest.approx(wanted[1], rel=1e-12)
    assert shares == pytest.approx([0.483596, 0.516404], abs=5e-7)
    assert levels == pytest.approx([3.370189, 2.833333], abs=5e-7)


@given(some.lists(LAW, min_size=1, max_size=3), some.integers(0, 30))
def test_no_other_box_is_worth_more(rows, capacity):
    for row in rows:
        row["at_least"] = min(row["at_least"], row["stock"])
    capacity += sum(row["at_least"] for row in rows)
    result = boxed(rows, capacity)
    found = sum(
        row["gain"] * told["sold"] - row["carry"] * told["left"]
        for row, told in zip(rows, result["products"], strict=True)
    )
    least = [
        tuple(row[name] for name in ("mean", "size", "gain", "carry", "stock", "at_least")) for row in rows
    ]
    assert found == pytest.approx(best_box(least, capacity), rel=1e-9, abs=1e-4)


def test_a_box_of_twelve_is_the_best_of_all():
    laws = [(8.0, 6.0, 300), (5.0, None, 500), (12.0, 10.0, 200)]
    bring, _, _ = fill_box([Wanted(chances(m, r, 20), 12, gain, 10) for m, r, gain in laws], 12)
    worth = best_box([(mean, size, gain, 10, 12, 0) for mean, size, gain in laws], 12)
    assert bring == [6, 5, 1] and worth == pytest.approx(3814.0192, abs=5e-5)


def test_fifteen_to_eighteen_papers_wanted():
    # Hillier & Lieberman, Introduction to Operations Research: bought at 1.50, sold at 2.50, back at 0.50
    chances_of = [0.0] * 15 + [0.4, 0.2, 0.3, 0.1]
    papers = Wanted(chances_of, 18, 100, 100)
    bring, _, _ = fill_box([papers], 100)
    assert bring == [16]
    assert 100 * papers.sold(16) - 100 * (16 - papers.sold(16)) == pytest.approx(1520)


@given(some.lists(LAW, min_size=1, max_size=8), some.integers(0, 60))
def test_a_box_holds_together(rows, capacity):
    result = boxed(rows, capacity)
    assert sum(told["bring"] for told in result["products"]) <= capacity
    for row, told in zip(rows, result["products"], strict=True):
        assert told["bring"] <= row["stock"]
        assert -1e-9 <= told["sold"] <= min(told["bring"], told["mean"]) + 1e-9
        assert told["low"] <= told["mean"] < told["high"] + 1 and told["low"] <= told["high"]
        one = law(told["mean"], row["size"])
        for name, chance in (("low", 0.1), ("high", 0.9)):
            assert one.cdf(told[name]) >= chance - 1e-6 and one.cdf(told[name] - 1) < chance + 1e-6
    assert result["slot_worth"] >= 0
    more = boxed(rows, capacity + 1)
    worth = [
        sum(
            row["gain"] * told["sold"] - row["carry"] * told["left"]
            for row, told in zip(rows, one["products"], strict=True)
        )
        for one in (result, more)
    ]
    if sum(min(row["at_least"], row["stock"]) for row in rows) <= capacity:
        assert worth[1] - worth[0] == pytest.approx(result["slot_worth"], abs=0.006)


@given(MEANS, SIZES, some.integers(1, 40))
def test_what_sells_grows_less_with_each_piece(mean, size, most):
    one = Wanted(chances(mean, size, most + 500), most, 100)
    sold = [one.sold(number) for number in range(most + 1)]
    steps = [after - before for before, after in zip(sold, sold[1:], strict=False)]
    assert all(-1e-12 <= after <= before + 1e-12 for before, after in zip(steps, steps[1:], strict=False))
    assert sold[most] == pytest.approx(expected_sold(mean, size, most), abs=1e-9)


@given(some.integers(0, 10**6))
def test_shares_add_up_to_all(seed):
    result = answer("bring-to-market", random_question(seed))["result"]
    assert sum(told["share"] for told in result["products"]) == pytest.approx(100)


@given(some.floats(0.01, 300), some.none() | some.floats(0.5, 5000), some.integers(0, 600))
def test_chances_above_are_scipys_to_the_last_digits_though_small(mean, size, most):
    above = left_above(chances(mean, size, most + 5000))[: most + 1]
    wanted = law(mean, size).sf(np.arange(most + 1))
    assert above == pytest.approx(list(wanted), rel=1e-8, abs=1e-60)


@given(some.floats(0, 60), SIZES, some.integers(0, 80))
def test_a_score_is_the_other_form_of_it(mean, size, sold):
    assert crps(mean, size, sold) == pytest.approx(score(mean, size, sold), rel=1e-6, abs=1e-6)


def test_the_strength_of_gamma_levels_is_found():
    random = np.random.default_rng(5)
    for wanted in (2.0, 10.0, 40.0):
        expected = random.uniform(2, 30, 20000)
        counted = random.poisson(random.gamma(wanted, expected / wanted))
        rows = list(zip(map(int, counted), expected, expected, strict=True))
        assert strength(rows, len(rows)) == pytest.approx(wanted, rel=0.15)


def test_the_check_does_not_know_the_days_it_foretells():
    asked = random_question(3) | {"check": True}
    days = [{**asked["days"][0], "market": market} for market in ("Quay", "Mill", "Quay", "Quay", "Mill")]
    other = [{**row, "sold": row["sold"] + 40} for row in days[4]["rows"]]
    more = [*days[:4], {**days[4], "rows": other}]
    one, two = (answer("bring-to-market", {**asked, "days": one})["result"]["check"] for one in (days, more))
    assert one["days"] == two["days"] == 1
    assert two["mean_sold"] - one["mean_sold"] == pytest.approx(40)


def test_worked_on_a_day_at_a_time_it_answers_as_if_asked_at_once():
    asked = random_question(8) | {"check": True}
    asked["days"] = (asked["days"] * 9)[:9]
    told, slices = working.begin("bring-to-market", asked), 0
    assert told["result"]["check"] == {"crps": None, "last_time": None, "mean_sold": None, "days": 0}
    while not told["done"]:
        told = working.work_on(1)
        slices += 1
    at_once = answer("bring-to-market", asked)
    assert json.dumps({"result": told["result"], "notes": told["notes"]}) == json.dumps(at_once)
    assert slices == 5 == at_once["result"]["check"]["days"]


def test_more_rows_than_a_phone_folds_are_refused():
    rows = [{"product": f"p{number}", "sold": 1} for number in range(60)]
    products = [{"product": "p0", "group": "all", "stock": 1, "gain": 1}]
    asked = {"products": products, "capacity": 1, "market": "Quay", "hours": 6}
    answer("bring-to-market", asked | {"days": [{"market": "Quay", "hours": 6, "rows": rows}] * 33})
    with pytest.raises(Problems) as told:
        answer("bring-to-market", asked | {"days": [{"market": "Quay", "hours": 6, "rows": rows}] * 34})
    assert [(one["field"], one["rule"]) for one in told.value.problems] == [("days", "rows")]
