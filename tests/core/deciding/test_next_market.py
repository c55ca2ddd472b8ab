"""From what is recorded to what to bring: the question as it is asked, and the answer for every box."""

import json

import pytest

from backend.core import bridge
from backend.core.catalogue import answer
from backend.core.counting.to_pack import to_pack
from backend.core.deciding.next_market import market_inputs, next_market
from backend.core.declaring.errors import Problems
from tests.core.ids import named

LAWN, CHECK, GRAND, OLD = (named(name) for name in ("a1", "b2", "c3", "d4"))
QUAY, SPOT, NEXT, FAIR = (named(name) for name in ("quay", "spot", "next", "fair"))
HOME, SHOP = named("home"), named("shop")
RECORDS = {
    "business": {named("b"): {"name": "Tern & Tansy", "currency": "EUR", "card_fee": 2, "tax_percent": 25}},
    "place": {
        HOME: {"name": "Home shelf", "use": "home"},
        SHOP: {"name": "Lane", "use": "shop"},
    },
    "market": {QUAY: {"name": "Quay", "opens": "09:00", "closes": "15:00", "fee_percent": 10}},
    "booking": {
        NEXT: {"market": QUAY, "days": ["2026-05-16"]},
        SPOT: {"name": "Quay", "days": ["2026-05-02"]},
        FAIR: {"name": "Barn fair", "days": ["2026-06-13", "2026-06-14"]},
    },
    "product": {
        LAWN: {"size": named("every"), "price": 500, "group": "Everyday"},
        CHECK: {"size": named("every"), "price": 500, "group": "Everyday"},
        GRAND: {"size": named("grande"), "price": 1000, "group": "Grand"},
        OLD: {"size": named("grande"), "price": 1000, "group": "Grand", "active": False},
    },
}
COSTS = {LAWN: 110.4, CHECK: 90.0, GRAND: None}


def row(product, sold, hours=None, asked=0, sold_out=False):
    return {"product": product, "sold": sold, "hours": hours, "asked": asked, "sold_out": sold_out}


def day(number, *rows, booking=SPOT, brought=30, hours=6.0):
    kept = [{"size": named("every"), "full": 10000, "taken": 9000}]
    return {"day": f"2026-05-{number:02}", "booking": booking, "hours": hours, "said": True,
            "rows": list(rows), "brought": brought, "kept": kept, "taken": 10000,
            "by_card": 5000}  # fmt: skip


DAYS = [
    day(2, row(LAWN, 8), row(CHECK, 5), row(GRAND, 2), row(OLD, 3)),
    day(9, row(LAWN, 9, 4.5, 2, True), row(CHECK, 4), row(GRAND, 3), brought=24),
]
STOCK = [
    {"place": place, "product": product, "size": None, "quantity": quantity, "counted_at": None}
    for place, product, quantity in (
        (HOME, LAWN, 20), (HOME, CHECK, 12), (SHOP, CHECK, 50), (HOME, GRAND, 6), (HOME, OLD, 9),
        (named("stall"), LAWN, 3),
    )
]  # fmt: skip


def asked(**given):
    usual = {
        "days_sold": DAYS,
        "records": RECORDS,
        "costs": COSTS,
        "stock": STOCK,
        "booking": NEXT,
        "choices": {},
    }
    return {**usual, **given}


def test_a_piece_brings_its_price_less_offers_tax_fees_and_cost():
    told = next_market(**asked())
    gains = {product["product"]: product["gain"] for product in told["products"]}
    # 500 × 0.9 ÷ 1.25 × (1 − 10 % − half of 2 %) − 110.4, and − 90;
    # 1000 ÷ 1.25 × 0.89, whose cost nobody knows
    assert gains == {LAWN: 210, CHECK: 230, GRAND: 712}
    assert [(one["kept"], one["cost"]) for one in told["products"]] == [(90, 110.4), (90, 90.0), (100, None)]


def test_what_is_in_a_shop_or_not_offered_does_not_come():
    told = next_market(**asked())
    assert [(one["product"], one["stock"]) for one in told["products"]] == [
        (LAWN, 23),
        (CHECK, 12),
        (GRAND, 6),
    ]
    assert told["stock"] == 41


def test_it_says_what_it_knows_of_the_market():
    told = next_market(**asked())
    # a booking by the name of a market is of it
    assert [told[name] for name in ("from", "days", "here", "hours", "hours_from")] == [
        "here",
        2,
        2,
        6.0,
        "said",
    ]
    assert told["brought"] == 24
    fair = next_market(**asked(booking=FAIR))
    known = [fair[name] for name in ("from", "days", "here", "hours", "hours_from", "market_days")]
    assert known == ["elsewhere", 2, 0, 12.0, "usual", 2]
    assert [item["rule"] for item in fair["notes"]] == ["new_market"]


def test_without_a_day_it_asks_for_a_guess_and_takes_it():
    told = next_market(**asked(days_sold=[], booking=FAIR))
    assert (told["from"], told["products"], told["hours"], told["hours_from"]) == (None, [], 12.0, "guess")
    told = next_market(**asked(days_sold=[], choices={"guess": 30}))
    assert (told["from"], [one["mean"] for one in told["products"]]) == ("guess", [10.0, 10.0, 10.0])
    assert told["brought"] is None


