"""The proof of a bound, in whole numbers alone.

Give each size any whole worth. Let a kind's *reach* be the most that one of its
rows can hold, by worth: found exactly, or never too low. All rows of a layout
then reach at least the worth of all pieces wanted. Where a branch holds the
number of some rows at most or at least, whole weights for that may be taken off
or added on both sides. So a cost for which even the dearest choice of rows
reaches less, with no store overdrawn, is a cost that no layout has. Worths and
weights come from the linear programme, but the proof asks nothing of them: poor
ones give a weak bound, never a wrong one.
"""

from .fullest import fullest

MOST_STEPS = 2000


def weigh(reaches, total, bounds, weights):
    """Add the bounds of a branch to what rows reach, each by its whole weight.

    Takes: bounds, [(kinds, number, at_least)]; weights, none below 0.
    Returns: (reaches, total), for `least_cost`.
    """
    reaches = list(reaches)
    for (kinds, number, at_least), weight in zip(bounds, weights):
        signed = weight if at_least else -weight
        total += signed * number
        for kind in kinds:
            reaches[kind] += signed
    return reaches, total


def least_cost(plan, reaches, total, upto):
    """Find a cost below which the rows cannot reach a total; `upto` if none below it can.

    Takes: reaches, the most one row of each kind holds; total, the worth of all
    pieces; upto, a whole cost that need not be exceeded.
    """
    rest = total - _from_stores(plan, reaches)
    if rest <= 0:
        return 0
    bought = []
    for number, kind in enumerate(plan.kinds):
        if kind.store is None:
            bought.append((reaches[number], kind.cost, upto if kind.most is None else kind.most))
    if fullest(upto - 1, bought, MOST_STEPS, rest)[2] < rest:
        return upto
    low, high = min(upto - 1, _at_best_rate(bought, rest)), upto - 1
    while low < high:
        middle = (low + high) // 2
        if fullest(middle, bought, MOST_STEPS, rest)[2] < rest:
            low = middle + 1
        else:
            high = middle
    return low


def _at_best_rate(bought, rest):
    # what the rest costs at the best rate of reach for cost, rounded down
    least = None
    for reach, cost, most in bought:
        if reach > 0 and most:
            part = rest * cost // reach
            if least is None or part < least:
                least = part
    return least or 0


def _from_stores(plan, reaches):
    # the most that rows from all stores can reach
    total = 0
    for store, room in enumerate(plan.stores):
        rows = [
            (reaches[number], kind.take, room if kind.most is None else kind.most)
            for number, kind in enumerate(plan.kinds)
            if kind.store == store
        ]
        total += fullest(room, rows, MOST_STEPS)[2]
    return total
