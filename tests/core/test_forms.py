"""Forms: what is typed on the phone, what it is answered, and what is passed on."""

import pytest
from random_inputs import random_inputs

from backend.core import forms
from backend.core.catalogue import NAMES, answer
from backend.core.explaining import why
from backend.core.units import UNITS

LAWN = {
    "strip_length": "482",
    "strip_width": "110",
    "bolt_width": "140",
    "shrink_length": "3",
    "shrink_width": "2",
}
EVERYDAY = {
    "strip_length": 482,
    "strip_width": 110,
    "bolt_width": 1400,
    "shrink_length": 3,
    "shrink_width": 2,
}


def fill(name, typed, **units):
    return forms.fill(name, typed, units, "EUR")


def test_what_is_typed_is_answered_as_the_api_answers():
    filled = fill("fabric-per-dozen", {**LAWN, "quantity": "60", "price": "8,90", "price_length": "1"})
    given = {**EVERYDAY, "quantity": 60, "price": 890}
    assert filled["result"] == answer("fabric-per-dozen", given)["result"]
    assert filled["problems"] == {}
    assert filled["shown"]["length_to_buy"] == "260 cm"
    assert filled["shown"]["cost"] == "23.14 EUR"
    assert filled["shown"]["cost_each"] == "0.3857 EUR"


def test_what_is_drawn_is_not_told_in_words():
    filled = fill(
        "remnant-yield", {"width": "60", "length": "45", "strip_length": "482", "strip_width": "110"}
    )
    assert len(filled["result"]["placed"]) == 4
    assert "placed" not in filled["shown"]


def test_each_field_has_its_own_unit():
    typed = {**LAWN, "strip_length": "18 1/8", "bolt_width": "1 1/2", "strip_width": "11"}
    filled = fill("fabric-per-dozen", typed, strip_length="in", bolt_width="yd", strip_width="cm")
    assert filled["input"]["strip_length"] == 460.375
    assert filled["input"]["bolt_width"] == pytest.approx(1371.6)
    assert filled["input"]["strip_width"] == 110


def test_a_length_to_buy_is_shown_rounded_up():
    # 200 mm is 7.874 in, 500 mm 19.69 in: 19 5/8 in would be too little
    shown = fill("fabric-per-dozen", {**LAWN, "quantity": "1"}, **{"=length_to_buy": "in"})["shown"]
    assert shown["length_to_buy"] == "7 7/8 in"
    assert forms.lengths_in_words([500], "in") == ["19 3/4 in"]
    assert forms.lengths_in_words([2600], "cm") == ["260 cm"]


def test_every_bad_text_is_told_in_words_beside_its_field():
    filled = fill("fabric-per-dozen", {**LAWN, "strip_length": "long", "bolt_width": "1", "price": "8.905"})
    assert filled["result"] is None
    assert filled["shown"] == {}
    assert filled["problems"] == {
        "strip_length": "must be a number",
        "price": "may have at most 2 decimals in this currency",
    }
    assert fill("strip-length", {"loop": "0.5"}, loop="cm")["problems"] == {
        "loop": "must be at least 1 cm; 0.5 cm given"
    }


def test_what_does_not_go_together_is_told_in_the_unit_of_its_field():
    filled = fill("fabric-per-dozen", {**LAWN, "direction": "across", "bolt_width": "40"}, bolt_width="cm")
    assert filled["problems"] == {
        "bolt_width": "across, the strip is 11 cm longer than the usable width of 37.2 cm"
    }


@pytest.mark.parametrize("typed", [None, [], "text", 7])
def test_what_is_no_form_gets_problems(typed):
    assert fill("strip-length", typed)["problems"] == {"": "must be an object with named fields"}


@pytest.mark.parametrize("rows, told", [
    ("x", {"cloths": "must be a list"}),
    ({}, {"cloths": "must be a list"}),
    ([1], {"cloths.0": "must be an object with named fields"}),
    ([None], {"cloths.0": "must be an object with named fields"}),
    ([], {"cloths": "needs at least 1 row"}),
])  # fmt: skip
def test_rows_of_any_shape_get_problems(rows, told):
    filled = fill("cloth-compare", {"strip_length": "482", "strip_width": "110", "cloths": rows})
    assert filled["problems"] == told


