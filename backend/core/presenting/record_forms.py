"""Records as forms: what a person types for one, and a record as it would be typed."""

from ..declaring.errors import Problems
from ..declaring.reading import read
from ..declaring.spec import NEEDED, Field
from ..records.checking import check, kind_named
from .forms import fits, show_exactly, type_out, typed_values, unit_of
from .wording import word

AMOUNT = [Field("amount", "money", "An amount")]


def record_typed(kind_name, fields, units, currency):
    """Write a record as it would be typed, defaults where it holds nothing.

    Returns: {field: text | bool | [rows] | [texts]}; every field is there.
    """
    return _typed(kind_named(kind_name).fields, fields, units, currency)


def _typed(fields, held, units, currency):
    typed = {}
    for field in fields:
        value = held.get(field.name)
        if value is None and field.default != NEEDED:
            value = field.default
        if field.item:
            rows = value if isinstance(value, list) else []
            typed[field.name] = [row for row in rows if isinstance(row, str)]
        elif field.quantity == "list":
            rows = value if fits(field, value) else []
            typed[field.name] = [_typed(field.fields, row, units, currency) for row in rows]
        elif field.quantity == "flag":
            typed[field.name] = value is True
        else:
            unit = unit_of(field, field.name, units)
            typed[field.name] = type_out(field, value if fits(field, value) else None, unit, currency)
    return typed


def blank_row(kind_name, list_name, units, currency):
    """Write an empty row of a kind's list as it would be typed; {} where there is no such list."""
    for field in kind_named(kind_name).fields:
        if field.name == list_name and field.fields:
            return _typed(field.fields, {}, units, currency)
    return {}


def record_read(kind_name, typed, units, currency):
    """Read a record as typed, and check it as a new one.

    Returns: {"fields": {field: value}, "problems": {path: text}}; fields is
    None while one is bad.
    """
    given, problems = typed_values(kind_named(kind_name).fields, typed, units, currency, "")
    unread = [item["field"] for item in problems]
    fields = None
    try:
        fields = check(kind_name, given, True)
    except Problems as error:
        problems += [item for item in error.problems if item["field"] not in unread]
    told = {item["field"]: word(item, units.get(item["field"], ""), currency) for item in problems}
    return {"fields": None if told else fields, "problems": told}


def read_money(text, currency):
    """Read an amount as typed.

    Returns: {"amount": minor units, None where it cannot be read, "problem": what is wrong}.
    """
    given, problems = typed_values(AMOUNT, {"amount": text}, {}, currency, "")
    amount = None
    try:
        amount = read(AMOUNT, given)["amount"]
    except Problems as error:
        problems = problems or error.problems
    if problems:
        return {"amount": None, "problem": word(problems[0], "", currency)}
    return {"amount": amount, "problem": ""}


def record_in_words(kind_name, fields, units, currency):
    """Write what a record holds, but its name and lists, on one line."""
    words = []
    for field in kind_named(kind_name).fields:
        value = fields.get(field.name)
        if field.name == "name" or field.quantity in ("list", "object") or not fits(field, value):
            continue
        if value is False or value == "":
            continue
        unit = unit_of(field, field.name, units)
        told = show_exactly(field, value, unit, currency)
        words.append(field.label if value is True else field.label + " " + told)
    return ", ".join(words)
