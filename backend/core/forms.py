"""What a person typed → a calculator's input; its answer → words on a screen.

The phone sends texts as typed with the unit shown beside each, and paints the
words that come back: it parses, converts and rounds nothing itself.
"""

from .catalogue import answer, calculator_named
from .errors import Problems, problem
from .money import EXPONENTS, parse_money, show_money
from .numerals import all_digits, decimal, parse
from .reading import LARGEST, is_number
from .rounding import ceil, floor
from .spec import NEEDED, WORDS, by_name
from .units import parse_length, sold_by_the_yard, type_length
from .wording import amount, word


def fill(name, typed, units, currency):
    """Answer a form as far as it can be answered.

    Takes: typed, {field: text | bool | [rows]}; units, {path: unit} for
    inputs, and for outputs under `=name`; currency, ISO 4217.
    Returns: {"input", "result", "notes": [{field, text}], "shown": {output:
    text | rows} but for what is drawn, "problems": {path: text}}; result is None
    while a field is bad.
    """
    calculator = calculator_named(name)
    given, problems = typed_values(calculator.inputs, typed, units, currency, "")
    unread = [item["field"] for item in problems]
    answered = {"result": None, "notes": []}
    try:
        answered = answer(name, given)
    except Problems as error:
        problems += [item for item in error.problems if item["field"] not in unread]
    if problems:
        answered = {"result": None, "notes": []}
    return {
        "input": given,
        "result": answered["result"],
        "notes": [_said(calculator, item, units, currency) for item in answered["notes"]],
        "shown": _shown(calculator.outputs, answered["result"], units, currency),
        "problems": _worded(calculator, problems, units, currency),
    }


def typed_values(fields, typed, units, currency, path):
    """Turn texts as typed into given values; an empty text is left out.

    Returns: (given, problems), problems only for texts that cannot be read at
    all; what is no text, or not the shape of a form, is given as it is.
    """
    if not isinstance(typed, dict):
        return typed, []
    given, problems = {}, []
    for field in fields:
        text = typed.get(field.name)
        name = path + field.name
        if text is None or text == "":
            continue
        if field.quantity == "list" and field.fields and isinstance(text, list):
            rows = []
            for index, row in enumerate(text):
                inner, bad = typed_values(field.fields, row, units, currency, name + "." + str(index) + ".")
                rows.append(inner)
                problems += bad
            given[field.name] = rows
            continue
        value = _typed_value(field, text, unit_of(field, name, units), currency)
        if value is None:
            problems.append(_unread(field, text, name, currency))
        else:
            given[field.name] = value
    return given, problems


def _typed_value(field, text, unit, currency):
    if not isinstance(text, str) or field.quantity in WORDS + ("flag", "list"):
        return text
    if field.quantity == "length":
        return parse_length(text, unit)
    if field.quantity == "money":
        return parse_money(text, currency)
    return parse(text)


def _unread(field, text, name, currency):
    if parse(text) is None:
        return problem(name, "number", quantity=field.quantity)
    return problem(name, "decimals", None, EXPONENTS[currency], "count")


def unit_of(field, name, units):
    """Find the unit shown for a field: rows of a list may each have their own."""
    return units.get(name, field.unit)


def _worded(calculator, problems, units, currency):
    return {
        item["field"]: word(item, _unit_at(calculator.inputs, item["field"], units), currency)
        for item in problems
    }


def _said(calculator, item, units, currency):
    unit = units.get(item["field"]) or units.get("=" + item["field"])
    if unit is None:
        unit = _unit_at(calculator.outputs, item["field"], {})
    if not unit:
        unit = _unit_at(calculator.inputs, item["field"], {})
    return {"field": item["field"], "rule": item["rule"], "text": word(item, unit, currency)}


def _unit_at(fields, path, units):
    if path in units:
        return units[path]
    names = [part for part in path.split(".") if not all_digits(part)]
    field = None
    for name in names:
        field = by_name(fields or []).get(name)
        if field is None:
            return ""
        fields = field.fields
    return field.unit if field and field.quantity == "length" else ""


