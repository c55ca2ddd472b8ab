"""One word for one thing: no text that a person reads uses a word that has another in its place."""

import ast
import json
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent

# what is not said, and what is said instead
SAID_INSTEAD = {
    r"devices?": "phone",
    r"(is|was|not) kept|kept on this phone|keep it": "saved, recorded",
    r"exchang(e|es|ed|ing)": "sync, sent",
    r"what waits": "waiting to send",
    r"tak(e|es|en|ing) a copy in": "load a copy",
    r"never happened": "void, undo",
    r"puts? away|let(s|ting)? (it |them )?go": "archive, discard",
    r"to start with": "float",
    r"fairs?": "market, booking",
    r"any cloth|unknown cloth": "cloth not named",
    r"(the|a|one) lay|layers?": "stack, ply",
    r"what is where": "stock by place",
    r"had none": "asked for, none left",
    r"free price|something else, for": "other item",
    r"cheaper by|take off": "discount, apply",
    r"look and close": "check and close",
    r"still lay there": "still on the table",
    r"this cut is about": "this cut is outlined",
    r"storage that stays": "safe from clearing",
    r"the other said|take the other|leave it so": "the other phone had, use the other, keep this",
    r"let in no more|(is|was) taken off": "can no longer connect, removed",
    r"on the spot": "without a booking",
    r"is thought of": "is set",
    r"too much in the box": "over",
    r"may be done": "the usual cautions",
}
FORBIDDEN = re.compile("|".join(rf"(?<![\w-])({words})(?![\w-])" for words in SAID_INSTEAD), re.IGNORECASE)

# who speaks of something else by such a word
RIGHT = {
    "backend/core/safety/items_everywhere.py": "a blade is put away, a residual current device has that name",
    "backend/core/safety/items_hand_cutting.py": "a blade is closed before it is let go",
    "backend/core/safety/items_powered_knife.py": "a switch is let go",
    "backend/core/safety/items_pressing.py": "an iron is let go",
    "backend/core/safety/items_sewing.py": "a machine's foot lets go",
    "backend/core/safety/terms.py": "names of groups and of a published page",
    "backend/core/safety/refusals.py": "a blade is put away",
    "backend/core/safety/at_the_table.py": "the name of a group",
    "backend/core/safety/safe_cutting_checklist.py": "a formula's names of fields",
    "backend/sync/words.py": "the stamp of a change, as the protocol calls its parts",
    "backend/sync/copies.py": "the name of a file in a copy",
}

SCRIPTS = sorted((ROOT / "frontend" / "views").rglob("*.js"))
MODULES = [
    path
    for part in ("core", "api", "cli", "sync", "access")
    for path in sorted((ROOT / "backend" / part).rglob("*.py"))
]

COMMENTS = re.compile(r"/\*.*?\*/|(?<![:\w])//[^\n]*", re.DOTALL)


def texts_of_script(source):
    """Every text of a script that may be read: in quotes, or between the tags of a template."""
    source = COMMENTS.sub("", source)
    yield from re.findall(r"'((?:[^'\\\n]|\\.)*)'", source)
    # between two tags, or a value and a tag, of what htm makes
    for text in re.findall(r"[>}]([^<>{}`$=]*)(?:<|\$\{)", source):
        yield text.strip()


def texts_of_module(source):
    """Every text of a module but its docstrings."""
    tree = ast.parse(source)
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs:
            yield node.value


def is_read(text):
    """Words, and no name of a field, a file or a class."""
    return " " in text.strip() or text.strip()[:1].isupper()


def of(path):
    return str(path.relative_to(ROOT))


def wrong(texts):
    return [text for text in texts if is_read(text) and FORBIDDEN.search(text)]


@pytest.mark.parametrize("path", SCRIPTS, ids=of)
def test_a_screen_says_one_word_for_one_thing(path):
    assert wrong(texts_of_script(path.read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize("path", MODULES, ids=of)
def test_the_core_the_api_and_the_console_say_the_same(path):
    found = wrong(texts_of_module(path.read_text(encoding="utf-8")))
    assert bool(found) == (of(path) in RIGHT), found


def test_what_is_new_is_told_in_the_same_words():
    changelog = json.loads((ROOT / "frontend" / "changelog.json").read_text(encoding="utf-8"))
    assert wrong(line for entry in changelog for line in entry["changes"]) == []


def test_a_word_that_has_another_in_its_place_is_found():
    script = (
        "html`<p class='kept'>${n} is kept</p><b>${a ? 'Put away' : 'x'}</b>`; // fair\nrecall('device');"
    )
    assert wrong(texts_of_script(script)) == ["Put away", "is kept"]
    assert wrong(texts_of_module('"""A device."""\nx = "one device", "device"')) == ["one device"]
