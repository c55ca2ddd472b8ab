"""Lengths as whole numbers of a small unit, so that what fits is never a float's last bit."""

import math

from .rounding import GUARD, half_up

# parts of a millimetre that are tried: tapes and rulers, eighths of an inch, and then the finest
PARTS = (1, 10, 1000)
FINEST = 1000000


def parts_for(lengths):
    """Find the fewest parts of a millimetre that all lengths are whole numbers of."""
    for parts in PARTS:
        if not [length for length in lengths if not _is_whole(length * parts)]:
            return parts
    return FINEST


def _is_whole(value):
    return abs(value - half_up(value)) <= GUARD * max(1.0, value)


def in_parts(length, parts):
    """Turn a length in mm into whole parts, rounded down but for a float's last bits.

    Example: in_parts(460.375, 1000) == 460375
    """
    value = length * parts
    return math.floor(value + GUARD * max(1.0, abs(value)))


def divisor_of(numbers):
    """Find the greatest whole number that divides all; 1 for none. Example: divisor_of([6, 9]) == 3"""
    found = 0
    for number in numbers:
        while number:
            found, number = number, found % number
    return found or 1
