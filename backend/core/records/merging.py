"""How edits from two phones merge: the later stamp wins each field."""

import json

from ..errors import Problems, problem


def fold(changes):
    """Fold changes of descriptions into records; the order of arrival is free.

    The later stamp wins each field; of equal stamps the greater value.
    Takes: changes as in the log, each {kind, record, stamp, fields} or more.
    Returns: {kind: {record: {field: value}}}.
    Raises: Problems naming each `changes.N` that is no such change.
    """
    _refuse_other_than_changes(changes)
    folded, won = {}, {}
    for change in changes:
        records = folded.setdefault(change["kind"], {})
        record = records.setdefault(change["record"], {})
        for name in change["fields"]:
            value = change["fields"][name]
            key = (change["kind"], change["record"], name)
            rank = (change["stamp"],) + _rank(value)
            if key not in won or rank > won[key]:
                won[key] = rank
                record[name] = value
    return folded


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
