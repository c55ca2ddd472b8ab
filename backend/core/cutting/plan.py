"""What is to be cut and from what, in whole numbers: the ground of the search and of the proof.

A row is a straight length that is cross-cut into pieces: a row right across a
cloth, or a roll of elastic. A kind of row says how long it is, which pieces may
lie in it, and what one such row takes: cost of what must be bought, or room in
something that is there already. All lengths are whole numbers of one unit, so
that nothing hangs on a float's last bit.
"""


class Kind:
    """A kind of row.

    Takes: room, its length; pieces, [(size, reach)], the sizes that may lie in
    it, each once; cost, what one such row costs; store, the number of the store
    it is taken from, or None; take, how much of that store; most, how many such
    rows there can be, None for plenty; mark, what the caller knows it by;
    ladder, a number shared by kinds of which a later one can hold all that an
    earlier one can; height, how far up the ladder it is.
    """

    def __init__(self, room, pieces, cost, store=None, take=0, most=None, mark=None, ladder=0, height=1):
        self.room = room
        self.pieces = pieces
        self.cost = cost
        self.store = store
        self.take = take
        self.most = most
        self.mark = mark
        self.ladder = ladder
        self.height = height


class Plan:
    """The kinds of row, the pieces wanted of each size, and the room in each store."""

    def __init__(self, wanted, kinds, stores):
        self.wanted = wanted
        self.kinds = kinds
        self.stores = stores


class Rows:
    """Like rows: their kind, how many of each size lie in one, and how many such rows."""

    def __init__(self, kind, counts, times):
        self.kind = kind
        self.counts = counts
        self.times = times


def cost_of(plan, layout):
    """Add up what the rows of a layout cost."""
    total = 0
    for rows in layout:
        total += plan.kinds[rows.kind].cost * rows.times
    return total
