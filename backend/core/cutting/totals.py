"""What the layouts of all parts of a plan come to, and what of it is proven."""

from ..money import add_up
from ..rounding import at_most
from .rows_laid import length_of


class Total:
    """What all parts come to: found and bound, in mm of bolt or minor units; what is proven."""

    def __init__(self):
        self.found, self.bound = 0.0, 0.0
        self.optimal, self.optimal_to_buy = True, True

    def add(self, part, left_out, rows, bars):
        """Add a part, with what the strips that it leaves out cost, its rows by cloth, and its bars."""
        found, bound = 0.0, _bound_of(part, left_out) if bars is None else bars.least
        for index in part.bolts:
            found += part.rates[index] * _washed(part.cloths[index], rows[index])
        if len(part.bolts) == 1 and bound:
            bound += part.rates[part.bolts[0]] * part.cloths[part.bolts[0]].given["squaring"]
        # bars tell nothing of strips left out
        proven = part.search.cost == part.search.least
        if bars is not None:
            proven = not left_out and at_most(found, bound)
        bound = found if proven else min(found, bound)
        self.found += found
        self.bound += bound
        self.optimal = self.optimal and proven
        self.optimal_to_buy = self.optimal_to_buy and (proven or _buys_least(part, rows, found, bound))


def _bound_of(part, left_out):
    # what its search has proven, of rows on bolts
    bound = max(0, part.search.least - left_out) * part.unit
    return max(0.0, bound - part.raised * add_up(part.search.plan.wanted))


def _washed(cloth, rows):
    return length_of(rows) + cloth.given["squaring"] if rows else 0.0


def _buys_least(part, rows, found, bound):
    # of one bolt, where the bound already asks for as many of the shop's steps
    if len(part.bolts) != 1 or not found:
        return not found and not part.bolts
    cloth = part.cloths[part.bolts[0]]
    needed = cloth.length_needed(length_of(rows[part.bolts[0]]))
    return cloth.length_to_buy(needed * bound / found) >= cloth.length_to_buy(needed)
