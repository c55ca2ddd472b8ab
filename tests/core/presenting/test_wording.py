"""The one table of words: every rule has its words, and every word its rule."""

import ast
import re
from pathlib import Path

import pytest

from backend.core.declaring.errors import Problems, problem
from backend.core.presenting import wording
from backend.core.presenting.wording import ROUNDED, TEMPLATES, problems_in_words, word

CORE = Path(wording.__file__).parent.parent
TELLERS = ("problem", "note", "refuse")
AMOUNTS = (
    (5.0, 10, "length"),
    (890, 1000, "money"),
    (38.57, 40, "money_each"),
    (2, 3, "count"),
    ("x", "y", "choice"),
    (None, None, None),
)


def nodes():
    """Walk the syntax trees of the core but the table of words itself."""
    for path in sorted(CORE.rglob("*.py")):
        if path.name != "wording.py":
            yield from ast.walk(ast.parse(path.read_text(encoding="utf-8")))


def told_rules():
    calls = [node for node in nodes() if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)]
    rules = [call.args[1] for call in calls if call.func.id in TELLERS and len(call.args) > 1]
    return {rule.value for rule in rules if isinstance(rule, ast.Constant)}


def test_every_rule_told_has_words():
    rules = told_rules()
    assert len(rules) > 20
    assert rules - set(TEMPLATES) == set()


def test_every_rule_with_words_is_told_somewhere():
    # some rules are chosen from a small table, so any text of the core counts
    texts = {node.value for node in nodes() if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    assert set(TEMPLATES) - texts == set()


def test_words_hold_only_the_two_marks():
    for rule, text in TEMPLATES.items():
        assert set(re.findall(r"\{\w*\}", text)) <= {"{given}", "{limit}"}, rule
    assert all(rule in TEMPLATES and f"{{{part}}}" in TEMPLATES[rule] for rule, part in ROUNDED)


@pytest.mark.parametrize("rule", TEMPLATES)
def test_any_rule_can_be_worded_for_any_quantity(rule):
    for given, limit, quantity in AMOUNTS:
        for unit, currency in [("", None), ("in", "EUR"), ("yd", "JPY")]:
            told = word(problem("loop", rule, given, limit, quantity), unit, currency)
            assert told and "{" not in told


def test_words_use_the_unit_on_the_screen():
    low = problem("loop", "lowest", 5.0, 10, "length")
    assert word(low) == "must be at least 10 mm; 5 mm given"
    assert word(low, "cm") == "must be at least 1 cm; 0.5 cm given"
    high = problem("price", "highest", 200000, 100000, "money")
    assert word(high, "", "EUR") == "must be at most 1000.00 EUR; 2000.00 EUR given"
    assert word(high) == "must be at most 100000 minor units; 200000 minor units given"


def test_a_limit_in_inches_is_rounded_to_the_side_that_is_allowed():
    # 10 mm is a little over 3/8 in, so 3/8 in would be refused again
    assert word(problem("loop", "lowest", 9.525, 10, "length"), "in") == "must be at least ½ in; ⅜ in given"
    assert word(problem("loop", "highest", 2100.0, 2000, "length"), "in") == (
        "must be at most 78⅝ in; 82⅝ in given"
    )


def test_too_long_by_a_hair_is_never_too_long_by_nothing():
    told = word(problem("bolt_width", "fits_not_across", 0.01, 1352.0, "length"), "cm")
    assert told == "across, the strip is 0.01 cm longer than the usable width of 135.2 cm"


def test_a_persons_own_text_is_not_taken_for_a_mark():
    assert word(problem("way", "choice", "{limit}", "best, across", "choice")) == (
        "must be one of: best, across; {limit} given"
    )


def test_what_was_refused_is_said_with_its_field_limit_and_unit():
    refused = [problem("strips", "too_many_to_cut", 2160, 2000, "count")]
    refused.append(problem("cloths.0.bolt_width", "lowest", 127.0, 254, "length"))
    assert problems_in_words(refused, "in", "EUR") == (
        "strips come to 2160 pieces; at most 2000 can be planned at once; "
        "cloths 1 bolt width must be at least 10 in; 5 in given"
    )


@pytest.mark.parametrize("item", [
    1, {}, problem("a", "no rule"), problem("a", []), problem(1, "lowest"), problem("a", "lowest", [], 2),
    problem("a", "lowest", 1e999, 2),
])  # fmt: skip
def test_what_nothing_told_is_not_worded(item):
    with pytest.raises(Problems):
        problems_in_words([item], "mm", "EUR")