@pytest.mark.parametrize(
    "choices", [{}, {"factor": 150}, {"at_least": 3}, {"factor": 20, "at_least": 2}, {"carry": 20}]
)
def test_every_box_is_filled_as_bring_to_market_fills_it(choices):
    told = next_market(**asked(choices=choices))
    assert len(told["order"]) == len(told["worths"]) > 12
    for capacity in range(len(told["order"]) + 1):
        question = market_inputs(**asked(choices=choices), capacity=capacity)
        reply = answer("bring-to-market", question)["result"]
        bring = [told["order"][:capacity].count(place) for place in range(3)]
        assert [one["bring"] for one in reply["products"]] == bring
        for one, product, number in zip(reply["products"], told["products"], bring, strict=True):
            for name in ("sell_out", "sold", "left"):
                assert product[name][number] == pytest.approx(one[name], rel=1e-9, abs=1e-9)
            assert (product["mean"], product["low"], product["high"]) == (
                one["mean"],
                one["low"],
                one["high"],
            )


def test_places_that_bring_no_coin_are_left_out():
    told = next_market(**asked(choices={"factor": 10}))
    assert all(worth >= 1 for worth in told["worths"])
    assert len(told["order"]) < told["stock"]


def test_what_bringing_a_piece_home_costs_is_taken_off_where_it_does_not_sell():
    free, dear = (next_market(**asked(choices={"carry": carry})) for carry in (0, 100))
    assert len(dear["order"]) < len(free["order"])
    # the first place: what a piece leaves if it sells, less 100 if it does not
    first = dear["products"][dear["order"][0]]
    sells = first["sold"][1]
    assert dear["worths"][0] == pytest.approx(first["gain"] * sells - 100 * (1 - sells), rel=1e-9)


def test_each_product_has_the_days_behind_it():
    [lawn, *_] = next_market(**asked())["products"]
    assert [(one["day"], one["here"], one["sold"], one["hours"], one["asked"], one["sold_out"])
            for one in lawn["days"]] == [
        ("2026-05-02", True, 8, None, 0, False),
        ("2026-05-09", True, 9, 4.5, 2, True),
    ]  # fmt: skip


def test_the_days_are_those_of_this_market_where_there_are_a_few():
    days = [day(number, row(LAWN, number)) for number in (2, 9)] + [day(10, row(LAWN, 1), booking=FAIR)]
    [lawn, *_] = next_market(**asked(days_sold=days))["products"]
    assert [one["here"] for one in lawn["days"]] == [True, True, False]
    [lawn, *_] = next_market(**asked(days_sold=[*days, day(16, row(LAWN, 5))]))["products"]
    assert [one["day"] for one in lawn["days"]] == ["2026-05-02", "2026-05-09", "2026-05-16"]


def test_bad_choices_are_refused_by_name_and_a_booking_that_is_not_here_is_none():
    with pytest.raises(Problems) as refused:
        next_market(**asked(choices={"guess": -1, "factor": 9999}))
    found = [(one["field"], one["rule"], one["limit"]) for one in refused.value.problems]
    assert found == [("guess", "lowest", 0), ("factor", "highest", 1000)]
    assert next_market(**asked(booking=named("gone"))) is None
    assert market_inputs(**asked(booking=named("gone")), capacity=3) is None


def test_the_phone_is_told_the_same():
    reply = json.loads(bridge.call(json.dumps({"method": "next_market", "args": asked()})))
    assert reply["answer"] == json.loads(json.dumps(next_market(**asked())))


def test_many_days_and_products_are_cut_to_what_can_be_asked():
    products = {named(f"{number:06}"): {**RECORDS["product"][LAWN]} for number in range(80)}
    days = [day(1, *[row(id, 3) for id in products]) for _ in range(60)]
    stock = [{**STOCK[0], "product": id} for id in list(products)[20:]]
    told = next_market(**asked(days_sold=days, stock=stock, records={**RECORDS, "product": products}))
    # 2000 rows are 33 days of 60
    assert (len(told["products"]), told["days"]) == (60, 33)
    assert {one["product"] for one in told["products"]} == set(list(products)[20:])


# packing by the plan


def test_what_lies_at_the_stall_or_sold_there_need_not_be_packed():
    stock = [
        {"place": place, "product": product, "size": None, "quantity": quantity, "counted_at": None}
        for place, product, quantity in (("stall", LAWN, 4), ("stall", CHECK, -2), ("home", LAWN, 9))
    ]
    line = {"product": LAWN, "quantity": 3, "unit_price": 5, "total": 15}
    sale = {"kind": "sale", "id": "s", "at": 5, "day": "2026-05-16", "booking": NEXT, "place": "stall",
            "lines": [line], "amount": 15, "payment": "cash"}  # fmt: skip
    plan = [
        {"product": LAWN, "quantity": 12},
        {"product": CHECK, "quantity": 5},
        {"product": GRAND, "quantity": 1},
    ]
    told = to_pack(plan, stock, "stall", [sale, {**sale, "id": "t", "booking": SPOT}], NEXT)
    assert [one["quantity"] for one in told] == [5, 5, 1]
    assert [one["quantity"] for one in to_pack(plan, stock, "stall", [], NEXT)] == [8, 5, 1]
