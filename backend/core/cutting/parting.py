"""Where a branch may be parted in two: at a number that is broken in what the linear programme found."""

# what is nearer to a whole number is one: the programme's own numbers are a hair off
WHOLE = 1e-3
# parts of what a row more or less costs that the bound may gain by rounding, where nothing is known yet:
# where rows are bought, and where they are there already, so that they may be cut another way at no cost
BOUGHT, THERE = 0.25, 0.1
# the same for a piece more or less, in whole costs
PIECE_BOUGHT, PIECE_THERE = 0.2, 0.05


class Parting:
    """A number that is broken: of rows of some kinds, or of pieces of one size in them.

    Takes: key, the same for the same number in every branch; weights and size, as
    in Bound; total, the number, in parts; guess, what one more or less may cost.
    Has: number, it rounded down; part, the rest.
    """

    def __init__(self, key, weights, size, total, guess):
        self.key = key
        self.weights = weights
        self.size = size
        self.guess = guess
        self.number = int(total + WHOLE)
        self.part = total - self.number


def is_whole(amount):
    """Say whether an amount is a whole number, as near as the linear programme can tell."""
    return abs(amount - int(amount + 0.5)) <= WHOLE


def rows_of(plan, found):
    """Add up how many rows of each kind there are, in parts, in what was found: [(column, amount)]."""
    amounts = [0.0] * len(plan.kinds)
    for column, amount in found:
        for rows in column.rows:
            amounts[rows.kind] += amount * rows.times
    return amounts


def partings_of(plan, found):
    """List the numbers that are broken in what was found, [(column, amount)].

    These are the rows of one ladder from some height up and the pieces of one
    size on one ladder; where all those are whole, the pieces in rows of one kind.
    """
    kinds = [[kind] for kind in range(len(plan.kinds))]
    return _broken_rows(plan, found) + _broken_pieces(plan, found, plan.ladders) or _broken_pieces(
        plan, found, kinds
    )


def _broken_rows(plan, found):
    amounts, partings = rows_of(plan, found), []
    for ladder in plan.ladders:
        total, weights = 0.0, [0] * len(plan.kinds)
        for place in range(len(ladder) - 1, -1, -1):
            number, below = ladder[place], plan.kinds[ladder[place - 1]].height if place else 0
            total += amounts[number]
            weights[number] = 1
            if not is_whole(total):
                kind = plan.kinds[number]
                guess = (kind.height - below) * (BOUGHT if kind.store is None else THERE)
                partings.append(Parting((number,), list(weights), None, total, guess))
    return partings


def _broken_pieces(plan, found, groups):
    # takes: groups of kinds, each kind in one
    group_of = {}
    for group, kinds in enumerate(groups):
        for kind in kinds:
            group_of[kind] = group
    pieces = [[0.0] * len(plan.wanted) for _ in groups]
    for column, amount in found:
        for rows in column.rows:
            own = pieces[group_of[rows.kind]]
            for size, count in enumerate(rows.counts):
                own[size] += count * rows.times * amount
    partings = []
    for kinds, row in zip(groups, pieces):
        for size, total in enumerate(row):
            if not is_whole(total):
                partings.append(_of_pieces(plan, kinds, size, total))
    return partings


def _of_pieces(plan, kinds, size, total):
    weights = [0] * len(plan.kinds)
    for kind in kinds:
        weights[kind] = 1
    guess = PIECE_BOUGHT if plan.kinds[kinds[0]].store is None else PIECE_THERE
    return Parting((len(kinds), kinds[0], size), weights, size, total, guess)
