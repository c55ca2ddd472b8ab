"""The cheapest way to put pieces under offers of so many for a price, exactly.

Bundles of an offer take a whole number of pieces, `n`, for `price`; a piece is
in at most one. Pools that share no offer are answered apart. For each lot of
pools:

1. Branch and bound. If offers could be filled in part, `Filling` would be the
   best answer, so it bounds what any whole filling saves; where an offer is
   filled in part, either it takes at most the whole bundles below, or at least
   those above. Both are tried, the better bound first, and a filling whose
   bound does not beat the best whole one is left.
2. Where that has taken FEW_STEPS steps and the offers that are open at once
   have few remainders between them: piece by piece (see remainders.py).
3. Else on with 1, to MOST_STEPS. What is found by then is a valid use, but it
   is not proven to be the cheapest: `proven` is false.

A step moves one piece, and takes less than a millisecond under the phone's
runtime. Baskets of 60 lines and 200 pieces whose 12 offers cover up to three
groups each are proven within 0.1 s there, long chains of offers within 1 s; the
hardest basket that is allowed ends after about 2 s, unproven.
"""

from ..numbers.dividing import least_common_multiple
from ..numbers.ordering import in_order
from .filling import Filling, Pool
from .remainders import fill_by_remainders

FEW_STEPS = 400
MOST_STEPS = 1200
UNBOUNDED = 1000000


def cheapest_use(pools, bundles):
    """Find which pieces go under which bundle offers to save the most.

    Takes: pools, a list of Pool, values in minor units; bundles, [(n, price)].
    Returns: (held, proven): held[p][k], how many pieces of pool p, dearest
    first, lie under its k-th offer.
    """
    held, proven = [None] * len(pools), True
    for numbers in _lots(pools):
        found, certain = _fill(numbers, pools, bundles)
        proven = proven and certain
        for row, number in zip(found, numbers):
            held[number] = row
    return held, proven


def _lots(pools):
    # numbers of pools that are linked by offers
    lots = []
    for number, pool in enumerate(pools):
        linked, apart, mask = [number], [], pool.mask
        for numbers, other in lots:
            if other & pool.mask:
                linked, mask = numbers + linked, mask | other
            else:
                apart.append((numbers, other))
        lots = apart + [(linked, mask)]
    return [in_order(numbers, lambda number: number) for numbers, _ in lots]


def _fill(numbers, all_pools, all_bundles):
    # offers renumbered for this lot, all money in parts that share evenly
    covering = 0
    for number in numbers:
        covering |= all_pools[number].mask
    offers = [offer for offer in range(len(all_bundles)) if covering >> offer & 1]
    parts = 1
    for offer in offers:
        parts = least_common_multiple(parts, all_bundles[offer][0])
    bundles = [(all_bundles[offer][0], all_bundles[offer][1] * parts) for offer in offers]
    pools = []
    for number in numbers:
        pool = all_pools[number]
        covered = [offers.index(offer) for offer in pool.offers]
        pools.append(Pool([value * parts for value in pool.values], covered))
    search = Search(pools, bundles, parts)
    search.go_on(FEW_STEPS)
    if search.open:
        found, certain = fill_by_remainders(pools, bundles, search.saved)
        if certain:
            return found or search.held, True
        search.go_on(MOST_STEPS)
    return search.held, not search.open


class Search:
    """Branch and bound over how many bundles of each offer there are.

    `saved` and `held` are the best whole filling so far, at first none at all;
    `open` the fillings still to be looked into: the best is certain once none
    is left.
    """

    def __init__(self, pools, bundles, parts):
        self.sizes = [size for size, _ in bundles]
        self.parts = parts
        self.saved = 0
        self.held = [[0] * len(pool.offers) for pool in pools]
        self.steps = 0
        first = Filling(pools, [price // size for size, price in bundles])
        self.open = [(first, [0] * len(bundles), [UNBOUNDED] * len(bundles))]

    def go_on(self, steps):
        """Go on until nothing is open, or so many steps have been taken in all."""
        while self.open and self.steps < steps:
            best = 0
            for number in range(1, len(self.open)):
                if self.open[number][0].saved > self.open[best][0].saved:
                    best = number
            self._dive(self.open.pop(best))
        self.open = [branch for branch in self.open if self._may_be_better(branch[0])]

    def _may_be_better(self, filling):
        # a better whole filling saves at least one minor unit more
        return filling.saved >= self.saved + self.parts

    def _dive(self, branch):
        # down along the better bound; the other branches stay open
        while branch and self._may_be_better(branch[0]):
            offer = self._most_in_part(branch[0].filled)
            if offer is None:
                self.saved, self.held = branch[0].saved, branch[0].held
                return
            branches = [self._at_most(branch, offer), self._at_least(branch, offer)]
            branches = [found for found in branches if found]
            if len(branches) == 2 and branches[0][0].saved < branches[1][0].saved:
                branches.reverse()
            branch = branches[0] if branches else None
            self.open += branches[1:]

    def _most_in_part(self, filled):
        found, most = None, 0
        for offer, size in enumerate(self.sizes):
            over = filled[offer] % size
            if min(over, size - over) > most:
                found, most = offer, min(over, size - over)
        return found

    def _at_most(self, branch, offer):
        filling, fewest, most = branch
        over = filling.filled[offer] % self.sizes[offer]
        filling, most = filling.copy(), most[:]
        most[offer] = filling.filled[offer] - over
        for _ in range(over):
            self.steps += 1
            if not filling.take_out(offer, most) or not self._may_be_better(filling):
                return None
        return filling, fewest, most

    def _at_least(self, branch, offer):
        filling, fewest, most = branch
        lack = -filling.filled[offer] % self.sizes[offer]
        filling, fewest = filling.copy(), fewest[:]
        fewest[offer] = filling.filled[offer] + lack
        for _ in range(lack):
            self.steps += 1
            if not filling.put_in(offer, fewest) or not self._may_be_better(filling):
                return None
        return filling, fewest, most
