"""How edits from two phones merge: the later stamp wins each field."""

import json

from ..errors import Problems, problem


def fold(changes):
    """Fold changes of descriptions into records; the order of arrival is free.

    Takes: changes as in the log, each {kind, record, stamp, fields} or more.
    Returns: {kind: {record: {field: value}}}.
    Raises: Problems naming each `changes.N` that is no such change.
    """
    return values_of(merge({}, changes))


def merge(held, changes):
    """Merge changes into what is held: the later stamp wins each field.

    Of equal stamps the greater value wins, so that the order of arrival is free.
    Takes: held, {kind: {record: {field: [value, stamp]}}}, which is left as it is.
    Returns: the records that were touched, whole, in the same shape.
    Raises: Problems naming each `changes.N` that is no such change.
    """
    _refuse_other_than_changes(changes)
    touched = {}
    for change in changes:
        kind, record = change["kind"], change["record"]
        records = touched.setdefault(kind, {})
        if record not in records:
            records[record] = dict(held.get(kind, {}).get(record, {}))
        fields = records[record]
        for name in change["fields"]:
            value, stamp = change["fields"][name], change["stamp"]
            if name not in fields or (stamp,) + _rank(value) > (fields[name][1],) + _rank(fields[name][0]):
                fields[name] = [value, stamp]
    return touched


def values_of(held):
    """Leave out the stamps: {kind: {record: {field: value}}}."""
    return {
        kind: {
            record: {name: held[kind][record][name][0] for name in held[kind][record]}
            for record in held[kind]
        }
        for kind in held
    }


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
