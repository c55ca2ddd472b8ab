"""What to sew next: against HiGHS, against all plans, and what holds whatever the bench."""

import json
from itertools import product
from random import Random

import pytest
from hypothesis import given as tried_with
from hypothesis import strategies as some

from backend.core import working
from backend.core.catalogue import answer
from backend.core.deciding.batch_worths import batch_worths
from tests.core.deciding.next_model import most_batches, most_by_highs, random_bench, worths_of

pytestmark = pytest.mark.full
HAIR = 0.01  # of a minor unit: worths are told apart by less


def small_bench(seed):
    """Make a bench of so few batches that all plans can be tried."""
    random = Random(f"small {seed}")
    asked = random_bench(f"small {seed}")
    asked["bookings"] = asked["bookings"][:2]
    asked["products"] = asked["products"][:3]
    for row in asked["products"]:
        row["most"] = min(row["most"], 2)
        row["demand"] = row["demand"][:2]
    for row in asked["bookings"]:
        row["minutes"] = random.choice((60, 110.5, 200))
    return asked


def fits(asked, made):
    """Say whether batches of (product, booking) fit the minutes up to each booking, and the materials."""
    changes = {row["name"]: row["minutes"] for row in asked["colours"]}
    room = 0
    for until, booking in enumerate(asked["bookings"]):
        room += booking["minutes"]
        due = [(asked["products"][place], at) for place, at in made if at <= until]
        opened = {(row["colour"], at) for row, at in due}
        taken = sum(row["minutes"] for row, _ in due) + sum(changes[colour] for colour, _ in opened)
        if taken > room + 1e-9:
            return False
    rows = [asked["products"][place] for place, _ in made]
    for cloth in asked["cloths"]:
        used = sum(row["area"] for row in rows if row["cloth"] == cloth["name"])
        if cloth.get("area") is not None and used > cloth["area"]:
            return False
    return asked.get("elastic") is None or sum(row["elastic"] for row in rows) <= asked["elastic"]


def most_of_all(asked):
    """Try all plans."""
    worths = [
        (place, each) for place, row in enumerate(asked["products"]) for each in worths_of(row, asked["wage"])
    ]
    best = 0
    for ready in product((None, *range(len(asked["bookings"]))), repeat=len(worths)):
        worth = sum(each[at] for (_, each), at in zip(worths, ready, strict=True) if at is not None)
        if worth > best:
            made = [(row[0], at) for row, at in zip(worths, ready, strict=True) if at is not None]
            best = worth if fits(asked, made) else best
    return best


def check(asked, result):
    """Assert that a plan can be sewn, and that it adds up."""
    names = [row["product"] for row in asked["products"]]
    bookings = [row["name"] for row in asked["bookings"]]
    made = [
        (names.index(row["product"]), bookings.index(row["booking"]))
        for row in result["plan"]
        for _ in range(row["batches"])
    ]
    assert fits(asked, made)
    assert all(
        row["colour"] == asked["products"][names.index(row["product"])]["colour"] for row in result["plan"]
    )
    for place, row in enumerate(asked["products"]):
        assert sum(one == place for one, _ in made) <= row["most"]
    assert sum(row["worth"] for row in result["plan"]) == pytest.approx(result["worth"])
    assert result["worth"] <= result["bound"] and result["optimal"] == (result["worth"] == result["bound"])
    assert sum(row["minutes"] for row in result["plan"]) == pytest.approx(
        sum(row["sewing"] for row in result["bench"])
    )
    assert {row["product"] for row in result["not_made"]} == set(names) - {
        row["product"] for row in result["plan"]
    }


def test_plans_are_as_good_as_highs_finds_and_no_bound_is_below(how_many):
    shares, few = [], 0
    for seed in range(how_many(4, 100)):
        asked = random_bench(seed)
        result = answer("make-next", asked)["result"]
        check(asked, result)
        most = most_by_highs(asked)
        assert result["worth"] <= most + HAIR <= result["bound"] + 2 * HAIR, seed
        shares.append(result["worth"] / most if most > 0 else 1)
        if most_batches(asked) <= 4:
            few += 1
            assert result["optimal"], seed
    assert min(shares) >= 0.94
    assert sum(shares) / len(shares) >= 0.995
    assert few > 0


def test_a_small_bench_is_planned_as_trying_all_plans_plans_it(how_many):
    for seed in range(how_many(60, 600)):
        asked = small_bench(seed)
        result = answer("make-next", asked)["result"]
        check(asked, result)
        assert result["optimal"]
        assert result["worth"] == pytest.approx(most_of_all(asked), abs=HAIR), seed


@tried_with(some.integers(0, 10**6), some.integers(0, 250))
def test_however_long_is_looked_the_plan_can_be_sewn_and_the_bound_holds(seed, steps):
    asked = small_bench(seed)
    result = answer("make-next", {**asked, "steps": steps})["result"]
    check(asked, result)
    assert result["worth"] - HAIR <= most_of_all(asked) <= result["bound"] + HAIR


def test_a_little_at_a_time_it_only_gets_better_and_comes_to_the_same(how_many):
    for seed in range(how_many(2, 10)):
        asked = {**random_bench(f"slices {seed}"), "steps": 400}
        told = working.begin("make-next", asked)
        while not told["done"]:
            before = told["result"]
            told = working.work_on(7)
            check(asked, told["result"])
            assert told["result"]["worth"] >= before["worth"]
            assert told["result"]["bound"] <= before["bound"]
        at_once = answer("make-next", asked)
        assert json.dumps({"result": told["result"], "notes": told["notes"]}) == json.dumps(at_once)


def test_worths_are_those_of_the_chances_that_scipy_tells(how_many):
    for seed in range(how_many(10, 100)):
        asked = random_bench(f"worths {seed}")
        for row in asked["products"]:
            found, wanted = batch_worths(row, asked["wage"]), worths_of(row, asked["wage"])
            for one, other in zip(found, wanted, strict=True):
                assert one == pytest.approx(other, rel=1e-9, abs=1e-6)


def test_an_hour_more_brings_about_what_is_said():
    asked = {
        "bookings": [{"name": "Quay", "minutes": 600}],
        "products": [
            {"product": f"p{number}", "stock": 0, "batch": 10, "most": 1, "minutes": 60, "colour": "white",
             "cloth": "lawn", "area": 0, "elastic": 0,
             "demand": [{"mean": 200, "gain": 100 - number}]}
            for number in range(20)
        ],
        "colours": [{"name": "white", "minutes": 0}],
        "cloths": [{"name": "lawn"}],
    }  # fmt: skip
    result = answer("make-next", asked)["result"]
    longer = answer("make-next", {**asked, "bookings": [{"name": "Quay", "minutes": 660}]})["result"]
    assert result["optimal"]
    assert result["hour_worth"] == pytest.approx(longer["worth"] - result["worth"], rel=0.05)
