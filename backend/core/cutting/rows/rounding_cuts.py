"""Cuts: constraints that whole rows imply and the linear programme's parts of rows violate."""

from .constraints import rounding_cut

MOST_ROUNDS = 8
MOST_NEW = 3
LEAST_VIOLATION = 1e-4  # of its right side, that a cut must be violated by to be worth a row of the programme


def violated_cuts(problem, row_values, total, row_counts):
    """Find the cuts that rows in parts violate most, at most MOST_NEW of them.

    Takes: row_values and total, such that the rows of every layout are worth the total;
    row_counts, how many rows of each type there are, in parts.
    """
    found = []
    for own, whole in [(row_values, total)] + _by_size(problem):
        for divisor in _divisors(own, row_counts):
            cut = rounding_cut(own, whole, divisor)
            if cut is not None:
                violation = _violation(cut, row_counts)
                if violation > LEAST_VIOLATION and not _known(found, cut):
                    _put(found, violation, cut)
    return [cut for _, cut in found]


def _by_size(problem):
    # the rows hold all pieces of each size
    found = []
    for size, demand in enumerate(problem.demand):
        row_values = []
        for row_type in problem.row_types:
            most = 0
            for (own, length, _), stack in zip(row_type.pieces, row_type.stacks):
                if own == size:
                    most = row_type.capacity // length * stack
                    if size in row_type.beside:
                        most = row_type.capacity * stack // length
                    most = min(demand, most)
            row_values.append(most)
        found.append((row_values, demand))
    return found


def _divisors(row_values, row_counts):
    divisors = []
    for value, count in zip(row_values, row_counts):
        if count > 1e-6:
            for share in (1, 2, 3):
                divisor = abs(value) // share
                if divisor > 1 and divisor not in divisors:
                    divisors.append(divisor)
    return divisors


def _violation(cut, row_counts):
    left_side = 0.0
    for weight, count in zip(cut.weights, row_counts):
        left_side += weight * count
    violation = cut.rhs - left_side if cut.at_least else left_side - cut.rhs
    return violation / max(cut.scale, cut.rhs)


def _known(found, cut):
    for _, other in found:
        if other.weights == cut.weights:
            return True
    return False


def _put(found, violation, cut):
    place = len(found)
    while place and found[place - 1][0] < violation:
        place -= 1
    found.insert(place, (violation, cut))
    if len(found) > MOST_NEW:
        found.pop()
