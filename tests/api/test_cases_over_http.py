"""Every case of every table over HTTP, equal to what the core says."""

import json

import pytest

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems
from tests.core.cases_table import check, load_cases

CASES = load_cases()


@pytest.mark.parametrize("calculator, case", CASES, ids=[f"{name}: {case['name']}" for name, case in CASES])
def test_a_case_comes_out_over_http_as_its_source_says(ask, calculator, case):
    reply = ask(calculator, case["input"])
    told = reply.get_json()
    assert reply.status_code == (422 if "errors" in case else 200), told
    check(case, told)


@pytest.mark.parametrize("calculator, case", CASES, ids=[f"{name}: {case['name']}" for name, case in CASES])
def test_http_says_what_the_core_says_to_the_last_bit(ask, calculator, case):
    told = ask(calculator, case["input"]).get_json()
    try:
        expected = answer(calculator, case["input"])
    except Problems as error:
        assert told["problems"] == json.loads(json.dumps(error.problems))
        return
    assert told["result"] == json.loads(json.dumps(expected["result"]))
    assert [note["rule"] for note in told["notes"]] == [note["rule"] for note in expected["notes"]]
