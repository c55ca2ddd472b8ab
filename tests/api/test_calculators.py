"""The calculators' addresses: work, validate, refuse, repeat safely."""

import json

import pytest

from backend.api.schemas import example_of
from backend.core.catalogue import NAMES, answer, calculators

every_calculator = pytest.mark.parametrize("calculator", calculators(), ids=NAMES)


def test_the_catalogue_describes_every_calculator(client):
    reply = client.get("/api/v1/calculators")
    assert reply.status_code == 200
    assert reply.get_json() == {"calculators": [calculator.describe() for calculator in calculators()]}


@every_calculator
def test_a_calculator_describes_itself_at_its_own_address(client, calculator):
    reply = client.get(f"/api/v1/calculators/{calculator.name}")
    assert reply.status_code == 200
    assert reply.get_json() == calculator.describe()


@every_calculator
def test_a_calculator_answers_its_documented_example(ask, calculator):
    given = example_of(calculator.inputs)
    reply = ask(calculator.name, given)
    assert reply.status_code == 200, reply.get_json()
    assert reply.content_type == "application/json"
    told = reply.get_json()
    assert told.keys() == {"result", "notes"}
    assert list(told["result"]) == [field.name for field in calculator.outputs]
    assert told["result"] == json.loads(json.dumps(answer(calculator.name, given)["result"]))


def test_a_strip_is_worked_out_from_defaults_alone(ask):
    told = ask("strip-length", {}).get_json()
    # worked by hand: 165 × 2.8 + 2 × 10 and 2 × 45 + 2 × 10
    assert told["result"]["strip_length"] == pytest.approx(482, rel=1e-12)
    assert told["result"]["strip_width"] == 110
    assert told["notes"] == []


def test_a_note_comes_as_data_and_in_words(ask):
    notes = ask("elastic-cut-length", {"loop": 165}).get_json()["notes"]
    assert notes == [
        {
            "field": "knot_takeup",
            "rule": "tie_three",
            "given": None,
            "limit": None,
            "quantity": None,
            "message": "estimated: tie and measure three test knots, and put them in as samples",
        }
    ]


def test_every_bad_field_is_named_at_once_with_what_is_allowed(ask, is_problem):
    given = {"loop": 5, "fullness": "much", "tube_width": True, "colour": "red"}
    told = is_problem(ask("strip-length", given), 422)
    assert told["type"] == "/api.html#bad-fields"
    assert told["instance"] == "/api/v1/calculators/strip-length"
    assert told["errors"] == {
        "loop": ["must be at least 10 mm; 5 mm given"],
        "fullness": ["must be a number"],
        "tube_width": ["must be a number"],
        "colour": ["is not a field here"],
    }
    assert {"field": "loop", "rule": "lowest", "given": 5, "limit": 10, "quantity": "length"} in told[
        "problems"
    ]
    assert len(told["problems"]) == 4


def test_a_bad_field_of_a_row_is_named_with_its_row(ask, is_problem):
    cloth = {"name": "Fog gauze", "bolt_width": 1320, "shrink_length": 6, "shrink_width": 4,
             "price": 1020, "price_length": 914.4}  # fmt: skip
    bad = {**cloth, "bolt_width": 9, "name": 7}
    given = {"strip_length": 482, "strip_width": 110, "cloths": [cloth, cloth, bad]}
    errors = is_problem(ask("cloth-compare", given), 422)["errors"]
    assert errors.keys() == {"cloths.2.bolt_width", "cloths.2.name"}


def test_a_strip_that_fits_neither_way_is_refused_by_how_much(ask, is_problem):
    given = {
        "strip_length": 900,
        "strip_width": 700,
        "bolt_width": 520,
        "shrink_length": 0,
        "shrink_width": 0,
    }
    errors = is_problem(ask("fabric-per-dozen", given), 422)["errors"]
    # 520 less two selvedges of 10 is 500
    assert errors == {
        "bolt_width": ["the strip is 200 mm too long for the usable width of 500 mm, both ways"]
    }


@pytest.mark.parametrize("repeat", [5e-324, 1e-300, 0.5])
def test_a_print_repeat_too_small_to_be_one_is_refused(ask, is_problem, repeat):
    # 5e-324 is the least float above nothing: dividing by it once gave infinity, and a failure
    cloth = {"bolt_width": 1400, "shrink_length": 3, "shrink_width": 2, "repeat": repeat}
    strip = {"strip_length": 482, "strip_width": 110}
    priced = {**cloth, "name": "Harbour check", "price": 1150, "price_length": 1000}
    told = is_problem(ask("fabric-per-dozen", {**strip, **cloth}), 422)
    assert told["errors"].keys() == {"repeat"}
    told = is_problem(ask("cloth-compare", {**strip, "cloths": [priced]}), 422)
    assert told["errors"].keys() == {"cloths.0.repeat"}


@pytest.mark.parametrize("body", ["[]", '"loop"', "7", "null", "true", "NaN"])
def test_a_body_that_is_no_object_is_a_bad_field_without_a_name(send, is_problem, body):
    told = is_problem(send(body), 422)
    assert told["errors"] == {"": ["must be an object with named fields"]}


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity", "1e999", "-1e999", "9" * 400])
def test_a_number_that_is_none_or_too_large_names_its_field(send, is_problem, number):
    told = is_problem(send(f'{{"loop": {number}, "end_seam": 12}}'), 422)
    assert told["errors"].keys() == {"loop"}


@every_calculator
def test_asking_twice_gives_the_same_bytes(ask, calculator):
    given = example_of(calculator.inputs)
    assert ask(calculator.name, given).data == ask(calculator.name, given).data
    assert ask(calculator.name, {"x": 1}).data == ask(calculator.name, {"x": 1}).data


@every_calculator
@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE", "TRACE"])
def test_other_methods_are_refused_with_those_allowed(client, is_problem, calculator, method):
    reply = client.open(f"/api/v1/calculators/{calculator.name}", method=method)
    is_problem(reply, 405)
    assert set(reply.allow) == {"GET", "HEAD", "OPTIONS", "POST"}
