"""The linear programme over fillings of rows: the revised simplex method, columns made as they are wanted.

Least cost of rows, in any parts, such that their fillings hold all pieces
wanted and the numbers of rows of a kind keep within bounds. Rows that are bought
come one by one; a store is used up in one of many ways, or in parts of several.
Its dual values say what a piece of each size is worth; nothing is claimed from
them but what `proof.py` then proves in whole numbers.
Source: Gilmore and Gomory, A linear programming approach to the cutting-stock
problem, Operations Research 9 (1961).
"""

SMALL = 1e-9
HAIR = 2e-7
BLOCK = 32  # columns that are looked at before the best of them is taken
LEFT_OUT = 10.0  # what leaving a piece out costs, in dearest rows


class Column:
    """One row that is bought, or all rows from one store; or a slack, without rows.

    Has: counts, its pieces of each size; cells, by row of the programme; cost;
    store, or None; take, how much of the store.
    """

    def __init__(self, rows, counts, cells, cost, store=None, take=0):
        self.rows = rows
        self.counts = counts
        self.cells = cells
        self.cost = cost
        self.store = store
        self.take = take


def column_of(rows, sizes, scale):
    """Make the column of rows that are taken together."""
    counts, cost, take, store = [0] * sizes, 0, 0, None
    for row in rows:
        for size, count in enumerate(row.counts):
            counts[size] += count * row.times
        cost += row.lying.cost * row.times
        take += row.lying.take * row.times
        store = row.lying.store
    cells = [(size, float(count)) for size, count in enumerate(counts) if count]
    if store is not None:
        cells.append((sizes + store, 1.0))
    return Column(rows, counts, cells, cost / scale, store, take)


class Master:
    """The programme under certain bounds.

    Takes: plan; scale, the cost that counts as 1; bounds, a list of Bound;
    basis, columns to begin with; pool, all columns known, which may grow.
    """

    def __init__(self, plan, scale, bounds, basis, pool):
        self.plan = plan
        self.scale = scale
        self.bounds = bounds
        self.pool = pool
        self.sizes = len(plan.wanted)
        self.fixed_rows = self.sizes + len(plan.stores)
        self.right = [float(number) for number in plan.wanted] + [1.0 for _ in plan.stores]
        self.at_least = [True] * self.sizes + [False] * len(plan.stores)
        self.on_rows, self.on_pieces = [], []
        for row, bound in enumerate(bounds):
            (self.on_rows if bound.size is None else self.on_pieces).append((self.fixed_rows + row, bound))
            self.right.append(bound.number / bound.scale)
            self.at_least.append(bound.at_least)
        # all a hair apart, or where many are equal it would turn in a circle
        self.right = [right + HAIR * (1 + row % 7 + row / 64) for row, right in enumerate(self.right)]
        self.at = 0
        self.basis = []
        self.inverse = []
        self.amounts = []
        self._start(basis)

    def _start(self, basis):
        # the basis that was best before the last bound came, and a slack for each row that has none
        self.basis = [self._slack(row) for row in range(len(self.right))]
        self.inverse = [[0.0] * len(self.right) for _ in self.right]
        for row, column in enumerate(self.basis):
            self.inverse[row][row] = 1.0 / column.cells[0][1]
        self.amounts = [self.right[row] * self.inverse[row][row] for row in range(len(self.right))]
        for column in basis:
            self._enter(column)

    def _slack(self, row):
        # leaving something out where the row is not held without it
        if self.at_least[row]:
            return Column([], (), [(row, 1.0)], LEFT_OUT)
        return Column([], (), [(row, 1.0)], 0.0)

    def cells_of(self, column):
        """List the cells of a column, those in the rows of bounds with it."""
        if not column.rows or not self.bounds:
            return column.cells
        cells = list(column.cells)
        for row, bound in self.on_rows:
            cell = 0
            for rows in column.rows:
                cell += bound.weights[rows.kind] * rows.times
            if cell:
                cells.append((row, cell / bound.scale))
        for row, bound in self.on_pieces:
            cell = _pieces_in(column, bound)
            if cell:
                cells.append((row, float(cell)))
        return cells

    def duals(self):
        """Return what one more in each row of the programme would cost."""
        worth = [0.0] * len(self.right)
        for place, column in enumerate(self.basis):
            cost = column.cost
            if cost:
                worth = [value + cost * cell for value, cell in zip(worth, self.inverse[place])]
        return worth

    def pivot(self, worth):
        """Bring in a column that gains, the most of some that are looked at; false where there is none."""
        best, gain = None, -1e-7
        for row in range(len(worth)):
            # giving some back, or leaving some free
            less = worth[row] if self.at_least[row] else -worth[row]
            if less < gain:
                best, gain = Column([], (), [(row, -1.0 if self.at_least[row] else 1.0)], 0.0), less
        extra = self.worth_of_rows(worth)
        scanned, at, known = 0, self.at, len(self.pool)
        while scanned < known and (best is None or scanned % BLOCK):
            scanned += 1
            at = at + 1 if at + 1 < known else 0
            column = self.pool[at]
            less = column.cost
            for rows in column.rows:
                less -= extra[rows.kind] * rows.times
            for row, cell in column.cells:
                less -= cell * worth[row]
            for row, bound in self.on_pieces:
                less -= _pieces_in(column, bound) * worth[row]
            if less < gain:
                best, gain = column, less
        self.at = at
        return best is not None and self._enter(best)

    def worth_of_rows(self, worth):
        """Say what a row of each kind is worth beside its pieces, for the bounds on rows."""
        extra = [0.0] * len(self.plan.kinds)
        for row, bound in self.on_rows:
            value = worth[row] / bound.scale
            if value:
                for kind, weight in enumerate(bound.weights):
                    if weight:
                        extra[kind] += value * weight
        return extra

    def _enter(self, column):
        size = len(self.right)
        cells = self.cells_of(column)
        change = []
        for line in self.inverse:
            moved = 0.0
            for row, cell in cells:
                moved += line[row] * cell
            change.append(moved)
        out, least = -1, 0.0
        for place in range(size):
            if change[place] > SMALL:
                ratio = self.amounts[place] / change[place]
                if (
                    out < 0
                    or ratio < least - SMALL
                    or (ratio < least + SMALL and change[place] > change[out])
                ):
                    out, least = place, ratio
        if out < 0:
            return False
        pivot = change[out]
        line = [cell / pivot for cell in self.inverse[out]]
        self.inverse[out] = line
        self.amounts[out] /= pivot
        held = self.amounts[out]
        for place in range(size):
            factor = change[place]
            if place != out and factor:
                self.inverse[place] = [cell - factor * own for cell, own in zip(self.inverse[place], line)]
                self.amounts[place] -= factor * held
                if self.amounts[place] < 0:
                    self.amounts[place] = 0.0
        self.basis[out] = column
        return True


def _pieces_in(column, bound):
    count = 0
    for rows in column.rows:
        if bound.weights[rows.kind]:
            count += rows.counts[bound.size] * rows.times
    return count
