"""Lengths and the other quantities: base units, units on the screen, words.

Source: the inch is 25.4 mm and the yard 914.4 mm exactly (international yard
and pound agreement, 1959; NIST SP 811, Appendix B).
"""

from .numerals import decimal, eighths, parse, pointed, read_eighths
from .rounding import at_most, half_up

MILLIMETRES = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4}
UNITS = ("mm", "cm", "m", "in", "yd")
DECIMALS = {"mm": 1, "cm": 2, "m": 3}
# share of a length that writing it in eighths may add or lose where it is typed in
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
    """Write a length in a unit to its last figure: decimals for metric, eighths for inch and yard.

    Takes: rounded, which way the last digit goes: half_up, floor or ceil.
    Example: show_length(460.375, "in") == "18⅛"
    """
    value = from_mm(value_mm, unit)
    if unit in DECIMALS:
        return decimal(value, DECIMALS[unit], rounded)
    return decimal(value, 3, rounded) if _is_off_the_eighth(value, unit) else read_eighths(value, rounded)


def read_length(value_mm, unit, rounded=half_up):
    """Write a length with its unit as it is read off: to a millimetre, in metres to a centimetre.

    Millimetres from a metre on are told in centimetres, metres below one too;
    below a centimetre to a tenth of a millimetre, as cloth and elastic are thin.
    Takes: rounded, which way the last digit goes: half_up, floor or ceil.
    Example: read_length(2600, "m") == "2.60 m"
    """
    if unit == "m" and value_mm < 1000 or unit == "mm" and value_mm >= 1000:
        unit = "cm"
    value = from_mm(value_mm, unit)
    if unit == "m":
        told = pointed(rounded(value * 100), 2)
        # whole metres are whole: a roll of 50 m
        told = told[:-3] if told[-3:] == ".00" else told
    elif unit in DECIMALS:
        told = decimal(value, 1 if unit == "cm" or value < 10 else 0, rounded)
    else:
        told = decimal(value, 2, rounded) if _is_off_the_eighth(value, unit) else read_eighths(value, rounded)
    return told + " " + unit


def _is_off_the_eighth(value, unit):
    # a length in yards is, when the shop does not sell by it
    return unit == "yd" and abs(value * 8 - half_up(value * 8)) > 0.01


def sold_by_the_yard(value_mm):
    """Say whether a length is whole eighths of a yard, and not whole centimetres."""
    eighth = to_mm(1, "yd") / 8
    return _is_whole(value_mm / eighth) and not _is_whole(value_mm / 10)


def _is_whole(value):
    return value > 0.5 and abs(value - half_up(value)) < 1e-6


def type_length(value_mm, unit, rounded=half_up):
    """Write a length as it would be typed in a unit, to what a ruler in it shows.

    Metric holds a tenth of a millimetre, metres a whole one; inch and yard an
    eighth, or four decimals where an eighth would be too far off.
    Takes: rounded, which way the last digit goes: half_up for sizes, floor for
    what something must fit into.
    Example: type_length(165, "in") == "6 1/2"
    """
    value = from_mm(value_mm, unit)
    if unit in DECIMALS:
        return decimal(value, DECIMALS[unit], rounded)
    # asked of what four decimals hold, so that passing it on again answers alike
    held = rounded(value * 10000) / 10000
    if abs(held - rounded(held * 8) / 8) > TYPED_LOSS[unit] * abs(held):
        return decimal(held, 4, rounded)
    return eighths(held, rounded)


def typed_length(value_mm, unit, rounded=half_up):
    """Write a length as it would be typed; with its exact value beside it where the text is another.

    Returns: the text, or {"text", "mm"}: the value stays until something else is
    typed, so that no unit it is shown in changes it. A float's last bits are not
    worth holding: 481.99999999999994 is 482.
    Example: typed_length(165, "in") == {"text": "6 1/2", "mm": 165}
    """
    text = type_length(value_mm, unit, rounded)
    said = parse_length(text, unit)
    is_said = at_most(said, value_mm) and at_most(value_mm, said)
    return text if is_said else {"text": text, "mm": value_mm}
