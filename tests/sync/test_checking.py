"""The fast check says what the core's check says, and never more."""

from random import Random

import pytest

from backend.core.declaring.errors import Problems
from backend.core.records import checking
from backend.core.records.checking import KINDS
from backend.sync.changes import by_python, canonical
from backend.sync.checking import check
from tests.store.random_changes import random_fields, random_good_fields

ODD = (None, True, -1, 0, 1.5, 2.0, 1e308, "", " ", "x" * 300, "\0", "\ud800", [], [None], {}, {"a": 1},
       10**20, "2026-02-30", "25:00", "no-id",
       float("nan"), float("inf"))  # fmt: skip


def spoil(random, fields):
    """Put something odd into fields, at any depth."""
    if not fields or random.random() < 0.1:
        fields["unknown"] = 1
        return
    name = random.choice(list(fields))
    rows = fields[name]
    if isinstance(rows, list) and rows and isinstance(rows[0], dict) and random.random() < 0.7:
        spoil(random, random.choice(rows))
    elif random.random() < 0.2:
        del fields[name]
    else:
        fields[name] = random.choice(ODD)


def outcome(checker, kind, fields, new):
    try:
        return checker(kind.name, fields, new)
    except Problems as error:
        return error.problems


@pytest.mark.full
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_the_fast_check_answers_as_the_core_does(kind, how_many):
    random = Random(kind.name)
    agreed = set()
    for _ in range(how_many(150, 5000)):
        new = random.random() < 0.6
        fields = random_fields(random, kind.fields, new)
        for _ in range(random.choice((0, 0, 1, 2))):
            spoil(random, fields)
        expected = outcome(checking.check, kind, fields, new)
        assert outcome(check, kind, fields, new) == expected
        agreed.add(type(expected))
    assert agreed == {dict, list}


def test_the_fast_check_itself_lets_plain_changes_pass(monkeypatch):
    plain = [
        (kind.name, random_good_fields(Random(f"{kind.name} {seed}"), kind, True))
        for kind in KINDS
        for seed in range(10)
    ]
    monkeypatch.setattr(checking, "check", pytest.fail)
    for name, fields in plain:
        assert check(name, fields, True)


@pytest.mark.parametrize("value", [
    None, {}, [], "", "é \u2028 \x00", "\ud800", 5, -1, 2**53, 2**64, 10**30, 0.1, 2.5, -0.5, 1234.5678,
    {"b": [1, {"z": None, "a": True}], "a": "x", "é": 1, "B": 2}, {"a": "\udc00", "z": 2**70, "b": 1},
])  # fmt: skip
def test_canonical_text_is_what_pythons_own_encoder_writes(value):
    assert canonical(value) == by_python(value)
