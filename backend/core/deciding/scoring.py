"""How near what was foretold came to what was sold, against two simple guesses."""

from math import sqrt

from ..numbers.counts import added_up, chances, left_above
from ..numbers.rounding import ceil
from ..numbers.samples import mean_of

FAR = 20  # standard deviations above the mean, beyond which next to nothing is left
MOST_COUNTED = 5000


def reaches(mean, size):
    """Tell how many are hardly ever wanted. Example: reaches(9.0, None) == 69"""
    spread = sqrt(mean + (mean * mean / size if size is not None else 0))
    return min(MOST_COUNTED, ceil(mean + FAR * spread))


def crps(mean, size, sold):
    """Score a foretold law by what was sold: the less the better, in pieces.

    Source: the ranked probability score for counts (Czado, Gneiting & Held, Biometrics 65 (2009) 1254–1261).
    Example: crps(0.0, None, 3) == 3.0
    """
    parts, score = chances(mean, size, max(sold, reaches(mean, size))), 0.0
    for off in added_up(parts)[:sold] + left_above(parts)[sold:]:
        score += off * off
    return score


class Scores:
    """The scores of rows, one after another, of all three ways to foretell them."""

    def __init__(self):
        self.crps, self.last_time, self.mean_sold, self.days = [], [], [], 0

    def add(self, mean, size, sold, before):
        """Score one row. Takes: before, what was sold of it earlier, the last of it last."""
        self.crps.append(crps(mean, size, sold))
        self.last_time.append(abs(sold - before[-1]))
        self.mean_sold.append(abs(sold - mean_of(before)))

    def told(self):
        """Tell the means, None before any row is scored."""
        means = {name: mean_of(values) if values else None for name, values in (
            ("crps", self.crps), ("last_time", self.last_time), ("mean_sold", self.mean_sold),
        )}  # fmt: skip
        means["days"] = self.days
        return means
