"""Every case of every table, under CPython, and the tables themselves."""

from collections import Counter

import pytest

from backend.core.catalogue import NAMES, answer
from backend.core.declaring.errors import Problems
from tests.core.cases_table import check, load_cases

CASES = load_cases()


def ask(calculator, given):
    """Ask as the API and the bridge do: an answer, or the problems."""
    try:
        return answer(calculator, given)
    except Problems as error:
        return {"problems": error.problems}


@pytest.mark.parametrize("calculator, case", CASES, ids=[f"{name}: {case['name']}" for name, case in CASES])
def test_a_case_comes_out_as_its_source_says(calculator, case):
    check(case, ask(calculator, case["input"]))


@pytest.mark.parametrize("calculator", NAMES)
def test_a_calculator_has_enough_cases_each_with_a_source_and_a_name_of_its_own(calculator):
    cases = [case for name, case in CASES if name == calculator]
    assert len(cases) >= 12
    assert [name for name, times in Counter(case["name"] for case in cases).items() if times > 1] == []
    assert all(case["source"] and ("output" in case) != ("errors" in case) for case in cases)


def test_sources_are_published_worked_by_hand_or_said_to_be_none():
    # never a paper of our own, which nobody outside can look up
    assert [case["name"] for _, case in CASES if ".md" in case["source"] or "design" in case["source"]] == []


def test_a_wrong_expectation_fails():
    case = {"name": "wrong", "input": {}, "output": {"strip_length": 482.001}}
    with pytest.raises(AssertionError, match=r"strip_length: 481.*, not 482\.001"):
        check(case, ask("strip-length", {}))


def test_a_missing_bad_field_fails():
    case = {"name": "wrong", "errors": {"loop": "number"}}
    with pytest.raises(AssertionError):
        check(case, ask("strip-length", {"loop": "wide", "fullness": 9}))
