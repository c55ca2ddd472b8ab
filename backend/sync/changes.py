"""One change as a phone sends it: checked, its content hashed, ready for the log."""

import hashlib
import json
import re

import orjson

from ..core.errors import Problems, problem
from ..core.reading import LARGEST
from ..core.records.access import refuse_beyond_role
from ..core.records.checking import kind_named
from .checking import ID, check

SCHEMA = 1
STAMP = re.compile(r"([0-9]{13})-([0-9]{4})-(" + ID.pattern + ")")
PLAIN_KEYS = {"id", "kind", "fields", "at", "stamp", "schema"}
KEYS = PLAIN_KEYS | {"record", "replaces"}

# for what only Python's own encoder writes: half a surrogate pair, a whole number beyond 64 bits
by_python = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode


class Received:
    """A change that has been looked at. Its problems, if any, matter only if it is new.

    It has a `seq` once the log takes it.
    """

    __slots__ = (
        "seq",
        "id",
        "kind",
        "record",
        "at",
        "stamp",
        "schema",
        "replaces",
        "text",
        "hash",
        "values",
        "problems",
    )


def canonical(value):
    """Write a value as canonical JSON: sorted, without spaces, the same text for the same content."""
    try:
        return orjson.dumps(value, option=orjson.OPT_SORT_KEYS).decode()
    except orjson.JSONEncodeError:
        return by_python(value)


def receive_all(given, device):
    """Look at the changes of a push.

    Takes: given, JSON values; device, who sends them (with `id` and `role`).
    Returns: a Received for each; one with problems of its envelope has no hash.
    """
    return [_receive(one, device) for one in given]


def _receive(given, device):
    received = Received()
    received.id = received.stamp = received.hash = received.values = None
    received.problems = [] if _is_plain(given) else _envelope_problems(given)
    if received.problems:
        return received
    received.id = given["id"]
    received.kind = given["kind"]
    received.record = given.get("record")
    received.at = given["at"]
    received.stamp = given["stamp"]
    received.schema = given["schema"]
    received.replaces = given.get("replaces")
    received.text = canonical(given["fields"])
    received.hash = _hash(received)
    try:
        received.values = _check(received, given["fields"], device)
    except Problems as error:
        received.problems = error.problems
    return received


def _is_plain(given):
    """Say whether an envelope is surely good, as nearly all are: a fact that replaces nothing."""
    return (
        type(given) is dict
        and given.keys() == PLAIN_KEYS
        and _is_id(given["id"])
        and type(given["kind"]) is str
        and type(given["fields"]) is dict
        and _is_whole(given["at"])
        and type(given["stamp"]) is str
        and STAMP.fullmatch(given["stamp"]) is not None
        and given["schema"] == SCHEMA
    )


def _envelope_problems(given):
    if type(given) is not dict:
        return [problem("", "object")]
    problems = [problem(name, "unknown") for name in sorted(given.keys() - KEYS)[:20]]
    for name, good, needed in ENVELOPE:
        value = given.get(name)
        if value is None:
            if needed:
                problems.append(problem(name, "required"))
        elif not good(value):
            problems.append(problem(name, RULES[name]))
    return problems


def _is_id(value):
    return type(value) is str and ID.fullmatch(value) is not None


def _is_whole(value):
    return type(value) is int and 0 <= value <= LARGEST


ENVELOPE = (
    ("id", _is_id, True),
    ("kind", lambda value: type(value) is str, True),
    ("fields", lambda value: type(value) is dict, True),
    ("record", _is_id, False),
    ("at", _is_whole, True),
    ("stamp", lambda value: type(value) is str and STAMP.fullmatch(value) is not None, True),
    ("schema", lambda value: type(value) is int and 1 <= value <= SCHEMA, True),
    ("replaces", _is_id, False),
)
RULES = {
    "id": "id",
    "kind": "text",
    "fields": "object",
    "record": "id",
    "at": "instant",
    "stamp": "stamp",
    "schema": "schema",
    "replaces": "id",
}


def _hash(change):
    # not the stamp's time: the server may have put it right since it was sent
    who, ids = change.stamp[-36:], f"{_quoted(change.record)},{_quoted(change.replaces)}"
    said = f'["{change.kind}",{change.at},"{who}",{change.schema},{ids},{change.text}]'
    return hashlib.sha256(said.encode("utf-8", "surrogatepass")).digest()


def _quoted(id):
    return f'"{id}"' if id else "null"


def _check(change, fields, device):
    kind = kind_named(change.kind)
    fact = kind.fact
    if fact and change.record is not None:
        raise Problems([problem("record", "unknown")])
    if not fact and change.record is None:
        raise Problems([problem("record", "required")])
    if change.stamp[-36:] != device.id and device.role != "owner":
        raise Problems([problem("stamp", "other_device")])
    # that a helper edits what is there already is found out beside the log
    refuse_beyond_role(change.kind, fields, device.role, True)
    # what a helper may only make comes whole
    whole = fact or (device.role != "owner" and kind.helper == "make")
    return check(change.kind, fields, whole)


def hidden_part(change_kind, fields):
    """Say how much of a change a helper may not see: 0 nothing, 1 some fields, 2 all of it."""
    hidden = fields.keys() & set(kind_named(change_kind).owner_only)
    if not hidden:
        return 0
    return 2 if len(hidden) == len(fields) else 1
