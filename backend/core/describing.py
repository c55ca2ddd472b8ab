"""Everything declared, as plain data."""

from . import money, units
from .catalogue import calculators
from .counting.naming import NAMED
from .records.checking import KINDS
from .safety.terms import CUTTING_TOOLS


def describe():
    """Describe everything declared: calculators, kinds of record, counts, tools, units, currencies."""
    return {
        "calculators": [calculator.describe() for calculator in calculators()],
        "kinds": [kind.describe() for kind in KINDS],
        "counts": list(NAMED),
        "cutting_tools": list(CUTTING_TOOLS),
        "length_units": list(units.UNITS),
        "currencies": money.EXPONENTS,
    }
