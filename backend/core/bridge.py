"""The one door for the phone: a JSON string in, a JSON string out.

Exceptions and long numbers do not cross the runtime's border whole, so bad
input comes back as data: {"problems": [...]} instead of {"answer": ...}.
"""

import json

from . import catalogue, explaining, forms, money, records, units
from .counting import count_review, held, stock_on_hand
from .errors import Problems, refuse
from .reading import load, read
from .spec import Field, by_name


def call(text):
    """Answer {"method": name, "args": {...}} as JSON text; never raises for JSON text."""
    try:
        asked = read(CALL, load(text))
        function, names = METHODS[asked["method"]]
        given = asked["args"] or {}
        args = read([ARGUMENTS[name] for name in names], given)
        _refuse_unknown_units(args.get("units") or {})
        return json.dumps({"answer": function(**args)})
    except Problems as error:
        return json.dumps({"problems": error.problems})


def describe():
    """Describe everything declared: calculators, kinds of record, units, currencies."""
    return {
        "calculators": [calculator.describe() for calculator in catalogue.CALCULATORS],
        "kinds": [kind.describe() for kind in records.KINDS],
        "length_units": list(units.UNITS),
        "currencies": money.EXPONENTS,
    }


def _refuse_unknown_units(given):
    if [name for name in given if given[name] not in units.UNITS]:
        refuse("units", "choice", None, ", ".join(units.UNITS), "choice")


METHODS = {
    "describe": (describe, ()),
    "answer": (catalogue.answer, ("name", "given")),
    "fill": (forms.fill, ("name", "typed", "units", "currency")),
    "why": (explaining.why, ("name", "typed", "units", "currency", "output")),
    "blank": (forms.blank, ("name", "units", "currency")),
    "show_inputs": (forms.show_inputs, ("name", "given", "units", "currency")),
    "convert": (forms.convert, ("text", "unit", "to")),
    "length_in_words": (forms.length_in_words, ("mm", "unit")),
    "record_in_words": (forms.record_in_words, ("kind_name", "fields", "units", "currency")),
    "check": (records.check, ("kind_name", "fields", "new")),
    "fold": (records.fold, ("changes",)),
    "merge": (records.merge, ("held", "changes")),
    "fold_stock": (held.fold_stock, ("facts", "at", "places")),
    "take_in_stock": (held.take_in_stock, ("held", "facts", "sales")),
    "list_stock": (stock_on_hand.list_stock, ("held",)),
    "count_review": (count_review.count_review, ("facts", "session", "place")),
}

CALL = [
    Field("method", "choice", "What is asked", choices=tuple(sorted(METHODS))),
    Field("args", "object", "Its arguments by name", None),
]

ARGUMENTS = by_name([
    Field("name", "text", "A calculator's name"),
    Field("given", "object", "Values in base units"),
    Field("typed", "object", "Texts as typed"),
    Field("units", "object", "The unit shown for each path", {}),
    Field("currency", "choice", "The currency shown", choices=tuple(sorted(money.EXPONENTS))),
    Field("output", "text", "An output's name"),
    Field("text", "text", "A length as typed", "", most=1000),
    Field("unit", "choice", "The unit it is in", choices=units.UNITS),
    Field("to", "choice", "The unit it should be in", choices=units.UNITS),
    Field("mm", "length", "A length", highest=10000000000),
    Field("kind_name", "text", "A kind of record"),
    Field("held", "object", "What is held so far"),
    Field("fields", "object", "Fields of a record"),
    Field("new", "flag", "Whether the record is new"),
    Field("changes", "list", "Changes as in the log", most=100000),
    Field("facts", "list", "Facts: their fields, with kind, id and at", most=100000),
    Field("sales", "list", "Sales taken in before that voids name", [], most=100000),
    Field("at", "instant", "Leave out what happened later", None),
    Field("places", "list", "Ids of places", None, item=Field("place", "text", "A place")),
    Field("session", "text", "A count"),
    Field("place", "text", "A place"),
])  # fmt: skip
