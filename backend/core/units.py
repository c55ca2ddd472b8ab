"""Lengths and the other quantities: base units, units on the screen, words.

Source: the inch is 25.4 mm and the yard 914.4 mm exactly (international yard
and pound agreement, 1959; NIST SP 811, Appendix B).
"""

from .numerals import decimal, eighths, parse
from .rounding import floor, half_up

MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4}
UNITS = ("mm", "cm", "m", "in", "yd")
DECIMALS = {"mm": 1, "cm": 2, "m": 3}
# share of a length that writing it in eighths may lose where it is typed in
TYPED_LOSS = {"in": 0.05, "yd": 0.0001}

# quantity -> its base unit, as the API speaks it
BASE = {
    "length": "mm",
    "money": "minor units",
    "money_each": "minor units",
    "percent": "%",
    "ratio": "×",
    "minutes": "min",
    "count": "",
    "number": "",
    "instant": "ms UTC",
    "id": "",
    "day": "",
    "text": "",
    "choice": "",
    "flag": "",
    "list": "",
    "object": "",
}


def ruler_step(unit):
    """Tell what a ruler in a unit shows at its finest, in mm: a millimetre, or an eighth of an inch.

    Source: common practice, no source.
    Example: ruler_step("in") == 3.175
    """
    return 1.0 if unit in DECIMALS else MILLIMETRES["in"] / 8


def to_mm(value, unit):
    """Convert a length to millimetres. Example: to_mm(1, "in") == 25.4"""
    return value * MILLIMETRES[unit]


def from_mm(value, unit):
    """Convert millimetres to another unit of length."""
    return value / MILLIMETRES[unit]


def parse_length(text, unit):
    """Read a typed length in a unit as millimetres; None if it is no number."""
    value = parse(text)
    return None if value is None else to_mm(value, unit)


def show_length(value_mm, unit, rounded=half_up):
    """Write a length in a unit: decimals for metric, eighths for inch and yard.

    Takes: rounded, which way the last digit goes: half_up, floor or ceil.
    Example: show_length(460.375, "in") == "18 1/8"
    """
    value = from_mm(value_mm, unit)
    if unit in DECIMALS:
        return decimal(value, DECIMALS[unit], rounded)
    # a length in yards is off the eighth when the shop does not sell by it
    if unit == "yd" and abs(value * 8 - half_up(value * 8)) > 0.01:
        return decimal(value, 3, rounded)
    return eighths(value, rounded)


def sold_by_the_yard(value_mm):
    """Say whether a length is whole eighths of a yard, and not whole centimetres."""
    eighth = to_mm(1, "yd") / 8
    return _is_whole(value_mm / eighth) and not _is_whole(value_mm / 10)


def _is_whole(value):
    return value > 0.5 and abs(value - half_up(value)) < 1e-6


def type_length(value_mm, unit):
    """Write a length as it would be typed in a unit, rounded down to what that can hold.

    Metric holds a hundredth of a millimetre or less; inch and yard an eighth, or
    four decimals where an eighth would lose too much.
    Example: type_length(450.6666, "mm") == "450.666"
    """
    value = from_mm(value_mm, unit)
    if unit in DECIMALS:
        return decimal(value, DECIMALS[unit] + 2, floor)
    # asked of what four decimals hold, so that passing it on again answers alike
    held = floor(value * 10000) / 10000
    if held - floor(held * 8) / 8 > TYPED_LOSS[unit] * held:
        return decimal(held, 4, floor)
    return eighths(held, floor)
