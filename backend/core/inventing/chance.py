"""Chance from a seed: the same draws on both runtimes, of small whole numbers and exact sums alone."""

from ..numbers.money import add_up


class Chance:
    """A row of draws that its seed decides.

    Source: Wichmann and Hill, "Algorithm AS 183", Applied Statistics 31 (1982), 188-190.
    """

    def __init__(self, seed):
        self.x = seed % 30268 + 1
        self.y = seed // 30268 % 30306 + 1
        self.z = seed // 7919 % 30322 + 1

    def draw(self):
        """Draw from 0 up to, and without, 1."""
        self.x = 171 * self.x % 30269
        self.y = 172 * self.y % 30307
        self.z = 170 * self.z % 30323
        drawn = self.x / 30269 + self.y / 30307 + self.z / 30323
        return drawn - int(drawn)

    def below(self, most):
        """Draw a whole number from 0 up to, and without, `most`."""
        return int(self.draw() * most)

    def one_of(self, items):
        """Draw one of some items, each as likely."""
        return items[self.below(len(items))]

    def by_weight(self, items, weights):
        """Draw one of some items, each as likely as its whole weight."""
        left = self.below(add_up(weights))
        for item, weight in zip(items, weights):
            if left < weight:
                return item
            left -= weight
        return items[-1]

    def some_of(self, most, wanted):
        """Draw so many different whole numbers below `most`; they come in order.

        Source: Knuth, The Art of Computer Programming 2, 3.4.2, Algorithm S.
        """
        found = []
        for number in range(most):
            if self.draw() * (most - number) < wanted - len(found):
                found.append(number)
        return found
