"""What to sew next from the records: what make-next is asked, and where each figure is from."""

import copy

import pytest

from backend.core.catalogue import answer
from backend.core.deciding.next_sewing import next_sewing
from backend.core.declaring.errors import Problems
from tests.core.costing.one_batch import DAY, FACTS, RECORDS, fact
from tests.core.ids import named

TIE, SIZE, LAWN, GREEN, BRAIDED = named("g1"), named("s1"), named("c1"), named("t1"), named("e1")
QUAY, FAIR = named("k1"), named("k2")
BOOKINGS = {
    QUAY: {"name": "Quay", "days": ["2026-05-16"], "opens": "09:00", "closes": "15:00", "fee_percent": 5},
    FAIR: {"name": "Fair", "days": ["2026-05-23", "2026-05-24"], "opens": "10:00", "closes": "16:00"},
}
# a batch of eighteen has been finished
DONE = {named("h1"): {**RECORDS["batch"][named("h1")], "state": "finished"}}
SOLD = {
    "day": "2026-05-09", "booking": None, "hours": 6.0, "said": True, "brought": 20, "taken": 6000,
    "by_card": 0, "kept": [],
    "rows": [{"product": TIE, "sold": 10, "hours": None, "asked": 0, "sold_out": False}],
}  # fmt: skip


def told(choices=None, days=(), stock=3, waiting=(), facts=FACTS, day=DAY, **records):
    known = {**copy.deepcopy(RECORDS), "booking": BOOKINGS, "batch": DONE, **records}
    here = [{"product": TIE, "size": None, "place": "home", "quantity": stock, "counted_at": None}]
    chosen = {"guess": 40, "week_minutes": 700, **(choices or {})}
    return next_sewing(facts, list(days), known, {TIE: 46.08}, here, list(waiting), day, chosen)


def test_it_asks_what_the_records_tell():
    found = told()
    given = found["given"]
    # six days of 100 minutes, then six: the Sunday before and the market's day have none
    assert given["bookings"] == [{"name": QUAY, "minutes": 600}, {"name": FAIR, "minutes": 600}]
    assert given["wage"] == 1500 and given["cloths"] == [{"name": LAWN}] and "elastic" not in given
    [row] = given["products"]
    assert (row["product"], row["stock"], row["batch"], row["colour"]) == (TIE, 3, 18, GREEN)
    # 600 less 5 % and 46.08, and without the fee
    assert [demand["gain"] for demand in row["demand"]] == [524, 554]
    assert [demand["mean"] for demand in row["demand"]] == [40, 40]
    # of a piece 236 mm
    assert row["elastic"] == pytest.approx(18 * 236)
    # along the cloth twelve strips of 110 × 482 lie across 1352 mm: two rows
    assert row["area"] == pytest.approx(1352 * 964, rel=1e-9)
    assert (found["bench_from"], found["demand_from"], found["open_minutes"]) == ("typed", "guess", 0)
    assert answer("make-next", given)["result"]["plan"]


def test_demand_is_learnt_from_market_days_as_for_the_next_market():
    found = told(days=[SOLD])
    [first, second] = found["given"]["products"][0]["demand"]
    # ten in six hours: as much again on a day, twice on two
    assert first["mean"] == pytest.approx(10)
    assert second["mean"] == pytest.approx(20)
    assert found["demand_from"] == "elsewhere" and found["market_days"] == 1


def test_minutes_are_from_laps_where_all_steps_have_some_else_guessed_or_typed():
    steps = [{"name": name, "allowance": 0} for name in ("tube", "knot")] + [
        {"name": "thread it", "per": "thread"}
    ]
    way = {named("m1"): {"name": "Mine", "steps": steps}}
    batch = {named("h1"): {**DONE[named("h1")], "method": named("m1")}}
    found = told(method=way, batch=batch)
    [product] = found["products"]
    # the change was never timed: 3 minutes, and rest
    assert product["minutes_from"] == "guess" and product["change"] == pytest.approx(3.45)
    # 1.5 and 5/9 of a minute a piece
    assert product["minutes"] == pytest.approx(18 * (1.5 + 5 / 9))
    laps = [{"pieces": 1, "took_ms": 120000}]
    timed = [*FACTS, fact("batch-step", 20, batch=named("h1"), step="thread it", laps=laps)]
    [product] = told(facts=timed, method=way, batch=batch)["products"]
    assert product["minutes_from"] == "laps" and product["change"] == pytest.approx(2.3)
    [product] = told({"minutes_each": 3})["products"]
    assert (product["minutes_from"], product["minutes"]) == ("typed", 54)


