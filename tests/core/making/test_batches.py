"""Batches: what they start from, where they stand, when they are ready, what comes of them."""

import json

from hypothesis import given
from hypothesis import strategies as some

from backend.core.bridge import call
from backend.core.catalogue import answer
from backend.core.making.batch_finishing import finished_lines
from backend.core.making.batch_standing import batch_standing
from backend.core.making.batch_start import free_strips, next_number, set_ups
from backend.core.making.batch_timing import finish_time, time_given
from backend.core.making.usual_steps import usual_steps

LINES = [
    {"size": "everyday", "cloth": "lawn", "product": None, "quantity": 30},
    {"size": "petite", "cloth": "lawn", "product": "p-petite", "quantity": 18},
]
BATCH = {"lines": LINES, "people": 1}
STEPS = [
    {"name": "Thread up", "per": "colour", "machine": "", "allowance": 0},
    {"name": "Sew", "per": "piece", "machine": "overlocker", "allowance": 0},
    {"name": "Refill", "per": "thread", "machine": "", "allowance": 0},
    {"name": "Close", "per": "piece", "machine": "", "allowance": 0},
]
MINUTE = 60000
NOON = 1790000000000


def lap(id, step, pieces, minutes=10, at=NOON, person=None, disturbed=False):
    took = {"pieces": pieces, "took_ms": minutes * MINUTE, "disturbed": disturbed}
    return {
        "kind": "batch-step",
        "id": id,
        "at": at,
        "day": "2026-11-30",
        "batch": "b",
        "step": step,
        "person": person,
        "laps": [took],
    }


def rows(standing):
    return [(row["name"], row["of"], row["done"], row["left"]) for row in standing["steps"]]


def test_strips_that_an_open_batch_has_cannot_be_had_again():
    waiting = [
        {"cloth": "lawn", "size": "everyday", "quantity": 36},
        {"cloth": "lawn", "size": "petite", "quantity": 18},
    ]
    # worked by hand: 36 − 30; 18 − 18
    assert free_strips(waiting, [BATCH], [], {}) == [
        {"cloth": "lawn", "size": "everyday", "quantity": 6, "claimed": 30}
    ]


def test_a_batch_that_has_more_strips_than_wait_leaves_none_and_owes_none():
    waiting = [{"cloth": "lawn", "size": "everyday", "quantity": 12}]
    assert free_strips(waiting, [BATCH], [], {}) == []


def test_batches_are_numbered_on_from_the_highest_number_whatever_others_are_called():
    assert next_number([]) == "1"
    assert next_number([{"number": "7"}, {"number": "Anna's 90"}, {"number": ""}, {"number": None}]) == "8"


def test_what_a_batch_stands_at_adds_up_the_laps_of_both_phones():
    laps = [
        lap("d", "Sew", 12, at=NOON + 3, person="joss"),
        lap("a", "Thread up", 1),
        lap("b", "Sew", 12, at=NOON + 1, person="imke"),
        lap("c", "Sew", 12, at=NOON + 2, person="imke"),
        lap("e", "Close", 6, at=NOON + 4),
        lap("f", "Refill", 1, at=NOON + 5),
    ]
    told = batch_standing(BATCH, STEPS, laps)
    # worked by hand
    assert rows(told) == [
        ("Thread up", 1, 1, 0),
        ("Sew", 48, 36, 12),
        ("Refill", None, 1, 0),
        ("Close", 48, 6, 42),
    ]
    assert (told["next"], told["sewn"], told["pieces"]) == (1, 6, 48)
    assert [row["id"] for row in told["laps"]] == ["f", "e", "d", "c", "b", "a"]
    assert told["people"] == [
        {"person": None, "took_ms": 30 * MINUTE},
        {"person": "imke", "took_ms": 20 * MINUTE},
        {"person": "joss", "took_ms": 10 * MINUTE},
    ]


@given(some.permutations([lap(name, "Sew", 4, at=NOON + place) for place, name in enumerate("abcde")]))
def test_the_order_in_which_laps_come_changes_nothing(laps):
    assert batch_standing(BATCH, STEPS, laps) == batch_standing(
        BATCH, STEPS, sorted(laps, key=lambda one: one["id"])
    )


def test_where_both_phones_did_the_same_tray_nothing_is_left_below_nothing():
    told = batch_standing(BATCH, STEPS, [lap("a", "Sew", 40), lap("b", "Sew", 40), lap("c", "Close", 48)])
    assert rows(told)[1] == ("Sew", 48, 80, 0)
    assert told["sewn"] == 48


def test_without_a_method_the_usual_steps_are_sewn():
    told = batch_standing(BATCH, [], [])
    assert [row["name"] for row in told["steps"]] == [step["name"] for step in usual_steps()]
    assert told["next"] == 0


