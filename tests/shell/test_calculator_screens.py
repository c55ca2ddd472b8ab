"""Each calculator's screen is one module, and what that names is declared."""

import re

import pytest

from backend.app import FRONTEND
from backend.core.catalogue import NAMES, calculator_named
from backend.core.records.checking import kind_named

SCREENS = sorted((FRONTEND / "views/buy/calculators").glob("*.js"))
EACH = pytest.mark.parametrize("screen", SCREENS, ids=lambda path: path.stem)


def entry_of(screen):
    """Read the entry that a screen is made of, as text."""
    [entry] = re.findall(
        r"export const Screen = calculatorScreen\(\{\n(.*?)\n\}\);", screen.read_text("utf-8"), re.DOTALL
    )
    return entry


def named(part, entry):
    return re.findall(rf"\b{part}: '([^']+)'", entry)


def lists_of(calculator):
    return {field.name for field in calculator_named(calculator).inputs if field.fields}


@EACH
def test_a_screen_is_called_after_its_calculator(screen):
    assert named("name", entry_of(screen))[0] == screen.stem
    assert screen.stem in NAMES


@EACH
def test_what_an_entry_names_is_declared(screen):
    entry = entry_of(screen)
    steps = named("to", entry)
    assert set(steps + named("ahead", entry) + named("workedBy", entry)) <= set(NAMES)
    assert all(kind_named(kind) for kind in named("kind", entry))
    # a row is of a list of its own form, or of a form that comes next
    lists = set().union(*map(lists_of, [screen.stem, *steps]))
    assert set(named("list", entry)) <= lists
    rows = "".join(re.findall(r"\brows: \{(.*?)\}", entry))
    assert set(re.findall(r"(\w+):", rows)) == lists_of(screen.stem)


@EACH
def test_groups_whose_texts_come_back_are_groups_of_the_form(screen):
    groups = {field.group for field in calculator_named(screen.stem).inputs}
    again = re.findall(r"'([^']+)'", "".join(re.findall(r"\bagain: \[(.*?)\]", entry_of(screen), re.DOTALL)))
    assert set(again) <= groups


def test_the_general_screen_knows_no_calculator():
    for path in (FRONTEND / "views/buy").glob("*.js"):
        text = re.sub(r"/\*.*?\*/|//[^\n]*", "", path.read_text("utf-8"), flags=re.DOTALL)
        known = [name for name in NAMES if re.search(rf"""['"`]{name}['"`]""", text)]
        assert known == [], path.name
