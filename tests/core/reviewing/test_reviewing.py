"""The day's report: every sum of it comes to the takings, and to what an oracle adds up by itself."""

import csv
import io
from collections import Counter
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.counting.held import fold_stock
from backend.core.records.reader import unreadable
from backend.core.reviewing.cash_box import cash_up_of, denominations_of
from backend.core.reviewing.day_report import day_report
from backend.core.reviewing.days import days_taken
from backend.core.reviewing.parts import FIGURES, told_day
from backend.core.reviewing.report_csv import COLUMNS, report_csv
from backend.core.selling.cash_ways import USUAL
from tests.core.reviewing.market_day import BOOKINGS, BOXES, DAY, HOURS, MIDNIGHT, PLACES, facts_of_a_day

FLOAT = 4000
TINS = [{"box": box, "usual_float": FLOAT} for box in BOXES if box]
BERLIN = ZoneInfo("Europe/Berlin")
A_DAY = some.integers(0, 2**32).map(facts_of_a_day)


def voids_of(facts):
    return {fact["sale"]: True for fact in facts if fact["kind"] == "void"}


def report(facts, booking="quay", stock=None, hours=HOURS):
    return day_report(facts, voids_of(facts), DAY, booking, PLACES[booking], hours, stock, TINS)


def standing(facts):
    """The facts of the day that no void names."""
    voids = voids_of(facts)
    return [one for one in facts if one["day"] == DAY and not (one["kind"] == "sale" and one["id"] in voids)]


def of_booking(facts, booking, *kinds):
    """The facts of the day and a booking that stand, of some kinds."""
    return [one for one in standing(facts) if one["kind"] in kinds and one["booking"] == booking]


def money(facts):
    return sum(fact["amount"] if fact["kind"] == "sale" else -fact["amount"] for fact in facts)


def hour_in_berlin(at):
    """The hour that Python's own calendar has for a time; None on another day."""
    local = datetime.fromtimestamp(at / 1000, BERLIN)
    return f"{local:%H}:00" if f"{local:%Y-%m-%d}" == DAY else None


SALE = {
    "kind": "sale", "id": "s", "day": DAY, "at": MIDNIGHT, "booking": "quay", "place": "quay stall",
    "box": "green tin", "payment": "cash", "amount": 1500,
    "lines": [{"product": "everyday", "quantity": 3, "unit_price": 600, "total": 1500}],
    "offers": [{"offer": "three", "times": 1, "saving": 300}],
}  # fmt: skip


def fact(kind, name, at, **fields):
    return {"kind": kind, "id": name, "day": DAY, "at": MIDNIGHT + at, "booking": "quay", **fields}


def cash(moment, name, at, amount, counted=()):
    return fact("cash-count", name, at, box="green tin", moment=moment, amount=amount, counted=list(counted))


# The report


@given(A_DAY, some.sampled_from(BOOKINGS))
def test_payments_hours_and_products_each_come_to_the_takings(facts, booking):
    told = report(facts, booking)
    taken = told["takings"]
    stand = of_booking(facts, booking, "sale", "refund")
    assert taken["amount"] == money(stand)
    assert sum(row["amount"] for row in taken["payments"]) == taken["amount"]
    assert sum(row["amount"] for row in told["hours"]) == taken["amount"]
    assert sum(row["sales"] for row in told["hours"]) == taken["sales"]
    of_products = sum(row["amount"] - row["given_back"] for row in told["products"])
    assert of_products + told["rounded"] == taken["amount"]
    assert sum(row["pieces"] for row in told["products"]) == taken["pieces"]
    assert taken["sales"] == sum(one["kind"] == "sale" for one in stand)


@given(A_DAY, some.sampled_from(BOOKINGS))
def test_each_hour_is_the_one_of_the_calendar_when_the_clocks_go_back_too(facts, booking):
    wanted = Counter()
    for one in of_booking(facts, booking, "sale", "refund"):
        wanted[hour_in_berlin(one["at"]) or ""] += money([one])
    told = Counter()
    for row in report(facts, booking)["hours"]:
        told[row["name"]] += row["amount"]
    assert +told == +wanted and -told == -wanted


