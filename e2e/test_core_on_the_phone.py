"""The core on the phone's runtime, offline in its worker, gives what it gives under CPython."""

import json

import pytest

from backend.core import bridge
from backend.core.catalogue import CALCULATORS
from tests.core.cases_table import check, load_cases
from tests.core.random_inputs import random_inputs

NAMES = [calculator.name for calculator in CALCULATORS]
BATCH = 100
SEED = 20261125

ASK = """async (asked) => {
  const { call } = await import('/core/core-client.js');
  const told = [];
  for (const { method, args } of asked) told.push(await call(method, args));
  return told;
}"""


def on_the_phone(screen, asked):
    """Ask the worker of a phone that is offline, in batches."""
    told = []
    for start in range(0, len(asked), BATCH):
        told += screen.page.evaluate(ASK, asked[start : start + BATCH])
    return told


def here(asked):
    """Ask the same door under CPython."""
    return [json.loads(bridge.call(json.dumps(question))) for question in asked]


def answers_to(calculator, inputs):
    return [{"method": "answer", "args": {"name": calculator, "given": given}} for given in inputs]


@pytest.fixture
def core(screen):
    screen.open("/buy")
    return screen


def test_every_case_holds_on_the_phone(core):
    cases = load_cases()
    asked = [question for name, case in cases for question in answers_to(name, [case["input"]])]
    told = on_the_phone(core, asked)
    assert told == here(asked)
    for (_, case), reply in zip(cases, told, strict=True):
        check(case, reply.get("answer", reply))


@pytest.mark.full
@pytest.mark.parametrize("name", NAMES)
def test_two_runtimes_agree_on_random_inputs(core, how_many, name):
    asked = answers_to(name, random_inputs(name, how_many(150, 2000), SEED))
    told = on_the_phone(core, asked)
    assert told == here(asked)
    assert sum("answer" in reply for reply in told) > len(asked) // 5
    assert any("problems" in reply for reply in told)


def test_both_runtimes_declare_the_same(core):
    # the door imports every module of the core, so that all of them load there
    asked = [{"method": "describe", "args": {}}]
    assert on_the_phone(core, asked) == here(asked)


MIXED_UNITS = {"strip_length": "in", "bolt_width": "yd", "loop": "in", "=cut_length": "in"}


@pytest.mark.parametrize("units", [{}, MIXED_UNITS])
def test_forms_are_typed_filled_and_explained_alike(core, units):
    typed_out = [
        {
            "method": "show_inputs",
            "args": {"name": name, "given": case["input"], "units": units, "currency": "EUR"},
        }
        for name, case in load_cases()
        if "output" in case
    ]
    forms = on_the_phone(core, typed_out)
    assert forms == here(typed_out)
    asked = []
    for question, form in zip(typed_out, forms, strict=True):
        args = {**question["args"], "typed": form["answer"]}
        del args["given"]
        asked.append({"method": "fill", "args": args})
        calculator = CALCULATORS[NAMES.index(args["name"])]
        asked += [
            {"method": "why", "args": {**args, "output": output.name}}
            for output in calculator.outputs
            if output.formula
        ]
    assert on_the_phone(core, asked) == here(asked)


def test_records_are_checked_and_merged_alike(core):
    lawn = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
    lawn["price"] = 890
    edits = [
        {"kind": "cloth", "record": f"r{number % 3}", "stamp": f"{stamp:013}-0000-a", "fields": fields}
        for number, (stamp, fields) in enumerate(
            [(3, lawn), (1, {"price": 900}), (2, {"price": None}), (2, {"price": 5}), (9, {"mixed": True})]
        )
    ]
    asked = [
        {"method": "check", "args": {"kind_name": "cloth", "fields": lawn, "new": True}},
        {
            "method": "check",
            "args": {"kind_name": "cloth", "fields": {"bolt_width": -1, "x": 1}, "new": False},
        },
        {"method": "check", "args": {"kind_name": "no such kind", "fields": {}, "new": True}},
        {"method": "fold", "args": {"changes": edits}},
        {"method": "fold", "args": {"changes": edits[::-1]}},
        {"method": "merge", "args": {"held": {"cloth/r0": {"price": [1, "0"]}}, "changes": edits}},
        *({"method": "convert", "args": {"text": text, "unit": "mm", "to": unit}}
          for text in ("450.6666", "46,2", "18 1/8", "x") for unit in ("cm", "in", "yd")),
    ]  # fmt: skip
    assert on_the_phone(core, asked) == here(asked)
