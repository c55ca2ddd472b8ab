"""The columns of the linear programme, and where it may begin: see simplex.py."""

from .nap import orientations_in


class Column:
    """One row that is bought, or all rows from one store; or a slack, without rows.

    Has: counts, its pieces of each size; cells, by row of the programme; cost;
    store, or None; take, how much of the store; orientations, how its pieces lie in
    napped families, [((family, size), turned)].
    """

    def __init__(self, runs, counts, cells, cost, store=None, take=0, orientations=()):
        self.runs = runs
        self.orientations = orientations
        self.counts = counts
        self.cells = cells
        self.cost = cost
        self.store = store
        self.take = take


def column_of(runs, sizes, scale):
    """Make the column of rows that are taken together."""
    counts, cost, take, store = [0] * sizes, 0, 0, None
    for run in runs:
        for size, count in enumerate(run.counts):
            counts[size] += count * run.times
        cost += run.row_type.cost * run.times
        take += run.row_type.take * run.times
        store = run.row_type.store
    cells = [(size, float(count)) for size, count in enumerate(counts) if count]
    if store is not None:
        cells.append((sizes + store, 1.0))
    return Column(runs, counts, cells, cost / scale, store, take, orientations_in(runs))


class WarmStart:
    """Where a linear programme begins: with columns; or where another ended, with all that it knew.

    Takes: columns; pool, [(column, cells)] of those that may gain; known, how many
    columns there were then; master, the RestrictedMaster that ended, or None.
    """

    def __init__(self, columns, pool=(), known=0, master=None):
        self.columns = columns
        self.pool = pool
        self.known = known
        self.master = master

    def with_only(self, usable):
        """Leave out the columns that may not be used; where it was made of one, only the others are left."""
        columns = [column for column in self.columns if not column.runs or usable(column)]
        if len(columns) < len(self.columns):
            return WarmStart(columns)
        return WarmStart(columns, [one for one in self.pool if usable(one[0])], self.known, self.master)


def only_tightened(old, new):
    """Say whether new constraints are the old ones but for their right sides, and maybe more of them."""
    if len(old) > len(new):
        return False
    for one, other in zip(old, new):
        if one is not other and not other.replaces(one):
            return False
    return True