@given(A_DAY, some.sampled_from(BOOKINGS))
def test_products_are_what_their_facts_add_up_to(facts, booking):
    pieces, back, aside, asked = Counter(), Counter(), Counter(), Counter()
    for one in of_booking(facts, booking, "sale", "refund", "asked-for"):
        for line in one["lines"] if one["kind"] == "sale" else ():
            pieces[goods(line)] += line["quantity"]
        for line in one["lines"] if one["kind"] == "refund" else one.get("returned", ()):
            back[goods(line)] += line["quantity"]
        if one["kind"] == "asked-for":
            asked[goods(one)] += 1
    places = {PLACES[booking]}
    for one in facts:
        if one["kind"] == "set-aside" and one["day"] == DAY and one["place"] in places:
            aside[goods(one)] += -one["quantity"] if one["reason"] == "found" else one["quantity"]
    told = {goods(row): row for row in report(facts, booking)["products"]}
    for name, counted in (("pieces", pieces), ("back", back), ("set_aside", aside), ("asked", asked)):
        assert all(told[key][name] == counted[key] for key in told | counted)


def goods(row):
    return row.get("product") or row.get("size") or row.get("name")


@given(A_DAY)
def test_what_happened_beside_sales_is_what_the_facts_say(facts):
    told = report(facts)
    sales, refunds = of_booking(facts, "quay", "sale"), of_booking(facts, "quay", "refund")
    used = [use for sale in sales for use in sale["offers"]]
    assert sum(row["saving"] for row in told["offers"]) == sum(use["saving"] for use in used)
    assert sum(row["times"] for row in told["offers"]) == sum(use["times"] for use in used)
    assert sorted(row["refund"] for row in told["refunds"]) == sorted(one["id"] for one in refunds)
    assert told["swaps"]["times"] == sum(
        sale["payment"] == "none" or bool(sale.get("returned")) for sale in sales
    )
    gone = [one for one in facts if one["kind"] == "sale" and one["day"] == DAY and one["booking"] == "quay"
            and one["id"] in voids_of(facts)]  # fmt: skip
    assert sorted(row["sale"] for row in told["voids"]) == sorted(one["id"] for one in gone)
    aside = Counter()
    for one in facts:
        if one["kind"] == "set-aside" and one["day"] == DAY and one["place"] == "quay stall":
            aside[one["reason"]] += one["quantity"]
    assert {row["reason"]: row["pieces"] for row in told["set_asides"]} == aside


@given(A_DAY, some.randoms(use_true_random=False))
def test_the_order_of_arrival_and_a_second_arrival_change_nothing(facts, random):
    again = facts + facts[:3]
    random.shuffle(again)
    assert report(again) == report(facts)


def test_full_prices_are_takings_offers_and_discounts_together():
    lines = [{"product": "grand", "quantity": 1, "unit_price": 900, "total": 800, "reason": "pulled thread"},
             {"product": "everyday", "quantity": 3, "unit_price": 600, "total": 1450}]  # fmt: skip
    sale = SALE | {"lines": lines, "off": 50, "reason": "a regular", "amount": 2250}
    # worked by hand: 27.00 at full price; 3.00 by the offer, 0.50 off the basket, 1.00 off the line
    told = report([sale])
    assert told["offers"] == [{"offer": "three", "times": 1, "saving": 300}]
    assert told["discounts"] == [
        {"reason": "pulled thread", "times": 1, "amount": 100},
        {"reason": "a regular", "times": 1, "amount": 50},
    ]
    assert told["rounded"] == 0


def test_a_swap_is_no_discount_and_brings_pieces_back():
    line = {"product": "grand", "quantity": 1, "unit_price": 900, "total": 0}
    swap = SALE | {"lines": [line], "returned": [{"product": "petite", "quantity": 2}], "amount": 0}
    told = report([swap | {"payment": "none", "offers": []}])
    assert told["discounts"] == []
    assert told["swaps"] == {"times": 1, "out": 1, "back": 2}


