"""Whether two runtimes gave the same answer: to the last bit, but for what is declared as close.

exp, log and atan are rounded otherwise by each runtime; what comes of them is the same to 1e-12.
"""

from backend.core.catalogue import calculator_named

CLOSE = 1e-12


def assert_alike(calculator, one, other):
    """Assert that two replies to one question to a calculator agree: answers, notes, problems and all."""
    fields = calculator_named(calculator).outputs
    told = [(reply.get("answer") or {}).get("result") for reply in (one, other)]
    if all(told):
        other = {**other, "answer": {**other["answer"], "result": _levelled(fields, *told)}}
    assert exact(one) == exact(other), calculator


def exact(value):
    """Make replies comparable as parsed JSON: true is not 1, but 482 is 482.0."""
    if isinstance(value, dict):
        return {name: exact(part) for name, part in value.items()}
    if isinstance(value, list):
        return [exact(part) for part in value]
    if isinstance(value, bool) or not isinstance(value, int | float):
        return repr(value)
    return float(value)


def has_close(fields):
    """Say whether any of the fields, or of the fields of their rows, is declared as close."""
    return any(
        field.close or has_close(field.fields or ()) or (field.item is not None and field.item.close)
        for field in fields
    )


def _levelled(fields, one, other):
    """Put what is close and nearly the same in one into the other; all else stays as it is."""
    known = {field.name: field for field in fields}
    return {
        name: _level(known[name], one[name], value) if name in known and name in one else value
        for name, value in other.items()
    }


def _level(field, one, other):
    if one is None or other is None:
        return other
    if field.close:
        return one if abs(one - other) <= CLOSE * max(abs(one), abs(other)) else other
    if field.quantity == "list" and len(one) == len(other):
        pairs = zip(one, other, strict=True)
        if field.item:
            return [_level(field.item, *pair) for pair in pairs]
        return [_levelled(field.fields, *pair) for pair in pairs]
    return _levelled(field.fields, one, other) if field.quantity == "object" else other
