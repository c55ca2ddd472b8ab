"""A batch that is changed, or finished in parts: laps stay, and strips are claimed while they wait."""

import json

from hypothesis import given
from hypothesis import strategies as some

from backend.core.bridge import call
from backend.core.making.batch_change import batch_change
from backend.core.making.batch_finishing import finished_lines
from backend.core.making.batch_standing import batch_standing
from backend.core.making.batch_start import free_strips
from backend.core.making.batch_timing import finish_time
from backend.core.making.lines_left import lines_left
from backend.core.making.waiting import waiting_strips
from tests.core.making.test_batches import BATCH, LINES, NOON, STEPS, lap, rows

PRODUCTS = {
    "p-every": {"size": "everyday", "cloth": "lawn"},
    "p-petite": {"size": "petite", "cloth": "lawn"},
}
GOODS = [{"id": id, **PRODUCTS[id]} for id in PRODUCTS]
CUT = {
    "kind": "cut",
    "id": "c",
    "at": NOON - 1,
    "day": "2026-11-30",
    "cloth": "lawn",
    "length": 1000,
    "lines": [{"size": "everyday", "quantity": 36}, {"size": "petite", "quantity": 18}],
}
OTHER_WAY = [{"name": "Sew", "per": "piece"}, {"name": "Press", "per": "piece"}]


def result(made, id="r", product="p-every", batch="b"):
    line = {"product": product, "made": made, "good": made}
    return {
        "kind": "batch-result",
        "id": id,
        "at": NOON,
        "day": "2026-11-30",
        "batch": batch,
        "place": "shelf",
        "lines": [line],
    }


def of(quantity, size="everyday", product=None):
    return {"size": size, "cloth": "lawn", "product": product, "quantity": quantity}


def left(lines, results):
    return [(row["size"], row["quantity"]) for row in lines_left(lines, results, PRODUCTS)]


def test_a_batch_may_not_have_fewer_pieces_than_a_step_is_done_with():
    laps = [lap("a", "Sew", 12), lap("b", "Sew", 12), lap("c", "Close", 6)]
    # worked by hand: Sew is done with 24
    assert batch_change(BATCH, {"lines": [of(24)]}, STEPS, laps)["enough"]
    told = batch_change(BATCH, {"lines": [of(23)]}, STEPS, laps)
    assert (told["pieces"], told["least"], told["enough"]) == (23, 24, False)


def test_a_batch_has_one_piece_at_least():
    told = batch_change(BATCH, {"lines": []}, STEPS, [])
    assert (told["pieces"], told["least"], told["enough"]) == (0, 1, False)


def test_laps_beyond_the_batch_ask_for_no_more_pieces_than_it_has():
    laps = [lap("a", "Sew", 40), lap("b", "Sew", 40)]
    assert batch_change(BATCH, BATCH, STEPS, laps)["least"] == 48


def test_a_step_done_once_for_the_batch_asks_for_no_pieces():
    laps = [lap(name, "Thread up", 1) for name in "abc"]
    assert batch_change(BATCH, {"lines": [of(1)]}, STEPS, laps)["enough"]


def test_laps_count_at_steps_of_the_same_name_and_are_told_beside_the_others():
    laps = [
        lap("a", "Sew", 12),
        lap("b", "Close", 6),
        lap("c", "Close", 6, at=NOON + 1),
        lap("d", "Refill", 1),
    ]
    told = batch_change(BATCH, BATCH, OTHER_WAY, laps)
    assert [(row["name"], row["done"]) for row in told["steps"]] == [("Sew", 12)]
    assert told["beside"] == [{"name": "Close", "done": 12}, {"name": "Refill", "done": 1}]
    standing = batch_standing(BATCH, OTHER_WAY, laps)
    assert rows(standing) == [("Sew", 48, 12, 36), ("Press", 48, 0, 48)]
    assert standing["beside"] == told["beside"] and len(standing["laps"]) == 4


def test_laps_beside_the_method_hold_pieces_in_the_batch_too():
    laps = [lap("a", "Close", 30)]
    assert batch_change(BATCH, {"lines": [of(29)]}, OTHER_WAY, laps)["least"] == 30


