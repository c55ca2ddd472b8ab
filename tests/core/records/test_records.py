"""Records: checked once for both sides, and folded alike in any order of arrival."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.declaring.errors import Problems
from backend.core.records import access, checking, merging
from backend.core.records.copied import good_changes
from backend.core.records.descriptions_of_markets import plan_name, terms_of
from backend.core.records.kinds import LEFT_OUT

pytestmark = pytest.mark.full

LAWN = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
SIGNED = {"tool": "rotary cutter", "cloth": "lawn", "person": "Imke", "day": "2026-03-14", "ticked": []}
STAMPS = some.sampled_from(
    [f"{ms:013d}-{count:04d}-{device}" for ms in (1, 2) for count in (0, 1) for device in "ab"]
)
VALUES = (
    some.none()
    | some.booleans()
    | some.integers(-3, 3)
    | some.floats(-2, 2)
    | some.sampled_from(["", "a", "ä"])
)
CHANGES = some.lists(
    some.fixed_dictionaries({
        "kind": some.sampled_from(["piece", "cloth"]),
        "record": some.sampled_from(["r1", "r2"]),
        "stamp": STAMPS,
        "fields": some.dictionaries(some.sampled_from(["name", "loop"]), VALUES),
    }),
    max_size=12,
)  # fmt: skip


def problems(kind, fields, new=True):
    with pytest.raises(Problems) as caught:
        checking.check(kind, fields, new)
    return {item["field"]: item["rule"] for item in caught.value.problems}


def test_a_new_record_is_filled_with_its_defaults():
    kept = checking.check("cloth", LAWN, True)
    assert kept["selvedge"] == 10.0
    assert kept["archived"] is False
    assert kept["price"] is None


def test_an_edit_keeps_only_what_it_changes():
    assert checking.check("cloth", {"bolt_width": 1390, "price": None}, False) == {
        "bolt_width": 1390.0,
        "price": None,
    }


def test_an_edit_cannot_take_away_what_is_needed():
    assert problems("cloth", {"name": None, "bolt_width": None, "tear": 1}, False) == {
        "name": "required",
        "tear": "flag",
    }


def test_a_cloth_is_kept_by_its_name_alone_and_measured_later():
    kept = checking.check("cloth", {"name": "Fog gauze"}, True)
    assert (kept["bolt_width"], kept["shrink_length"], kept["shrink_width"]) == (None, None, None)


def test_a_new_record_names_every_bad_field():
    assert problems("piece", {"name": " ", "loop": 5, "size": 1}) == {
        "name": "required", "loop": "lowest", "size": "unknown"
    }  # fmt: skip


def test_a_signature_needs_a_person_and_a_day():
    assert checking.check("checklist-signature", SIGNED, True)["skipped"] == ""
    assert problems("checklist-signature", {**SIGNED, "person": "", "day": "14 March"}) == {
        "person": "required", "day": "date"
    }  # fmt: skip


@pytest.mark.parametrize("kind", ["sail", "", None, 7, []])
def test_an_unknown_kind_is_refused(kind):
    assert problems(kind if isinstance(kind, str) else "other", {}) == {"kind": "choice"}


@pytest.mark.parametrize("fields", [None, [], "fields", 7])
def test_fields_of_no_shape_are_refused(fields):
    assert problems("piece", fields) == problems("piece", fields, False) == {"": "object"}


def test_the_later_stamp_wins_each_field():
    early, late = "0000000000001-0000-a", "0000000000002-0000-a"
    changes = [
        {"kind": "piece", "record": "r", "stamp": late, "fields": {"loop": 140}},
        {"kind": "piece", "record": "r", "stamp": early, "fields": {"loop": 165, "name": "Petite"}},
    ]
    assert merging.fold(changes) == {"piece": {"r": {"loop": 140, "name": "Petite"}}}


@given(CHANGES, some.randoms(use_true_random=False))
def test_the_order_of_arrival_changes_nothing(changes, random):
    shuffled = changes + changes[:3]
    random.shuffle(shuffled)
    folded = merging.fold(changes)
    assert same(merging.fold(shuffled), folded)


def same(one, other):
    # 1, 1.0 and True are equal to Python and not to the phone
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    return one == other and isinstance(one, bool) == isinstance(other, bool)


def test_what_is_no_change_is_named():
    good = {"kind": "piece", "record": "r", "stamp": "1", "fields": {}}
    bad = [7, None, {}, {**good, "fields": None}, {**good, "stamp": 5}, {**good, "record": None}]
    with pytest.raises(Problems) as caught:
        merging.fold([good, *bad])
    assert [item["field"] for item in caught.value.problems] == [
        f"changes.{number}" for number in range(1, 7)
    ]
    assert {item["rule"] for item in caught.value.problems} == {"change"}


def test_a_change_from_the_log_may_carry_more():
    change = {
        "id": "1",
        "kind": "piece",
        "record": "r",
        "stamp": "1",
        "at": 5,
        "schema": 1,
        "fields": {"loop": 1},
    }
    assert merging.fold([change]) == {"piece": {"r": {"loop": 1}}}


def test_merging_page_by_page_gives_what_folding_all_gives():
    device = "0190163d-8694-739b-aea5-966c26f8ad91"
    stamps = [f"{ms:013}-0000-{device}" for ms in (5, 1, 9, 1, 7)]
    changes = [
        {"kind": "place", "record": f"r{number % 2}", "stamp": stamp, "fields": {"name": f"n{number}"}}
        for number, stamp in enumerate(stamps)
    ]
    held = {}
    for change in changes:
        held.update(merging.merge(held, [change]))
    values = {key.split("/")[1]: fields["name"][0] for key, fields in held.items()}
    assert values == {record: fields["name"] for record, fields in merging.fold(changes)["place"].items()}
    assert held["place/r0"]["name"] == ["n2", stamps[2]]


# the kinds of the market day ------------------------------------------------------------------------

ID, OTHER = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", "0190163d-8694-739b-aea5-966c26f8ad91"
LINE = {"product": ID, "quantity": 2, "unit_price": 600, "total": 1200}
SALE = {"day": "2026-03-14", "place": ID, "lines": [LINE], "amount": 1200, "payment": "cash"}
GOODS = {"day": "2026-03-14", "place": ID, "product": ID, "quantity": 1}


@pytest.mark.parametrize("kind, fields", [
    ("sale", SALE),
    ("void", {"day": "2026-03-14", "sale": ID}),
    ("refund", {**SALE, "lines": [{"product": ID, "quantity": 1, "total": 600}], "goods": "table"}),
    ("move", {"day": "2026-03-14", "from": ID, "to": OTHER, "product": ID, "quantity": 6}),
    ("set-aside", {**GOODS, "reason": "found"}),
    ("asked-for", {"day": "2026-03-14", "place": ID, "size": ID}),
    ("count-line", {**GOODS, "session": ID, "quantity": 0}),
    ("count-close", {"day": "2026-03-14", "session": ID, "place": ID, "scope": "all"}),
    ("cash-count", {"day": "2026-03-14", "box": ID, "moment": "float", "amount": 4000}),
    ("cash-movement", {"day": "2026-03-14", "box": ID, "direction": "paid in", "amount": 1}),
    ("cut", {"day": "2026-03-14", "cloth": ID, "length": 880.0, "lines": [{"size": ID, "quantity": 24}],
             "offcuts": [OTHER]}),
    ("cut-void", {"day": "2026-03-14", "cut": ID}),
    ("elastic", {"name": "Braided, 6 mm", "elastic_width": 6.0, "roll_length": 50000.0, "price": 790,
                 "rolls": 2, "opened": 18500.0}),
    ("remnant", {"name": "Blue basket", "cloth": ID, "width": 900.0, "length": 700.0, "use_first": True}),
    ("business", {"name": "Tern & Tansy", "currency": "EUR"}),
    ("product", {"size": ID, "price": 600, "group": "Everyday"}),
    ("place", {"name": "Home shelf"}),
    ("market", {"name": "Quay", "recurrence": "FREQ=WEEKLY;BYDAY=SA", "first_day": "2026-03-14"}),
    ("booking", {"days": ["2026-12-05", "2026-12-06"], "fee": 14500, "opens": "10:00", "closes": "18:30"}),
    ("cash-box", {"name": "Green tin"}),
    ("plan", {"use": "pack", "booking": ID, "lines": [{"product": ID, "quantity": 12}]}),
    ("offer", {"name": "Three for 15", "groups": ["Everyday"], "n": 3, "price": 1500}),
    ("person", {"name": "Imke"}),
    ("device-name", {"name": "Joss's phone"}),
])  # fmt: skip
def test_a_kind_of_the_market_day_takes_what_it_is_for(kind, fields):
    kept = checking.check(kind, fields, True)
    assert {name: kept[name] for name in fields if name != "lines"} == {
        name: value for name, value in fields.items() if name != "lines"
    }


def test_a_line_sold_at_a_free_price_is_neither_product_nor_size():
    free = {"name": "A button", "quantity": 1, "unit_price": 50, "total": 50}
    assert checking.check("sale", {**SALE, "lines": [free]}, True)["lines"][0]["product"] is None


def test_a_line_is_a_product_or_a_size_and_not_both():
    both = {**LINE, "size": ID}
    assert problems("sale", {**SALE, "lines": [LINE, both]}) == {"lines.1.size": "product_or_size"}
    assert problems("sale", {**SALE, "returned": [{"quantity": 1}]}) == {
        "returned.0.product": "product_or_size"
    }
    assert problems("asked-for", {"day": "2026-03-14", "place": ID}) == {"product": "product_or_size"}


def test_what_is_cut_is_of_some_cloth_and_some_size():
    assert problems("cut", {"day": "2026-03-14", "length": 880, "lines": []}) == {
        "cloth": "required", "lines": "too_few"
    }  # fmt: skip
    assert problems("remnant", {"name": "Short", "cloth": ID, "width": 9, "length": 700}) == {
        "width": "lowest"
    }


def test_a_move_goes_somewhere_else():
    move = {"day": "2026-03-14", "from": ID, "to": ID, "product": ID, "quantity": 6}
    assert problems("move", move) == {"to": "same_place"}


def test_a_cash_count_adds_up():
    counted = [{"value": 2000, "count": 2}]
    count = {"day": "2026-03-14", "box": ID, "moment": "cash-up", "counted": counted}
    assert checking.check("cash-count", {**count, "amount": 4000}, True)["amount"] == 4000
    assert problems("cash-count", {**count, "amount": 4100}) == {"amount": "adds_up"}


@pytest.mark.parametrize("name, value, rule", [
    ("opens", "24:00", "time"), ("opens", "9:00", "time"), ("opens", "0900", "time"),
    ("closes", "12:60", "time"),
    ("market", ID.upper(), "id"), ("market", ID[:-1], "id"), ("market", ID.replace("-", "0"), "id"),
    ("days", ["2026-02-29"], "date"), ("days", [], "too_few"), ("days", [20261205], "text"),
])  # fmt: skip
def test_ids_days_and_times_are_written_one_way(name, value, rule):
    told = problems("booking", {"days": ["2026-12-05"], name: value})
    assert list(told.values()) == [rule]


@pytest.mark.parametrize("rule", [
    "FREQ=WEEKLY;BYDAY=SA", "FREQ=MONTHLY;BYDAY=1SU;COUNT=12", "FREQ=YEARLY;UNTIL=20271231;INTERVAL=2",
])  # fmt: skip
def test_a_market_recurs_as_rfc_5545_writes_it(rule):
    assert checking.check("market", {"name": "Quay", "recurrence": rule}, True)["recurrence"] == rule


@pytest.mark.parametrize("rule", [
    "", "weekly", "FREQ=HOURLY", "BYDAY=SA", "FREQ=WEEKLY;FREQ=DAILY", "FREQ=WEEKLY;", "FREQ=WEEKLY;BYDAY=",
    "FREQ=WEEKLY;COLOUR=RED", "FREQ=WEEKLY=SA",
])  # fmt: skip
def test_a_rule_that_does_not_recur_is_refused(rule):
    assert problems("market", {"name": "Quay", "recurrence": rule}) == {"recurrence": "recurrence"}


# making and costing -------------------------------------------------------------------------------

BOUGHT = {"day": "2026-03-14", "amount": 2314}


def test_a_purchase_is_of_one_material_by_its_length_or_its_number():
    good = (
        {"cloth": ID, "length": 2600},
        {"elastic": ID, "length": 50000},
        {"elastic": ID, "quantity": 2},
        {"thread": ID, "quantity": 3},
        {"supply": ID, "quantity": 1},
    )
    for of in good:
        assert checking.check("purchase", BOUGHT | of, True)["tax"] == 0
    assert problems("purchase", BOUGHT) == {"cloth": "one_material"}
    assert problems("purchase", BOUGHT | {"cloth": ID, "thread": ID, "length": 5}) == {
        "thread": "one_material"
    }
    assert problems("purchase", BOUGHT | {"cloth": ID}) == {"length": "length_or_quantity"}
    assert problems("purchase", BOUGHT | {"cloth": ID, "quantity": 2}) == {"quantity": "length_or_quantity"}
    assert problems("purchase", BOUGHT | {"thread": ID, "length": 2}) == {"length": "length_or_quantity"}
    both = {"elastic": ID, "length": 2, "quantity": 2}
    assert problems("purchase", BOUGHT | both) == {"quantity": "length_or_quantity"}


def test_the_tax_in_a_purchase_is_no_more_than_was_paid():
    bought = BOUGHT | {"cloth": ID, "length": 2600}
    assert checking.check("purchase", bought | {"tax": 2314}, True)["tax"] == 2314
    assert problems("purchase", bought | {"tax": 2315}) == {"tax": "highest"}


def test_no_more_pieces_of_a_batch_are_good_than_were_made():
    line = {"product": ID, "made": 24, "good": 24}
    result = {"day": "2026-03-14", "batch": ID, "place": ID, "lines": [line]}
    assert checking.check("batch-result", result, True)["lines"] == [line]
    bad = result | {"lines": [line, line | {"good": 25}]}
    assert problems("batch-result", bad) == {"lines.1.good": "good_above_made"}


def test_a_batch_is_of_strips_by_size_and_cloth_whatever_product_they_become():
    line = {"size": ID, "cloth": ID, "product": ID, "quantity": 24}
    batch = checking.check("batch", {"number": "126", "lines": [line]}, True)
    assert batch["lines"] == [line] and (batch["people"], batch["state"]) == (1, "open")
    assert problems("batch", {"number": "126", "lines": [{"size": ID, "quantity": 24}]}) == {
        "lines.0.cloth": "required"
    }


def test_a_lap_has_pieces_and_whole_thousandths_of_a_second():
    laps = {"day": "2026-03-14", "batch": ID, "step": "Sew the tube", "laps": [{"pieces": 12, "took_ms": 1}]}
    assert checking.check("batch-step", laps, True)["laps"][0]["disturbed"] is False
    for bad in ({"pieces": 0, "took_ms": 1}, {"pieces": 12, "took_ms": 0}, {"pieces": 12, "took_ms": 1.5}):
        assert len(problems("batch-step", laps | {"laps": [bad]})) == 1
    assert problems("batch-step", laps | {"laps": []}) == {"laps": "too_few"}


# markets and plans --------------------------------------------------------------------------------


def test_a_packing_plan_is_for_a_booking_and_a_sewing_plan_may_be_for_none():
    lines = [{"product": ID, "quantity": 24, "batches": 2}, {"product": OTHER, "quantity": 1}]
    kept = checking.check("plan", {"use": "sew", "lines": lines}, True)
    assert (kept["booking"], kept["lines"][1]["batches"], kept["archived"]) == (None, None, False)
    assert checking.check("plan", {"use": "pack", "booking": ID, "lines": lines}, True)["use"] == "pack"
    assert problems("plan", {"use": "pack", "lines": lines}) == {"booking": "required"}


def test_a_plan_says_of_products_how_many():
    good = {"product": ID, "quantity": 1}
    bad = {
        "use": "eat",
        "lines": [{"quantity": 1}, good | {"quantity": 0}, good | {"batches": 0}, good | {"size": ID}],
    }
    assert problems("plan", bad) == {
        "use": "choice", "lines.0.product": "required", "lines.1.quantity": "lowest",
        "lines.2.batches": "lowest", "lines.3.size": "unknown",
    }  # fmt: skip
    assert problems("plan", {"use": "sew", "lines": []}) == {"lines": "too_few"}


def test_a_plan_is_called_after_its_use_and_booking():
    names = [plan_name(use, booking) for use in ("sew", "pack") for booking in (None, ID, OTHER)]
    assert len(set(names)) == len(names) and all(name.isascii() for name in names)


def test_what_a_booking_does_not_say_its_market_does():
    said = {"name": "Quay", "fee": 2800, "other": 300, "opens": "09:00", "pitch": "12"}
    market = checking.check("market", said | {"distance_km": 2, "travel_minutes": 8}, True)
    own = {"days": ["2026-12-05"], "fee": 0, "opens": "10:00", "travel_minutes": 0}
    booking = checking.check("booking", own, True)
    terms = terms_of(booking, market)
    assert (terms["fee"], terms["other"], terms["opens"], terms["pitch"]) == (0, 300, "10:00", "12")
    assert (terms["distance_km"], terms["trips"], terms["travel_minutes"]) == (2, 2, 0)
    assert terms_of(booking, {**market, "trips": 4})["trips"] == 4
    alone = terms_of(booking, None)
    assert (alone["fee_percent"], alone["set_up_minutes"], alone["trips"]) == (None, None, 2)
    # what a helper is not shown is not there
    seen = terms_of(access.seen_by("booking", booking, "helper"), access.seen_by("market", market, "helper"))
    assert (seen["fee"], seen["other"], seen["opens"]) == (None, None, "10:00")


@pytest.mark.parametrize("kind, fields, told", [
    ("business", {"per_km": -1, "bench_monday": 1441}, {"per_km": "lowest", "bench_monday": "highest"}),
    ("business", {"per_km": 30.5, "bench_sunday": -1}, {"per_km": "whole", "bench_sunday": "lowest"}),
    ("market", {"trips": 101, "travel_minutes": 2881, "set_up_minutes": -1},
     {"trips": "highest", "travel_minutes": "highest", "set_up_minutes": "lowest"}),
])  # fmt: skip
def test_what_markets_and_the_bench_take_has_limits(kind, fields, told):
    assert problems(kind, fields, False) == told


# roles --------------------------------------------------------------------------------------------


def beyond(kind, fields, new=True, role="helper"):
    try:
        access.refuse_beyond_role(kind, fields, role, new)
    except Problems as error:
        return {item["field"]: item["rule"] for item in error.problems}
    return {}


FOR_OWNERS = [
    "overhead", "purchase", "purchase-void", "expense", "expense-void", "wage-set", "found-right"
]  # fmt: skip
OF_OWNERS = [LEFT_OUT, "price-set", *FOR_OWNERS]
FACT_KINDS = [kind.name for kind in checking.KINDS if kind.fact and kind.name not in OF_OWNERS]


@pytest.mark.parametrize("kind", OF_OWNERS)
def test_only_an_owner_leaves_a_fact_out_and_says_what_things_cost(kind):
    assert beyond(kind, {}) == {"kind": "role"}
    assert beyond(kind, {}, role="owner") == {}


def test_of_what_is_for_owners_a_helper_is_shown_nothing():
    assert [kind.name for kind in checking.KINDS if not kind.is_known_to("helper")] == sorted(
        FOR_OWNERS, key=[kind.name for kind in checking.KINDS].index
    )
    for name in FOR_OWNERS:
        kind = checking.kind_named(name)
        assert access.seen_by(name, {field.name: 1 for field in kind.fields}, "helper") == {}
        assert kind.describe()["hidden"] == {"owner": [], "helper": [field.name for field in kind.fields]}


@pytest.mark.parametrize("kind", FACT_KINDS)
def test_a_helper_records_every_fact_of_the_market_day(kind):
    assert beyond(kind, {}) == {}


AT_HAND = ("remnant", "elastic", "thread", "supply", "batch")


@pytest.mark.parametrize("kind", AT_HAND)
def test_a_helper_says_what_is_used_up_of_what_is_cut_from(kind):
    assert beyond(kind, {"archived": True}, new=False) == {}


def test_a_helper_says_nothing_of_what_elastic_costs():
    assert beyond("elastic", {"opened": 0, "price": 790}, new=False) == {"price": "owner_only"}


@pytest.mark.parametrize(
    "kind", [kind.name for kind in checking.KINDS if not kind.fact and kind.name not in AT_HAND]
)
def test_a_helper_edits_no_other_description(kind):
    assert beyond(kind, {"archived": True}, new=False) == {"kind": "role"}
    assert beyond(kind, {"archived": True}, new=False, role="owner") == {}


def test_a_helper_makes_a_booking_on_the_spot_without_its_costs():
    assert beyond("booking", {"days": ["2026-12-05"]}) == {}
    assert beyond("booking", {"days": ["2026-12-05"], "fee": 100, "fee_percent": 5}) == {
        "fee": "owner_only", "fee_percent": "owner_only"
    }  # fmt: skip
    assert beyond("market", {"name": "Quay"}) == {"kind": "role"}


def test_a_helper_is_shown_no_cost():
    cloth = {**LAWN, "price": 890, "price_length": 1000}
    assert access.seen_by("cloth", cloth, "helper") == LAWN
    assert access.seen_by("cloth", cloth, "owner") == cloth
    assert access.seen_by("business", {"name": "T", "card_fee": 1.75}, "helper") == {"name": "T"}
    assert access.seen_by("list-line", {"name": "T", "cost": 5}, "helper") == {"name": "T"}


def test_the_fields_only_owners_see_are_those_of_cost():
    hidden = {f"{kind.name}.{name}" for kind in checking.KINDS for name in kind.owner_only}
    assert hidden == {
        "business.card_fee", "cloth.price", "cloth.price_length", "elastic.price", "list-line.cost",
        "market.fee", "market.fee_percent", "booking.fee", "booking.fee_percent", "thread.price",
        "supply.price", "business.tax_percent", "business.points", "business.per_km", "market.other",
        "booking.other",
    }  # fmt: skip
    for kind in checking.KINDS:
        assert set(kind.owner_only) <= {field.name for field in kind.fields}


# copies -------------------------------------------------------------------------------------------

COPIED = {
    "id": ID,
    "kind": "cloth",
    "record": ID,
    "fields": {"name": "Lawn"},
    "at": 5,
    "stamp": f"{5:013}-0000-{ID}",
}
SIGNATURE = {**COPIED, "kind": "checklist-signature", "record": None, "fields": SIGNED}


@pytest.mark.parametrize("change", [
    COPIED, {**COPIED, "schema": 1, "replaces": ID, "seq": 3}, SIGNATURE,
    {name: SIGNATURE[name] for name in SIGNATURE if name != "record"},
])  # fmt: skip
def test_a_whole_change_of_a_copy_can_be_taken_in(change):
    assert good_changes([change]) == [True]


@pytest.mark.parametrize("spoilt", [
    {"partial": True}, {"id": ID.upper()}, {"id": None}, {"kind": "clout"}, {"kind": 5}, {"record": None},
    {"record": "x"}, {"at": -1}, {"at": "5"}, {"at": 1.5}, {"stamp": "5-0-x"},
    {"stamp": f"{5:013}-000a-{ID}"}, {"stamp": f"{5:013}-0000-{ID}\n"}, {"stamp": f"{5:013}_0000-{ID}"},
    {"fields": []}, {"fields": {"name": 5}}, {"fields": {"brand": "x"}},
    {"kind": "checklist-signature", "fields": SIGNED},
])  # fmt: skip
def test_a_change_of_a_copy_that_no_phone_made_is_left_out(spoilt):
    assert good_changes([{**COPIED, **spoilt}, COPIED]) == [False, True]


@pytest.mark.parametrize("change", [None, 5, "x", [], {}])
def test_what_is_no_change_at_all_is_left_out(change):
    assert good_changes([change]) == [False]


def test_what_was_never_said_of_a_record_is_its_declared_default():
    whole = checking.kind_named("product").completed({"size": "s", "archived": None})
    assert whole["size"] == "s"
    assert (whole["active"], whole["archived"], whole["name"], whole["price"]) == (True, False, "", None)


def test_of_what_a_helper_is_not_shown_there_is_no_default_either():
    assert "card_fee" not in checking.kind_named("business").completed({"name": "Tern"}, "helper")
