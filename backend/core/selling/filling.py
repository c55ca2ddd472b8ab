"""Pieces put under offers while an offer may still be filled in part.

The relaxed question behind `cheapest`: which pieces go under which offer if
each piece under offer k costs a fair share of its price, `each[k]`. It is a
flow of least cost, kept optimal piece by piece.
"""

from ..numbers.money import add_up


class Pool:
    """Pieces that the same offers cover.

    Takes: values, what each piece costs under no offer, dearest first; offers,
    the numbers of the offers that cover them.
    """

    def __init__(self, values, offers):
        self.values = values
        self.offers = offers
        self.mask = 0
        for offer in offers:
            self.mask |= 1 << offer


class Filling:
    """Pieces of each pool under each offer, the best for the bounds kept so far.

    `held[p][k]` counts the pieces of pool p under its k-th offer, always its
    dearest `under[p]`; `filled[o]` those under offer o; `saved` is their value
    less their shares.
    """

    def __init__(self, pools, each):
        self.pools = pools
        self.each = each
        self.held = []
        self.under = []
        self.filled = [0] * len(each)
        self.saved = 0
        for pool in pools:
            cheapest = min(pool.offers, key=lambda offer: (each[offer], offer))
            share = each[cheapest]
            gains = [value - share for value in pool.values if value > share]
            self.held.append([len(gains) if offer == cheapest else 0 for offer in pool.offers])
            self.under.append(len(gains))
            self.filled[cheapest] += len(gains)
            self.saved += add_up(gains)

    def copy(self):
        """Copy what may change."""
        other = Filling([], self.each)
        other.pools = self.pools
        other.held = [row[:] for row in self.held]
        other.under = self.under[:]
        other.filled = self.filled[:]
        other.saved = self.saved
        return other

    def take_out(self, offer, most):
        """Take one piece from an offer at least cost; others fill at most to `most`.

        It goes under another offer, or its place is taken by a piece that then
        is under none, or by one whose going lets a dearer piece in elsewhere.
        Returns: false where nothing can be moved.
        """
        hops, reach, holders = self._ways()
        ends = self._ends(reach, offer, most)
        best = ends[offer]
        if best is not None:
            best = (best[0], best[1], None, None)
        drop = self._cheapest_under(holders, reach[offer])
        if drop is not None:
            value = self._last(drop)
            if best is None or value < best[0]:
                best = (value, None, drop, None)
            for number, pool in enumerate(self.pools):
                if self.under[number] < len(pool.values):
                    for under in pool.offers:
                        end = ends[under]
                        if end is not None and value + end[0] - self._next(number) < best[0]:
                            best = (value + end[0] - self._next(number), end[1], drop, number)
        if best is None:
            return False
        cost, end, drop, pick = best
        self.saved -= cost - self.each[offer]
        self.filled[offer] -= 1
        if end is not None:
            self.filled[end] += 1
        if drop is None:
            self._walk(offer, 1 << end, hops)
            return True
        self._drop(drop, self._walk(offer, holders[drop], hops))
        if pick is not None:
            self._pick(pick, end, reach, hops)
        return True

    def put_in(self, offer, fewest):
        """Put one more piece under an offer at least cost; others keep at least `fewest`.

        The mirror of `take_out`. Returns: false where nothing can be moved.
        """
        hops, reach, holders = self._ways()
        starts = self._starts(reach, offer, fewest)
        best = starts[offer]
        if best is not None:
            best = (-best[0], best[1], None, None)
        pick = self._dearest_over(reach, offer)
        if pick is not None:
            value = self._next(pick)
            if best is None or -value < best[0]:
                best = (-value, None, None, pick)
            for number, pool in enumerate(self.pools):
                for under in pool.offers:
                    start = starts[under]
                    if start is not None and holders[number] >> under & 1:
                        cost = self._last(number) - start[0] - value
                        if cost < best[0]:
                            best = (cost, start[1], number, pick)
        if best is None:
            return False
        cost, start, drop, pick = best
        self.saved -= cost + self.each[offer]
        self.filled[offer] += 1
        if start is not None:
            self.filled[start] -= 1
        if pick is None:
            self._walk(start, 1 << offer, hops)
            return True
        if drop is not None:
            self._drop(drop, self._walk(start, holders[drop], hops))
        self._pick(pick, offer, reach, hops)
        return True

    def _ends(self, reach, offer, most):
        # for each offer, (share, end): the least share of an offer with room
        # that a piece put there leads to
        each, filled, ends = self.each, self.filled, []
        room = [end for end in range(len(each)) if end != offer and filled[end] < most[end]]
        for reached in reach:
            least = None
            for end in room:
                if reached >> end & 1 and (least is None or each[end] < least[0]):
                    least = (each[end], end)
            ends.append(least)
        return ends

    def _starts(self, reach, offer, fewest):
        # for each offer, (share, start): the most share of an offer with pieces
        # to spare that leads there
        each, filled, starts = self.each, self.filled, []
        spare = [start for start in range(len(each)) if start != offer and filled[start] > fewest[start]]
        for other in range(len(each)):
            most = None
            for start in spare:
                if reach[start] >> other & 1 and (most is None or each[start] > most[0]):
                    most = (each[start], start)
            starts.append(most)
        return starts

    def _ways(self):
        # hops[o]: offers that a piece under o could go to instead; reach: by any
        # number of hops, itself included; holders[p]: the offers pool p is under
        count = len(self.each)
        hops = [1 << offer for offer in range(count)]
        holders = []
        for number, pool in enumerate(self.pools):
            holder = 0
            row = self.held[number]
            for slot, offer in enumerate(pool.offers):
                if row[slot]:
                    hops[offer] |= pool.mask
                    holder |= 1 << offer
            holders.append(holder)
        reach = hops[:]
        for middle in range(count):
            for offer in range(count):
                if reach[offer] >> middle & 1:
                    reach[offer] |= reach[middle]
        return hops, reach, holders

    def _last(self, pool):
        return self.pools[pool].values[self.under[pool] - 1]

    def _next(self, pool):
        return self.pools[pool].values[self.under[pool]]

    def _cheapest_under(self, holders, reached):
        found = None
        for number in range(len(holders)):
            if holders[number] & reached and (found is None or self._last(number) < self._last(found)):
                found = number
        return found

    def _dearest_over(self, reach, offer):
        found = None
        for number, pool in enumerate(self.pools):
            if self.under[number] < len(pool.values):
                leads = [under for under in pool.offers if reach[under] >> offer & 1]
                if leads and (found is None or self._next(number) > self._next(found)):
                    found = number
        return found

    def _walk(self, start, ends, hops):
        # shift one piece at each hop of the shortest way; returns where it ended
        before, queue = {start: None}, [start]
        for offer in queue:
            if ends >> offer & 1:
                break
            for other in range(len(hops)):
                if hops[offer] >> other & 1 and other not in before:
                    before[other] = offer
                    queue.append(other)
        end = offer
        while before[offer] is not None:
            self._hop(before[offer], offer)
            offer = before[offer]
        return end

    def _hop(self, start, end):
        for number, pool in enumerate(self.pools):
            if pool.mask >> start & 1 and pool.mask >> end & 1:
                row, slot = self.held[number], pool.offers.index(start)
                if row[slot]:
                    row[slot] -= 1
                    row[pool.offers.index(end)] += 1
                    return

    def _drop(self, pool, offer):
        self.held[pool][self.pools[pool].offers.index(offer)] -= 1
        self.under[pool] -= 1

    def _pick(self, pool, end, reach, hops):
        for slot, offer in enumerate(self.pools[pool].offers):
            if reach[offer] >> end & 1:
                self.held[pool][slot] += 1
                self.under[pool] += 1
                self._walk(offer, 1 << end, hops)
                return
