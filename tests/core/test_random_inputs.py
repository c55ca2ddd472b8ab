"""The random inputs are what they say, and every calculator takes them all."""

import json
from random import Random

import pytest

from backend.core.catalogue import NAMES, answer, calculator_named
from backend.core.declaring.errors import Problems
from backend.core.declaring.reading import read
from backend.core.numbers.shapes import SHAPES
from backend.core.presenting.wording import word
from tests.core.random_inputs import SHAPED, random_cases, random_inputs

pytestmark = pytest.mark.full


def bad_fields(ask, *args):
    try:
        ask(*args)
    except Problems as error:
        assert all(word(item) for item in error.problems)
        return sorted({item["field"] for item in error.problems})
    return []


@pytest.mark.parametrize("name", NAMES)
def test_every_bad_field_is_named_and_no_good_one(name, how_many):
    inputs = calculator_named(name).inputs
    for case in random_cases(name, how_many(500, 5000), 1):
        assert bad_fields(read, inputs, case["input"]) == case["bad"], case


@pytest.mark.parametrize("name", NAMES)
def test_any_input_gets_json_or_problems(name, how_many):
    answers = 0
    for given in random_inputs(name, how_many(300, 3000), 2):
        try:
            told = answer(name, given)
        except Problems as error:
            json.dumps(error.problems, allow_nan=False)
            continue
        json.dumps(told, allow_nan=False)
        assert all(word(note) for note in told["notes"])
        answers += 1
    assert answers > how_many(300, 3000) * 0.25


@pytest.mark.parametrize("name", NAMES)
def test_one_seed_makes_the_same_inputs_each_time(name):
    assert random_inputs(name, 50, 3) == random_inputs(name, 50, 3) != random_inputs(name, 50, 4)
    assert json.loads(json.dumps(random_inputs(name, 50, 3))) == random_inputs(name, 50, 3)


@pytest.mark.parametrize("name", NAMES)
def test_the_kinds_are_mixed_as_promised(name):
    kinds = [case["kind"] for case in random_cases(name, 2000, 5)]
    assert 0.65 < kinds.count("valid") / 2000 < 0.75
    assert 0.12 < kinds.count("boundary") / 2000 < 0.18
    assert 0.12 < kinds.count("bad") / 2000 < 0.18


@pytest.mark.parametrize("shape", SHAPES)
def test_texts_of_a_shape_have_it(shape):
    random = Random(shape)
    assert all(SHAPES[shape](SHAPED[shape](random)) for _ in range(100))
