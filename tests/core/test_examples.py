"""The examples in the core's docstrings are true."""

import importlib
import inspect
import pkgutil

import pytest

import backend.core
from backend.core.declaring.errors import problem

MODULES = [
    importlib.import_module(found.name)
    for found in pkgutil.walk_packages(backend.core.__path__, "backend.core.")
]
EXAMPLES = [
    (module, name, " ".join(inspect.getdoc(function).partition("Example: ")[2].split()))
    for module in MODULES
    for name, function in inspect.getmembers(module, inspect.isfunction)
    if function.__module__ == module.__name__ and "Example: " in (inspect.getdoc(function) or "")
]


@pytest.mark.parametrize("module, name, example", EXAMPLES, ids=[name for _, name, _ in EXAMPLES])
def test_an_example_is_true(module, name, example):
    assert name + "(" in example
    assert eval(example, {**vars(module), "problem": problem}) is True


def test_the_examples_are_found():
    assert {"show_length", "parse_money", "floor", "word", "eighths"} <= {name for _, name, _ in EXAMPLES}
