"""What rounding a broken number has gained so far, and at which number to part a branch therefore.

Source: Benichou and others, Experiments in mixed-integer linear programming,
Mathematical Programming 1 (1971), which calls these pseudo-costs; scored by the
product of both sides: Achterberg, Constraint Integer Programming (2007), section 5.3.
"""

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

    def best(self, partings):
        """Choose the number whose roundings may gain most, either way; None where there is none."""
        best, most = None, 0.0
        for parting in partings:
            down, up = self._expected(parting, False), self._expected(parting, True)
            tells = (down + LEAST) * (up + LEAST)
            if tells > most:
                best, most = parting, tells
        return best

    def _expected(self, parting, up):
        # the first guess counts as one time
        total, times = self.known.get((parting.key, up), (0.0, 0))
        return (total + parting.guess) / (times + 1) * (1 - parting.part if up else parting.part)
