"""Pseudo-costs: what rounding a fractional number has gained so far, and at which number to branch therefore.

Source: Benichou and others, Experiments in mixed-integer linear programming,
Mathematical Programming 1 (1971), which calls these pseudo-costs; scored by the
product of both sides: Achterberg, Constraint Integer Programming (2007), section 5.3.
"""

RELIABLE = 1  # times after which what is known is sure enough
MOST_PROBED = 6
LEAST = 0.01  # so that a side without gain still tells the other sides apart


class Decision:
    """A candidate rounded up or down, which made a node.

    Takes: candidate; up; cost, what the linear programme found before it.
    """

    def __init__(self, candidate, up, cost):
        self.candidate = candidate
        self.up = up
        self.cost = cost


class PseudoCosts:
    """What the linear programme's cost rose by, for each whole that a number was moved by."""

    def __init__(self):
        self.known = {}

    def update(self, decision, cost):
        """Take in what the linear programme found after a decision."""
        candidate, up = decision.candidate, decision.up
        total, times = self.known.get((candidate.key, up), (0.0, 0))
        gain = max(0.0, cost - decision.cost) / (1 - candidate.fraction if up else candidate.fraction)
        self.known[(candidate.key, up)] = (total + gain, times + 1)

    def unreliable(self, candidates):
        """List the decisions that nothing is known of, (candidate, up), of the numbers that promise most."""
        found = []
        for candidate in candidates:
            sides = [up for up in (False, True) if self._times(candidate, up) < RELIABLE]
            if sides:
                score, place = self._score(candidate), len(found)
                while place and found[place - 1][0] < score:
                    place -= 1
                found.insert(place, (score, candidate, sides))
        return [(candidate, up) for _, candidate, sides in found[:MOST_PROBED] for up in sides]

    def best(self, candidates):
        """Choose the candidate whose decisions may gain most, either way; None where there is none."""
        best, most = None, 0.0
        for candidate in candidates:
            score = self._score(candidate)
            if score > most:
                best, most = candidate, score
        return best

    def _times(self, candidate, up):
        return self.known.get((candidate.key, up), (0.0, 0))[1]

    def _score(self, candidate):
        return (self._expected(candidate, False) + LEAST) * (self._expected(candidate, True) + LEAST)

    def _expected(self, candidate, up):
        # the first guess counts as one time
        total, times = self.known.get((candidate.key, up), (0.0, 0))
        return (
            (total + candidate.guess) / (times + 1) * (1 - candidate.fraction if up else candidate.fraction)
        )
