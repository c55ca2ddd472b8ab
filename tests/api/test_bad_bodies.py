"""Thousands of bad bodies: never a failure of ours, every bad field named."""

import json
from random import Random

import pytest

from backend.core.catalogue import NAMES
from tests.core.random_inputs import random_cases

pytestmark = pytest.mark.full
PIECES = ['{"loop"', ":", "165", '"cloths"', "[", "]", "{", "}", ",", "NaN", "-", "1e400", "null", "é", "\\",
          "\u0000", '"\\ud800"', "9" * 5000, "[" * 300, '{"a":' * 60, '"', "0x1", "+1", "01"]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_bad_field_of_a_generated_body_is_named(ask, is_problem, name, how_many):
    bad = [case for case in random_cases(name, how_many(340, 4000), 11) if case["kind"] == "bad"]
    assert len(bad) >= how_many(35, 500)
    for case in bad:
        told = is_problem(ask(name, case["input"]), 422)
        assert sorted(told["errors"]) == case["bad"], case
        assert all(told["errors"].values())


@pytest.mark.parametrize("name", NAMES)
def test_any_generated_body_gets_an_answer_or_problems(ask, name, how_many):
    for case in random_cases(name, how_many(40, 1000), 12):
        reply = ask(name, case["input"])
        assert reply.status_code in (200, 422), case
        json.loads(reply.data, parse_constant=pytest.fail)


@pytest.mark.parametrize("name", NAMES)
def test_garbage_is_refused_and_breaks_nothing(send, is_problem, name, how_many):
    random = Random(f"garbage {name}")
    good = json.dumps(random_cases(name, 1, 13)[0]["input"]).encode()
    for _ in range(how_many(60, 1000)):
        reply = send(garbage(random, good), name)
        if reply.status_code != 200:
            is_problem(reply, reply.status_code)
            assert reply.status_code in (400, 422)


def garbage(random, good):
    """Make bytes that may or may not be JSON: noise, pieces of it, or a good body with a slip."""
    kind = random.randrange(3)
    if kind == 0:
        return random.randbytes(random.randrange(200))
    if kind == 1:
        return "".join(random.choices(PIECES, k=random.randrange(1, 30))).encode()
    slipped = bytearray(good)
    for _ in range(random.randrange(1, 4)):
        slipped[random.randrange(len(slipped))] = random.randrange(256)
    return bytes(slipped)
