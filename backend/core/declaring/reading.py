"""From given JSON to checked values, or every bad field at once."""

import json

from ..numbers.numerals import decimal
from ..numbers.shapes import SHAPES
from .errors import Problems, problem, refuse
from .spec import DECIMAL, NEEDED, WHOLE

LARGEST = 9007199254740991  # beyond it, JSON numbers differ between the runtimes
MOST_BYTES = 262144
MOST_DEPTH = 8
MOST_ECHOED = 80  # characters of what was given that an error repeats
MOST_UNKNOWN = 200  # named one by one; the phone's sorted() is not for long lists


def load(text):
    """Parse JSON text, refusing what is nested too deep for either runtime.

    Raises: Problems with rule `json` or `depth`.
    """
    try:
        value = json.loads(text)
    except (ValueError, RuntimeError):
        # RuntimeError: nested deeper than the parser goes
        if _depth(text) > MOST_DEPTH:
            refuse("", "depth", limit=MOST_DEPTH)
        refuse("", "json")
    if _is_deep(value):
        refuse("", "depth", limit=MOST_DEPTH)
    return value


def _is_deep(value):
    # level by level: a text of millions of characters has far fewer values
    level = [value]
    for _ in range(MOST_DEPTH):
        inner = []
        for holder in level:
            if isinstance(holder, dict):
                inner += [holder[name] for name in holder if isinstance(holder[name], (dict, list))]
            elif isinstance(holder, list):
                inner += [item for item in holder if isinstance(item, (dict, list))]
        if not inner:
            return False
        level = inner
    return True


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
    values, problems, known = {}, [], 0
    for field in fields:
        key = field.name
        known += key in given
        value = given.get(key)
        if value is None:
            if not whole:
                if key in given:
                    values[key] = None
            elif field.default == NEEDED:
                problems.append(problem(prefix + key, "required", quantity=field.quantity))
            else:
                values[key] = field.default
            continue
        value, bad = _check(field, value, prefix + key)
        if bad:
            problems += bad
        else:
            values[key] = value
    return values, problems if known == len(given) else problems + _unknown(fields, given, path)


def _unknown(fields, given, path):
    known = [field.name for field in fields]
    names = [key for key in given if key not in known]
    if len(names) > MOST_UNKNOWN:
        return [problem(path, "fields", len(names), len(known), "count")]
    prefix = path + "." if path else ""
    return [problem(prefix + brief(name), "unknown") for name in sorted(names)]


def _check(field, given, name):
    if field.instead and isinstance(given, dict):
        return read_part(field.instead, given, name, True)
    if field.quantity in WHOLE or field.quantity in DECIMAL:
        return _check_number(field, given, name)
    if field.quantity == "flag":
        good = isinstance(given, bool)
        return given, [] if good else [problem(name, "flag", quantity="flag")]
    if field.quantity == "list":
        return _check_list(field, given, name)
    if field.quantity == "object":
        if not isinstance(given, dict):
            return None, [problem(name, "object", quantity="object")]
        return read_part(field.fields, given, name, True) if field.fields else (given, [])
    if field.quantity == "choice":
        given = chosen(field, given)
    if not isinstance(given, str):
        return None, [problem(name, "text", quantity=field.quantity)]
    if field.quantity == "choice":
        good = given in field.choices
        limit = ", ".join(field.choices)
        return given, [] if good else [problem(name, "choice", brief(given), limit, "choice")]
    return _check_text(field, given, name)


def _check_number(field, given, name):
    quantity = field.quantity
    if not is_number(given):
        return None, [problem(name, "number", quantity=quantity)]
    # infinity is here too: one runtime takes a very long whole number for it
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


def chosen(field, given):
    """Turn a whole number into its text where choices are numbers, such as 2 or 3."""
    if field.has_numbers and is_number(given) and abs(given) < 10 and given == int(given):
        number = int(given)
        return str(number)
    return given


def is_number(value):
    """Say whether a given value is a number, infinity included, and no flag."""
    # True is an int to one runtime and not to the other: ask for bool first
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return False
    # no number is neither above nor below
    return abs(value) >= 0


def _check_text(field, given, name):
    if len(given) > field.most:
        return None, [problem(name, "characters", limit=field.most, quantity="text")]
    if not _can_all_be_kept(given):
        return None, [problem(name, "unreadable", quantity="text")]
    if field.default == NEEDED and not given.replace(" ", ""):
        return None, [problem(name, "required", quantity="text")]
    if field.shape and not SHAPES[field.shape](given):
        return None, [problem(name, field.shape, quantity="text")]
    return given, []


def _can_all_be_kept(text):
    try:
        # plain text is seen at a glance: a byte a character
        if len(text.encode()) == len(text):
            return "\0" not in text
    except ValueError:
        return False
    for mark in text:
        if not _can_be_kept(mark):
            return False
    return True


def _can_be_kept(mark):
    # NUL, and halves of a pair that stand alone
    return mark != "\0" and not 0xD800 <= ord(mark) <= 0xDFFF


def _check_list(field, given, name):
    if not isinstance(given, list):
        return None, [problem(name, "list", quantity="list")]
    if len(given) > field.most:
        return None, [problem(name, "rows", len(given), field.most, "list")]
    if field.fewest and len(given) < field.fewest:
        return None, [problem(name, "too_few", len(given), field.fewest, "list")]
    if field.fields is None and field.item is None:
        return given, []
    values, problems = [], []
    for index, row in enumerate(given):
        path = name + "." + str(index)
        value, bad = _check(field.item, row, path) if field.item else read_part(field.fields, row, path, True)
        values.append(value)
        problems += bad
    return values, problems


def brief(text):
    """Shorten given text to what an error repeats of it."""
    kept = "".join([mark if _can_be_kept(mark) else "?" for mark in text[:MOST_ECHOED]])
    return kept if len(text) <= MOST_ECHOED else kept + "…"
