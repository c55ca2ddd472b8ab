"""A layout without pieces beyond those wanted, each row as low as its pieces allow."""

from .plan import Rows


def tidy(plan, layout):
    """Take out extra pieces, last from what is free, and lower the rows that then may be lower."""
    left = list(plan.wanted)
    tidied = []
    for free in (True, False):
        for rows in layout:
            if free == (not rows.lying.cost):
                for times, counts in _without_extra(rows, left):
                    number, lying = _lowest(plan, rows, counts)
                    tidied.append(Rows(number, lying, counts, times))
    return tidied


def _without_extra(rows, left):
    # like rows without pieces beyond those still wanted, in groups of like ones: [(times, counts)]
    groups, times = [], rows.times
    while times:
        counts = [min(count, still) for count, still in zip(rows.counts, left)]
        if not max(counts):
            return groups
        again = times
        for count, still in zip(counts, left):
            if count:
                again = min(again, still // count)
        for size, count in enumerate(counts):
            left[size] -= count * again
        groups.append((again, counts))
        times -= again
    return groups


def _lowest(plan, rows, counts):
    for number in plan.ladders[rows.lying.ladder]:
        kind = plan.kinds[number]
        if kind.cost > rows.lying.cost or kind.take > rows.lying.take or kind.most is not None:
            break
        if _holds(kind, rows.lying, counts):
            return number, kind
    return rows.kind, rows.lying


def _holds(kind, lying, counts):
    if kind.napped:
        for size, count in enumerate(counts):
            if count and kind.turned(size) != lying.turned(size):
                return False
    reach = kind.reach_of(counts)
    return reach is not None and reach <= kind.room
