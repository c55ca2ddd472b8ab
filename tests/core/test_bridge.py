"""The phone's door: any JSON text gets an answer or problems, never an exception."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.bridge import ARGUMENTS, METHODS, call
from backend.core.catalogue import NAMES, calculators
from backend.core.numbers.units import UNITS
from backend.fixtures import read_all
from tests.core.cases_table import check, load_cases
from tests.core.random_inputs import random_inputs

pytestmark = pytest.mark.full

PLAIN = some.none() | some.booleans() | some.integers() | some.floats(allow_nan=False, allow_infinity=False)
ANYTHING = some.recursive(
    PLAIN | some.text(max_size=8),
    lambda inner: some.lists(inner, max_size=3) | some.dictionaries(some.text(max_size=6), inner, max_size=3),
    max_leaves=8,
)
FIELD_NAMES = sorted(
    {field.name for calculator in calculators() for field in calculator.inputs + calculator.outputs}
)
TYPED = some.dictionaries(
    some.sampled_from(FIELD_NAMES), some.sampled_from(["12", "1/8", "x", ""]) | ANYTHING, max_size=6
)
WORD = some.text(max_size=3)
PIECES = some.integers(0, 9)
FACT = some.fixed_dictionaries({
    "kind": some.sampled_from(["sale", "void", "refund", "move", "count-line", "count-close", "cash-count"]),
    "id": WORD, "amount": PIECES, "payment": some.just("cash"), "day": some.just("2026-11-28"),
    "box": some.just("tin"), "moment": some.just("float"), "goods": some.just("table"),
    "at": some.integers(0, 9), "place": WORD, "from": WORD, "to": WORD, "product": WORD, "sale": WORD,
    "session": WORD, "scope": some.just("all"), "quantity": some.integers(0, 9),
    "lines": some.lists(
        some.fixed_dictionaries({"product": WORD, "quantity": PIECES, "total": PIECES}), max_size=2
    ),
})  # fmt: skip
CUT = some.fixed_dictionaries({
    "id": WORD, "cloth": WORD,
    "lines": some.lists(some.fixed_dictionaries({"size": WORD, "quantity": PIECES}), max_size=2),
})  # fmt: skip
SEWN = some.fixed_dictionaries(
    {"size": WORD, "cloth": WORD, "product": some.none() | WORD, "quantity": PIECES}
)
BATCH = some.fixed_dictionaries({"lines": some.lists(SEWN | ANYTHING, max_size=2)})
CHANGE = some.fixed_dictionaries({"kind": WORD, "record": WORD, "stamp": WORD, "fields": TYPED})
SEWN = some.lists(
    some.fixed_dictionaries({"size": WORD, "cloth": WORD, "quantity": some.integers(1, 60)}), max_size=2
)
LAPS = some.fixed_dictionaries(
    {
        "kind": some.just("batch-step"),
        "id": WORD,
        "at": some.integers(0, 2**50),
        "step": WORD,
        "laps": some.lists(
            some.fixed_dictionaries({"pieces": some.integers(1, 60), "took_ms": some.integers(1, 10**6)}),
            max_size=3,
        ),
    }
)
GOODS = some.dictionaries(WORD, PIECES | ANYTHING, max_size=2)
SUMMED = {name: PIECES for name in ("at", "sales", "pieces", "taken", "given_back", "card", "others")}
SUMS = some.fixed_dictionaries(
    {
        "day": some.just("2026-11-28"),
        "booking": some.none() | WORD,
        "products": GOODS,
        "sizes": GOODS,
        **SUMMED,
    }
)
COSTS = some.fixed_dictionaries({name: PIECES for name in ("at", "made", "good", "cost")})
LIKELY = {
    "sums": some.lists(SUMS, max_size=2),
    "costs": some.dictionaries(WORD, some.lists(COSTS | ANYTHING, max_size=2) | PIECES | ANYTHING),
    "results": some.lists(ANYTHING | FACT, max_size=2),
    "offer": some.none() | WORD,
    "changed": some.fixed_dictionaries({"lines": SEWN}),
    "year": some.sampled_from(["2026", "26"]),
    "file": some.sampled_from(["figures", "takings", "purchases", "expenses", "stock", "all"]),
    "fixtures": some.just(read_all()),
    "business": WORD,
    "offset_minutes": some.integers(-840, 840),
    "length": some.floats(0, 1e6),
    "steps": some.integers(0, 50),
    "tell": some.booleans(),
    "cuts": some.lists(CUT, max_size=3),
    "taken_back": some.lists(WORD, max_size=2),
    "cut_voids": some.lists(some.fixed_dictionaries({"cut": WORD}), max_size=2),
    "wanted": some.lists(
        some.fixed_dictionaries({"size": WORD, "cloth": WORD, "quantity": some.integers(1, 9)}), max_size=2
    ),
    "sizes": some.dictionaries(WORD, TYPED, max_size=2),
    "cloths": some.dictionaries(WORD, TYPED, max_size=2),
    "remnants": some.dictionaries(WORD, TYPED, max_size=2),
    "elastics": some.dictionaries(WORD, TYPED, max_size=2),
    "ways": some.dictionaries(WORD, TYPED, max_size=2),
    "waiting": some.lists(
        some.fixed_dictionaries({"size": WORD, "cloth": WORD, "quantity": PIECES}), max_size=2
    ),
    "choices": some.fixed_dictionaries({}, optional={
        "measure": some.sampled_from(["money", "area"]), "worths": TYPED, "left_out": some.lists(WORD),
    }),
    "placed": some.lists(
        some.fixed_dictionaries({"size": PIECES, "x": PIECES, "y": PIECES, "length": some.integers(1, 9),
                                 "width": some.integers(1, 9), "turned": some.booleans()}),
        max_size=4,
    ),
    "first": some.sampled_from(["across", "along"]),
    "lying": some.sampled_from(["either", "across", "along"]),
    "layers": some.integers(1, 4),
    "strips": some.lists(some.fixed_dictionaries({"length": PIECES, "width": PIECES}), max_size=2),
    "batch": some.fixed_dictionaries({"lines": SEWN}),
    "sewing": some.lists(some.fixed_dictionaries({"id": WORD, "needle": WORD, "lines": SEWN}), max_size=3),
    "last": some.none() | some.fixed_dictionaries({"needle": WORD, "lines": SEWN}),
    "method_steps": some.lists(
        some.fixed_dictionaries({"name": WORD, "per": some.sampled_from(["piece", "batch", "day"])}),
        max_size=2,
    ),
    "laps": some.lists(ANYTHING | LAPS, max_size=3),
    "before": some.lists(ANYTHING | LAPS, max_size=3),
    "tray": some.integers(1, 20),
    "now": some.integers(0, 2**50),
    "goods": some.lists(some.fixed_dictionaries({"id": WORD, "size": WORD, "cloth": WORD}), max_size=2),
    "sewn": some.none() | PIECES,
    "tool": some.sampled_from(["rotary cutter", "tearing", "spoon"]),
    "problems": some.lists(
        some.fixed_dictionaries({
            "field": WORD, "rule": some.sampled_from(["lowest", "required", "no"]),
            "given": some.none() | some.integers(), "limit": some.none() | some.floats(0, 9),
            "quantity": some.sampled_from([None, "length", "money"]),
        }) | TYPED,
        max_size=2,
    ),
    "product_ids": some.lists(WORD, max_size=2),
    "records": some.dictionaries(
        some.sampled_from(["product", "piece", "cloth", "batch", "business"]),
        ANYTHING | some.dictionaries(WORD, ANYTHING, max_size=2),
        max_size=3,
    ),
    "plans": some.lists(
        some.fixed_dictionaries({"left_out": some.integers(0, 2), "cost": some.none() | some.integers(0, 9),
                                 "length_to_buy": some.integers(0, 9)}),
        max_size=3,
    ),
    "name": some.sampled_from(NAMES),
    "given": TYPED,
    "typed": TYPED,
    "units": some.dictionaries(some.sampled_from(FIELD_NAMES), some.sampled_from(UNITS), max_size=4),
    "currency": some.sampled_from(["EUR", "JPY", "KWD"]),
    "output": some.sampled_from(FIELD_NAMES),
    "text": some.sampled_from(["18 1/8", "46,2", ""]),
    "unit": some.sampled_from(UNITS),
    "to": some.sampled_from(UNITS),
    "exact": some.none() | some.floats(-1000, 100000),
    "rounding": some.sampled_from(("nearest", "down", "up")),
    "up": some.booleans(),
    "lengths": some.lists(some.floats(0, 1e6), max_size=3),
    "kind_name": some.sampled_from(["piece", "cloth", "list-line", "booking", "business", "sale"]),
    "list_name": some.sampled_from(["lines", "days", "denominations", "name"]),
    "fields": TYPED,
    "held": some.dictionaries(
        WORD,
        some.dictionaries(WORD, some.lists(PLAIN, min_size=1, max_size=3), max_size=2) | ANYTHING,
        max_size=3,
    ),
    "new": some.booleans(),
    "received": some.dictionaries(some.text(max_size=3), some.integers(0, 2**50) | some.text()),
    "dearest": some.integers(0, 5000),
    "facts": some.lists(ANYTHING | FACT, max_size=3),
    "voids": some.dictionaries(WORD, some.just(True), max_size=2),
    "sales": some.lists(ANYTHING | FACT, max_size=2),
    "closes": some.lists(ANYTHING | FACT, max_size=2),
    "folded": some.dictionaries(some.sampled_from(["stock", "places"]), ANYTHING, max_size=2),
    "at": some.integers(0, 9),
    "places": some.lists(WORD, max_size=2),
    "amount": some.integers(0, 10**6),
    "lines": some.lists(some.fixed_dictionaries({"quantity": PIECES, "total": PIECES}), max_size=2),
    "back": some.lists(PIECES, max_size=2),
    "refunds": some.lists(
        some.fixed_dictionaries({
            "lines": some.lists(some.fixed_dictionaries({"quantity": PIECES, "total": PIECES}), max_size=2),
            "amount": PIECES,
        }),
        max_size=2,
    ),
    "basket": some.dictionaries(WORD, ANYTHING, max_size=2),
    "returned": some.lists(some.fixed_dictionaries({"quantity": PIECES, "total": PIECES}), max_size=2),
    "cash_rounding": some.sampled_from([1, 5]),
    "denominations": some.lists(some.integers(1, 5000), max_size=4),
    "session": WORD,
    "place": WORD,
    "which": some.sampled_from(["opening", "closing", "1", "0", "noon", ""]),
    "close": some.fixed_dictionaries({"scope": some.sampled_from(["all", "list"])}),
    "batches": some.dictionaries(WORD, BATCH | ANYTHING, max_size=2),
    "products": some.dictionaries(WORD, ANYTHING | some.fixed_dictionaries({"price": PIECES}), max_size=2),
    "source": WORD,
    "target": WORD,
    "booking": some.none() | WORD,
    "use": some.sampled_from(["sew", "pack", "eat"]),
    "stall": some.none() | WORD,
    "hours": some.lists(some.fixed_dictionaries({"at": PIECES, "name": some.just("09:00")}), max_size=3),
    "stock": some.lists(
        some.fixed_dictionaries({"place": WORD, "product": WORD, "quantity": PIECES}), max_size=2
    ),
    "boxes": some.lists(some.fixed_dictionaries({"box": some.just("tin")}), max_size=2),
    "box": some.just("tin"),
    "usual_float": some.integers(0, 10**6),
    "counted": some.lists(some.fixed_dictionaries({"value": PIECES, "count": PIECES}), max_size=3),
    "planned": some.lists(some.fixed_dictionaries({"product": WORD, "quantity": PIECES}), max_size=2),
    "markets": some.lists(
        some.fixed_dictionaries({
            "day": some.sampled_from(["2026-11-28", ""]),
            "booking": WORD,
            "noon": some.integers(0, 9),
            "since": some.sampled_from(["2026-11-28", ""]),
        })
        | ANYTHING,
        max_size=3,
    ),
    "days_sold": some.lists(
        some.fixed_dictionaries({
            "day": some.just("2026-11-28"), "booking": some.none() | WORD, "hours": some.integers(0, 9),
            "said": some.booleans(), "brought": PIECES, "taken": PIECES, "by_card": PIECES,
            "rows": some.lists(
                some.fixed_dictionaries({
                    "product": WORD, "sold": PIECES, "hours": some.none() | some.integers(0, 9),
                    "sold_out": some.booleans(),
                }),
                max_size=2,
            ),
        }),
        max_size=2,
    ),
    "capacity": PIECES,
    "made": some.lists(
        some.fixed_dictionaries({"booking": WORD, "product": WORD, "quantity": PIECES, "batches": PIECES}),
        max_size=2,
    ),
    "names": some.dictionaries(WORD, ANYTHING, max_size=2),
    "rule": some.sampled_from(["FREQ=WEEKLY;BYDAY=SA", "FREQ=DAILY", ""]),
    "day": some.sampled_from(["2026-11-28", "2026-02-30", ""]),
    "after": some.sampled_from(["9999-12-31", "2026-11-28", ""]),
    "most": some.integers(0, 3),
    "own": some.lists(CHANGE, max_size=2),
    "changes": some.lists(CHANGE, max_size=3),
}  # fmt: skip


def ask(method, **args):
    return json.loads(call(json.dumps({"method": method, "args": args})))


def rules(told):
    return {item["field"]: item["rule"] for item in told["problems"]}


@some.composite
def calls(draw):
    method = draw(some.sampled_from(sorted(METHODS)))
    args = {
        name: draw(some.one_of(LIKELY[name], LIKELY[name], LIKELY[name], ANYTHING))
        for name in METHODS[method][1]
    }
    for name in draw(some.lists(some.sampled_from(sorted(ARGUMENTS)), max_size=1)):
        args[name] = draw(ANYTHING)
    return {"method": method, "args": args}


@pytest.mark.parametrize("calculator, case", load_cases())
def test_a_case_comes_out_the_same_through_the_door(calculator, case):
    told = ask("answer", name=calculator, given=case["input"])
    check(case, told.get("answer", told))


@given(ANYTHING)
def test_any_json_gets_an_answer_or_problems(value):
    assert set(json.loads(call(json.dumps(value)))) in ({"answer"}, {"problems"})


@given(calls())
def test_any_call_gets_an_answer_or_problems(asked):
    told = json.loads(call(json.dumps(asked)))
    assert set(told) in ({"answer"}, {"problems"})


@given(some.text(max_size=30))
def test_any_text_gets_an_answer_or_problems(text):
    assert set(json.loads(call(text))) in ({"answer"}, {"problems"})


def as_typed_in(given):
    """Leave out objects of which nothing is said: a form cannot tell them from none."""
    said = {key: value for key, value in given.items() if not isinstance(value, dict)}
    return said | {
        key: value
        for key, value in given.items()
        if isinstance(value, dict) and any(part is not None for part in value.values())
    }


@pytest.mark.parametrize("name", NAMES)
def test_any_input_can_be_typed_and_answered_as_it_was(name, how_many):
    answered = 0
    for given_input in map(as_typed_in, random_inputs(name, how_many(60, 600), 6)):
        told = ask("answer", name=name, given=given_input)
        filled = ask("fill", name=name, typed=given_input, units={}, currency="EUR")["answer"]
        if "answer" in told:
            assert filled["result"] == told["answer"]["result"]
            answered += 1
    assert answered


@pytest.mark.parametrize("asked, told", [
    ({}, {"method": "required"}),
    ({"method": "sell"}, {"method": "choice"}),
    ({"method": ["answer"]}, {"method": "text"}),
    ({"method": "answer", "args": []}, {"args": "object"}),
    ({"method": "answer"}, {"name": "required", "given": "required"}),
    ({"method": "answer", "args": {"name": "strip-length", "given": {}, "when": 1}}, {"when": "unknown"}),
    ({"method": "answer", "args": {"name": "sell", "given": {}}}, {"name": "choice"}),
    ({"method": "blank", "args": {"name": "strip-length", "currency": "ECU"}}, {"currency": "choice"}),
    ({"method": "blank", "args": {"name": "strip-length", "units": {"loop": "ell"}, "currency": "EUR"}},
     {"units": "choice"}),
    ({"method": "why", "args": {"name": "strip-length", "typed": {}, "currency": "EUR", "output": "cost"}},
     {"output": "choice"}),
    ({"method": "convert", "args": {"text": "1", "unit": "mm", "to": "ell"}}, {"to": "choice"}),
    ({"method": "lengths_in_words", "args": {"lengths": ["1"], "unit": "mm"}}, {"lengths.0": "number"}),
    ({"method": "record_in_words", "args": {"kind_name": "sail", "fields": {}, "currency": "EUR"}},
     {"kind": "choice"}),
    ({"method": "check", "args": {"kind_name": "sail", "fields": {}, "new": True}}, {"kind": "choice"}),
    ({"method": "fold", "args": {"changes": [1]}}, {"changes.0": "change"}),
    ([], {"": "object"}),
    (None, {"": "object"}),
])  # fmt: skip
def test_a_wrong_call_gets_problems_that_name_what_is_wrong(asked, told):
    assert rules(json.loads(call(json.dumps(asked)))) == told


def test_text_that_is_no_json_gets_problems():
    assert rules(json.loads(call("{"))) == {"": "json"}
    assert rules(json.loads(call("[" * 100000))) == {"": "depth"}


def test_everything_declared_is_described():
    told = ask("describe")["answer"]
    assert [calculator["name"] for calculator in told["calculators"]] == NAMES
    assert told["length_units"] == list(UNITS)
    assert told["currencies"]["EUR"] == 2
    assert {"piece", "cloth", "list-line", "checklist-signature"} <= {kind["name"] for kind in told["kinds"]}


def test_every_argument_of_every_method_is_declared_and_used():
    used = {name for _, names in METHODS.values() for name in names}
    assert used == set(ARGUMENTS)
    assert set(LIKELY) == used
