"""How many are wanted: chances of whole numbers with a known mean, Poisson's or more spread than that."""

from math import exp, log

MOST_MEAN = 500
NOTHING = 1e-9  # of what lies beyond the last chance, less than a float can tell of 1
AS_POISSON = 10000  # a size from which the spread is Poisson's


def chances(mean, size, most):
    """List the chances of 0, 1, … up to `most`.

    Takes: mean, at most MOST_MEAN; size, how even the demand is (variance = mean + mean²/size), None for
    Poisson's law.
    Returns: most + 1 chances; the rest of 1 lies beyond.
    Source: Johnson, Kemp & Kotz, Univariate Discrete Distributions.
    Example: chances(0.0, None, 2) == [1.0, 0.0, 0.0]
    """
    if size is not None and size < AS_POISSON:
        now = exp(-size * _log_above_one(mean / size))
    else:
        size, now = None, exp(-mean)
    told = [now]
    for count in range(most):
        if size is None:
            now = now * mean / (count + 1)
        else:
            now = now * (count + size) / (count + 1) * (mean / (size + mean))
        told.append(now)
    return told


def chances_up_to(mean, size, most):
    """List the chances of at most 0, at most 1, … at most `most`.

    Example: chances_up_to(0.0, 3.0, 1) == [1.0, 1.0]
    """
    return added_up(chances(mean, size, most))


def added_up(parts):
    """Add up chances from the first: of at most 0, at most 1, and so on.

    Example: added_up([0.25, 0.5]) == [0.25, 0.75]
    """
    total, told = 0.0, []
    for chance in parts:
        total = min(1.0, total + chance)
        told.append(total)
    return told


def left_above(parts):
    """Add up chances from the last: of more than 0, more than 1, and so on, small ones to their last digits.

    Example: left_above([0.25, 0.5, 0.25]) == [0.75, 0.25, 0.0]
    """
    above, told = 1 - added_up(parts)[-1], []
    above = above if above > NOTHING else 0.0
    for chance in reversed(parts):
        told.append(above)
        above = min(1.0, above + chance)
    return list(reversed(told))


def _log_above_one(above):
    # log(1 + above): Kahan's way to the last digits that 1 + above rounds away
    near = 1 + above
    return above if near == 1 else log(near) * above / (near - 1)
