"""Days with an offer against days without it: which days these are, and every figure of each by hand."""

import json

import pytest

from backend.core.bridge import call
from backend.core.reviewing.offer_days import offer_days
from tests.core.costing.one_batch import fact
from tests.core.ids import named

OFFER, MARKET, OTHER, PRODUCT, PETITE = [named(name) for name in ("o1", "m1", "m2", "g1", "g2")]
TERMS = {"fee": 1000, "fee_percent": 5, "opens": "09:00", "closes": "14:00"}
RECORDS = {
    "business": {named("b1"): {"name": "Tern", "currency": "EUR", "card_fee": 2, "tax_percent": 20}},
    "market": {MARKET: {"name": "Quay", **TERMS}, OTHER: {"name": "Hall", **TERMS}},
    "product": {
        PRODUCT: {"size": named("s1"), "cloth": named("c1"), "price": 600, "group": "Everyday"},
        PETITE: {"size": named("s2"), "cloth": named("c1"), "price": 450, "group": "Petite"},
    },
    "offer": {OFFER: {"name": "Three for 15", "groups": ["Everyday"], "n": 3, "price": 1500}},
}
COSTS = {PRODUCT: [{"at": 0, "made": 20, "good": 20, "cost": 950.0}]}
DAYS = ["2026-05-02", "2026-05-09", "2026-05-16", "2026-05-23"]


def booked(**bookings):
    return {**RECORDS, "booking": {named(name): fields for name, fields in bookings.items()}}


def a_sum(day, name, everyday, petite=0, taken=7200, card=0, sales=4):
    return {
        "day": day,
        "booking": named(name) if name else None,
        "at": 1,
        "sales": sales,
        "pieces": everyday + petite,
        "taken": taken,
        "given_back": 0,
        "card": card,
        "products": {PRODUCT: everyday, PETITE: petite},
        "sizes": {},
        "others": 0,
    }


def used_in(day, name, at=20, offer=OFFER):
    return fact("sale", at, day=day, booking=named(name), lines=[], amount=1500, payment="cash", place="p",
                offers=[{"offer": offer, "times": 1, "saving": 300}])  # fmt: skip


FOUR = booked(**{f"k{number}": {"market": MARKET, "days": [day]} for number, day in enumerate(DAYS)})
SUMS = [
    a_sum(DAYS[0], "k0", everyday=6, petite=4),
    a_sum(DAYS[1], "k1", everyday=8, taken=8400),
    a_sum(DAYS[2], "k2", everyday=3, petite=7, taken=6000),
    a_sum(DAYS[3], "k3", everyday=4, petite=6, taken=6000, card=3000),
]
USED = [used_in(DAYS[0], "k0"), used_in(DAYS[1], "k1", 21)]


def measure(told, name):
    return next(row for row in told["measures"] if row["measure"] == name)


def test_each_day_tells_what_is_left_of_it_an_hour_without_tax_goods_fees_and_card():
    told = offer_days(USED, FOUR, SUMS, COSTS, OFFER)
    assert (told["with"], told["without"], told["markets"]) == (2, 2, ["Quay"])
    left = measure(told, "contribution an hour")
    # worked by hand, 950 ÷ 20 = 47.5 a piece of Everyday, 5 hours: 7200 ÷ 1.2 = 6000, less 285, 5 % of it,
    # 1000: 4415; 8400 ÷ 1.2 = 7000, less 380, 350, 1000: 5270
    assert left["with"] == pytest.approx((4415 / 5 + 5270 / 5) / 2)
    # 6000 ÷ 1.2 = 5000, less 142.5 up to 143, 250, 1000: 3607; less 190, 250, 1000, 2 % of 3000: 3500
    assert left["without"] == pytest.approx((3607 / 5 + 3500 / 5) / 2)
    assert measure(told, "pieces a sale")["with"] == pytest.approx((10 / 4 + 8 / 4) / 2)
    group = measure(told, "group share")
    assert (group["with"], group["without"]) == (pytest.approx(80), pytest.approx(35))
    # 4 + 7 + 6 Petite of which no batch tells a cost
    assert told["uncosted"] == 17


