"""The columns of the linear programme, and where it may begin: see master.py."""

from .lying import ways_of


class Column:
    """One row that is bought, or all rows from one store; or a slack, without rows.

    Has: counts, its pieces of each size; cells, by row of the programme; cost;
    store, or None; take, how much of the store; lying, how its pieces lie on
    napped ladders, [((ladder, size), turned)].
    """

    def __init__(self, rows, counts, cells, cost, store=None, take=0, lying=()):
        self.rows = rows
        self.lying = lying
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
    return Column(rows, counts, cells, cost / scale, store, take, ways_of(rows))


class Basis:
    """Where a programme begins: with columns; or where another ended, with all that it knew.

    Takes: columns; pool, [(column, cells)] of those that may gain; known, how many
    columns there were then; ended, the Master that ended, or None.
    """

    def __init__(self, columns, pool=(), known=0, ended=None):
        self.columns = columns
        self.pool = pool
        self.known = known
        self.ended = ended

    def with_only(self, usable):
        """Leave out the columns that may not be used; where it was made of one, only the others are left."""
        columns = [column for column in self.columns if not column.rows or usable(column)]
        if len(columns) < len(self.columns):
            return Basis(columns)
        return Basis(columns, [one for one in self.pool if usable(one[0])], self.known, self.ended)


def are_alike(old, new):
    """Say whether new bounds are the old ones but for their numbers, and maybe more of them."""
    if len(old) > len(new):
        return False
    for one, other in zip(old, new):
        if one is not other and not other.replaces(one):
            return False
    return True