def _shown(outputs, result, units, currency):
    if result is None:
        return {}
    shown = {}
    for field in outputs:
        value = result[field.name]
        if field.drawn:
            continue
        if field.quantity == "list" and value is not None:
            shown[field.name] = [_shown(field.fields, row, units, currency) for row in value]
        elif field.quantity == "object" and value is not None:
            shown[field.name] = _shown(field.fields, value, units, currency)
        else:
            shown[field.name] = show(field, value, unit_of(field, "=" + field.name, units), currency)
    return shown


def show(field, value, unit, currency):
    """Write one value in words; "" for one that is not there."""
    if value is None:
        return ""
    if field.quantity == "flag":
        return "yes" if value else "no"
    if field.asked:
        return _length_in_words(value, unit)
    return amount(value, field.quantity, unit, currency, field.rounded)


def blank(name, units, currency):
    """Write a calculator's defaults as they would be typed, and an empty row of each list.

    Returns: {"typed": {field: text | bool | []}, "rows": {list: {field: text | bool}}}.
    """
    inputs = calculator_named(name).inputs
    lists = [field for field in inputs if field.quantity == "list" and field.fields]
    return {
        "typed": _typed_defaults(inputs, units, currency),
        "rows": {field.name: _typed_defaults(field.fields, units, currency) for field in lists},
    }


def _typed_defaults(fields, units, currency):
    typed = {}
    for field in fields:
        value = None if field.default == NEEDED else field.default
        if field.keeps_number:
            typed[field.name] = "1"
        elif field.quantity == "flag":
            typed[field.name] = bool(value)
        else:
            unit = unit_of(field, field.name, units)
            typed[field.name] = [] if field.quantity == "list" else type_out(field, value, unit, currency)
    return typed


def show_inputs(name, given, units, currency):
    """Write given values as a person would type them; what is not given is left out.

    Lengths are rounded down to what their unit can show, so that strips which
    fit a width still fit it.
    Returns: {field: text | bool | [rows]}.
    """
    return _typed_values(calculator_named(name).inputs, given, units, currency)


def _typed_values(fields, given, units, currency):
    typed = {}
    for field in fields:
        value = given.get(field.name)
        if not fits(field, value):
            continue
        if field.quantity == "list" and not field.fields:
            typed[field.name] = value
        elif field.quantity == "list":
            typed[field.name] = [_typed_values(field.fields, row, units, currency) for row in value]
        else:
            typed[field.name] = type_out(field, value, unit_of(field, field.name, units), currency)
    return typed


def fits(field, value):
    """Say whether a value has its field's shape: an older or newer version may have kept another."""
    if field.quantity == "list":
        return isinstance(value, list) and not [row for row in value if not isinstance(row, dict)]
    if field.quantity == "flag":
        return isinstance(value, bool)
    if field.quantity in WORDS:
        return isinstance(value, str)
    return is_number(value) and abs(value) <= LARGEST


def type_out(field, value, unit, currency):
    """Write one value as it would be typed in its unit; "" for none."""
    if value is None:
        return ""
    if field.quantity == "length":
        return type_length(value, unit)
    if field.quantity == "money":
        return show_money(value, currency)
    return value if field.quantity in WORDS + ("flag",) else decimal(value, 4, floor)


def lengths_in_words(lengths, unit):
    """Write lengths to ask a shop for, rounded up; in yards first if they were cut in them.

    Example: lengths_in_words([2600], "cm") == ["260 cm"]
    """
    return [_length_in_words(mm, unit) for mm in lengths]


def _length_in_words(mm, unit):
    words = amount(mm, "length", unit, rounded=ceil)
    if unit == "yd" or not sold_by_the_yard(mm):
        return words
    return amount(mm, "length", "yd", rounded=ceil) + " (" + words + ")"


def record_in_words(kind_name, fields, units, currency):
    """Write what a record holds, but its name and lists, on one line."""
    # no form needs the kinds, and a phone at its start waits for each module
    from .records.checking import kind_named

    words = []
    for field in kind_named(kind_name).fields:
        value = fields.get(field.name)
        if field.name == "name" or field.quantity == "list" or not fits(field, value):
            continue
        if value is False or value == "":
            continue
        unit = unit_of(field, field.name, units)
        told = show(field, value, unit, currency)
        words.append(field.label if value is True else field.label + " " + told)
    return ", ".join(words)


def convert(text, unit, to):
    """Rewrite a typed length in another unit; what cannot be read stays as it is."""
    value = parse_length(text, unit)
    return text if value is None else type_length(value, to)
