"""A typed length in another unit, and a typed number an eighth further."""

from ..numbers.numerals import eighths, parse
from ..numbers.rounding import ROUNDINGS, ceil, floor
from ..numbers.units import parse_length, typed_length


def convert(text, exact, unit, to, rounding):
    """Rewrite a typed length in another unit; what cannot be read stays as it is.

    Takes: exact, its value in mm where the text shows it only nearly, None for
    what the text says; rounding, a key of ROUNDINGS, as its field declares.
    Returns: the text, or {"text", "mm"} where that is not quite the length.
    """
    value = parse_length(text, unit) if exact is None else exact
    return text if value is None else typed_length(value, to, ROUNDINGS[rounding])


def next_eighth(text, up):
    """Write the next eighth above or below a typed number, nothing at least; what cannot be read stays.

    Example: next_eighth("6", True) == "6 1/8"
    """
    value = parse(text) if text else 0
    if value is None:
        return text
    count = floor(value * 8) + 1 if up else ceil(value * 8) - 1
    return eighths(max(0, count) / 8)
