"""What is to be cut and from what, in whole numbers: the ground of the search and of the proof.

A row is a straight length that is cross-cut into pieces: a row right across a
cloth, or a roll of elastic. A kind of row says how long it is, which pieces may
lie in it, and what one such row takes: cost of what must be bought, or room in
something that is there already. All lengths are whole numbers of one unit, so
that nothing hangs on a float's last bit.
"""

from .fullest import fullest
from .grid import divisor_of


class Kind:
    """A kind of row.

    Takes: room, its length; ways, [(size, reach, turned, stack)], how sizes may
    lie in it, stack of them over each other; cost, what one such row costs;
    store, the number of the store it is taken from, or None; take, how much of
    that store; most, how many such rows there can be, None for plenty; mark, what
    the caller knows it by; ladder, a number shared by kinds of which a later one
    is higher; height, how far up the ladder it is; napped, true where all pieces
    of a size on one ladder must lie one way.
    Has: pieces, [(size, reach, turned)], the ways with one a size, that of least
    reach for a piece; stacks, for each of them how many lie over each other.
    """

    def __init__(self, room, ways, cost, store=None, take=0, most=None, mark=None, ladder=0, height=1,
                 napped=False):  # fmt: skip
        # in the steps its pieces come in: what is less than a step is of no use
        step = divisor_of([way[1] for way in ways])
        self.room = room // step
        self.ways = ways
        self.step = step
        self.cost = cost
        self.store = store
        self.take = take
        self.most = most
        self.mark = mark
        self.ladder = ladder
        self.height = height
        self.napped = napped
        shortest = _shortest(ways)
        self.pieces = [(size, reach // step, turned) for size, reach, turned, _ in shortest]
        self.stacks = [stack for _, _, _, stack in shortest]
        self.stacked = max(self.stacks or [1]) > 1
        self.turns = {size: turned for size, _, turned in self.pieces}
        self.stack_of = {size: stack for size, _, _, stack in shortest}

    def with_ways(self, ways):
        """Make the same kind with fewer ways to lie."""
        room = self.room * self.step
        return Kind(room, ways, self.cost, self.store, self.take, self.most, self.mark, self.ladder,
                    self.height, self.napped)  # fmt: skip

    def turned(self, size):
        """Say whether pieces of a size lie turned in such a row."""
        return self.turns.get(size, False)

    def filled(self, worths, wanted, most_steps):
        """Find the filling of one row that is worth most.

        Takes: worths, whole numbers, of a piece of each size; wanted, how many there are of each.
        Returns: (value, how many of each size, upper, steps), as `fullest` has them.
        """
        counts = [0] * len(wanted)
        if not self.stacked:
            pieces = [(worths[size], reach, wanted[size]) for size, reach, _ in self.pieces]
            value, placed, upper, steps = fullest(self.room, pieces, most_steps)
            for (size, _, _), count in zip(self.pieces, placed):
                counts[size] = count
            return value, counts, upper, steps
        # whole stacks of a size, and one of what is left of it
        stacks = []
        for (size, reach, _), stack in zip(self.pieces, self.stacks):
            stacks.append((size, stack, reach, wanted[size] // stack))
            stacks.append((size, wanted[size] % stack, reach, 1))
        pieces = [(worths[size] * stack, reach, most) for size, stack, reach, most in stacks]
        value, placed, upper, steps = fullest(self.room, pieces, most_steps)
        for (size, stack, _, _), count in zip(stacks, placed):
            counts[size] += stack * count
        return value, counts, upper, steps

    def reach_of(self, counts):
        """Tell what pieces of each size take of the room, stacked as they may be; None where some may not."""
        total, held = 0, 0
        for (size, reach, _), stack in zip(self.pieces, self.stacks):
            if counts[size]:
                held += 1
                total += -(-counts[size] // stack) * reach
        return total if held == len([count for count in counts if count]) else None


def _shortest(ways):
    pieces = []
    for way in ways:
        if pieces and pieces[-1][0] == way[0]:
            if way[1] * pieces[-1][3] < pieces[-1][1] * way[3]:
                pieces[-1] = way
        else:
            pieces.append(way)
    return pieces


class Plan:
    """The kinds of row, the pieces wanted of each size, and the room in each store.

    Takes: charges, {ladder: cost} for what is paid once where a ladder's rows are
    used; areas, whole numbers that say how large a piece of each size is; first,
    ladders to be used up before others.
    """

    def __init__(self, wanted, kinds, stores, areas, charges=None, first=()):
        self.wanted = wanted
        self.kinds = kinds
        self.stores = stores
        self.areas = areas
        self.charges = charges or {}
        self.first = first
        self.stores_first = [kind.store for kind in kinds if kind.ladder in first and kind.store is not None]
        self.ladders = []
        for number, kind in enumerate(kinds):
            while len(self.ladders) <= kind.ladder:
                self.ladders.append([])
            self.ladders[kind.ladder].append(number)

    def within(self, lying, closed):
        """Make the plan with fewer choices.

        Takes: lying, {(ladder, size): turned} for napped ladders; closed,
        ladders of which no row is used.
        """
        if not lying and not closed:
            return self
        kinds = []
        for kind in self.kinds:
            if kind.ladder in closed:
                kind = kind.with_ways([])
            elif kind.napped:
                ways = [way for way in kind.ways if lying.get((kind.ladder, way[0]), way[2]) == way[2]]
                kind = kind.with_ways(ways)
            kinds.append(kind)
        return Plan(self.wanted, kinds, self.stores, self.areas, self.charges, self.first)

    def undecided(self):
        """List the (ladder, size) whose pieces may lie either way, but all alike."""
        found = []
        for kind in self.kinds:
            if kind.napped:
                for one, other in zip(kind.ways, kind.ways[1:]):
                    if one[0] == other[0] and (kind.ladder, one[0]) not in found:
                        found.append((kind.ladder, one[0]))
        return found


class Rows:
    """Like rows: the number of their kind, how many of each size lie in one, and how many rows.

    Takes: lying, the kind as it was, which says how the pieces lie.
    """

    def __init__(self, kind, lying, counts, times):
        self.kind = kind
        self.lying = lying
        self.counts = counts
        self.times = times


def cost_of(plan, layout):
    """Add up what the rows of a layout cost."""
    total, charged = 0, []
    for rows in layout:
        total += rows.lying.cost * rows.times
        ladder = rows.lying.ladder
        if ladder in plan.charges and ladder not in charged:
            charged.append(ladder)
            total += plan.charges[ladder]
    return total


def rank(plan, layout):
    """Say how good a layout is, lower is better: (cost, less area of what to use first, ruler settings)."""
    area, heights, fillings = 0, [], []
    for rows in layout:
        ladder = rows.lying.ladder
        if ladder in plan.first:
            for own, count in zip(plan.areas, rows.counts):
                area += own * count * rows.times
        if (ladder, rows.kind) not in heights:
            heights.append((ladder, rows.kind))
        if (ladder, rows.kind, rows.counts) not in fillings:
            fillings.append((ladder, rows.kind, rows.counts))
    settings = len(heights)
    for _, _, counts in fillings:
        settings += len([count for count in counts if count])
    return cost_of(plan, layout), -area, settings


def lies_alike(layout):
    """Say whether all pieces of a size lie one way on each napped ladder."""
    seen = {}
    for rows in layout:
        if rows.lying.napped:
            for size, count in enumerate(rows.counts):
                turned = rows.lying.turned(size)
                if count and seen.get((rows.lying.ladder, size), turned) != turned:
                    return False
                if count:
                    seen[(rows.lying.ladder, size)] = turned
    return True
