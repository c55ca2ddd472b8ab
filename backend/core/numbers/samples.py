"""Few values of a kind: their mean, how sure it is, and whether two kinds differ."""

from math import sqrt

from .rounding import GUARD, floor
from .student import student_quantile


def mean_of(values):
    """Work out the mean. Example: mean_of([1.0, 2.0, 6.0]) == 3.0"""
    total = 0.0
    for value in values:
        total += value
    return total / len(values)


def squares_about(values, middle):
    """Add up the squares of the distances from a middle.

    Example: squares_about([1.0, 2.0, 6.0], 3.0) == 14.0
    """
    total = 0.0
    for value in values:
        total += (value - middle) * (value - middle)
    return total


def variance_of(values):
    """Work out the variance of two values or more. Example: variance_of([1.0, 2.0, 6.0]) == 7.0"""
    return squares_about(values, mean_of(values)) / (len(values) - 1)


def do_vary(values):
    """Say whether values differ, by more than a float's last bits.

    All alike, as whole minutes often are, they say nothing of how far others may lie from them.
    Example: do_vary([3.0, 3.0]) == False
    """
    least, most = min(values), max(values)
    return most - least > GUARD * max(abs(least), abs(most))


def reach_of_mean(values, chance):
    """Tell how far the true mean may lie to either side, with a chance such as 0.95; None for one value."""
    count = len(values)
    if count < 2:
        return None
    return student_quantile((1 + chance) / 2, count - 1) * sqrt(variance_of(values) / count)


def reach_of_difference(one, other, chance):
    """Tell how far the true difference of two means may lie to either side of what it seems, by Welch.

    Returns: (reach, t), t the quantile of Welch's degrees of freedom rounded down, at least 1; (None, None)
    where either has fewer than two values, or neither varies.
    Source: B. L. Welch, Biometrika 34 (1947) 28–35.
    """
    if len(one) < 2 or len(other) < 2 or not (do_vary(one) or do_vary(other)):
        return None, None
    first, second = variance_of(one) / len(one), variance_of(other) / len(other)
    t = student_quantile((1 + chance) / 2, _freedom(first, len(one), second, len(other)))
    return t * sqrt(first + second), t


def _freedom(first, count, second, other_count):
    # as shares, whose squares never vanish
    whole = first + second
    share, rest = first / whole, second / whole
    return max(1, floor(1 / (share * share / (count - 1) + rest * rest / (other_count - 1))))
