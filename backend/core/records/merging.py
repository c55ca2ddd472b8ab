"""How edits from two phones merge: the later stamp wins each field."""

import json

from ..declaring.errors import Problems, problem
from ..declaring.reading import brief


def fold(changes):
    """Fold changes of descriptions into records; the order of arrival is free.

    Takes: changes as in the log, each {kind, record, stamp, fields} or more.
    Returns: {kind: {record: {field: value}}}.
    Raises: Problems naming each `changes.N` that is no such change.
    """
    folded = {}
    held = merge({}, changes)
    for key in held:
        kind, _, record = key.partition("/")
        folded.setdefault(kind, {})[record] = {name: held[key][name][0] for name in held[key]}
    return folded


def merge(held, changes):
    """Merge changes into what is held: the later stamp wins each field.

    Of equal stamps the greater value wins, so that the order of arrival is free.
    Takes: held, {"kind/record": {field: [value, stamp]}}, which is left as it is.
    Returns: the records that were touched, whole, in the same shape.
    Raises: Problems naming each `changes.N` or `held.key` that is not of its shape.
    """
    _refuse_other_than_changes(changes)
    _refuse_other_than_held(held)
    touched = {}
    for change in changes:
        key = change["kind"] + "/" + change["record"]
        if key not in touched:
            touched[key] = dict(held.get(key, {}))
        for name in change["fields"]:
            given = [change["fields"][name], change["stamp"]]
            if name not in touched[key] or _order(given) > _order(touched[key][name]):
                touched[key][name] = given
    return touched


def clashes(held, own, changes):
    """Name the fields that two phones changed without knowing of each other.

    Takes: held, as `merge` does; own, this phone's edits that the log did not
    have yet; changes, others' edits that came in now. Of one field they clash
    where an own edit says otherwise, or where what came in is older than
    another phone's value that is held.
    Returns: {"kind/record": {field: value}}, the values that did not win.
    Raises: Problems as `merge` does.
    """
    _refuse_other_than_changes(own)
    _refuse_other_than_changes(changes)
    _refuse_other_than_held(held)
    told, latest = {}, merge({}, own)
    for change in changes:
        key = change["kind"] + "/" + change["record"]
        for name in change["fields"]:
            came = [change["fields"][name], change["stamp"]]
            mine, there = latest.get(key, {}).get(name), held.get(key, {}).get(name)
            if mine and mine[0] != came[0]:
                told.setdefault(key, {})[name] = mine[0] if _order(mine) < _order(came) else came[0]
            elif there and there[0] != came[0] and came[1] < there[1] and came[1][-36:] != there[1][-36:]:
                told.setdefault(key, {})[name] = came[0]
    return told


def _order(stamped):
    return (stamped[1],) + _rank(stamped[0])


def _refuse_other_than_changes(changes):
    problems = []
    for index, change in enumerate(changes):
        good = isinstance(change, dict) and isinstance(change.get("fields"), dict)
        for part in ("kind", "record", "stamp"):
            good = good and isinstance(change.get(part), str)
        if not good:
            problems.append(problem("changes." + str(index), "change"))
    if problems:
        raise Problems(problems)


def _refuse_other_than_held(held):
    # only what is wrong is put in order: the phone sorts long lists slowly
    bad = [key for key in held if not _is_held(held[key])]
    if bad:
        raise Problems([problem("held." + brief(key), "change") for key in sorted(bad)])


def _is_held(fields):
    if not isinstance(fields, dict):
        return False
    for name in fields:
        stamped = fields[name]
        if not isinstance(stamped, list) or len(stamped) != 2 or not isinstance(stamped[1], str):
            return False
    return True


def _rank(value):
    # an order among values of any shape, the same on both runtimes
    if value is None:
        return (0, 0)
    if isinstance(value, bool):
        return (1, int(value))
    if isinstance(value, (int, float)):
        return (2, value)
    if isinstance(value, str):
        return (3, value)
    return (4, json.dumps(value))
