"""What a person typed → a calculator's input; its answer → words on a screen.

The phone sends texts as typed with the unit shown beside each, and paints the
words that come back: it parses, converts and rounds nothing itself.
"""

from ..catalogue import answer, calculator_named
from ..declaring.errors import Problems, problem
from ..declaring.reading import LARGEST, is_number
from ..declaring.spec import NEEDED, WORDS, by_name
from ..numbers.money import EXPONENTS, parse_money, show_money
from ..numbers.numerals import all_digits, decimal, parse
from ..numbers.rounding import ceil, floor
from ..numbers.units import parse_length, read_length, sold_by_the_yard, typed_length
from .wording import amount, read_amount, word, word_as_read


def fill(name, typed, units, currency):
    """Answer a form as far as it can be answered.

    Takes: typed, {field: text | {"text", "mm"}: a length that is not quite what
    its text says | bool | [rows]}; units, {path: unit} for
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
    """Turn texts as typed into given values; an empty text is left out, where that means none.

    Returns: (given, problems), problems only for texts that cannot be read at
    all, and for emptied fields that would otherwise hold a default nobody sees;
    what is no text, or not the shape of a form, is given as it is.
    """
    if not isinstance(typed, dict):
        return typed, []
    given, problems = {}, []
    for field in fields:
        text = typed.get(field.name)
        name = path + field.name
        if text == "" and field.default not in (NEEDED, None, ""):
            problems.append(problem(name, "required", quantity=field.quantity))
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
        parts = parts_of(field, text)
        if parts:
            inner, bad = typed_values(parts, text, units, currency, name + ".")
            problems += bad
            # a part of the form that was left empty is none
            if inner or bad or field.default == NEEDED:
                given[field.name] = inner
            continue
        value = _typed_value(field, text, unit_of(field, name, units), currency)
        if value is None:
            problems.append(_unread(field, text, name, currency))
        else:
            given[field.name] = value
    return given, problems


def parts_of(field, value):
    """Find the fields that a value of a field has; None for one value."""
    if field.instead and isinstance(value, dict) and "mm" not in value:
        return field.instead
    return field.fields if field.quantity == "object" else None


def _typed_value(field, text, unit, currency):
    if field.quantity == "length" and isinstance(text, dict):
        return text.get("mm", text)
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
    return {"field": item["field"], "rule": item["rule"], "text": word_as_read(item, unit, currency)}


def _unit_at(fields, path, units):
    if path in units:
        return units[path]
    names = [part for part in path.split(".") if not all_digits(part)]
    field = None
    for name in names:
        field = by_name(fields or []).get(name)
        if field is None:
            return ""
        fields = field.fields or field.instead
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
            shown[field.name] = _shown_rows(field, value, units, currency)
        elif field.quantity == "object" and value is not None:
            shown[field.name] = _shown(field.fields, value, units, currency)
        else:
            shown[field.name] = show(field, value, unit_of(field, "=" + field.name, units), currency)
    return shown


def _shown_rows(field, rows, units, currency):
    if field.item is None:
        return [_shown(field.fields, row, units, currency) for row in rows]
    unit = unit_of(field, "=" + field.name, units)
    return [show(field.item, value, unit, currency) for value in rows]


def show(field, value, unit, currency):
    """Write one value in words, as it can be read off or paid; "" for one that is not there."""
    if field.asked and value is not None:
        return _asked_in_words(value, unit)
    return _in_words(field, value, unit, currency, read_amount)


def show_exactly(field, value, unit, currency):
    """Write one value in words to its last figure; "" for one that is not there."""
    return _in_words(field, value, unit, currency, amount)


def _in_words(field, value, unit, currency, write):
    if value is None:
        return ""
    if field.quantity == "flag":
        return "yes" if value else "no"
    return write(value, field.quantity, unit, currency, field.rounded)


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
        elif field.quantity == "object" and field.fields:
            typed[field.name] = _typed_defaults(field.fields, units, currency)
        elif field.quantity == "flag":
            typed[field.name] = bool(value)
        else:
            unit = unit_of(field, field.name, units)
            typed[field.name] = [] if field.quantity == "list" else type_out(field, value, unit, currency)
    return typed


def show_inputs(name, given, units, currency):
    """Write given values as a person would type them; what is not given is left out.

    Returns: {field: text | {"text", "mm"} | bool | [rows]}, lengths with their
    exact value where their unit cannot show it, so that strips which fit a width
    still fit it.
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
        elif isinstance(value, dict):
            parts = parts_of(field, value)
            typed[field.name] = _typed_values(parts, value, units, currency) if parts else value
        else:
            typed[field.name] = type_out(field, value, unit_of(field, field.name, units), currency)
    return typed


def fits(field, value):
    """Say whether a value has its field's shape: an older or newer version may have kept another."""
    if field.quantity == "list":
        return isinstance(value, list) and not [row for row in value if not isinstance(row, dict)]
    if field.quantity == "object" or field.instead and isinstance(value, dict):
        return isinstance(value, dict)
    if field.quantity == "flag":
        return isinstance(value, bool)
    if field.quantity in WORDS:
        return isinstance(value, str)
    return is_number(value) and abs(value) <= LARGEST


def type_out(field, value, unit, currency):
    """Write one value as it would be typed in its unit, a length as `typed_length` does; "" for none."""
    if value is None:
        return ""
    if field.quantity == "length":
        return typed_length(value, unit, field.rounded)
    if field.quantity == "money":
        return show_money(value, currency)
    return value if field.quantity in WORDS + ("flag",) else decimal(value, 4, floor)


def lengths_in_words(lengths, unit):
    """Write lengths as they are read off, rounded up; in yards first if they were cut in them.

    Example: lengths_in_words([2600], "m") == ["2.60 m"]
    """
    return [_asked_in_words(mm, unit) for mm in lengths]


def _asked_in_words(mm, unit):
    words = read_length(mm, unit, ceil)
    if unit == "yd" or not sold_by_the_yard(mm):
        return words
    return read_length(mm, "yd", ceil) + " (" + read_length(mm, "m" if unit == "cm" else unit, ceil) + ")"
