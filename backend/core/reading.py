"""From given JSON to checked values, or every bad field at once."""

import json

from .errors import Problems, problem, refuse
from .numerals import decimal
from .spec import DECIMAL, NEEDED, WHOLE

LARGEST = 9007199254740991  # beyond it, JSON numbers differ between the runtimes
MOST_BYTES = 262144
MOST_DEPTH = 8


def load(text):
    """Parse JSON text, refusing what could hurt either runtime first.

    Raises: Problems with rule `json` or `depth`.
    """
    if _depth(text) > MOST_DEPTH:
        refuse("", "depth", limit=MOST_DEPTH)
    try:
        return json.loads(text)
    except ValueError:
        refuse("", "json")


def _depth(text):
    depth = deepest = 0
    quoted = escaped = False
    for mark in text:
        if quoted:
            if escaped:
                escaped = False
            elif mark == "\\":
                escaped = True
            elif mark == '"':
                quoted = False
        elif mark == '"':
            quoted = True
        elif mark == "{" or mark == "[":
            depth += 1
            deepest = max(deepest, depth)
        elif mark == "}" or mark == "]":
            depth -= 1
    return deepest


def read(fields, given):
    """Check a JSON object against fields and fill in the defaults.

    Returns: a dict with a value for every field (None where left out).
    Raises: Problems listing every bad field, unknown ones included.
    """
    values, problems = read_part(fields, given, "", True)
    if problems:
        raise Problems(problems)
    return values


def read_part(fields, given, path, whole):
    """Check one object; `whole` says that missing fields are looked at.

    Returns: (values, problems); a field that is bad has no value.
    """
    if not isinstance(given, dict):
        return {}, [problem(path, "object")]
    prefix = path + "." if path else ""
    values, problems = {}, []
    for field in fields:
        name = prefix + field.name
        if field.name not in given or given[field.name] is None:
            if not whole:
                if field.name in given:
                    values[field.name] = None
            elif field.default == NEEDED:
                problems.append(problem(name, "required", quantity=field.quantity))
            else:
                values[field.name] = field.default
            continue
        value, bad = _check(field, given[field.name], name)
        problems += bad
        if not bad:
            values[field.name] = value
    known = [field.name for field in fields]
    for name in sorted([str(key) for key in given if key not in known]):
        problems.append(problem(prefix + name, "unknown"))
    return values, problems


def _check(field, given, name):
    if field.quantity in WHOLE or field.quantity in DECIMAL:
        return _check_number(field, given, name)
    if field.quantity == "flag":
        good = isinstance(given, bool)
        return given, [] if good else [problem(name, "flag", quantity="flag")]
    if field.quantity == "list":
        return _check_list(field, given, name)
    if not isinstance(given, str):
        return None, [problem(name, "text", quantity=field.quantity)]
    if field.quantity == "choice":
        good = given in field.choices
        limit = ", ".join(field.choices)
        return given, [] if good else [problem(name, "choice", _brief(given), limit, "choice")]
    return _check_text(field, given, name)


def _check_number(field, given, name):
    quantity = field.quantity
    # True is an int to one runtime and not to the other: ask for bool first
    if isinstance(given, bool) or not isinstance(given, (int, float)):
        return None, [problem(name, "number", quantity=quantity)]
    if given != given or given in (float("inf"), float("-inf")):
        return None, [problem(name, "number", quantity=quantity)]
    if abs(given) > LARGEST:
        return None, [problem(name, "huge", quantity=quantity)]
    if quantity in WHOLE:
        if given != int(given):
            return None, [problem(name, "whole", given, quantity=quantity)]
        value = int(given)
    else:
        value = float(given)
    if field.choices and value not in field.choices:
        limit = ", ".join([decimal(choice, 3) for choice in field.choices])
        return None, [problem(name, "choice", decimal(value, 3), limit, quantity)]
    if field.lowest is not None and value < field.lowest:
        return None, [problem(name, "lowest", value, field.lowest, quantity)]
    if field.highest is not None and value > field.highest:
        return None, [problem(name, "highest", value, field.highest, quantity)]
    return value, []


def _check_text(field, given, name):
    if len(given) > field.most:
        return None, [problem(name, "characters", limit=field.most, quantity="text")]
    for mark in given:
        if mark == "\0" or 0xD800 <= ord(mark) <= 0xDFFF:
            return None, [problem(name, "unreadable", quantity="text")]
    return given, []


def _check_list(field, given, name):
    if not isinstance(given, list):
        return None, [problem(name, "list", quantity="list")]
    if len(given) > field.most:
        return None, [problem(name, "rows", len(given), field.most, "list")]
    if field.fewest and len(given) < field.fewest:
        return None, [problem(name, "too_few", len(given), field.fewest, "list")]
    values, problems = [], []
    for index, row in enumerate(given):
        value, bad = read_part(field.fields, row, name + "." + str(index), True)
        values.append(value)
        problems += bad
    return values, problems


def _brief(text):
    return text if len(text) <= 40 else text[:40] + "…"
