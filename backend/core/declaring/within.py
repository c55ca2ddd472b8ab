"""Sums of facts, brought within the limits that a calculator declares for what is typed."""

from .reading import is_number
from .spec import DECIMAL, WHOLE


def within(fields, given):
    """Bring what is given within its fields' limits.

    A number beyond one counts as the limit, and rows beyond the most are left
    out, the last first; all else is as it was given.
    Takes: fields of an object; given, the object. Returns: a new one.
    """
    known = dict(given)
    for field in fields:
        if field.name in known:
            known[field.name] = _within(field, known[field.name])
    return known


def _within(field, value):
    if field.quantity in WHOLE or field.quantity in DECIMAL:
        return _number_within(field, value) if is_number(value) else value
    if field.quantity == "list" and isinstance(value, list):
        rows = value[: field.most] if field.most else value
        return [within(field.fields, row) if field.fields and isinstance(row, dict) else row for row in rows]
    if field.fields and isinstance(value, dict):
        return within(field.fields, value)
    return value


def _number_within(field, value):
    if field.lowest is not None and value < field.lowest:
        return field.lowest
    if field.highest is not None and value > field.highest:
        return field.highest
    return value
