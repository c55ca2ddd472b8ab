"""Forms: what is typed on the phone, what it is answered, and what is passed on."""

import itertools

import pytest

from backend.core.catalogue import NAMES, answer
from backend.core.numbers.units import UNITS, parse_length
from backend.core.presenting import forms, rewriting
from backend.core.presenting.explaining import why
from backend.core.presenting.record_forms import record_in_words
from tests.core.random_inputs import random_inputs

# what a form that nothing was typed into still wants
EMPTY = {"is needed", "needs 1 or more rows", "needs 2 or more rows"}
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
    assert filled["shown"]["length_to_buy"] == "2.60 m"
    assert filled["shown"]["cost"] == "23.14 EUR"
    assert filled["shown"]["cost_each"] == "38.6 c"
    told = why("fabric-per-dozen", {**LAWN, "quantity": "60", "price": "8.90"}, {}, "EUR", "cost_each")
    assert told["equals"] == "0.3857 EUR"


def test_what_is_drawn_is_not_told_in_words():
    filled = fill(
        "remnant-yield", {"width": "60", "length": "45", "strip_length": "482", "strip_width": "110"}
    )
    assert len(filled["result"]["placed"]) == 4
    assert "placed" not in filled["shown"]


def test_a_part_of_a_form_is_typed_like_the_form():
    filled = fill("price", {"cost": "1,50", "price": "6", "offer": {"n": "3", "price": "15.00"}})
    assert filled["input"] == {"cost": 150, "price": 600, "offer": {"n": 3, "price": 1500}}
    assert filled["shown"]["offer"]["each"] == "5.00 EUR"
    bad = fill("price", {"cost": "1,50", "price": "6", "offer": {"n": "0", "price": "15 euros"}})
    assert set(bad["problems"]) == {"offer.n", "offer.price"}


def test_what_is_a_number_or_has_parts_is_typed_either_way():
    thread = {
        "seams": [{"name": "Side", "length": "482"}],
        "colours": [{"needle": "Fog", "quantity": "48"}],
        "spools": [
            {"colour": "Fog", "length": "1000", "at_home": {"grams": "34", "empty": "10", "tex": "40"}},
            {"colour": "Fog", "length": "1000", "at_home": "600"},
        ],
    }
    filled = fill("thread", thread)
    weighed, measured = (spool["at_home"] for spool in filled["input"]["spools"])
    assert weighed == {"grams": 34, "empty": 10, "tex": 40}
    assert measured == 600000
    again = forms.show_inputs("thread", filled["input"], {}, "EUR")
    assert [spool["at_home"] for spool in again["spools"]] == [thread["spools"][0]["at_home"], "600"]


def test_each_field_has_its_own_unit():
    typed = {**LAWN, "strip_length": "18 1/8", "bolt_width": "1 1/2", "strip_width": "11"}
    filled = fill("fabric-per-dozen", typed, strip_length="in", bolt_width="yd", strip_width="cm")
    assert filled["input"]["strip_length"] == 460.375
    assert filled["input"]["bolt_width"] == pytest.approx(1371.6)
    assert filled["input"]["strip_width"] == 110


def test_a_length_to_buy_is_shown_rounded_up():
    # 200 mm is 7.874 in, 500 mm 19.69 in: 19 5/8 in would be too little
    shown = fill("fabric-per-dozen", {**LAWN, "quantity": "1"}, **{"=length_to_buy": "in"})["shown"]
    assert shown["length_to_buy"] == "7⅞ in"
    assert forms.lengths_in_words([500], "in") == ["19¾ in"]
    assert forms.lengths_in_words([2600, 50000, 600, 2604], "m") == ["2.60 m", "50 m", "60 cm", "2.61 m"]
    assert forms.lengths_in_words([2057.4, 914.4], "m") == ["2¼ yd (2.06 m)", "1 yd (91.5 cm)"]
    assert forms.lengths_in_words([236, 1352.4, 36.6, 0.3], "mm") == ["236 mm", "135.3 cm", "37 mm", "0.3 mm"]


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
    ([], {"cloths": "needs 1 or more rows"}),
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


def test_a_note_tells_what_is_short_of_a_metre_in_centimetres():
    # 5 rows of 110 and 50 of squaring are 600 as well bought as needed
    typed = {**LAWN, "quantity": "10", "shrink_length": "0", "shrink_width": "0", "direction": "across"}
    [note] = fill("fabric-per-dozen", typed)["notes"]
    assert note["text"] == "only 0 cm to spare: one increment of 10 cm more?"


@pytest.mark.parametrize("name", NAMES)
def test_a_blank_form_says_only_what_is_needed(name):
    blank = forms.blank(name, {}, "EUR")
    told = fill(name, blank["typed"])["problems"]
    assert set(told.values()) <= EMPTY


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
        assert set(told.values()) <= EMPTY, (name, told)


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
    assert rewriting.convert("18 1/8", None, "in", "cm", "nearest") == {"text": "46.04", "mm": 460.375}
    assert rewriting.convert("460.375", None, "mm", "in", "nearest") == "18 1/8"
    assert rewriting.convert("wide", None, "mm", "in", "nearest") == "wide"


