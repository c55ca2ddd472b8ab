"""unit-cost: the moving average against exact fractions, and what must hold for any batch."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.catalogue import answer
from backend.core.costing.moving_average import fold

pytestmark = pytest.mark.full
AT = some.integers(0, 12)
BOUGHT = some.lists(
    some.fixed_dictionaries({"at": AT, "quantity": some.integers(1, 50), "cost": some.integers(0, 5000)}),
    max_size=8,
)
USED = some.lists(
    some.fixed_dictionaries({"at": AT, "quantity": some.integers(0, 40), "mine": some.booleans()}),
    max_size=10,
)
MATERIAL = some.fixed_dictionaries({
    "part": some.sampled_from(["cloth", "elastic", "thread", "packaging", "other"]),
    "name": some.just("Seagrass lawn"), "bought": BOUGHT, "used": USED,
})  # fmt: skip
BATCH = some.fixed_dictionaries({
    "materials": some.lists(MATERIAL, max_size=5),
    "made": some.integers(50, 90), "good": some.integers(0, 50), "normal_loss": some.integers(0, 99),
    "minutes": some.integers(0, 600), "wage": some.integers(0, 3000), "consumables": some.integers(0, 300),
    "overheads": some.integers(0, 300), "points": some.lists(some.integers(1, 2000), max_size=4),
})  # fmt: skip


def exactly(bought, used):
    """Cost each use in fractions, event by event."""
    events = [(row["at"], 0, number) for number, row in enumerate(bought)]
    events += [(row["at"], 1, number) for number, row in enumerate(used)]
    quantity = cost = Fraction(0)
    last, costs = None, [Fraction(0)] * len(used)
    for at, is_use, number in sorted(events):
        if not is_use:
            quantity, cost = quantity + bought[number]["quantity"], cost + bought[number]["cost"]
            last = cost / quantity
            continue
        taken = used[number]["quantity"]
        inside = min(taken, quantity)
        share = cost * inside / quantity if quantity else Fraction(0)
        price = last
        if price is None:
            later = [row for row in sorted(bought, key=lambda row: row["at"]) if row["at"] > at]
            price = Fraction(later[0]["cost"], later[0]["quantity"]) if later else Fraction(0)
        costs[number] = share + (taken - inside) * price
        quantity, cost = quantity - inside, cost - share
    return costs, quantity, cost


@given(BOUGHT, USED)
def test_a_use_costs_what_exact_fractions_say(bought, used):
    told, (costs, quantity, cost) = fold(bought, used), exactly(bought, used)
    assert told["costs"] == pytest.approx([float(one) for one in costs], abs=1e-6)
    assert told["quantity"] == pytest.approx(float(quantity), abs=1e-6)
    assert told["cost"] == pytest.approx(float(cost), abs=1e-6)
    assert (
        told["beyond"]
        == sum(row["quantity"] for row in used) - sum(row["quantity"] for row in bought) + quantity
    )


@given(BOUGHT.filter(bool), USED)
def test_a_use_costs_no_less_than_the_cheapest_purchase_and_no_more_than_the_dearest(bought, used):
    rates = [row["cost"] / row["quantity"] for row in bought]
    for cost, row in zip(fold(bought, used)["costs"], used, strict=True):
        assert row["quantity"] * min(rates) - 1e-6 <= cost <= row["quantity"] * max(rates) + 1e-6


@given(BOUGHT, USED)
def test_what_was_bought_is_used_or_left(bought, used):
    told = fold(bought, used)
    if not told["beyond"]:
        paid = sum(row["cost"] for row in bought)
        assert sum(told["costs"]) + told["cost"] == pytest.approx(paid, abs=1e-6)


@given(BOUGHT, USED, some.randoms())
def test_purchases_in_another_order_of_rows_cost_the_same(bought, used, random):
    at_different_times = list({row["at"]: row for row in bought}.values())
    mixed = random.sample(at_different_times, len(at_different_times))
    assert fold(at_different_times, used) == fold(mixed, used)


@given(BATCH)
def test_shares_add_up_to_the_total_and_uses_to_their_material(batch):
    told = answer("unit-cost", batch)["result"]
    assert sum(row["cost"] for row in told["shares"]) == told["total"]
    times = told["labour"] + told["consumables"] + told["overheads"]
    assert sum(row["cost"] for row in told["materials"]) + times == told["total"]
    # the exact cost of each use is to be rounded down or up, and none by more than a minor unit
    for material, row in zip(batch["materials"], told["materials"], strict=True):
        costs = exactly(material["bought"], material["used"])[0]
        mine = [cost for cost, use in zip(costs, material["used"], strict=True) if use["mine"]]
        assert sum(row["used"]) == row["cost"]
        assert all(abs(one - cost) < 1 + 1e-6 for one, cost in zip(row["used"], mine, strict=True))
    if told["total"]:
        assert sum(row["share"] for row in told["shares"]) == pytest.approx(100)


@given(BATCH)
def test_good_pieces_and_abnormal_loss_carry_the_total(batch):
    told = answer("unit-cost", batch)["result"]
    carried = told["cost_each"] * batch["good"] + told["abnormal_loss"]
    # a hundredth of a minor unit a piece, and a half of one
    assert abs(carried - told["total"]) <= 0.005 * batch["good"] + 0.5 + 1e-6
    assert told["cash_each"] <= told["cost_each"]


@given(BATCH)
def test_an_hour_earns_more_at_a_higher_price(batch):
    points = answer("unit-cost", batch)["result"]["points"]
    ranked = sorted(points, key=lambda row: row["price"])
    for low, high in zip(ranked, ranked[1:], strict=False):
        assert low["margin"] <= high["margin"]
        assert low["hour_earns"] is None or low["hour_earns"] <= high["hour_earns"]