def test_a_void_sale_is_no_use_of_the_offer_nor_is_another_offers():
    void = fact("void", 30, sale=USED[1]["id"], day=DAYS[1])
    told = offer_days([*USED, void, used_in(DAYS[2], "k2", 22, named("o2"))], FOUR, SUMS, COSTS, OFFER)
    assert (told["with"], told["without"]) == (1, 3)
    # one day alone has no spread: nothing is said to differ
    assert measure(told, "contribution an hour")["differs"] is None


def test_only_days_at_markets_where_it_was_used_are_compared():
    records = booked(k0={"market": MARKET, "days": [DAYS[0]]}, k1={"market": OTHER, "days": [DAYS[1]]},
                     k2={"name": "On the spot", "days": [DAYS[2]], **TERMS})  # fmt: skip
    told = offer_days(USED[:1], records, [*SUMS[:3], a_sum(DAYS[3], None, 5)], COSTS, OFFER)
    assert (told["with"], told["without"]) == (1, 0)


def test_days_whose_hours_nobody_said_are_left_out_and_counted():
    unsaid = {**FOUR, "market": {MARKET: {"name": "Quay", "fee": 1000}}}
    told = offer_days(USED, unsaid, SUMS, COSTS, OFFER)
    assert (told["with"], told["without"], told["no_hours"]) == (0, 0, 4)
    assert told["measures"] == []


def test_the_fee_of_a_booking_is_shared_by_its_days():
    two = booked(k0={"market": MARKET, "days": DAYS[:2]})
    sums = [a_sum(DAYS[0], "k0", 6), a_sum(DAYS[1], "k0", 6)]
    told = offer_days(USED[:1], two, sums, COSTS, OFFER)
    left = measure(told, "contribution an hour")
    # worked by hand: 6000 − 285 − 300 − 500 in 5 hours, on the day with it and on that without
    assert (left["with"], left["without"]) == (pytest.approx(983), pytest.approx(983))


def test_an_offer_never_used_or_not_here_has_no_days():
    for offer in (OFFER, named("gone")):
        told = offer_days([], FOUR, SUMS, COSTS, offer)
        assert (told["with"], told["without"], told["measures"]) == (0, 0, [])


def test_of_many_days_the_latest_sixty_of_each_are_compared():
    days = [f"2026-{month:02}-{day:02}" for month in (1, 2, 3) for day in range(1, 29)][:70]
    records = booked(**{f"x{number}": {"market": MARKET, "days": [day]} for number, day in enumerate(days)})
    sums = [a_sum(day, f"x{number}", 5) for number, day in enumerate(days)]
    used = [used_in(day, f"x{number}", 100 + number) for number, day in enumerate(days)]
    assert offer_days(used, records, sums, COSTS, OFFER)["with"] == 60


def test_pieces_of_a_size_alone_are_of_the_group_and_more_back_than_sold_are_none():
    row = {**a_sum(DAYS[0], "k0", -2), "sizes": {named("s1"): 3}, "pieces": 4}
    back = {**a_sum(DAYS[1], "k1", -2), "pieces": 4}
    told = offer_days(USED, FOUR, [row, back], COSTS, OFFER)
    # worked by hand: 1 of 4, and none of 4
    assert measure(told, "group share")["with"] == pytest.approx((25 + 0) / 2)


def test_the_phone_asks_for_it_by_name():
    args = {"facts": USED, "records": FOUR, "sums": SUMS, "costs": COSTS, "offer": OFFER}
    told = json.loads(call(json.dumps({"method": "offer_days", "args": args})))
    assert told["answer"]["with"] == 2
    bad = json.loads(call(json.dumps({"method": "offer_days", "args": {**args, "offer": 3}})))
    assert [problem["field"] for problem in bad["problems"]] == ["offer"]
