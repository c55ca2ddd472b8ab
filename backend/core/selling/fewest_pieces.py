"""The fewest notes and coins that make an amount, or the most of it that can be made.

With plenty of all, and values for which taking the largest each time is proven
to be best, that is done. Else depth first, the most of each value first, so that the first way found is the
usual one. A way is left where even the best end of it is no better: smaller
pieces together may not reach what is left; larger ones give multiples of their
greatest common divisor, and smaller ones may not give the rest; even with the
last piece cut to fit, too many are still to come; or the same was left before
after no more pieces.
"""

from ..numbers.dividing import greatest_common_divisor
from ..numbers.money import add_up

# the notes and coins of a currency need a few hundred steps at most
MOST_STEPS = 5000
# so many are worth trying before the rests are looked at
FEW_STEPS = 100
# the largest divisor whose rests are looked at one by one
MOST_RESTS = 100


def fewest(amount, box):
    """Find how many of each value give the most of an amount, and of those the fewest pieces.

    Takes: box, [(value, count or None for plenty)], largest first.
    Returns: (counts, proven); proven is false where MOST_STEPS ended the search.
    """
    larger = len([value for value, _ in box if value > amount])
    box = box[larger:]
    values = [value for value, count in box if count is None]
    if len(values) == len(box) and largest_first_is_best(values):
        return [0] * larger + _largest_first(amount, values), True
    search = _Search(amount, box, 0)
    search.run(FEW_STEPS)
    if search.short or search.steps == FEW_STEPS:
        search = _Search(amount, box, MOST_RESTS)
        search.run(MOST_STEPS)
    return [0] * larger + search.counts, search.steps < MOST_STEPS


def largest_first_is_best(values):
    """Say whether it is proven that taking the largest value each time takes the fewest pieces.

    Takes: values, largest first. The smallest must divide all; then each value
    added to those below it keeps the rule if what is over, where the next
    smaller one is laid until it reaches it, takes no more pieces than that saves.
    Source: Magazine, Nemhauser and Trotter, When the greedy solution solves a
    class of knapsack problems, Operations Research 23 (1975), from memory.
    Example: largest_first_is_best([4, 3, 1]) == False
    """
    if [value for value in values if value % values[-1]]:
        return False
    for place in range(len(values) - 1):
        smaller = values[place + 1 :]
        pieces = -(-values[place] // smaller[0])
        over = pieces * smaller[0] - values[place]
        if over and 1 + add_up(_largest_first(over, smaller)) > pieces:
            return False
    return True


def _largest_first(amount, values):
    counts = []
    for value in values:
        counts.append(amount // value)
        amount %= value
    return counts


class _Search:
    def __init__(self, amount, box, most_rests):
        self.box = box
        self.amount = amount
        self.most_rests = most_rests
        self.steps = 0
        self.counts = [0] * len(box)
        # the best so far: what is left, and in how many pieces
        self.short, self.pieces = amount, 0
        self.reaches = [0]
        for value, count in reversed(box):
            more = amount if count is None else value * count
            self.reaches.append(min(amount, self.reaches[-1] + more))
        self.reaches.reverse()
        self.lacks = self._lacks()
        self.least_short = self._least_short(0, amount) if box else amount
        self.seen = {}

    def _lacks(self):
        # for each place, (common divisor of the values before it, what those
        # from it on cannot give of each rest of that divisor); where a divisor
        # is large only what they reach is known
        lacks, divisor = [], 0
        for place in range(len(self.box) + 1):
            if divisor and divisor <= self.most_rests:
                lacks.append((divisor, least_lacks(self.box[place:], divisor)))
            else:
                lacks.append((divisor, None))
            if place < len(self.box):
                divisor = greatest_common_divisor(self.box[place][0], divisor)
        return lacks

    def run(self, most_steps):
        """Look through all ways that may be better, at most so many steps of them."""
        taken, left = [], [self.amount]
        pieces = 0
        while self.steps < most_steps:
            place = len(taken)
            if self._worth_it(place, left[-1], pieces):
                taken.append(self._most(place, left[-1]))
            else:
                # step back to a value of which there can be one less
                while taken and not self._one_less(taken[-1], len(taken) - 1, left, pieces):
                    pieces -= taken.pop()
                    left.pop()
                if not taken:
                    return
                pieces -= taken[-1]
                left.pop()
                taken[-1] -= 1
            pieces += taken[-1]
            left.append(left[-1] - taken[-1] * self.box[len(taken) - 1][0])
            self.steps += 1
            if (left[-1], pieces) < (self.short, self.pieces):
                self.short, self.pieces = left[-1], pieces
                self.counts = taken + [0] * (len(self.box) - len(taken))

    def _most(self, place, left):
        value, count = self.box[place]
        return left // value if count is None else min(count, left // value)

    def _one_less(self, count, place, left, pieces):
        # may one of a value less be worth it? where not, fewer still are not either
        if not count:
            return False
        more_left = left[-1] + self.box[place][0]
        if more_left - self.reaches[place + 1] > self.short:
            return False
        # while the short may be bettered, pieces do not count
        return self.short > self.least_short or self._in_fewer(place + 1, more_left, pieces - 1)

    def _worth_it(self, place, left, pieces):
        if place == len(self.box):
            return False
        short = self._least_short(place, left)
        if short > self.short or (short == self.short and not self._in_fewer(place, left, pieces)):
            return False
        known = self.seen.get((place, left))
        if known is not None and known <= pieces:
            return False
        self.seen[(place, left)] = pieces
        return True

    def _least_short(self, place, left):
        short = max(0, left - self.reaches[place])
        for later in range(place + 1, len(self.lacks)):
            divisor, lacks = self.lacks[later]
            if lacks:
                short = max(short, lacks[left % divisor])
            else:
                short = max(short, left % divisor - self.reaches[later])
        return short

    def _in_fewer(self, place, left, pieces):
        return pieces + self._fewest_more(place, left - self.short) < self.pieces

    def _fewest_more(self, place, left):
        # if the last piece could be cut to what is left
        more = 0
        while left > 0 and place < len(self.box):
            value, count = self.box[place]
            if count is None or value * count >= left:
                return more + (left + value - 1) // value
            more += count
            left -= value * count
            place += 1
        return more


def least_lacks(box, divisor):
    """For each rest of a divisor, find the least that is short of it with any pieces of the box.

    Example: least_lacks([(2, 1)], 5) == [0, 1, 0, 1, 2]
    """
    given = [True] + [False] * (divisor - 1)
    for value, count in box:
        # the fewest of this value that lead to each rest from one given before
        used = [0 if known else None for known in given]
        for rest in range(divisor):
            while used[rest] is not None and (count is None or used[rest] < count):
                end = (rest + value) % divisor
                if used[end] is not None and used[end] <= used[rest] + 1:
                    break
                used[end] = used[rest] + 1
                rest = end
        given = [known is not None for known in used]
    lacks = []
    for rest in range(divisor):
        lack = 0
        while not given[(rest - lack) % divisor]:
            lack += 1
        lacks.append(lack)
    return lacks
