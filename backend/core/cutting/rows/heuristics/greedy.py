"""Greedy: a good layout at once, row after row, always the pattern that is worth most for what it takes."""

from ...knapsack import effort_of
from ..problem import PatternRun

MOST_STEPS = 300


class Remaining:
    """What is still to be cut, and what there still is to cut it from."""

    def __init__(self, problem, layout):
        self.problem = problem
        self.demand = list(problem.demand)
        self.stores = list(problem.stores)
        self.most = [row_type.most for row_type in problem.row_types]
        self.ended = []
        self.layout = []
        self.effort = 4
        for run in layout:
            self.take(run)

    def take(self, run):
        """Cut these rows; pieces beyond the demand are not cut."""
        row_type = self.problem.row_types[run.type_number]
        if row_type.store is not None:
            self.stores[row_type.store] -= row_type.take * run.times
        if row_type.most is not None:
            self.most[run.type_number] -= run.times
        if row_type.last:
            self.ended.append(row_type.family)
        for size, count in enumerate(run.counts):
            self.demand[size] = max(0, self.demand[size] - count * run.times)
        self.layout.append(run)

    def rows_left(self, number):
        """Say how many more rows of a type there can be; None for plenty."""
        row_type, most = self.problem.row_types[number], self.most[number]
        if row_type.last:
            most = 0 if row_type.family in self.ended else 1
        if row_type.store is None:
            return most
        in_store = self.stores[row_type.store] // row_type.take
        return in_store if most is None else min(most, in_store)


def complete(problem, layout, values):
    """Add rows to a layout until all pieces are cut, those from stores first.

    Takes: values, whole numbers by which patterns are compared.
    Returns: (layout, effort); the layout is None where no row type is left for some piece.
    """
    remaining = Remaining(problem, layout)
    most = [_value_bound(row_type, values) for row_type in problem.row_types]
    while max(remaining.demand) > 0:
        run = _best_run(remaining, values, most)
        if run is None:
            return None, remaining.effort
        remaining.take(run)
    return remaining.layout, remaining.effort


def _value_bound(row_type, values):
    # no pattern is worth more
    rate = 0.0
    for (size, length, _), stack in zip(row_type.pieces, row_type.stacks):
        rate = max(rate, stack * values[size] / length)
    return rate * row_type.capacity


def _best_run(remaining, values, most):
    # what is to be used first, then what is there already, then what is bought
    best, rate, group = None, 0.0, 0
    for number, row_type in enumerate(remaining.problem.row_types):
        left = remaining.rows_left(number)
        own = 0 if row_type.cost else (2 if row_type.family in remaining.problem.first else 1)
        if left == 0 or own < group:
            continue
        if own == group and most[number] / (row_type.cost or row_type.take) <= rate:
            continue
        value, counts, _, steps = row_type.best_pattern(values, remaining.demand, MOST_STEPS)
        remaining.effort += effort_of(len(row_type.pieces), steps)
        if not value:
            continue
        new_rate = value / (row_type.cost or row_type.take)
        if new_rate > rate or own > group:
            best, rate, group = _run(remaining, number, counts, left), new_rate, own
    return best


def _run(remaining, number, counts, left):
    # the pattern as many times as the demand has it in full
    times = left
    for demand, count in zip(remaining.demand, counts):
        if count:
            most = demand // count
            times = most if times is None else min(times, most)
    return PatternRun(number, remaining.problem.row_types[number], counts, max(1, times))
