"""What rounding a broken number has gained so far, and at which number to part a branch therefore.

Source: Benichou and others, Experiments in mixed-integer linear programming,
Mathematical Programming 1 (1971), which calls these pseudo-costs; scored by the
product of both sides: Achterberg, Constraint Integer Programming (2007), section 5.3.
"""

SURE = 1  # times after which what is known is sure enough
MOST_UNSURE = 6
LEAST = 0.01  # so that a side without gain still tells the other sides apart


class Rounding:
    """A number rounded to get to a branch.

    Takes: parting; up; cost, what the linear programme found before it.
    """

    def __init__(self, parting, up, cost):
        self.parting = parting
        self.up = up
        self.cost = cost


class Gains:
    """What the linear programme's cost rose by, for each whole that a number was moved by."""

    def __init__(self):
        self.known = {}

    def learn(self, rounding, cost):
        """Take in what the linear programme found after a rounding."""
        parting, up = rounding.parting, rounding.up
        total, times = self.known.get((parting.key, up), (0.0, 0))
        gain = max(0.0, cost - rounding.cost) / (1 - parting.part if up else parting.part)
        self.known[(parting.key, up)] = (total + gain, times + 1)

    def unsure(self, partings):
        """List the roundings that nothing is known of, (parting, up), of the numbers that promise most."""
        found = []
        for parting in partings:
            sides = [up for up in (False, True) if self.known.get((parting.key, up), (0.0, 0))[1] < SURE]
            if sides:
                tells, place = self._tells(parting), len(found)
                while place and found[place - 1][0] < tells:
                    place -= 1
                found.insert(place, (tells, parting, sides))
        return [(parting, up) for _, parting, sides in found[:MOST_UNSURE] for up in sides]

    def best(self, partings):
        """Choose the number whose roundings may gain most, either way; None where there is none."""
        best, most = None, 0.0
        for parting in partings:
            tells = self._tells(parting)
            if tells > most:
                best, most = parting, tells
        return best

    def _tells(self, parting):
        return (self._expected(parting, False) + LEAST) * (self._expected(parting, True) + LEAST)

    def _expected(self, parting, up):
        # the first guess counts as one time
        total, times = self.known.get((parting.key, up), (0.0, 0))
        return (total + parting.guess) / (times + 1) * (1 - parting.part if up else parting.part)