def test_a_value_that_is_no_text_is_checked_as_it_is():
    problems = fill(
        "strip-length", {"loop": True, "fullness": [2], "tube_width": {}, "stretch_cloth": "yes"}
    )["problems"]
    assert problems == {
        "loop": "must be a number", "fullness": "must be a number", "tube_width": "must be a number",
        "stretch_cloth": "must be true or false",
    }  # fmt: skip


def test_notes_speak_in_the_unit_of_their_field():
    typed = {"strip_length": "300", "strip_width": "100", "cloths": [
        {"name": name, "bolt_width": width, "shrink_length": "0", "shrink_width": "0", "selvedge": "0",
         "squaring": "0", "price": price, "price_length": "1"}
        for name, width, price in [("narrow", "25", "5"), ("wide", "60", "10")]
    ]}  # fmt: skip
    notes = fill("cloth-compare", typed)["notes"]
    assert [note["text"] for note in notes] == [
        "if all were as wide as 60 cm, narrow would come first: width changes the order",
        "narrow is the cheapest cloth a metre, but not the cheapest a piece",
    ]
    inch = fill("cloth-compare", typed, **{"cloths.0.bolt_width": "in", "cloths.1.bolt_width": "in"})
    assert inch["result"] is None or "in," in inch["notes"][0]["text"]


@pytest.mark.parametrize("name", NAMES)
def test_a_blank_form_says_only_what_is_needed(name):
    blank = forms.blank(name, {}, "EUR")
    told = fill(name, blank["typed"])["problems"]
    assert set(told.values()) <= {"is needed", "needs at least 1 row"}


@pytest.mark.parametrize("unit", UNITS)
def test_a_blank_form_in_any_unit_is_within_the_limits(unit):
    for name in NAMES:
        lengths = [
            field.name
            for field in forms.calculator_named(name).inputs
            if field.quantity == "length" and not field.choices and not field.keeps_number
        ]
        units = dict.fromkeys(lengths, unit)
        told = forms.fill(name, forms.blank(name, units, "EUR")["typed"], units, "EUR")["problems"]
        assert set(told.values()) <= {"is needed", "needs at least 1 row"}, (name, told)


@pytest.mark.parametrize("unit", UNITS)
def test_strips_that_fit_a_width_still_fit_it_when_passed_on(unit):
    fit = answer("strip-length", {"usable_width": 1352})["result"]["best_fit"]
    units = {"strip_length": unit, "strip_width": unit}
    passed = {"strip_length": fit["strip_length"], "strip_width": 110}
    typed = {**LAWN, **forms.show_inputs("fabric-per-dozen", passed, units, "EUR"), "direction": "across"}
    assert forms.fill("fabric-per-dozen", typed, units, "EUR")["result"]["per_row"] == fit["per_row"] == 3


def test_values_of_another_shape_are_left_out_when_passed_on():
    given = {
        "loop": "wide",
        "fullness": True,
        "tube_width": None,
        "stretch_cloth": "yes",
        "end_seam": 12.7,
        "x": 1,
    }
    assert forms.show_inputs("strip-length", given, {"end_seam": "in"}, "EUR") == {"end_seam": "1/2"}
    rows = forms.show_inputs("cloth-compare", {"cloths": [1]}, {}, "EUR")
    assert rows == {}


def test_rows_are_passed_on_with_texts_flags_and_money():
    cloth = {"name": "lawn", "bolt_width": 1400.0, "mixed": True, "price": 890, "shrink_length": 3.0}
    assert forms.show_inputs("cloth-compare", {"cloths": [cloth]}, {}, "EUR") == {
        "cloths": [
            {"name": "lawn", "bolt_width": "140", "mixed": True, "price": "8.90", "shrink_length": "3"}
        ]
    }


def test_a_list_of_facts_is_passed_on_as_it_is():
    facts = [{"kind": "sale", "at": 1, "lines": []}]
    given = {"facts": facts}
    assert forms.show_inputs("stock-on-hand", given, {}, "EUR") == given


