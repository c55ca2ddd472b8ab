"""The comparison of two runtimes forgives the last digits of what is declared as close, and nothing else."""

import pytest

from backend.core import catalogue
from backend.core.declaring.spec import Calculator, Field
from tests.core.alike import assert_alike, has_close

ROW = [Field("name", "text", "Name"), Field("chance", "percent", "Chance", close=True)]
OUTPUTS = [
    Field("length", "length", "Length"),
    Field("rows", "list", "Rows", fields=ROW),
    Field("parts", "list", "Parts", item=Field("part", "number", "Part", close=True)),
    Field("best", "object", "Best", None, fields=ROW),
]
RESULT = {"length": 0.3, "rows": [{"name": "a", "chance": 10.0}], "parts": [1.0, 2.0], "best": None}


@pytest.fixture(autouse=True)
def calculator(monkeypatch):
    made = Calculator("made-up", "Made up", "For this test.", [], OUTPUTS, work=None)
    monkeypatch.setattr("tests.core.alike.calculator_named", lambda name: made)


def reply(**changed):
    return {"answer": {"result": {**RESULT, **changed}, "notes": []}}


@pytest.mark.parametrize(
    "changed",
    [{}, {"rows": [{"name": "a", "chance": 10.000000000001}]}, {"parts": [1.0, 2.000000000001]}],
)
def test_the_last_digits_of_what_is_close_are_forgiven(changed):
    assert_alike("made-up", reply(), reply(**changed))


@pytest.mark.parametrize(
    "changed",
    [
        {"length": 0.1 + 0.2},
        {"rows": [{"name": "a", "chance": 10.0000000001}]},
        {"rows": [{"name": "b", "chance": 10.0}]},
        {"rows": [{"name": "a", "chance": None}]},
        {"rows": []},
        {"parts": [1.0, 2.1]},
        {"parts": [1.0]},
        {"best": {"name": "a", "chance": 10.0}},
    ],
)
def test_all_else_is_told(changed):
    with pytest.raises(AssertionError):
        assert_alike("made-up", reply(), reply(**changed))


def test_other_notes_and_problems_are_told():
    with pytest.raises(AssertionError):
        assert_alike("made-up", reply(), {"answer": {**reply()["answer"], "notes": [1]}})
    with pytest.raises(AssertionError):
        assert_alike("made-up", reply(), {"problems": []})
    assert_alike("made-up", {"problems": []}, {"problems": []})


def test_what_is_close_is_found_in_rows_and_items():
    assert [has_close([field]) for field in OUTPUTS] == [False, True, True, True]
    assert not has_close(catalogue.calculator_named("strip-length").outputs)