def test_cash_rounded_to_the_coin_is_told_apart_from_the_products():
    # cash total only: 4.92 → cash 4.90 (budget.canada.ca, 2012)
    line = {"product": "everyday", "quantity": 1, "unit_price": 492, "total": 492}
    told = report([SALE | {"lines": [line], "offers": [], "amount": 490}])
    assert (told["rounded"], told["takings"]["amount"]) == (-2, 490)


def test_what_is_left_is_told_for_the_places_that_sold():
    stock = [
        {"place": "quay stall", "product": "everyday", "size": None, "quantity": 9},
        {"place": "quay stall", "product": "grand", "size": None, "quantity": 0},
        {"place": "shelf", "product": "everyday", "size": None, "quantity": 40},
        {"place": "quay stall", "product": None, "size": "petite", "quantity": -2},
    ]
    told = report([SALE], stock=stock)
    assert [(goods(row), row["left"]) for row in told["products"]] == [("everyday", 9), ("petite", -2)]
    assert [row["left"] for row in report([SALE])["products"]] == [None]


def test_the_day_ends_with_what_happened_at_the_stall_not_with_the_packing():
    later = [
        fact("count-close", "c", 500, place="quay stall"),
        fact("move", "m", 900, place="quay stall"),
        cash("cash-up", "u", 950, 0),
    ]
    assert report([SALE, *later])["ended_at"] == MIDNIGHT + 500
    assert report([])["ended_at"] is None


def test_hours_without_a_sale_between_others_are_told_and_those_around_are_not():
    nine, twelve = SALE | {"at": HOURS[10]["at"]}, SALE | {"id": "t", "at": HOURS[13]["at"] + 1}
    told = report([nine, twelve])["hours"]
    assert [(row["name"], row["sales"]) for row in told] == [
        ("09:00", 1), ("10:00", 0), ("11:00", 0), ("12:00", 1),
    ]  # fmt: skip
    assert [row["name"] for row in report([nine], hours=[])["hours"]] == [""]


@pytest.mark.parametrize("change", [{"amount": "1"}, {"lines": None}, {"lines": [{}]}, {"payment": "tin"},
                                    {"at": None}, {"id": 5}, {"offers": [1]}, {"amount": True}])  # fmt: skip
def test_what_cannot_be_read_is_set_aside_and_named(change):
    bent = SALE | {"id": "bent"} | change
    assert report([SALE, bent]) == report([SALE])
    assert [told["number"] for told in unreadable([SALE, bent])] == [1]
    assert {name for told in unreadable([bent]) for name in told["fields"]} >= set(change)


# The days


@given(A_DAY)
def test_the_days_come_to_what_was_taken_in_all(facts):
    rows = days_taken(facts, voids_of(facts))
    assert [row["day"] for row in rows] == sorted((row["day"] for row in rows), reverse=True)
    voids = voids_of(facts)
    stand = [
        one for one in facts if one["kind"] == "refund" or one["kind"] == "sale" and one["id"] not in voids
    ]
    assert sum(row["amount"] for row in rows) == money(stand)
    for row in rows:
        if row["day"] == DAY:
            assert row["amount"] == report(facts, row["booking"])["takings"]["amount"]


# The cash box


@given(A_DAY, some.sampled_from(BOXES[:2]))
def test_a_box_should_hold_its_float_and_what_came_in_less_what_went_out(facts, box):
    mine = [one for one in standing(facts) if one["box"] == box]
    mine.sort(key=lambda one: (one["at"], one["id"]))
    floats = [one["amount"] for one in mine if one.get("moment") == "float"]
    holds = floats[-1] if floats else FLOAT
    for one in mine:
        if one["kind"] == "cash-movement":
            holds += one["amount"] if one["direction"] == "paid in" else -one["amount"]
        elif one["kind"] in ("expense", "purchase"):
            holds -= one["amount"]
        elif one.get("payment") == "cash":
            holds += money([one])
    counted = [{"value": 1, "count": 7}, {"value": 500, "count": 3}]
    told = cash_up_of(facts, voids_of(facts), DAY, box, FLOAT, counted)
    assert (told["expected"], told["counted_total"], told["difference"]) == (holds, 1507, 1507 - holds)
    assert [row["total"] for row in told["counted"]] == [1500, 7]
    kept = cash_up_of(facts, voids_of(facts), DAY, box, FLOAT, None)
    # what came after the count that is kept is told apart
    assert kept["expected"] + kept["since"] == holds
    counts = [one for one in mine if one.get("moment") == "cash-up"]
    assert kept["counted_total"] == (counts[-1]["amount"] if counts else None)