def test_a_changed_batch_is_ready_by_what_is_left_of_it():
    laps = [lap("b", "Sew", 12, 18)]
    one = [{"name": "Sew", "per": "piece", "machine": "", "allowance": 0}]
    # worked by hand: 12 of 1.5 min are done, 12 more are left; with 36 of it 24 are
    assert abs(finish_time({"lines": [of(24)], "people": 1}, one, laps, [], 12, NOON)["minutes"] - 18) < 1e-9
    assert abs(finish_time({"lines": [of(36)], "people": 1}, one, laps, [], 12, NOON)["minutes"] - 36) < 1e-9


def test_what_was_made_of_a_batch_is_no_longer_left_of_it():
    # worked by hand: 30 less 12 of the size that names no product; the other is another's
    assert left(LINES, [result(12)]) == [("everyday", 18), ("petite", 18)]
    assert left(LINES, [result(30), result(18, "q", "p-petite")]) == []


def test_what_was_made_beyond_a_line_or_of_no_line_leaves_the_others_alone():
    assert left(LINES, [result(99)]) == [("petite", 18)]
    assert left([of(5)], [result(18, "q", "p-petite")]) == [("everyday", 5)]


def test_a_result_that_cannot_be_read_is_set_aside():
    assert left([of(5)], [{**result(5), "lines": "bent"}, {"kind": "batch-result"}]) == [("everyday", 5)]


def test_what_is_finished_of_a_batch_comes_no_second_time():
    # worked by hand: of 40 that are sewn 30 were recorded, the first 10 of the next line are sewn
    assert finished_lines(BATCH, GOODS, 40, [result(30)], PRODUCTS) == [
        {"product": "p-petite", "size": "petite", "cloth": "lawn", "quantity": 18, "made": 10}
    ]


def test_strips_that_were_sewn_are_not_claimed_and_those_that_are_not_still_are():
    done = result(30)
    batches = {"b": {"lines": LINES}}
    waiting = waiting_strips([CUT, done], batches, PRODUCTS)
    # worked by hand: 36 − 30 wait, and none of them is in the batch; all 18 of the other are
    assert free_strips(waiting, [{"id": "b", "lines": LINES}], [done], PRODUCTS) == [
        {"cloth": "lawn", "size": "everyday", "quantity": 6, "claimed": 0}
    ]


def test_results_of_another_batch_leave_a_claim_as_it_is():
    waiting = [{"cloth": "lawn", "size": "everyday", "quantity": 40}]
    told = free_strips(waiting, [{"id": "b", "lines": [of(30)]}], [result(30, batch="other")], PRODUCTS)
    assert [(row["quantity"], row["claimed"]) for row in told] == [(10, 30)]


def test_a_line_that_was_left_out_while_another_phone_finished_it_still_takes_its_strips():
    # without signal, one phone changed the batch to another size and the other recorded what came of it
    batches = {"b": {"lines": [of(18, "petite")]}}
    told = waiting_strips([CUT, result(30)], batches, PRODUCTS)
    assert [(row["size"], row["quantity"]) for row in told] == [("everyday", 6), ("petite", 18)]


@given(some.lists(some.integers(0, 40), max_size=6), some.permutations([of(10), of(20, "petite"), of(7)]))
def test_never_is_more_or_less_left_than_what_was_not_made(made, lines):
    results = [result(pieces, str(number)) for number, pieces in enumerate(made)]
    told = lines_left(lines, results, PRODUCTS)
    everyday = [row["quantity"] for row in told if row["size"] == "everyday"]
    assert sum(everyday) == max(0, 17 - sum(made))
    assert [row["quantity"] for row in told if row["size"] == "petite"] == [20]


def test_the_phone_asks_for_it_by_name():
    args = {"batch": {"lines": LINES}, "changed": {"lines": [of(40)]}, "method_steps": [], "laps": []}
    told = json.loads(call(json.dumps({"method": "batch_change", "args": args})))["answer"]
    assert told == {"pieces": 40, "least": 1, "enough": True, "steps": [], "beside": []}
