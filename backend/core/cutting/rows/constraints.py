"""Constraints on numbers of rows, or of pieces in some: what a node holds to, and what whole rows imply."""

FINE = 10000  # parts that a weight in a rounded constraint is told in


class Constraint:
    """A sum that is at least or at most a number in every layout that counts.

    Takes: weights, a whole weight for each row type, of each of its rows or, with a
    size, of each piece of that size in its rows; rhs, the right-hand side; scale, what
    divides both to be of the size of a count.
    """

    def __init__(self, weights, rhs, at_least, size=None, scale=1):
        self.weights = weights
        self.rhs = rhs
        self.at_least = at_least
        self.size = size
        self.scale = scale

    def weight_of(self, runs):
        """Add up the weights of rows that are taken together."""
        total = 0
        for run in runs:
            total += self.weights[run.type_number] * run.times
        return total

    def pieces_in(self, runs):
        """Count the pieces that it is about in rows that are taken together."""
        count = 0
        for run in runs:
            if self.weights[run.type_number]:
                count += run.counts[self.size] * run.times
        return count

    def replaces(self, other):
        """Say whether it is about the same as another and, being the later one, the tighter."""
        kept = self.at_least == other.at_least and (self.size, self.scale) == (other.size, other.scale)
        return kept and self.weights == other.weights


def count_of_rows(problem, type_numbers, rhs, at_least):
    """Hold the number of rows of some types."""
    weights = [0] * len(problem.row_types)
    for number in type_numbers:
        weights[number] = 1
    return Constraint(weights, rhs, at_least)


def with_constraints(row_values, total, constraints, multipliers):
    """Add constraints on rows to what rows are worth, each taken some whole number of times.

    Takes: multipliers, none below 0, one for each constraint; those on pieces are in the
    row values already and add to the total alone.
    Returns: (row_values, total) such that the rows of every layout within the
    constraints are worth the total at least.
    """
    row_values = list(row_values)
    for constraint, multiplier in zip(constraints, multipliers):
        signed = multiplier if constraint.at_least else -multiplier
        total += signed * constraint.rhs
        if signed and constraint.size is None:
            for number, weight in enumerate(constraint.weights):
                if weight:
                    row_values[number] += signed * weight
    return row_values, total


def rounding_cut(row_values, total, divisor):
    """Round what rows must be worth, in multiples of a divisor, to what whole rows must be worth.

    Where the sum of value × rows is at least a total, so is the sum of the values
    rounded by the divisor, and the total rounded up: mixed-integer rounding, as
    valid for whole rows as it is sharper. All in whole numbers; what is left of
    them is rounded to the safe side.
    Source: Nemhauser and Wolsey, Integer and Combinatorial Optimization (1988),
    section II.1.7.
    """
    whole, rest = total // divisor, total % divisor
    if divisor <= 0 or rest == 0:
        return None
    fine = max(10, min(FINE, 100000 // (abs(whole) + 1)))
    weights = []
    for value in row_values:
        weight = (value // divisor) * rest + min(rest, value % divisor)
        weights.append(-(-weight * fine // rest))
    if whole >= 0:
        return Constraint(weights, (whole + 1) * fine, True, None, fine)
    return Constraint([-weight for weight in weights], -(whole + 1) * fine, False, None, fine)