def test_what_was_bought_or_spent_from_a_box_is_out_of_it_until_that_is_void():
    spent = fact("expense", "e", 5, box="green tin", what="parking", amount=450)
    bought = fact("purchase", "b", 6, box="green tin", supply="bags", quantity=1, amount=700)
    by_card = fact("expense", "c", 7, box=None, what="pitch", amount=9000)
    never = fact("purchase-void", "n", 8, purchase="b")
    told = cash_up_of([SALE, spent, bought, by_card], {}, DAY, "green tin", FLOAT, None)
    assert (told["taken_out"], told["expected"]) == (1150, FLOAT + 1500 - 1150)
    assert [row["reason"] for row in told["movements"]] == ["parking", ""]
    facts = [SALE, spent, bought, by_card, never]
    held = fold_stock(facts, None, None)
    assert cash_up_of(facts, held["voids"], DAY, "green tin", FLOAT, None)["taken_out"] == 450
    assert [box["taken_out"] for box in report(facts)["boxes"]] == [450]


def test_what_is_sewn_and_spent_beside_a_market_is_no_part_of_it():
    sewn = {
        "kind": "batch-result", "id": "r", "day": DAY, "at": MIDNIGHT + 999, "batch": "126",
        "place": "quay stall", "lines": [{"product": "everyday", "made": 24, "good": 24}],
    }  # fmt: skip
    hours = {
        "kind": "work-time",
        "id": "w",
        "day": DAY,
        "at": MIDNIGHT + 999,
        "what": "sewing",
        "minutes": 90.0,
    }
    assert report([SALE, sewn, hours]) == report([SALE])


def test_a_float_written_down_late_was_there_from_the_start_and_the_last_one_stands():
    facts = [SALE, cash("float", "f", 10, 4000), cash("float", "g", 20, 5000)]
    told = cash_up_of(facts, {}, DAY, "green tin", 0, None)
    assert (told["float"], told["float_counted"], told["expected"]) == (5000, True, 6500)
    assert (told["counted_total"], told["difference"], told["kept"]) == (None, None, None)


def test_the_last_cash_up_stands_against_what_the_box_held_then():
    late = SALE | {"id": "late", "at": MIDNIGHT + 90}
    facts = [
        late,
        SALE,
        cash("cash-up", "a", 50, 5500),
        cash("cash-up", "b", 60, 5400, [{"value": 5400, "count": 1}]),
    ]
    told = cash_up_of(facts, {}, DAY, "green tin", FLOAT, None)
    assert (told["kept"]["id"], told["expected"], told["difference"], told["since"]) == (
        "b",
        5500,
        -100,
        1500,
    )


def test_more_taken_out_than_came_in_is_said():
    out = fact("cash-movement", "o", 5, box="green tin", direction="taken out", amount=900, reason="lunch")
    told = cash_up_of([out], {}, DAY, "green tin", 0, [])
    assert (told["expected"], told["difference"]) == (-900, 900)
    assert [note["rule"] for note in told["notes"]] == ["less_than_nothing"]
    assert told["movements"] == [
        {"id": "o", "at": MIDNIGHT + 5, "direction": "taken out", "amount": 900, "reason": "lunch"}
    ]


def test_denominations_are_the_declared_ones_largest_first_or_the_usual_ones():
    assert denominations_of([100, 2000, 100, 5]) == [2000, 100, 5]
    assert denominations_of([]) == sorted(USUAL, reverse=True)


def test_boxes_of_the_booking_are_in_its_report_and_cash_in_none_is_told():
    loose = SALE | {"id": "loose", "box": None}
    other = SALE | {"id": "other", "box": "blue tin", "booking": "barn"}
    told = report([SALE, loose, other])
    assert [(row["box"], row["expected"]) for row in told["boxes"]] == [("green tin", FLOAT + 1500)]
    assert told["no_box"] == 1500