def test_a_batch_is_as_large_as_the_last_one_or_as_is_chosen():
    assert told({"pieces": 24})["given"]["products"][0]["batch"] == 24
    lines = [{"size": SIZE, "cloth": LAWN, "quantity": 30}]
    later = {**DONE, named("h2"): {"number": "2", "lines": lines, "state": "finished"}}
    assert told(batch=later)["given"]["products"][0]["batch"] == 30
    assert told(batch={})["given"]["products"][0]["batch"] == 12


def test_open_batches_are_stock_to_come_and_take_their_minutes_first():
    unmade = [fact for fact in FACTS if fact["kind"] != "batch-result"]
    opened = told(batch=RECORDS["batch"], facts=unmade)
    assert opened["given"]["products"][0]["stock"] == 3 + 18
    assert opened["products"][0]["sewing"] == 18
    # what came of it already is stock, and no more to come
    assert told(batch=RECORDS["batch"])["products"][0]["sewing"] == 0
    minutes = opened["open_minutes"]
    assert minutes > 0
    assert opened["given"]["bookings"][0]["minutes"] == pytest.approx(600 - minutes)


def test_without_buying_only_what_is_at_home_is_sewn():
    waiting = [{"size": SIZE, "cloth": LAWN, "quantity": 9}]
    rolls = {BRAIDED: {**RECORDS["elastic"][BRAIDED], "rolls": 2, "opened": 500}}
    given = told({"buy": False}, waiting=waiting, elastic=rolls)["given"]
    # a remnant of 388 × 1000 mm, and half a batch of strips
    assert given["cloths"][0]["area"] == pytest.approx(388000 + 1352 * 964 / 2)
    assert given["elastic"] == 100500
    for records, why in (({"remnant": {}, "elastic": rolls}, "too little cloth"), ({}, "too little elastic")):
        none = told({"buy": False}, waiting=waiting if not records else (), **records)["given"]
        [product] = answer("make-next", none)["result"]["not_made"]
        assert product["why"] == why


def test_a_thread_that_is_chosen_for_a_cloth_is_its_colour():
    other = {**RECORDS["thread"], named("t2"): {"name": "Rust", "length": 1000000}}
    assert told({"threads": {LAWN: named("t2")}}, thread=other)["given"]["colours"][0]["name"] == named("t2")
    bare = {named("h1"): {"number": "1", "lines": DONE[named("h1")]["lines"], "state": "finished"}}
    assert told(batch=bare)["given"]["colours"][0]["name"] == "cloth " + LAWN


def test_it_says_what_nobody_knows():
    unknown = told({"guess": None, "week_minutes": None}, facts=[])
    assert (unknown["bench_from"], unknown["demand_from"], unknown["given"]) == ("unknown", None, None)
    assert told(day="2026-06-01")["bookings"] == []
    assert told(booking={})["given"] is None
    bare = {TIE: {"size": SIZE, "price": 600, "group": "Everyday"}}
    assert told(product=bare)["given"] is None
    assert told(facts=[])["wage"] == 0


def test_at_most_four_bookings_are_planned_for_and_those_that_are_archived_are_not():
    many = {named("b" + str(n)): {"name": "b", "days": [f"2026-06-{10 - n:02}"]} for n in range(6)}
    many[named("b5")]["archived"] = True
    days = [row["days"][0] for row in told(booking=many)["bookings"]]
    assert days == ["2026-06-06", "2026-06-07", "2026-06-08", "2026-06-09"]


@pytest.mark.parametrize(
    "choices", [{"pieces": 0}, {"pieces": 201}, {"minutes_each": 0}, {"week_minutes": 20000}, {"other": 1}]
)
def test_a_choice_that_is_none_is_refused(choices):
    with pytest.raises(Problems) as refused:
        told(choices)
    assert refused.value.problems[0]["field"] == next(iter(choices))


def test_a_day_that_is_none_is_refused():
    with pytest.raises(Problems) as refused:
        told(day="2026-02-30")
    assert refused.value.problems[0]["field"] == "day"
