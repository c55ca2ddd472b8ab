"""Long calculations by steps, through the bridge as the phone asks."""

import json

from backend.core import working
from backend.core.bridge import call
from backend.core.catalogue import answer

GIVEN = {
    "cloths": [{"name": "lawn", "width": 1400}, {"name": "rest", "width": 900, "length": 700}],
    "strips": [
        {"name": "Everyday", "length": 482, "width": 110, "quantity": 17},
        {"name": "Wide", "length": 540, "width": 130, "quantity": 11},
    ],
    "steps": 3000,
}


def asked(method, **args):
    return json.loads(call(json.dumps({"method": method, "args": args})))


def test_worked_on_to_the_end_it_answers_as_if_asked_at_once():
    told = asked("begin", name="cutting-layout", given=GIVEN)["answer"]
    slices = 0
    while not told["done"]:
        told = asked("work_on", steps=100)["answer"]
        slices += 1
    at_once = json.loads(json.dumps(answer("cutting-layout", GIVEN)))
    assert {"result": told["result"], "notes": told["notes"]} == at_once
    assert slices > 1


def test_a_slice_that_tells_nothing_works_on_all_the_same():
    told = asked("begin", name="cutting-layout", given=GIVEN)["answer"]
    while not told["done"]:
        told = asked("work_on", steps=100, tell=False)["answer"]
        assert told["result"] is None
    assert asked("work_on", steps=0)["answer"]["result"] == answer("cutting-layout", GIVEN)["result"]


def test_the_first_layout_is_there_at_once_and_claims_nothing():
    result = asked("begin", name="cutting-layout", given=GIVEN)["answer"]["result"]
    laid = sum(len(row["strips"]) for cloth in result["cloths"] for row in cloth["rows"])
    assert laid == 28 and result["bound"] == 0 and not result["optimal"]


def test_no_more_steps_are_worked_than_were_asked_for():
    asked("begin", name="cutting-layout", given={**GIVEN, "steps": 50})
    assert asked("work_on", steps=100000)["answer"]["done"]
    used = asked("work_on", steps=100000)["answer"]["result"]["steps_used"]
    assert used == answer("cutting-layout", {**GIVEN, "steps": 50})["result"]["steps_used"]


def test_what_is_no_long_calculation_is_refused():
    problems = asked("begin", name="strip-length", given={})["problems"]
    assert [(item["field"], item["rule"]) for item in problems] == [("name", "not_long")]


def test_bad_fields_are_named_and_nothing_is_begun(monkeypatch):
    monkeypatch.setattr(working, "HELD", {})
    assert asked("begin", name="elastic-rolls", given={})["problems"][0]["field"] == "lengths"
    assert asked("work_on", steps=1)["problems"][0]["rule"] == "nothing_begun"
