"""The problem: what is to be cut and from what, in whole numbers, the ground of the search and of the proof.

A row is a straight length that is cross-cut into pieces: a row right across a
cloth, or a roll of elastic. A row type says how long it is, which pieces may
lie in it, and what one such row takes: cost of what must be bought, or length of
a store, which is there already. A pattern says how many pieces of each size lie in
one row. All lengths are whole numbers of one unit, so that nothing hangs on a
float's last bit.
"""

from ...numbers.whole_parts import divisor_of
from ..knapsack import solve_knapsack


class RowType:
    """A type of row.

    Takes: capacity, its length; ways, [(size, length, turned, stack)], how sizes may
    lie in it, stack of them over each other; cost, what one such row costs;
    store, the number of the store it is taken from, or None; take, how much of
    that store; most, how many such rows there can be, None for plenty; origin, the
    caller's number of what it is cut from, None where pieces are left out; family, a
    number shared by types of which a later one is higher; height, how far up the
    family it is; napped, true where all pieces of a size in one family must lie one way;
    last, true where no row of the family follows such a row, so that there is one at most.
    Has: pieces, [(size, length, turned)], the ways with one a size, that of least
    length for a piece; stacks, for each of them how many lie over each other.
    """

    def __init__(self, capacity, ways, cost, store=None, take=0, most=None, origin=None, family=0, height=1,
                 napped=False, last=False):  # fmt: skip
        # in the steps its pieces come in: what is less than a step is of no use
        step = divisor_of([way[1] for way in ways])
        self.capacity = capacity // step
        self.ways = ways
        self.step = step
        self.cost = cost
        self.store = store
        self.take = take
        self.most = 1 if last else most
        self.origin = origin
        self.family = family
        self.height = height
        self.napped = napped
        self.last = last
        shortest = _shortest(ways)
        self.pieces = [(size, length // step, turned) for size, length, turned, _ in shortest]
        self.stacks = [stack for _, _, _, stack in shortest]
        self.stacked = max(self.stacks or [1]) > 1
        # a size may lie the other way beside its stacks, where a stack is too long
        self.beside = _beside(ways, shortest, step) if self.stacked and not napped else {}
        self.turns = {size: turned for size, _, turned in self.pieces}
        self.stack_of = {size: stack for size, _, _, stack in shortest}

    def with_ways(self, ways):
        """Make the same type with fewer ways to lie."""
        capacity = self.capacity * self.step
        return RowType(capacity, ways, self.cost, self.store, self.take, self.most, self.origin, self.family,
                    self.height, self.napped, self.last)  # fmt: skip

    def turned(self, size):
        """Say whether pieces of a size lie turned in such a row."""
        return self.turns.get(size, False)

    def best_pattern(self, values, demand, most_steps):
        """Find the pattern of one row that is worth most: the pricing problem of its type.

        Takes: values, whole numbers, of a piece of each size; demand, how many there are of each.
        Returns: (value, how many of each size, upper, steps), as `solve_knapsack` has them.
        """
        counts = [0] * len(demand)
        if not self.stacked:
            pieces = [(values[size], length, demand[size]) for size, length, _ in self.pieces]
            value, placed, upper, steps = solve_knapsack(self.capacity, pieces, most_steps)
            for (size, _, _), count in zip(self.pieces, placed):
                counts[size] = count
            return value, counts, upper, steps
        # whole stacks of a size, and one of what is left of it
        stacks = []
        for (size, length, _), stack in zip(self.pieces, self.stacks):
            stacks.append((size, stack, length, demand[size] // stack))
            stacks.append((size, demand[size] % stack, length, 1))
            if size in self.beside:
                other, _, over = self.beside[size]
                stacks.append((size, over, other, -(-demand[size] // over)))
        pieces = [(values[size] * stack, length, most) for size, stack, length, most in stacks]
        value, placed, upper, steps = solve_knapsack(self.capacity, pieces, most_steps)
        for (size, stack, _, _), count in zip(stacks, placed):
            counts[size] += stack * count
        if self.beside:
            counts = [min(count, most) for count, most in zip(counts, demand)]
            value = 0
            for own, count in zip(values, counts):
                value += max(0, own) * count
        return value, counts, upper, steps

    def parted(self, size, count):
        """Part pieces of a size that may lie both ways: (in its stacks, beside them, length they take)."""
        place = [own for own, _, _ in self.pieces].index(size)
        length, stack = self.pieces[place][1], self.stacks[place]
        other, _, over = self.beside[size]
        best = None
        for stacks in range(-(-count // stack), -1, -1):
            rest = max(0, count - stacks * stack)
            total = stacks * length + -(-rest // over) * other
            if best is None or total < best[2]:
                best = (count - rest, rest, total)
        return best

    def length_of(self, counts):
        """Tell what pieces of each size take of the row, stacked as they may be; None where some may not."""
        total, sizes = 0, 0
        for (size, length, _), stack in zip(self.pieces, self.stacks):
            if counts[size]:
                sizes += 1
                total += -(-counts[size] // stack) * length
                if size in self.beside:
                    total += self.parted(size, counts[size])[2] - -(-counts[size] // stack) * length
        return total if sizes == len([count for count in counts if count]) else None


def _shortest(ways):
    pieces = []
    for way in ways:
        if pieces and pieces[-1][0] == way[0]:
            if way[1] * pieces[-1][3] < pieces[-1][1] * way[3]:
                pieces[-1] = way
        else:
            pieces.append(way)
    return pieces


def _beside(ways, shortest, step):
    # {size: (length, turned, stack)} of another way that takes less of the row, if not for a piece
    found = {}
    for size, length, _, _ in shortest:
        for way in ways:
            if way[0] == size and way[1] < length and (size not in found or way[1] < found[size][0] * step):
                found[size] = (way[1] // step, way[2], way[3])
    return found


class Problem:
    """The types of row, the demand of pieces of each size, and the length of each store.

    Takes: charges, {family: cost} for what is paid once where a family's rows are
    used; areas, whole numbers that say how large a piece of each size is; first,
    families to be used up before others.
    Has: families, the numbers of the row types of each, lowest first.
    """

    def __init__(self, demand, row_types, stores, areas, charges=None, first=()):
        self.demand = demand
        self.row_types = row_types
        self.stores = stores
        self.areas = areas
        self.charges = charges or {}
        self.first = first
        self.stores_first = [
            row_type.store
            for row_type in row_types
            if row_type.family in first and row_type.store is not None
        ]
        self.families = []
        for number, row_type in enumerate(row_types):
            while len(self.families) <= row_type.family:
                self.families.append([])
            self.families[row_type.family].append(number)

    def restricted(self, orientations, closed):
        """Make the problem with fewer choices.

        Takes: orientations, {(family, size): turned} for napped families; closed,
        families of which no row is used.
        """
        if not orientations and not closed:
            return self
        row_types = []
        for row_type in self.row_types:
            if row_type.family in closed:
                row_type = row_type.with_ways([])
            elif row_type.napped:
                family = row_type.family
                ways = [way for way in row_type.ways if orientations.get((family, way[0]), way[2]) == way[2]]
                row_type = row_type.with_ways(ways)
            row_types.append(row_type)
        return Problem(self.demand, row_types, self.stores, self.areas, self.charges, self.first)

    def undecided(self):
        """List the (family, size) whose pieces may lie either way, but all alike."""
        found = []
        for row_type in self.row_types:
            if row_type.napped:
                for one, other in zip(row_type.ways, row_type.ways[1:]):
                    if one[0] == other[0] and (row_type.family, one[0]) not in found:
                        found.append((row_type.family, one[0]))
        return found


def fill_store(capacity, rows, most_steps):
    """Find the rows that together are worth most in a store, of those that end it one at most.

    Takes: rows, [(value, take, whether it ends the store)].
    Returns: (value, how many of each, upper, steps), as `solve_knapsack` has them.
    """
    items = [(value, take, 0 if last else capacity) for value, take, last in rows]
    value, counts, upper, steps = solve_knapsack(capacity, items, most_steps)
    for number, (own, take, last) in enumerate(rows):
        if last and own > 0 and take <= capacity:
            beside, placed, most, more = solve_knapsack(capacity - take, items, most_steps)
            steps += more
            upper = max(upper, own + most)
            if own + beside > value:
                value, counts = own + beside, placed
                counts[number] = 1
    return value, counts, upper, steps


class PatternRun:
    """Like rows: a pattern of one type of row, used so many times.

    Takes: type_number, the type's number in the problem; row_type, the type as it was where the
    pattern was made, which says how the pieces lie; counts, of each size in one row; times.
    """

    def __init__(self, type_number, row_type, counts, times):
        self.type_number = type_number
        self.row_type = row_type
        self.counts = counts
        self.times = times


def cost_of(problem, layout):
    """Add up what the rows of a layout cost."""
    total, charged = 0, []
    for run in layout:
        total += run.row_type.cost * run.times
        family = run.row_type.family
        if family in problem.charges and family not in charged:
            charged.append(family)
            total += problem.charges[family]
    return total


def rank(problem, layout):
    """Say how good a layout is, lower is better: (cost, less area of what to use first, ruler settings)."""
    area, used_types, patterns = 0, [], []
    for run in layout:
        family = run.row_type.family
        if family in problem.first:
            for own, count in zip(problem.areas, run.counts):
                area += own * count * run.times
        if (family, run.type_number) not in used_types:
            used_types.append((family, run.type_number))
        if (family, run.type_number, run.counts) not in patterns:
            patterns.append((family, run.type_number, run.counts))
    settings = len(used_types)
    for _, _, counts in patterns:
        settings += len([count for count in counts if count])
    return cost_of(problem, layout), -area, settings


def is_within_stores(problem, layout):
    """Say whether the rows of a layout take no more of each store than is there.

    Of two rows that would end one, one is higher once another follows it.
    """
    left = list(problem.stores)
    for run in layout:
        if run.row_type.store is not None:
            left[run.row_type.store] -= run.row_type.take * run.times
    return not left or min(left) >= 0


def lies_alike(layout):
    """Say whether all pieces of a size lie one way in each napped family."""
    seen = {}
    for run in layout:
        if run.row_type.napped:
            for size, count in enumerate(run.counts):
                turned = run.row_type.turned(size)
                if count and seen.get((run.row_type.family, size), turned) != turned:
                    return False
                if count:
                    seen[(run.row_type.family, size)] = turned
    return True
