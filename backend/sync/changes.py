"""One change as a phone sends it: checked, its content hashed, ready for the log."""

import hashlib
import json
import re

import orjson

from ..core.declaring.errors import Problems, problem
from ..core.declaring.reading import brief
from ..core.declaring.spec import WHOLE
from ..core.records.access import refuse_beyond_role
from ..core.records.checking import kind_named
from ..core.records.envelope import ALWAYS, ENVELOPE, NAMES
from .checking import ID, check

STAMP = re.compile(r"([0-9]{13})-([0-9]{4})-(" + ID.pattern + ")")
PLAIN_KEYS, KEYS = set(ALWAYS), set(NAMES)

# for what only Python's own encoder writes: half a surrogate pair, a whole number beyond 64 bits
by_python = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode


class Received:
    """A change that has been looked at. Its problems, if any, matter only if it is new.

    Once the log takes it, it has a `seq`, the `device` that sent it and when it was `received_at`.
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
        "device",
        "received_at",
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
    received.hash = hash_at(received, received.at)
    try:
        received.values = _check(received, given["fields"], device)
    except Problems as error:
        received.problems = error.problems
    return received


def _is_plain(given):
    """Say whether an envelope is surely good, as nearly all are: a fact that replaces nothing."""
    if type(given) is not dict or given.keys() != PLAIN_KEYS:
        return False
    return all(is_good(given[name]) for name, is_good in PLAIN)


def _envelope_problems(given):
    if type(given) is not dict:
        return [problem("", "object")]
    problems = [problem(brief(name), "unknown") for name in sorted(given.keys() - KEYS)[:20]]
    for field in ENVELOPE:
        value = given.get(field.name)
        if value is None:
            if field.name in PLAIN_KEYS:
                problems.append(problem(field.name, "required"))
        elif not GOOD[field.name](value):
            problems.append(problem(field.name, _rule_of(field)))
    return problems


def _rule_of(field):
    if field.name == "schema":
        return "schema"
    return field.shape or field.quantity


def _good_of(field):
    """Make the check of a part of the envelope: whether a value is good."""
    if field.quantity in WHOLE:
        low, high = field.lowest, field.highest
        return lambda value: type(value) is int and low <= value <= high
    pattern = PATTERNS.get(field.shape)
    if pattern:
        return lambda value: type(value) is str and pattern.fullmatch(value) is not None
    sort = dict if field.quantity == "object" else str
    return lambda value: type(value) is sort


PATTERNS = {"id": ID, "stamp": STAMP}
GOOD = {field.name: _good_of(field) for field in ENVELOPE}
PLAIN = [(name, GOOD[name]) for name in ALWAYS]


def hash_at(change, at):
    """Hash the content of a received change, had it happened at a time (UTC ms)."""
    return _hash(change.kind, at, change.stamp, change.schema, change.record, change.replaces, change.text)


def hash_of(row):
    """Hash the content of a change as the log holds it: a dict with the log's columns."""
    return _hash(row["kind"], row["at"], row["stamp"], row["schema"], row["record"], row["replaces"],
                 row["fields"])  # fmt: skip


def _hash(kind, at, stamp, schema, record, replaces, text):
    # not the stamp's time: the server may have put it right since it was sent
    who, ids = stamp[-36:], f"{_quoted(record)},{_quoted(replaces)}"
    said = f'["{kind}",{at},"{who}",{schema},{ids},{text}]'
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
    kind = kind_named(change_kind)
    if not kind.is_known_to("helper"):
        return 2
    hidden = fields.keys() & set(kind.owner_only)
    if not hidden:
        return 0
    return 2 if len(hidden) == len(fields) else 1
