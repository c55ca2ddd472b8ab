"""buy-list: each layout passes the independent checker, what is bought covers the plan, the sums add up."""

import math
from fractions import Fraction
from random import Random

import pytest

from backend.core.buying import buy_list
from backend.core.catalogue import answer
from backend.core.declaring.reading import read
from tests.core.cutting.plan_checker import check_plan
from tests.core.cutting.plans import any_plan, realistic_plan
from tests.core.cutting.roll_model import fewest_rolls

pytestmark = pytest.mark.full

STEPS = 1500


def planned(number, make=any_plan, names=("",)):
    """Make a plan with elastic: some rolls at home, some of them first, some to buy, some without a price."""
    random = Random(f"buy {number}")
    plan = make(number)
    for strip in plan["strips"]:
        if random.random() < 0.8:
            strip["elastic"] = random.choice([random.randint(180, 320), random.randint(60, 100) * 3.175])
            strip["elastic_name"] = random.choice(names)
    # so many pieces of any length fit into the rolls at home that the model stays small
    rolls = [
        {
            "length": random.randint(200, 1000),
            "count": random.randint(0, 3),
            "use_first": random.random() < 0.4,
        }
        for _ in range(random.randint(0, 2 * len(names)))
    ]
    for _ in range(random.choice([0, 1, 1, 1])):
        rolls.append({"length": random.randint(400, 1300)})
        if random.random() < 0.7:
            rolls[-1]["price"] = random.randint(0, 2000)
    for roll in rolls:
        roll["name"] = random.choice(names)
    return {**plan, "rolls": rolls, "spare_percent": random.choice([0, 2, 5.5]), "steps": STEPS}


def with_spare(plan):
    """Say how many of each strip are to be cut, in exact fractions."""
    share = 1 + Fraction(str(plan["spare_percent"])) / 100
    return [math.ceil(strip["quantity"] * share) for strip in plan["strips"]]


def check_list(plan, result):
    """Assert that a list covers what is planned and adds up, from the definition alone."""
    quantities = with_spare(plan)
    assert [row["quantity"] for row in result["to_cut"]] == quantities
    strips = [
        {**strip, "quantity": quantity} for strip, quantity in zip(plan["strips"], quantities, strict=True)
    ]
    bolts = [cloth for cloth in plan["cloths"] if cloth.get("length") is None]
    priced = bool(bolts) and all(cloth.get("price") is not None for cloth in bolts)
    # the layout is the one of cutting-layout, which knows a cost only where every bolt has a price
    layout_cost = result["cloth_cost"] if priced else None
    check_plan({**plan, "strips": strips}, {**result, "cost": layout_cost})
    check_cloth(plan, result)
    check_elastic(plan, quantities, result)
    parts = [result["cloth_cost"], result["elastic_cost"]]
    assert result["cost"] == (None if None in parts else sum(parts))


def check_cloth(plan, result):
    bought, costs = {}, []
    for laid in result["cloths"]:
        pieces = sum(len(row["strips"]) for row in laid["rows"])
        if pieces:
            bought[laid["cloth"]] = (pieces, laid["length_to_buy"])
    rows = [(row["cloth"], (row["pieces"], row["length_to_buy"])) for row in result["cloths_to_buy"]]
    at_home = [(row["cloth"], (row["pieces"], None)) for row in result["cloths_at_home"]]
    assert dict(rows + at_home) == bought
    for row in result["cloths_to_buy"]:
        cloth = plan["cloths"][row["cloth"]]
        if cloth.get("price") is None:
            assert row["cost"] is None
        else:
            each = Fraction(str(cloth["price"])) / 1000
            exact = Fraction(str(row["length_to_buy"])) * each
            assert abs(row["cost"] - exact) <= Fraction(1, 2) + Fraction(1, 10**6)
        costs.append(row["cost"])
    assert result["cloth_cost"] == (None if None in costs else sum(costs))


