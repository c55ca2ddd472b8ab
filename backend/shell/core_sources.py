"""The core's Python files as a phone gets them: each statement on one line, no prose, narrow margins."""

import ast
import json
import sys
from pathlib import Path

from .keeping import made_once

INDENT = 4


def read_core(core):
    """Read the core's Python files, as {path from its parent folder: text}."""
    texts = {
        f"{core.name}/{file.relative_to(core).as_posix()}": file.read_text(encoding="utf-8")
        for file in sorted(core.rglob("*.py"))
    }
    # each version of Python may write a statement in its own way
    how = f"{sys.version} {Path(__file__).read_text(encoding='utf-8')}"
    return json.loads(made_once(how, json.dumps(texts).encode(), _all_without_prose))


def _all_without_prose(texts):
    return json.dumps({path: without_prose(text) for path, text in json.loads(texts).items()}).encode()


def without_prose(text):
    """Write a module anew without comments, docstrings and empty lines, each level set in by one space."""
    tree = ast.parse(text)
    for node in ast.walk(tree):
        if isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) and ast.get_docstring(node):
            node.body = node.body[1:] or ([] if isinstance(node, ast.Module) else [ast.Pass()])
    return "".join(_set_in(line) + "\n" for line in ast.unparse(tree).splitlines() if line)


def _set_in(line):
    # a text of several lines is written as one, so that what begins a line is no part of it
    statement = line.lstrip(" ")
    return " " * ((len(line) - len(statement)) // INDENT) + statement
