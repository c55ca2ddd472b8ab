"""Fill: all pieces into the stores there are and a budget of what may be bought, one store after the other.

Each time the patterns that together fit what is left of a store best say which
row is cut next, so that the rows' heights come out even with the store's length.
"""

from ...knapsack import effort_of, solve_knapsack
from ..problem import PatternRun
from .greedy import Remaining

MOST_STEPS = 300


def fill(problem, layout, values, budget, order):
    """Add rows to a layout until all pieces are cut, within a cost.

    Takes: values, whole numbers by which patterns are compared; budget, the
    most that the rows added may cost; order, the stores in the order to fill
    them, None for what is bought.
    Returns: (layout, effort); the layout is None where pieces are left.
    """
    remaining = Remaining(problem, layout)
    for store in order:
        numbers = [
            number
            for number, row_type in enumerate(problem.row_types)
            if row_type.store == store and row_type.pieces
        ]
        capacity = budget if store is None else remaining.stores[store]
        while max(remaining.demand) > 0:
            run = _next_run(remaining, numbers, values, capacity)
            if run is None:
                break
            capacity -= (run.row_type.take or run.row_type.cost) * run.times
            remaining.take(run)
    return remaining.layout if max(remaining.demand) == 0 else None, remaining.effort


def _next_run(remaining, numbers, values, capacity):
    # of the patterns that together are worth most in this capacity, that of most value for what it takes
    patterns = []
    for number in numbers:
        row_type = remaining.problem.row_types[number]
        take = row_type.take or row_type.cost
        most = capacity // take
        if row_type.most is not None:
            most = min(most, remaining.rows_left(number))
        if most > 0:
            value, placed, _, steps = row_type.best_pattern(values, remaining.demand, MOST_STEPS)
            remaining.effort += effort_of(len(row_type.pieces), steps)
            if value:
                patterns.append((value, take, most, number, placed))
    if not patterns:
        return None
    _, counts, _, steps = solve_knapsack(capacity, [pattern[:3] for pattern in patterns], MOST_STEPS)
    remaining.effort += effort_of(len(patterns), steps)
    best = None
    for pattern, count in zip(patterns, counts):
        if count and (best is None or pattern[0] * best[1] > best[0] * pattern[1]):
            best = pattern
    return _run(remaining, best, counts[patterns.index(best)])


def _run(remaining, pattern, times):
    _, _, _, number, counts = pattern
    for demand, count in zip(remaining.demand, counts):
        if count:
            times = min(times, demand // count)
    return PatternRun(number, remaining.problem.row_types[number], counts, max(1, times))