# The parts


@given(A_DAY, some.sampled_from(BOOKINGS))
def test_each_part_is_a_table_of_its_columns_and_tells_what_the_report_tells(facts, booking):
    names = {"everyday": "Everyday, Seagrass lawn", "petite": "Petite", "three": "Three for 15", "half": 5}
    told = told_day(facts, voids_of(facts), DAY, booking, PLACES[booking], HOURS, None, TINS, names)
    parts = {part["title"]: part for part in told["parts"]}
    assert {name: told[name] for name in told if name != "parts"} == report(facts, booking)
    for part in told["parts"]:
        assert part["rows"]
        figures = [column["figure"] for column in part["columns"]]
        assert figures[0] == "words" and set(figures[1:]) <= set(FIGURES)
        for row in part["rows"]:
            assert isinstance(row["words"], str) and all(row[figure] is not False for figure in figures)
    for title in ("How it was paid", "By hour", "By product"):
        rows = parts.get(title, {"rows": []})["rows"]
        assert sum(row["amount"] for row in rows) == told["takings"]["amount"]
    shares = [row["share"] for row in parts.get("By hour", {"rows": []})["rows"]]
    assert all(0 <= share <= 100 for share in shares)
    reductions = sum(row["amount"] for row in parts.get("Offers and discounts", {"rows": []})["rows"])
    assert -reductions == sum(row["saving"] for row in told["offers"]) + sum(
        row["amount"] for row in told["discounts"]
    )


def test_a_product_tells_in_words_what_else_became_of_it():
    asked = fact("asked-for", "a", 1, place="quay stall", product="everyday")
    back = SALE | {"kind": "refund", "id": "r", "sale": "s", "amount": 500, "goods": "spoilt"}
    back["lines"] = [{"product": "everyday", "quantity": 1, "total": 500}]
    told = told_day([SALE, asked, back], {}, DAY, "quay", None, HOURS, None, TINS, {"everyday": "Everyday"})
    [goods] = next(part for part in told["parts"] if part["title"] == "By product")["rows"]
    assert (goods["words"], goods["more"]) == ("Everyday", "1 back, 1 asked for, none left")
    assert (goods["pieces"], goods["amount"]) == (3, 1000)
    [undone] = next(part for part in told["parts"] if part["title"] == "Void, and given back")["rows"]
    assert (undone["words"], undone["sale"], undone["amount"]) == ("Given back, spoilt", "s", -500)


# The file


@given(A_DAY, some.sampled_from(BOOKINGS))
def test_the_file_holds_the_figures_and_no_formula(facts, booking):
    names = {"quay": '+Quay, "old"', "everyday": "=1+1", "green tin": "@tin"}
    text = report_csv(facts, voids_of(facts), DAY, booking, PLACES[booking], HOURS, None, TINS, names, "EUR")
    assert text.endswith("\r\n") and "\n" not in text.replace("\r\n", "")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    told = report(facts, booking)
    assert tuple(rows[0]) == COLUMNS
    taken = told["takings"]["amount"]
    for part in ("Takings", "How it was paid", "By hour", "By product"):
        assert cents(rows, "part", part) == taken
    assert cents(rows, "what", "expected") == sum(box["expected"] for box in told["boxes"])
    assert (
        sum(int(row["pieces"]) for row in rows if row["part"] == "By product" and row["pieces"])
        == (told["takings"]["pieces"])
    )
    for row in rows:
        assert not [row[name] for name in COLUMNS[:5] if row[name].startswith(("=", "+", "-", "@"))]


def cents(rows, column, text):
    # two decimals: no float is needed
    return sum(int(row["amount"].replace(".", "")) for row in rows if row[column] == text)


def test_a_file_of_another_currency_has_its_own_decimals():
    text = report_csv([SALE], {}, DAY, "quay", None, HOURS, None, [], {}, "JPY")
    assert f"{DAY},quay,Takings,All,,1,3,,,,,1500,JPY\r\n" in text
