"""Everything declared, as plain data."""

from . import money, units
from .catalogue import calculators
from .records.checking import KINDS


def describe():
    """Describe everything declared: calculators, kinds of record, units, currencies."""
    return {
        "calculators": [calculator.describe() for calculator in calculators()],
        "kinds": [kind.describe() for kind in KINDS],
        "length_units": list(units.UNITS),
        "currencies": money.EXPONENTS,
    }
