"""Prices side by side: what each leaves, what an offer costs, and how many pay for a day."""

import pytest

from backend.core.costing import prices_of_goods as module
from backend.core.costing.prices_of_goods import MOST_USES, prices_of_goods
from backend.core.declaring.errors import Problems
from backend.core.numbers.rounding import half_up
from tests.core.costing.one_batch import DAY, FACTS, RECORDS, fact
from tests.core.ids import named

OFFER = {"name": "Three for 15", "groups": ["Everyday"], "n": 3, "price": 1500}
MORE = {
    "offer": {
        named("o1"): OFFER,
        named("o2"): {**OFFER, "groups": ["Petite"]},
        named("o3"): {**OFFER, "archived": True},
    },
    "market": {named("m1"): {"name": "Quay", "fee": 2800}, named("m2"): {"name": "Free"}},
}


def prices(facts=FACTS, choices=None, **records):
    return prices_of_goods(facts, {**RECORDS, **MORE, **records}, [named("g1")], DAY, choices or {})


def test_each_price_tells_what_it_leaves_at_the_stall_and_in_shops():
    told = prices()
    six, seven = told["points"]
    # 600 − 100.18; an hour as the cost tells; half of it to a shop that buys, 60 % from one that sells
    assert (six["price"], six["left"], six["hour_earns"]) == (600, 499.82, 15270)
    assert (six["wholesale"]["price"], six["consignment"]["receives"]) == (300, 360)
    assert seven["left"] == 599.82
    assert told["price"] == 600


def test_tax_is_inside_the_price_or_on_top_of_it():
    taxed = {named("b1"): {**RECORDS["business"][named("b1")], "tax_percent": 20}}
    inside, on_top = prices(business=taxed), prices(business=taxed, choices={"tax_included": False})
    assert [row["net"] for row in inside["points"]] == [500, 583]
    assert [row["left"] for row in inside["points"]][0] == 399.82
    assert [(row["net"], row["gross"]) for row in on_top["points"]] == [(600, 720), (700, 840)]
    assert on_top["points"][0]["left"] == 499.82


def test_an_offer_that_does_not_say_its_price_is_left_out():
    assert prices(offer={named("o1"): {**OFFER, "price": None}})["offers"] == []


def test_an_offer_tells_how_many_more_must_be_sold_for_it():
    [offer] = prices()["offers"]
    # cash each is (1713 − 925) ÷ 17.1 = 46: full price leaves 554, the offer 100 less
    assert offer["each"] == 500.0
    assert offer["lift"] == pytest.approx(100 * 100 / 454)
    assert offer["used"] is None


def test_what_an_offer_gave_away_is_told_of_the_sales_with_it():
    sold = fact("sale", 20, offers=[{"offer": named("o1"), "times": 2, "saving": 601}], lines=[], amount=3000,
                payment="cash", place="p")  # fmt: skip
    [offer] = prices([*FACTS, sold])["offers"]
    assert (offer["used"]["times"], offer["used"]["given_away"]) == (2, 601)


def test_of_a_sale_that_says_any_number_of_times_only_the_last_uses_are_made(monkeypatch):
    def sold(at, times, saving):
        rows = [{"offer": named("o1"), "times": times, "saving": saving}] * 12
        return fact("sale", at, offers=rows, lines=[], amount=3000, payment="cash", place="p")

    made = []
    monkeypatch.setattr(module, "half_up", lambda value: made.append(value) or half_up(value))
    [offer] = prices([*FACTS, sold(20, 100000, 10**9), sold(21, 100000, 100000)])["offers"]
    used = offer["used"]
    # each of the last saved one, of a full price of 1501
    assert (used["times"], used["given_away"]) == (MOST_USES, MOST_USES)
    assert len(made) < 3 * MOST_USES


def test_a_market_tells_how_many_pay_for_it():
    # 2800 ÷ (600 − 46)
    assert [(row["name"], row["pieces"]) for row in prices()["markets"]] == [("Quay", 6)]
    # and each is cut by what the card takes
    dear = {named("b1"): {**RECORDS["business"][named("b1")], "card_fee": 50}}
    assert prices(business=dear, choices={"card_share": 100})["markets"][0]["pieces"] == 12


def test_the_way_to_a_market_and_other_costs_are_paid_for_too():
    driven = {named("b1"): {**RECORDS["business"][named("b1")], "per_km": 30}}
    quay = MORE["market"][named("m1")]
    far = {**quay, "distance_km": 61, "trips": 4, "other": 500}
    told = prices(business=driven, market={named("m1"): far})["markets"][0]
    # (2800 + 61 × 4 × 30 + 500) ÷ (600 − 46)
    assert (told["fee"], told["travel"], told["other"], told["pieces"]) == (2800, 7320, 500, 20)
    near = {**quay, "fee": None, "distance_km": 2}
    told = prices(business=driven, market={named("m1"): near})["markets"][0]
    # there and back, where no number of trips is said
    assert (told["fee"], told["travel"], told["pieces"]) == (0, 120, 1)
    # where a kilometre costs nothing, neither does being there
    assert prices(market={named("m1"): near})["markets"] == []


def test_bad_choices_are_named():
    with pytest.raises(Problems) as told:
        prices(choices={"card_share": 101, "wholesale": "x"})
    assert [item["field"] for item in told.value.problems] == ["card_share", "wholesale"]


def test_nothing_is_priced_that_was_never_made():
    assert prices(FACTS[:5]) is None
