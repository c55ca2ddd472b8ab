"""A phone gets the core's own statements, each on its line, and none of the prose."""

import ast

import pytest

from backend.app import CORE
from backend.shell.core_sources import read_core, without_prose

SOURCES = sorted(CORE.rglob("*.py"))


def statements(text):
    """Read a text's statements with their lines, docstrings emptied."""
    tree = ast.parse(text)
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if isinstance(body, list) and body and isinstance(body[0], ast.Expr):
            value = body[0].value
            if isinstance(value, ast.Constant) and isinstance(value.value, str):
                body[0] = ast.Expr(ast.Constant(""))
    lines = [node.lineno for node in ast.walk(tree) if isinstance(node, ast.stmt) and hasattr(node, "lineno")]
    return ast.dump(tree), lines


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(CORE).as_posix())
def test_every_statement_stays_as_it_is_and_where_it_is(path):
    text = path.read_text(encoding="utf-8")
    assert statements(without_prose(text)) == statements(text)


def test_prose_is_left_out():
    for path, text in read_core(CORE).items():
        assert '"""' not in text, path
        assert not any(line.strip().startswith("#") for line in text.splitlines()), path


def test_a_text_that_only_looks_like_prose_stays():
    text = 'ONE = (\n    "a # b"\n    "c"\n)\nTWO = [\n    # why\n    "d",  # e\n    "f"  # g\n]\n'
    assert without_prose(text) == 'ONE = (\n "a # b"\n "c"\n)\nTWO = [\n\n "d",\n "f"\n]\n'
