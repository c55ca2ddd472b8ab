"""The order of batches: against all orders, against HiGHS, and what holds whatever the batches."""

import json
from random import Random

import pytest
from hypothesis import given as tried_with
from hypothesis import strategies as some

from backend.core import working
from backend.core.catalogue import answer
from tests.core.making.order_oracle import cost_of, least_by_highs, least_of_all

pytestmark = pytest.mark.full
DAYS = (None, "2026-11-28", "2026-11-29")


def random_batches(random, count, days=DAYS):
    return [
        {"name": f"b{number}", "needle": random.choice("wxyz"), "bobbin": random.choice("wx"),
         "method": random.choice("mno"), "cloth": random.choice(("", "lawn", "cord")),
         "day": random.choice(days)}
        for number in range(count)
    ]  # fmt: skip


def random_question(seed, most):
    """Make batches with changes or listed set-ups, with or without a start."""
    random = Random(f"order {seed}")
    asked = {"batches": random_batches(random, random.randint(1, most))}
    for part, dearest in (("needle", 4), ("bobbin", 2), ("method", 9), ("cloth", 3)):
        asked[f"{part}_minutes"] = random.choice((0, 0.5, random.randint(1, dearest)))
    if random.random() < 0.5:
        asked["at_start"] = {key: value for key, value in random_batches(random, 1)[0].items()
                             if key not in ("name", "day")}  # fmt: skip
    if random.random() < 0.3:
        names = [batch["name"] for batch in asked["batches"]]
        starts = [""] if random.random() < 0.5 else []
        asked["set_ups"] = [
            {"from": one, "to": other, "minutes": random.randint(0, 40) / 4}
            for one in starts + names
            for other in names
            if one != other
        ]
    return asked


def batches_in_order(asked, result):
    by_name = {batch["name"]: batch for batch in asked["batches"]}
    return [by_name[row["name"]] for row in result["order"]]


def check(asked, result):
    """Assert that an answer holds together: every batch once, days in order, minutes as they add up."""
    order = batches_in_order(asked, result)
    assert sorted(row["name"] for row in order) == sorted(row["name"] for row in asked["batches"])
    days = [batch["day"] or "9999" for batch in order]
    assert days == sorted(days)
    assert result["minutes"] == pytest.approx(cost_of(asked, order))
    assert sum(row["minutes"] for row in result["order"]) == pytest.approx(result["minutes"])
    assert result["as_given"] == pytest.approx(cost_of(asked, asked["batches"]))
    assert result["bound"] <= result["minutes"] + 1e-9


def test_up_to_eight_batches_are_put_as_trying_all_orders_puts_them(how_many):
    for seed in range(how_many(25, 150)):
        asked = random_question(seed, 6 if seed % 5 else 8)
        result = answer("batch-order", asked)["result"]
        check(asked, result)
        least, first = least_of_all(asked)
        assert result["optimal"]
        assert result["minutes"] == pytest.approx(least), asked
        if "set_ups" in asked:
            assert batches_in_order(asked, result) == [asked["batches"][place] for place in first]


def test_more_batches_are_put_as_highs_puts_them(how_many):
    for seed in range(how_many(5, 40)):
        random = Random(f"many {seed}")
        asked = random_question(f"many {seed}", 5)
        asked["batches"] = random_batches(random, 10)
        asked.pop("set_ups", None)
        result = answer("batch-order", asked)["result"]
        check(asked, result)
        assert result["optimal"]
        assert result["minutes"] == pytest.approx(least_by_highs(asked), abs=1e-6), asked


def test_twenty_like_batches_are_no_worse_kept_together(how_many):
    # what is said to be exact: equal set-ups of one day side by side
    for seed in range(how_many(4, 25)):
        random = Random(f"alike {seed}")
        kinds = random_batches(random, 3, days=(None,))
        asked = random_question(f"alike {seed}", 3)
        asked.pop("set_ups", None)
        asked["batches"] = [{**kinds[random.randrange(3)], "name": f"b{number}"} for number in range(7)]
        result = answer("batch-order", asked)["result"]
        assert result["minutes"] == pytest.approx(least_of_all(asked)[0]), asked


@tried_with(some.integers(0, 10**6), some.integers(0, 300))
def test_however_long_is_looked_the_order_holds_together(seed, steps):
    asked = random_question(seed, 9)
    result = answer("batch-order", {**asked, "steps": steps})["result"]
    check(asked, result)
    if not result["optimal"]:
        assert steps < 2 ** len(asked["batches"]) - 1
    else:
        assert result["minutes"] == answer("batch-order", asked)["result"]["minutes"]


def test_cut_short_it_is_no_worse_than_the_list_whose_days_are_in_order(how_many):
    for seed in range(how_many(200, 2000)):
        asked = random_question(f"short {seed}", 9)
        asked["batches"].sort(key=lambda batch: batch["day"] or "9999")
        result = answer("batch-order", {**asked, "steps": seed % 4})["result"]
        check(asked, result)
        assert result["minutes"] <= result["as_given"], asked


@tried_with(some.integers(0, 10**6), some.randoms(use_true_random=False))
def test_another_order_of_the_list_takes_as_long(seed, random):
    asked = random_question(seed, 7)
    mixed = {**asked, "batches": random.sample(asked["batches"], len(asked["batches"]))}
    one, other = (answer("batch-order", given)["result"] for given in (asked, mixed))
    assert one["minutes"] == other["minutes"] and one["bound"] == other["bound"]


def test_a_little_at_a_time_it_comes_to_the_same():
    asked = {"batches": random_batches(Random(3), 9)}
    told = working.begin("batch-order", asked)
    assert not told["done"]
    while not told["done"]:
        told = working.work_on(50)
    at_once = answer("batch-order", asked)
    assert json.dumps({"result": told["result"], "notes": told["notes"]}) == json.dumps(at_once)
