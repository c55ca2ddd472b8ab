"""Where a node may branch: at a number that is fractional in the solution of the linear programme."""

# what is nearer to a whole number is one: the programme's own numbers are a hair off
INTEGRAL = 1e-3
# parts of what a row more or less costs that the bound may gain by rounding, where nothing is known yet:
# where rows are bought, and where they are there already, so that they may be cut another way at no cost
BOUGHT, THERE = 0.25, 0.1
# the same for a piece more or less, in whole costs
PIECE_BOUGHT, PIECE_THERE = 0.2, 0.05


class Candidate:
    """A fractional number: of rows of some types, or of pieces of one size in them.

    Takes: key, the same for the same number at every node; weights and size, as
    in Constraint; total, the number, in parts; guess, what one more or less may cost.
    Has: floor, it rounded down; fraction, the rest.
    """

    def __init__(self, key, weights, size, total, guess):
        self.key = key
        self.weights = weights
        self.size = size
        self.guess = guess
        self.floor = int(total + INTEGRAL)
        self.fraction = total - self.floor


def is_whole(amount):
    """Say whether an amount is a whole number, as near as the linear programme can tell."""
    return abs(amount - int(amount + 0.5)) <= INTEGRAL


def row_counts(problem, solution):
    """Add up how many rows of each type there are, in parts, in a solution: [(column, amount)]."""
    amounts = [0.0] * len(problem.row_types)
    for column, amount in solution:
        for run in column.runs:
            amounts[run.type_number] += amount * run.times
    return amounts


def candidates_of(problem, solution):
    """List the numbers that are fractional in a solution, [(column, amount)].

    These are the rows of one family from some height up and the pieces of one
    size in one family; where all those are whole, the pieces in rows of one type.
    """
    found = _fractional_rows(problem, solution) + _fractional_pieces(problem, solution, problem.families)
    return found or _fractional_pieces(
        problem, solution, [[number] for number in range(len(problem.row_types))]
    )


def _fractional_rows(problem, solution):
    amounts, candidates = row_counts(problem, solution), []
    for family in problem.families:
        total, weights = 0.0, [0] * len(problem.row_types)
        for place in range(len(family) - 1, -1, -1):
            number, below = family[place], problem.row_types[family[place - 1]].height if place else 0
            total += amounts[number]
            weights[number] = 1
            if not is_whole(total):
                row_type = problem.row_types[number]
                guess = (row_type.height - below) * (BOUGHT if row_type.store is None else THERE)
                candidates.append(Candidate((number,), list(weights), None, total, guess))
    return candidates


def _fractional_pieces(problem, solution, groups):
    # takes: groups of numbers of row types, each type in one
    group_of = {}
    for group, numbers in enumerate(groups):
        for number in numbers:
            group_of[number] = group
    pieces = [[0.0] * len(problem.demand) for _ in groups]
    for column, amount in solution:
        for run in column.runs:
            own = pieces[group_of[run.type_number]]
            for size, count in enumerate(run.counts):
                own[size] += count * run.times * amount
    candidates = []
    for numbers, own in zip(groups, pieces):
        for size, total in enumerate(own):
            if not is_whole(total):
                candidates.append(_of_pieces(problem, numbers, size, total))
    return candidates


def _of_pieces(problem, numbers, size, total):
    weights = [0] * len(problem.row_types)
    for number in numbers:
        weights[number] = 1
    guess = PIECE_BOUGHT if problem.row_types[numbers[0]].store is None else PIECE_THERE
    return Candidate((len(numbers), numbers[0], size), weights, size, total, guess)
