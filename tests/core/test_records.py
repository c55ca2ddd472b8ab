"""Records: checked once for both sides, and folded alike in any order of arrival."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core import records
from backend.core.errors import Problems

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
        records.check(kind, fields, new)
    return {item["field"]: item["rule"] for item in caught.value.problems}


def test_a_new_record_is_filled_with_its_defaults():
    kept = records.check("cloth", LAWN, True)
    assert kept["selvedge"] == 10.0
    assert kept["archived"] is False
    assert kept["price"] is None


def test_an_edit_keeps_only_what_it_changes():
    assert records.check("cloth", {"bolt_width": 1390, "price": None}, False) == {
        "bolt_width": 1390.0,
        "price": None,
    }


def test_an_edit_cannot_take_away_what_is_needed():
    assert problems("cloth", {"name": None, "bolt_width": None, "tear": 1}, False) == {
        "name": "required", "bolt_width": "required", "tear": "flag"
    }  # fmt: skip


def test_a_new_record_names_every_bad_field():
    assert problems("piece", {"name": " ", "loop": 5, "size": 1}) == {
        "name": "required", "loop": "lowest", "size": "unknown"
    }  # fmt: skip


def test_a_signature_needs_a_person_and_a_day():
    assert records.check("checklist-signature", SIGNED, True)["skipped"] == ""
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
    assert records.fold(changes) == {"piece": {"r": {"loop": 140, "name": "Petite"}}}


@given(CHANGES, some.randoms(use_true_random=False))
def test_the_order_of_arrival_changes_nothing(changes, random):
    shuffled = changes + changes[:3]
    random.shuffle(shuffled)
    folded = records.fold(changes)
    assert same(records.fold(shuffled), folded)


def same(one, other):
    # 1, 1.0 and True are equal to Python and not to the phone
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    return one == other and isinstance(one, bool) == isinstance(other, bool)


def test_what_is_no_change_is_named():
    good = {"kind": "piece", "record": "r", "stamp": "1", "fields": {}}
    bad = [7, None, {}, {**good, "fields": None}, {**good, "stamp": 5}, {**good, "record": None}]
    with pytest.raises(Problems) as caught:
        records.fold([good, *bad])
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
    assert records.fold([change]) == {"piece": {"r": {"loop": 1}}}


def test_merging_page_by_page_gives_what_folding_all_gives():
    device = "0190163d-8694-739b-aea5-966c26f8ad91"
    stamps = [f"{ms:013}-0000-{device}" for ms in (5, 1, 9, 1, 7)]
    changes = [
        {"kind": "place", "record": f"r{number % 2}", "stamp": stamp, "fields": {"name": f"n{number}"}}
        for number, stamp in enumerate(stamps)
    ]
    held = {}
    for change in changes:
        held.update(records.merge(held, [change]))
    values = {key.split("/")[1]: fields["name"][0] for key, fields in held.items()}
    assert values == {record: fields["name"] for record, fields in records.fold(changes)["place"].items()}
    assert held["place/r0"]["name"] == ["n2", stamps[2]]
