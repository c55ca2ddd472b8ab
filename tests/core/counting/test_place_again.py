"""A place folded again, part by part as a phone does, comes to what the whole fold says of it."""

from random import Random

import pytest

from backend.core.counting.held import begin_place, fold_places, fold_stock, put_places, take_in_stock
from backend.core.declaring.errors import Problems
from backend.core.records.kinds import LEFT_OUT
from tests.core.counting.random_facts import PLACES, UNDOING, history

COUNTS = ("count-line", "count-close")


def voids_of(facts):
    return fold_stock([fact for fact in facts if fact["kind"] in UNDOING], None, [])["voids"]


def happened(facts):
    return [fact for fact in facts if fact["kind"] not in UNDOING]


def folded_again(facts, place, size):
    """Fold a place again, the rest in parts of a size."""
    counts = [fact for fact in facts if fact["kind"] in COUNTS]
    closes = [fact for fact in facts if fact["kind"] == "count-close" and fact["place"] == place]
    held = begin_place(counts, closes, voids_of(facts), place)
    rest = [fact for fact in happened(facts) if fact not in counts]
    for start in range(0, len(rest), size):
        told = take_in_stock(held, rest[start : start + size], [])
        assert told["refold"] == []
        held = {name: {**held[name], **told.get(name, {})} for name in held}
    return held


def there(held):
    return {key: held["stock"][key][0] for key in held["stock"] if held["stock"][key][0]}


def test_it_comes_to_the_same_whatever_was_held_before():
    random = Random(7)
    for _ in range(400):
        facts = history(random)
        held = fold_stock(facts[: random.randint(0, len(facts))], None, None)
        whole = fold_stock(facts, None, None)
        for place in PLACES:
            held = put_places(held, [place], folded_again(facts, place, random.randint(1, 5)))
        assert there(held) == there(whole), facts
        assert [held[name] for name in ("places", "voids", "closed")] == [
            whole[name] for name in ("places", "voids", "closed")
        ], facts


def test_several_places_at_once_come_to_the_same():
    random = Random(8)
    for _ in range(400):
        facts = history(random)
        whole, voids = fold_stock(facts, None, None), voids_of(facts)
        at_once = fold_places(happened(facts), voids, PLACES)
        assert [at_once[name] for name in ("stock", "places", "voids")] == [
            whole[name] for name in ("stock", "places", "voids")
        ]
        held = fold_stock(facts[: random.randint(0, len(facts))], None, None)
        assert put_places(held, PLACES, at_once)["stock"] == whole["stock"], facts


def test_what_an_owner_left_out_counts_nowhere():
    count = {"id": "c", "at": 2, "session": "s", "place": "stall"}
    facts = [
        {"kind": "set-aside", "id": "f", "at": 1, "place": "stall", "product": "E", "quantity": 3,
         "reason": "found"},
        {"kind": "count-close", **count, "scope": "all"},
    ]  # fmt: skip
    for held in (
        fold_places(facts, {"c": LEFT_OUT}, ["stall"]),
        begin_place(facts, facts[1:], {"c": LEFT_OUT}, "stall"),
    ):
        assert held["stock"] == {"stall\x1fE": [3, None, "", []]}
        assert (held["places"], held["closed"]) == ({}, {})


def test_other_places_stay_as_they_were():
    move = {"kind": "move", "id": "m", "at": 1, "from": "home", "to": "stall", "product": "E", "quantity": 3}
    held = {
        "stock": {"home\x1fE": [40, 0, "c", []], "stall\x1fE": [9, None, "", []]},
        "places": {"home": [0, "c"]},
    }
    told = put_places(held, ["stall"], folded_again([move], "stall", 1))
    assert told["stock"] == {"home\x1fE": [40, 0, "c", []], "stall\x1fE": [3, None, "", []]}
    assert told["places"] == {"home": [0, "c"]}


def test_what_is_not_held_is_refused():
    with pytest.raises(Problems) as refused:
        put_places({}, ["stall"], {"stock": 5})
    assert [item["field"] for item in refused.value.problems] == ["held.stock"]
