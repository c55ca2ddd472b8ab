"""What those who found nothing left and asked for it tell of the demand after a sell-out."""

from .two_ways import Row, fit_two_ways, ratio

FEWEST_TAPS = 10


def asked_share(rows, days, products):
    """Estimate which part of those who find nothing left ask for it, and are noted.

    Returns: a part of 1; 0 with fewer than FEWEST_TAPS of them.
    """
    asked = 0
    for row in rows:
        if row.left > 0:
            asked += row.asked
    if asked < FEWEST_TAPS:
        return 0.0
    levels, shares = fit_two_ways(rows, days, products)
    missed = 0.0
    for row in rows:
        missed += levels[row.day] * shares[row.product] * row.left
    return min(1.0, ratio(asked, missed)) if missed > 0 else 1.0


def widened(rows, share):
    """Take those who asked for buyers in as much of the time after a sell-out as their share.

    Example: widened([Row(0, 0, 5, 3.0, 3.0, 1)], 0.5)[0].hours == 4.5
    """
    if not share:
        return rows
    return [
        Row(row.day, row.product, row.sold + row.asked, row.hours + share * row.left) if row.left > 0 else row
        for row in rows
    ]
