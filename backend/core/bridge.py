"""The one door for the phone: a JSON string in, a JSON string out.

Exceptions and long numbers do not cross the runtime's border whole, so bad
input comes back as data: {"problems": [...]} instead of {"answer": ...}.
"""

import json

from . import catalogue, forms, money, records, units
from .errors import Problems
from .reading import load


def call(text):
    """Answer {"method": name, "args": {...}} as JSON text."""
    try:
        asked = load(text)
        return json.dumps({"answer": METHODS[asked["method"]](**asked["args"])})
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


METHODS = {
    "describe": describe,
    "answer": catalogue.answer,
    "fill": forms.fill,
    "why": forms.why,
    "blank": forms.blank,
    "show_inputs": forms.show_inputs,
    "convert": forms.convert,
    "length_in_words": forms.length_in_words,
    "record_in_words": forms.record_in_words,
    "check": records.check,
    "fold": records.fold,
}
