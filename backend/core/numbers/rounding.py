"""Rounding that does not trip over a float's last bit."""

import math

# relative; wide enough for a chain of float steps on lengths and counts
GUARD = 1e-9
# narrower where digits are written, and never wide enough to move one that is there
FINE_GUARD = 1e-12
FINE_MOST = 0.001


def floor(value):
    """Round down to a whole number, taking 2.9999999999 for 3.

    Example: floor(138.0 / 46.0) == 3
    """
    if value == int(value):
        return int(value)
    return math.floor(value + GUARD * max(1.0, abs(value)))


def ceil(value):
    """Round up to a whole number, taking 3.0000000001 for 3."""
    if value == int(value):
        return int(value)
    return math.ceil(value - GUARD * max(1.0, abs(value)))


def half_up(value):
    """Round to the nearest whole number, halves away from zero.

    Example: half_up(2.5) == 3
    """
    size = abs(value)
    whole = int(size)
    if size - whole + min(FINE_GUARD * max(1.0, size), FINE_MOST) >= 0.5:
        whole += 1
    return -whole if value < 0 else whole


# which way the last digit of a number goes, by the word that a screen is told
ROUNDINGS = {"nearest": half_up, "down": floor, "up": ceil}


def at_most(value, limit):
    """Say whether value ≤ limit, as far as a float's last bits can tell."""
    return value <= limit + GUARD * max(1.0, abs(limit))


def step_down(value, step):
    """Round down to a whole number of steps."""
    return floor(value / step) * step


def step_up(value, step):
    """Round up to a whole number of steps."""
    return ceil(value / step) * step


def step_nearest(value, step):
    """Round to the nearest whole number of steps, halves up."""
    return half_up(value / step) * step
