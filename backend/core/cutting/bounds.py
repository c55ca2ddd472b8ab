"""Bounds on numbers of rows, or of pieces in some rows: what a branch holds to, and what whole rows imply."""

FINE = 10000  # parts that a weight in a bound is told in


class Bound:
    """A sum that is at least or at most a number in every layout that counts.

    Takes: weights, a whole weight for each kind, of each of its rows or, with a
    size, of each piece of that size in its rows; scale, what divides it to be
    of the size of a count.
    """

    def __init__(self, weights, number, at_least, size=None, scale=1):
        self.weights = weights
        self.number = number
        self.at_least = at_least
        self.size = size
        self.scale = scale

    def rows_in(self, rows):
        """Add up the weights of rows that are taken together."""
        total = 0
        for one in rows:
            total += self.weights[one.kind] * one.times
        return total

    def pieces_in(self, rows):
        """Count the pieces that it is about in rows that are taken together."""
        count = 0
        for one in rows:
            if self.weights[one.kind]:
                count += one.counts[self.size] * one.times
        return count

    def replaces(self, other):
        """Say whether it is about the same as another and, being the later one, the tighter."""
        kept = self.at_least == other.at_least and (self.size, self.scale) == (other.size, other.scale)
        return kept and self.weights == other.weights


def on_rows(plan, kinds, number, at_least):
    """Bound the number of rows of some kinds."""
    weights = [0] * len(plan.kinds)
    for kind in kinds:
        weights[kind] = 1
    return Bound(weights, number, at_least)


def weigh(reaches, total, bounds, factors):
    """Add bounds on rows to what rows reach, each taken some whole number of times.

    Takes: factors, none below 0, one for each bound; those on pieces are in the
    reaches already and add to the total alone.
    Returns: (reaches, total) such that the rows of every layout within the
    bounds reach the total.
    """
    reaches = list(reaches)
    for bound, factor in zip(bounds, factors):
        signed = factor if bound.at_least else -factor
        total += signed * bound.number
        if signed and bound.size is None:
            for kind, weight in enumerate(bound.weights):
                if weight:
                    reaches[kind] += signed * weight
    return reaches, total


def sharpened(reaches, total, part):
    """Round a bound on what rows reach, in parts of so much, to what whole rows must reach.

    Where the sum of reach × rows is at least a total, so is the sum of the
    reaches rounded by parts, and the total rounded up: mixed-integer rounding,
    as valid for whole rows as it is sharper. All in whole numbers; what is left
    of them is rounded to the safe side.
    Source: Nemhauser and Wolsey, Integer and Combinatorial Optimization (1988),
    section II.1.7.
    """
    whole, rest = total // part, total % part
    if part <= 0 or rest == 0:
        return None
    fine = max(10, min(FINE, 100000 // (abs(whole) + 1)))
    weights = []
    for reach in reaches:
        weight = (reach // part) * rest + min(rest, reach % part)
        weights.append(-(-weight * fine // rest))
    if whole >= 0:
        return Bound(weights, (whole + 1) * fine, True, None, fine)
    return Bound([-weight for weight in weights], -(whole + 1) * fine, False, None, fine)
