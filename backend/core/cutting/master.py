"""The linear programme over fillings of rows: the revised simplex method, columns made as they are wanted.

Least cost of rows, in any parts, such that their fillings hold all pieces
wanted, no store is overdrawn and the numbers of rows of a kind keep within
bounds. Its dual values say what a piece of each size is worth; nothing is
claimed from them but what `proof.py` then proves in whole numbers.
Source: Gilmore and Gomory, A linear programming approach to the cutting-stock
problem, Operations Research 9 (1961).
"""

SMALL = 1e-9
LEFT_OUT = 100.0  # what leaving a piece out costs, in dearest rows


class Column:
    """One filling of one kind of row, or a slack: its cells by row of the programme, and its cost."""

    def __init__(self, kind, counts, cells, cost, lying=None):
        self.kind = kind
        self.lying = lying
        self.counts = counts
        self.cells = cells
        self.cost = cost


def filling(plan, number, counts, scale):
    """Make the column of a filling of one kind of row."""
    kind = plan.kinds[number]
    cells = [(size, float(count)) for size, count in enumerate(counts) if count]
    if kind.store is not None:
        cells.append((len(plan.wanted) + kind.store, float(kind.take)))
    return Column(number, counts, cells, kind.cost / scale, kind)


class Master:
    """The programme under certain bounds on the numbers of rows of a kind.

    Takes: plan; scale, the cost that counts as 1; bounds, [(kinds, number, at_least)].
    """

    def __init__(self, plan, scale, bounds, basis, pool):
        self.plan = plan
        self.scale = scale
        self.bounds = bounds
        self.pool = pool
        self.sizes = len(plan.wanted)
        self.fixed_rows = self.sizes + len(plan.stores)
        self.right = [float(number) for number in plan.wanted] + [float(room) for room in plan.stores]
        self.right += [float(number) for _, number, _ in bounds]
        self.at_least = [True] * self.sizes + [False] * len(plan.stores)
        self.at_least += [at_least for _, _, at_least in bounds]
        self.rows_of_kind = [[] for _ in plan.kinds]
        for row, (kinds, _, _) in enumerate(bounds):
            for kind in kinds:
                self.rows_of_kind[kind].append(self.fixed_rows + row)
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
            return Column(-1, (), [(row, 1.0)], LEFT_OUT)
        return Column(-1, (), [(row, 1.0)], 0.0)

    def cells_of(self, column):
        """List the cells of a column, those in the rows of bounds with it."""
        if column.kind >= 0 and self.rows_of_kind[column.kind]:
            return column.cells + [(row, 1.0) for row in self.rows_of_kind[column.kind]]
        return column.cells

    def duals(self):
        """Return what one more in each row of the programme would cost."""
        worth = [0.0] * len(self.right)
        for place, column in enumerate(self.basis):
            cost = column.cost
            if cost:
                line = self.inverse[place]
                for row in range(len(worth)):
                    worth[row] += cost * line[row]
        return worth

    def pivot(self, worth):
        """Bring in the known column of most gain; false where there is none."""
        best, gain = None, -1e-7
        for row in range(len(worth)):
            # giving some back, or leaving some free
            less = worth[row] if self.at_least[row] else -worth[row]
            if less < gain:
                best, gain = Column(-1, (), [(row, -1.0 if self.at_least[row] else 1.0)], 0.0), less
        extra = self.extra_of_kinds(worth)
        for column in self.pool:
            less = column.cost - extra[column.kind]
            for row, cell in column.cells:
                less -= cell * worth[row]
            if less < gain:
                best, gain = column, less
        return best is not None and self._enter(best)

    def extra_of_kinds(self, worth):
        """Say what a row of each kind is worth beside its pieces, for the bounds on its number."""
        extra = []
        for rows in self.rows_of_kind:
            more = 0.0
            for row in rows:
                more += worth[row]
            extra.append(more)
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
        line, pivot = self.inverse[out], change[out]
        for row in range(size):
            line[row] /= pivot
        self.amounts[out] /= pivot
        held = self.amounts[out]
        for place in range(size):
            factor = change[place]
            if place != out and factor:
                other = self.inverse[place]
                for row in range(size):
                    if line[row]:
                        other[row] -= factor * line[row]
                self.amounts[place] -= factor * held
                if self.amounts[place] < 0:
                    self.amounts[place] = 0.0
        self.basis[out] = column
        return True
