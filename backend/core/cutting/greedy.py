"""A good layout at once: row after row, always the filling that is worth most for what it takes."""

from .plan import Rows

MOST_STEPS = 300


class Rest:
    """What is still to be cut, and what there still is to cut it from."""

    def __init__(self, plan, layout):
        self.plan = plan
        self.wanted = list(plan.wanted)
        self.stores = list(plan.stores)
        self.most = [kind.most for kind in plan.kinds]
        self.layout = []
        self.effort = 4
        for rows in layout:
            self.take(rows)

    def take(self, rows):
        """Cut these rows; pieces beyond those wanted are not cut."""
        kind = self.plan.kinds[rows.kind]
        if kind.store is not None:
            self.stores[kind.store] -= kind.take * rows.times
        if kind.most is not None:
            self.most[rows.kind] -= rows.times
        for size, count in enumerate(rows.counts):
            self.wanted[size] = max(0, self.wanted[size] - count * rows.times)
        self.layout.append(rows)

    def rows_left(self, number):
        """Say how many more rows of a kind there can be; None for plenty."""
        kind, most = self.plan.kinds[number], self.most[number]
        if kind.store is None:
            return most
        in_store = self.stores[kind.store] // kind.take
        return in_store if most is None else min(most, in_store)


def complete(plan, layout, worths):
    """Add rows to a layout until all pieces are cut, those from stores first.

    Takes: worths, whole numbers by which fillings are compared.
    Returns: (layout, effort); the layout is None where no kind of row is left for some piece.
    """
    rest = Rest(plan, layout)
    most = [_most_worth(kind, worths) for kind in plan.kinds]
    while max(rest.wanted) > 0:
        rows = _best_rows(rest, worths, most)
        if rows is None:
            return None, rest.effort
        rest.take(rows)
    return rest.layout, rest.effort


def _most_worth(kind, worths):
    # no filling is worth more
    rate = 0.0
    for (size, reach, _), stack in zip(kind.pieces, kind.stacks):
        rate = max(rate, stack * worths[size] / reach)
    return rate * kind.room


def _best_rows(rest, worths, most):
    # what is to be used first, then what is there already, then what is bought
    best, rate, group = None, 0.0, 0
    for number, kind in enumerate(rest.plan.kinds):
        left = rest.rows_left(number)
        own = 0 if kind.cost else (2 if kind.ladder in rest.plan.first else 1)
        if left == 0 or own < group:
            continue
        if own == group and most[number] / (kind.cost or kind.take) <= rate:
            continue
        value, counts, _, steps = kind.filled(worths, rest.wanted, MOST_STEPS)
        rest.effort += 1 + steps // 16
        if not value:
            continue
        new_rate = value / (kind.cost or kind.take)
        if new_rate > rate or own > group:
            best, rate, group = _rows(rest, number, counts, left), new_rate, own
    return best


def _rows(rest, number, counts, left):
    # as many such rows as are full
    times = left
    for wanted, count in zip(rest.wanted, counts):
        if count:
            most = wanted // count
            times = most if times is None else min(times, most)
    return Rows(number, rest.plan.kinds[number], counts, max(1, times))