def check_elastic(plan, quantities, result):
    wanted, used = {}, {}
    for strip, quantity in zip(plan["strips"], quantities, strict=True):
        if "elastic" in strip:
            key = strip["elastic_name"], strip["elastic"]
            wanted[key] = wanted.get(key, 0) + quantity
    cut = {(row["name"], row["length"]): row["count"] for row in result["elastic_unplaced"]}
    for pattern in result["elastic"]:
        roll = plan["rolls"][pattern["roll"]]
        assert pattern["at_home"] == ("count" in roll)
        used[pattern["roll"]] = used.get(pattern["roll"], 0) + pattern["times"]
        held = sum(row["length"] * row["count"] for row in pattern["cuts"])
        assert held + pattern["left"] == pytest.approx(roll["length"]) and pattern["left"] >= 0
        for row in pattern["cuts"]:
            key = roll["name"], row["length"]
            cut[key] = cut.get(key, 0) + row["count"] * pattern["times"]
    assert cut == wanted
    assert all(count <= plan["rolls"][roll].get("count", count) for roll, count in used.items())
    to_buy = {roll: count for roll, count in used.items() if "count" not in plan["rolls"][roll]}
    assert {row["roll"]: row["count"] for row in result["elastic_to_buy"]} == to_buy
    assert result["rolls_to_buy"] == sum(to_buy.values()) >= result["rolls_bound"]
    prices = [plan["rolls"][roll].get("price") for roll in to_buy]
    known = None if None in prices else sum(
        price * count for price, count in zip(prices, to_buy.values(), strict=True)
    )  # fmt: skip
    assert result["elastic_cost"] == known
    whole = sum(length * count for (_, length), count in wanted.items())
    assert result["elastic_length"] == pytest.approx(whole)


@pytest.mark.parametrize("make", [any_plan, realistic_plan])
def test_every_list_covers_the_plan_and_adds_up(make, how_many):
    for number in range(how_many(30, 300)):
        plan = planned(number, make)
        check_list(plan, answer("buy-list", plan)["result"])


def test_each_elastic_is_cut_from_its_own_rolls(how_many):
    for number in range(how_many(20, 200)):
        plan = planned(number, names=("narrow", "wide"))
        check_list(plan, answer("buy-list", plan)["result"])


def test_a_roll_to_use_first_is_left_with_less_than_a_piece_before_another_is_begun(how_many):
    begun = 0
    for index in range(how_many(40, 400)):
        plan = planned(index)
        result, rolls = answer("buy-list", plan)["result"], plan["rolls"]
        first = [number for number, roll in enumerate(rolls) if roll.get("count") and roll["use_first"]]
        others = [row for row in result["elastic"] if row["roll"] not in first]
        if others and first:
            begun += 1
            left = [row["left"] for row in result["elastic"] if row["roll"] in first]
            for number in first:
                used = sum(row["times"] for row in result["elastic"] if row["roll"] == number)
                left += [rolls[number]["length"]] * (rolls[number]["count"] - used)
            shortest = min(row["length"] for other in others for row in other["cuts"])
            assert max(left) < shortest
    assert begun


def test_a_list_holds_whenever_it_is_stopped_and_only_gets_better(how_many):
    for number in range(how_many(8, 80)):
        plan = planned(number, realistic_plan)
        state = buy_list.start(read(buy_list.INPUTS, plan))
        found, bound = None, 0
        for _ in range(5):
            result, _ = buy_list.best(state)
            check_list(plan, result)
            assert found is None or result["bolt_length"] <= found + 1e-6, number
            assert result["bound"] >= bound - 1e-6, number
            found, bound = result["bolt_length"], result["bound"]
            buy_list.advance(state, 200)


def test_slicing_the_work_never_changes_the_list(how_many):
    for number in range(how_many(6, 60)):
        given = read(buy_list.INPUTS, planned(number))
        state = buy_list.start(given)
        for slice_of_steps in (1, 9, 90, 400, 1000):
            buy_list.advance(state, slice_of_steps)
        assert buy_list.best(state) == buy_list.work(given)


def test_no_way_of_cutting_needs_fewer_rolls_than_is_said(how_many):
    compared = bought_least = 0
    for number in range(how_many(40, 400)):
        plan = planned(number)
        quantities = [min(6, quantity) for quantity in with_spare(plan)]
        plan["spare_percent"] = 0
        for strip, quantity in zip(plan["strips"], quantities, strict=True):
            strip["quantity"] = quantity
        result = answer("buy-list", plan)["result"]
        check_list(plan, result)
        wanted = {}
        for strip in plan["strips"]:
            if "elastic" in strip:
                wanted[strip["elastic"]] = wanted.get(strip["elastic"], 0) + strip["quantity"]
        at_home = [index for index, roll in enumerate(plan["rolls"]) if "count" in roll]
        rolls = [(roll["length"], roll.get("count")) for roll in plan["rolls"]]
        fewest = fewest_rolls(list(wanted.items()), rolls, at_home) if wanted and rolls else None
        if fewest is not None:
            compared += 1
            assert result["rolls_bound"] <= fewest <= result["rolls_to_buy"], plan
            bought_least += fewest == result["rolls_to_buy"]
    assert compared >= how_many(10, 100) and bought_least
