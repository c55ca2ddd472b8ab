"""Everything declared, as plain data."""

from ..catalogue import calculators
from ..costing.facts_read import FACTS_READ
from ..counting.naming import NAMED
from ..counting.needed import LATEST_COUNTS_MS
from ..numbers import money, units
from ..records.checking import KINDS
from ..records.envelope import NAMES, SCHEMA
from ..safety.terms import CUTTING_TOOLS


def describe():
    """Describe everything declared: calculators, records, counts, tools, units, currencies."""
    return {
        "calculators": [calculator.describe() for calculator in calculators()],
        "kinds": [kind.describe() for kind in KINDS],
        "counts": list(NAMED),
        "latest_counts_ms": LATEST_COUNTS_MS,
        "facts_read": FACTS_READ,
        "envelope": {"schema": SCHEMA, "parts": list(NAMES)},
        "cutting_tools": list(CUTTING_TOOLS),
        "length_units": list(units.UNITS),
        "currencies": money.EXPONENTS,
        "coins": money.COINS,
    }
