"""Minutes in a piece by step and method, from laps; and which method takes least."""

import pytest

from backend.core.making.times_told import times_of_methods
from tests.core.ids import named

DAY = "2026-05-02"


def method(name, *steps):
    return {"name": name, "steps": [{"name": step, "per": "piece"} for step in steps]}


def batch(of):
    line = {"size": named("s"), "cloth": named("c"), "quantity": 12}
    return {"number": "1", "method": of, "lines": [line]}


def step(id, batch, name, *laps):
    rows = [
        {"pieces": pieces, "took_ms": int(minutes * 60000), "disturbed": disturbed}
        for pieces, minutes, disturbed in laps
    ]
    return {"kind": "batch-step", "id": id, "at": 1, "day": DAY, "batch": batch, "step": name, "laps": rows}


def result(id, batch, good=12):
    lines = [{"product": named("p"), "made": 12, "good": good}]
    return {
        "kind": "batch-result",
        "id": id,
        "at": 2,
        "day": DAY,
        "batch": batch,
        "place": "x",
        "lines": lines,
    }


A, B = named("A"), named("B")
RECORDS = {
    "method": {A: method("Tube first", "Tube", "Knot"), B: method("Elastic inside", "All")},
    "batch": {named(f"a{n}"): batch(A) for n in (1, 2)} | {named(f"b{n}"): batch(B) for n in (1, 2)},
}
# 24 and 30 minutes for twelve one way; 60 and 62 the other
FACTS = [
    step("1", named("a1"), "Tube", (6, 6, False), (6, 6, False)),
    step("2", named("a1"), "Knot", (6, 6, False), (6, 60, True)),
    step("3", named("a2"), "Tube", (12, 18, False)),
    step("4", named("a2"), "Knot", (12, 12, False)),
    step("5", named("b1"), "All", (12, 60, False)),
    step("6", named("b2"), "All", (12, 62, False)),
    *[result(f"r{batch}", named(batch)) for batch in ("a1", "a2", "b1", "b2")],
]


def told(facts=FACTS, records=RECORDS):
    return times_of_methods(facts, records)


def test_a_step_takes_its_minutes_by_its_pieces_and_a_disturbed_lap_is_no_observation():
    tube, knot = told()["methods"][0]["steps"]
    assert (tube["observed"], tube["least"], tube["most"], tube["laps"]) == (30 / 24, 1.0, 1.5, 3)
    assert (knot["observed"], knot["laps"], knot["disturbed"]) == (1.0, 2, 1)
    # 200 ÷ 5 × √(3 × 4.25 − 3.5²) ÷ 3.5 squared
    assert tube["needed"] == 66


def test_a_piece_takes_all_its_steps_with_what_is_added_for_rest():
    one = told()["methods"][0]
    assert one["piece_minutes"] == pytest.approx((30 / 24 + 1.0) * 1.15)
    assert told([*FACTS[:1], *FACTS[4:]])["methods"][0]["piece_minutes"] is None


def test_methods_are_compared_by_whole_batches():
    compared = told()["compared"]
    assert compared["best"] == "Tube first"
    [other] = compared["against"]
    # (60 + 62) ÷ 24 less (24 + 30) ÷ 24
    assert other["difference"] == pytest.approx(122 / 24 - 54 / 24)
    assert other["verdict"] in ("clear", "cannot tell")
    assert [one["sittings"] for one in told()["methods"]] == [2, 2]


def test_a_batch_without_all_its_steps_or_without_a_result_is_no_sitting():
    facts = [fact for fact in FACTS if fact["id"] not in ("2", "ra2")]
    assert told(facts)["methods"][0]["sittings"] == 0
    assert told(facts)["compared"] is None


def test_laps_and_results_that_are_void_count_for_nothing():
    never = {"kind": "batch-step-void", "id": "v", "at": 9, "day": DAY, "batch_step": "3", "reason": ""}
    assert told([*FACTS, never])["methods"][0]["steps"][0]["laps"] == 2


def test_batches_of_no_method_are_told_by_the_usual_steps():
    records = {"batch": {named("a1"): batch(None)}}
    facts = [step("1", named("a1"), "Close the gap", (4, 6, False))]
    [one] = told(facts, records)["methods"]
    assert (one["method"], one["batches"]) == (None, 1)
    assert [(row["name"], row["observed"]) for row in one["steps"]] == [("Close the gap", 1.5)]


def test_what_was_timed_beside_the_steps_of_a_method_is_told_after_them():
    facts = [*FACTS, step("7", named("a1"), "Press", (12, 6, False))]
    assert [row["name"] for row in told(facts)["methods"][0]["steps"]] == ["Tube", "Knot", "Press"]


def test_nothing_timed_is_nothing_told():
    assert told([], RECORDS) == {"methods": [], "compared": None}