def test_a_length_is_rewritten_in_another_unit():
    assert forms.convert("18 1/8", "in", "mm") == "460.375"
    assert forms.convert("460.375", "mm", "in") == "18 1/8"
    assert forms.convert("wide", "mm", "in") == "wide"


def test_a_record_is_told_in_words():
    cloth = {
        "name": "lawn",
        "bolt_width": 1400.0,
        "mixed": True,
        "tear": False,
        "price": 890,
        "repeat": "?",
        "id": 1,
    }
    assert forms.record_in_words("cloth", cloth, {}, "EUR") == "bolt width 140 cm, mixed, price 8.90 EUR"


def test_why_puts_her_numbers_into_the_formula():
    told = why("fabric-per-dozen", {**LAWN, "quantity": "60"}, {}, "EUR", "length_needed")
    assert told["words"] == "(washed length + squaring) ÷ (1 − shrink length ÷ 100)"
    assert told["numbers"] == "(241 cm + 50 mm) ÷ (1 − 3 ÷ 100)"
    assert told["equals"] == "253.61 cm"
    assert len(told["matters"]) == 3
    assert "quantity, 1 more: +49.7 cm" in told["matters"]


def test_why_of_an_estimate_shows_the_estimate_not_a_blank():
    told = why("elastic-cut-length", {"loop": "165"}, {}, "EUR", "cut_length")
    assert told["numbers"] == "165 mm + 36.6 mm + 2 × 20 mm"
    assert told["equals"] == "241.6 mm"


def test_why_of_a_cost_moves_the_price_by_whole_minor_units():
    # 2.6 m at 8.90 are 23.14; at 9.34, a twentieth more, 24.28
    told = why("fabric-per-dozen", {**LAWN, "quantity": "60", "price": "8.90"}, {}, "EUR", "cost")
    assert "price, 5 % more: +1.14 EUR" in told["matters"]


@pytest.mark.parametrize("name", NAMES)
def test_every_output_can_be_explained_as_it_is_shown(name):
    has_formulas = any(field.formula for field in forms.calculator_named(name).outputs)
    explained = 0
    for typed in random_inputs(name, 30, 11):
        shown = fill(name, typed)["shown"]
        for output in shown:
            told = why(name, typed, {}, "EUR", output)
            assert told["equals"] in (shown[output], "")
            assert "{" not in told["words"] + told["numbers"]
            explained += bool(told["words"])
    assert bool(explained) == has_formulas


def test_why_shows_which_way_even_a_hair_goes():
    told = why("elastic-cut-length", {"loop": "165", "tail": "1"}, {}, "EUR", "cut_length")
    assert "pull, 5 % more: −2.6 mm" in told["matters"]
    told = why("elastic-cut-length", {"loop": "10", "tail": "1", "knot_takeup": "0"}, {}, "EUR", "cut_length")
    assert told["matters"] == ["loop, 5 % more: +0.5 mm", "tail, 5 % more: +0.1 mm"]


def test_why_of_a_word_says_the_rule_alone():
    told = why("strip-length", {}, {}, "EUR", "stopped_by")
    assert told["equals"] == "elastic"
    assert told["words"]
    assert told["matters"] == []


def test_why_is_empty_where_there_is_nothing_to_explain():
    nothing = {"words": "", "numbers": "", "equals": "", "matters": []}
    assert why("strip-length", {"loop": "wide"}, {}, "EUR", "strip_length") == nothing
    assert why("strip-length", {}, {}, "EUR", "fits") == nothing
    assert why("fabric-per-dozen", LAWN, {}, "EUR", "cost") == nothing


@pytest.mark.parametrize("name", NAMES)
def test_every_formula_names_only_inputs_and_outputs(name):
    calculator = forms.calculator_named(name)
    known = {field.name for field in calculator.inputs + calculator.outputs}
    for field in calculator.outputs:
        named = set((field.formula or "").replace("{", "}").split("}")[1::2])
        assert named <= known, field.name
