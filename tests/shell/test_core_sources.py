"""A phone gets the core's own statements, each on its line, and none of the prose."""

import ast

import pytest

from backend.app import CORE
from backend.shell.core_sources import read_core, without_prose

SOURCES = sorted(CORE.rglob("*.py"))


def statements(text):
    """Read a text's statements, docstrings left out."""
    tree = ast.parse(text)
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) and ast.get_docstring(node):
            del node.body[0]
    return ast.dump(tree)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(CORE).as_posix())
def test_every_statement_stays_as_it_is(path):
    text = path.read_text(encoding="utf-8")
    assert statements(without_prose(text)) == statements(text)


def test_prose_is_left_out():
    for path, text in read_core(CORE).items():
        assert '"""' not in text, path
        assert not any(line.strip().startswith("#") for line in text.splitlines()), path


def test_a_text_that_only_looks_like_prose_stays():
    text = 'ONE = (\n    "a # b"\n    "c"\n)\n\n\ndef two():\n    return [\n        "d",  # e\n    ]\n'
    assert without_prose(text) == "ONE = 'a # bc'\ndef two():\n return ['d']\n"


def test_what_is_prose_alone_does_nothing():
    assert without_prose('"""Say."""\n') == ""
    assert without_prose('class One(Two):\n    """Say."""\n') == "class One(Two):\n pass\n"