def test_what_must_fit_is_rewritten_no_longer_than_it_is():
    assert rewriting.convert("1399", None, "mm", "in", "nearest")["text"] == "55 1/8"
    assert rewriting.convert("1399", None, "mm", "in", "down") == {"text": "55", "mm": 1399}


@pytest.mark.parametrize("first", UNITS)
def test_a_length_goes_through_all_units_and_back_without_loss(first):
    mm = parse_length("165.3", first)
    typed = "165.3"
    for unit, to in itertools.pairwise((first, *UNITS, "in", "yd", first)):
        exact = typed["mm"] if isinstance(typed, dict) else None
        text = typed["text"] if isinstance(typed, dict) else typed
        typed = rewriting.convert(text, exact, unit, to, "nearest")
        read = forms.fill("strip-length", {"loop": typed}, {"loop": to}, "EUR")["input"]["loop"]
        assert read == pytest.approx(mm, rel=1e-8)
    # an inch is shown in eighths, whatever is held beside
    told = {"in": "165 1/4"}.get(first, "165.3")
    assert (typed["text"] if isinstance(typed, dict) else typed) == told


def test_an_exact_value_beside_a_text_counts_and_a_text_typed_over_it_does():
    held = {"text": "6 1/2", "mm": 165}
    assert forms.show_inputs("strip-length", {"loop": 481.99999999999994}, {}, "EUR") == {"loop": "482"}
    assert fill("strip-length", {"loop": held}, loop="in")["input"]["loop"] == 165
    assert fill("strip-length", {"loop": "6 1/2"}, loop="in")["input"]["loop"] == 6.5 * 25.4
    for bad in ({"text": "6"}, {"mm": "6"}, {"mm": True}, {}):
        assert fill("strip-length", {"loop": bad})["problems"] == {"loop": "must be a number"}


def test_the_next_eighth_is_up_or_down_from_what_is_typed():
    steps = [("", True, "1/8"), ("6", True, "6 1/8"), ("6 3/8", False, "6 1/4"), ("6.2", True, "6 1/4"),
             ("6.2", False, "6 1/8"), ("1/8", False, "0"), ("0", False, "0"), ("x", True, "x")]  # fmt: skip
    assert [rewriting.next_eighth(text, up) for text, up, _ in steps] == [told for *_, told in steps]


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
    assert record_in_words("cloth", cloth, {}, "EUR") == "bolt width 140 cm, mixed, price 8.90 EUR"


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


def soon_over(typed):
    """Let a long calculation end early: why asks it again for each number that was typed."""
    return {**typed, "steps": 200} if isinstance(typed.get("steps"), int | float) else typed


@pytest.mark.parametrize("name", NAMES)
def test_every_output_can_be_explained_as_it_is_shown(name):
    has_formulas = any(field.formula for field in forms.calculator_named(name).outputs)
    explained = 0
    for typed in map(soon_over, random_inputs(name, 30, 11)):
        shown = fill(name, typed)["shown"]
        for output in shown:
            told = why(name, typed, {}, "EUR", output)
            if told["equals"]:
                [field] = [field for field in forms.calculator_named(name).outputs if field.name == output]
                value = fill(name, typed)["result"][output]
                assert told["equals"] == forms.show_exactly(field, value, field.unit, "EUR")
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


def test_an_emptied_field_is_empty_and_never_a_default_that_nobody_sees():
    assert fill("fabric-per-dozen", {**LAWN, "quantity": "12"})["result"]
    filled = fill("fabric-per-dozen", {**LAWN, "quantity": "", "selvedge": "", "price": ""})
    assert filled["result"] is None
    assert filled["problems"] == {"quantity": "is needed", "selvedge": "is needed"}


ORDER = {"batches": [{"name": "a", "needle": "white", "bobbin": "white", "method": "straight"}]}


def test_a_part_of_a_form_that_is_left_empty_is_none():
    blank = forms.blank("batch-order", {}, "EUR")["typed"]
    assert blank["at_start"] == {"needle": "", "bobbin": "", "method": "", "cloth": ""}
    told = fill("batch-order", {**blank, **ORDER})
    assert told["problems"] == {} and "at_start" not in told["input"]
    told = fill("batch-order", {**blank, **ORDER, "at_start": {**blank["at_start"], "needle": "blue"}})
    assert told["input"]["at_start"] == {"needle": "blue"}
    assert told["shown"]["minutes"] == "8 min"
    assert forms.show_inputs("batch-order", told["input"], {}, "EUR") == {
        **ORDER, "at_start": {"needle": "blue"}, "needle_minutes": "2", "bobbin_minutes": "1",
        "method_minutes": "5", "cloth_minutes": "0", "set_ups": [], "steps": "4096",
    }  # fmt: skip


def test_a_list_of_plain_values_is_told_one_by_one():
    steps = [{"name": "Sew", "per": "piece", "minutes": "1", "allowance": "0"}]
    told = fill("batch-time", {"steps": steps, "people": "2", "quantity": "24", "machines": []})
    assert told["shown"]["waiting"] == ["0 min", "0 min"]
    assert told["shown"]["steps"][0]["left_out"] == []
