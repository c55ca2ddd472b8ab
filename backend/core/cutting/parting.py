"""Where a branch is parted in two: by a number that is broken in what the linear programme found."""

from .generating import SMALL


def broken_rows(plan, amounts):
    """Find rows of one ladder from some height up whose number is broken, where one more or less tells most.

    Takes: amounts, how many rows of each kind, in parts.
    Returns: (weights, number rounded down, size None, whether up comes first), or None.
    """
    best, most = None, 0.0
    for ladder in plan.ladders:
        total, weights = 0.0, [0] * len(plan.kinds)
        for place in range(len(ladder) - 1, -1, -1):
            total += amounts[ladder[place]]
            weights[ladder[place]] = 1
            below = plan.kinds[ladder[place - 1]].height if place else 0
            part = total - int(total + SMALL)
            tells = min(part, 1 - part) * (plan.kinds[ladder[place]].height - below)
            if min(part, 1 - part) > SMALL and tells > most:
                best, most = (list(weights), int(total + SMALL), None, part > 0.4), tells
    return best


def broken_pieces(plan, found):
    """Find pieces of one size in rows of one kind whose number is broken most; as `broken_rows`."""
    pieces = [[0.0] * len(plan.wanted) for _ in plan.kinds]
    for column, amount in found:
        for rows in column.rows:
            for size, count in enumerate(rows.counts):
                pieces[rows.kind][size] += count * rows.times * amount
    best, most = None, SMALL
    for kind, row in enumerate(pieces):
        for size, total in enumerate(row):
            part = total - int(total + SMALL)
            if min(part, 1 - part) > most:
                weights = [0] * len(plan.kinds)
                weights[kind] = 1
                best, most = (weights, int(total + SMALL), size, part > 0.5), min(part, 1 - part)
    return best