def test_a_step_is_timed_by_this_batch_else_by_those_before_else_guessed():
    before = [lap("x", "Sew", 12, minutes=99), lap("y", "Close", 12, minutes=24)]
    told = time_given(BATCH, STEPS, [lap("a", "Sew", 12, minutes=18)], before, 12)
    assert told["sources"] == ["guess", "laps", "guess", "before"]
    steps = told["given"]["steps"]
    assert steps[1]["observed"] == [{"minutes": 18, "pieces": 12}]
    assert steps[3]["observed"] == [{"minutes": 24, "pieces": 12}]
    assert steps[0]["minutes"] == 5.0 and "observed" not in steps[0]
    assert told["given"]["quantity"] == 48


def test_a_disturbed_lap_times_nothing():
    told = time_given(BATCH, STEPS, [lap("a", "Sew", 12, disturbed=True)], [], 12)
    assert told["sources"][1] == "guess"


def test_a_batch_is_ready_after_what_is_left_of_each_step_and_the_breaks():
    laps = [lap("a", "Thread up", 1, 5), lap("b", "Sew", 12, 18), lap("c", "Close", 12, 12, at=NOON + 1)]
    told = finish_time(BATCH, STEPS, laps, [], 12, NOON)
    # worked by hand: 36 × 1.5 + 36 × 1 = 90 min of work, after 55 of them a break of 5
    assert abs(told["minutes"] - 90) < 1e-9
    assert told["finish"] == NOON + 95 * MINUTE
    assert told["sources"] == {"laps": 2, "before": 0, "guess": 0}
    assert told["timed"] == 3


def test_two_people_are_ready_sooner_but_not_in_less_than_half_the_time():
    pair = {"lines": LINES, "people": 2}
    alone = finish_time(BATCH, STEPS, [], [], 12, NOON)
    together = finish_time(pair, STEPS, [], [], 12, NOON)
    assert alone["minutes"] / 2 <= together["minutes"] < alone["minutes"]


def test_where_all_is_sewn_nothing_is_said_of_when():
    laps = [lap("a", "Thread up", 1), lap("b", "Sew", 48), lap("c", "Close", 48)]
    assert finish_time(BATCH, STEPS, laps, [], 12, NOON)["finish"] is None


def test_open_batches_are_ordered_by_what_the_machine_is_set_up_for():
    rust = {"id": "a", "number": "1", "needle": "rust", "bobbin": None, "method": "tube", "lines": LINES}
    navy = {**rust, "id": "b", "needle": "navy"}
    again = {**rust, "id": "c", "needed": "2026-12-01"}
    given = set_ups([rust, navy, {**rust, "id": "d"}, again], navy)
    assert [row["name"] for row in given["batches"]] == ["a", "b", "d", "c"]
    told = answer("batch-order", given)["result"]
    # worked by hand: the one with a day first, to rust 2 + 1 min; the other two of rust; back to navy
    assert [row["name"] for row in told["order"]] == ["c", "a", "d", "b"]
    assert told["minutes"] == 6


def test_batches_nobody_named_a_thread_or_method_for_can_be_ordered_too():
    bare = {"id": "a", "needle": None, "bobbin": None, "method": None, "lines": []}
    told = answer("batch-order", set_ups([bare, {**bare, "id": "b"}], None))["result"]
    assert told["minutes"] == 0


def test_what_came_of_a_batch_is_told_by_product():
    goods = [{"id": "p-every", "size": "everyday", "cloth": "lawn"}]
    # worked by hand: 40 pieces are done with every step, the first 30 of the first line
    assert finished_lines(BATCH, goods, 40, [], {}) == [
        {"product": "p-every", "size": "everyday", "cloth": "lawn", "quantity": 30, "made": 30},
        {"product": "p-petite", "size": "petite", "cloth": "lawn", "quantity": 18, "made": 10},
    ]


def test_lines_of_one_product_are_one_and_what_is_no_product_is_told():
    twice = {"lines": [LINES[1], LINES[0], LINES[1]]}
    told = finished_lines(twice, [], None, [], {})
    assert [(row["product"], row["quantity"], row["made"]) for row in told] == [
        ("p-petite", 36, 36),
        (None, 30, 30),
    ]


def test_a_method_that_says_only_what_its_steps_are_called_is_sewn_piece_by_piece():
    args = {"batch": {"lines": LINES}, "method_steps": [{"name": "Sew"}], "laps": [lap("a", "Sew", 12)]}
    told = json.loads(call(json.dumps({"method": "batch_standing", "args": args})))["answer"]
    assert rows(told) == [("Sew", 48, 12, 36)]
