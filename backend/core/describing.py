"""Everything declared, as plain data."""

from . import money, units
from .catalogue import calculators
from .counting.naming import NAMED
from .records.checking import KINDS


def describe():
    """Describe everything declared: calculators, kinds of record, a day's counts, units, currencies."""
    return {
        "calculators": [calculator.describe() for calculator in calculators()],
        "kinds": [kind.describe() for kind in KINDS],
        "counts": list(NAMED),
        "length_units": list(units.UNITS),
        "currencies": money.EXPONENTS,
    }
