"""How a maker gets quicker with practice: each doubling of the pieces made takes the same share off."""

from math import exp, log, sqrt

from ..numbers.samples import mean_of, squares_about
from ..numbers.student import student_quantile

NONE = 100.0  # percent: a piece takes as long as the one before
FEWEST = 3  # batches
SURE = 0.975  # to one side


def rate_of(history):
    """Find the learning rate that earlier batches show.

    Takes: history, [{"pieces", "minutes"}], from the first piece ever made.
    Returns: percent; 100 where there are fewer than three batches, or where they may as well show none: the
    95 % interval of the slope does not lie below nothing.
    Source: least squares of log(minutes each) on log K; K = (F + L + 2√(F·L))/4 is the unit whose time is
    near the mean of units F to L (common practice in cost estimating).
    """
    if len(history) < FEWEST:
        return NONE
    across, up = _points(history)
    slope, high = _slope(across, up)
    return 100 * exp(slope * log(2)) if high < 0 else NONE


def _points(history):
    across, up, made = [], [], 0
    for batch in history:
        first, last = made + 1, made + batch["pieces"]
        across.append(log((first + last + 2 * sqrt(first * last)) / 4))
        up.append(log(batch["minutes"] / batch["pieces"]))
        made = last
    return across, up


def _slope(across, up):
    # the slope, and the upper end of its interval
    middle, height = mean_of(across), mean_of(up)
    width = squares_about(across, middle)
    product, off = 0.0, 0.0
    for one, other in zip(across, up):
        product += (one - middle) * (other - height)
    slope = product / width
    for one, other in zip(across, up):
        miss = other - height - slope * (one - middle)
        off += miss * miss
    freedom = len(up) - 2
    return slope, slope + student_quantile(SURE, freedom) * sqrt(off / freedom / width)


def units_worth(rate, made_before, quantity):
    """Tell how many pieces as they are timed now the next ones are worth.

    Piece u takes (u / at)^b of what was timed at the last one made, b = log(rate) / log(2).
    Takes: rate, percent.
    Source: Wright, Journal of the Aeronautical Sciences 3 (1936), as a unit curve.
    Example: units_worth(100.0, 7, 12) == 12.0
    """
    power = log(rate / 100) / log(2)
    at = max(1, made_before)
    total = 0.0
    for unit in range(made_before + 1, made_before + quantity + 1):
        total += exp(power * log(unit / at))
    return total
