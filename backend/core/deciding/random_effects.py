"""Few days of each of several markets: what each is worth by itself, drawn towards what they all are."""

from math import sqrt

from ..numbers.samples import mean_of, squares_about


class Groups:
    """Values of several groups, of which each has a level of its own round a common one.

    Takes: rows, a list of values for each group, none empty, and more than one value in all.
    Has: mean, the common level; within and between, the variance of values about their group's level and
    of levels about the common one; freedom, degrees of freedom of `within`.
    Where no group has two values, nothing tells the two variances apart: all are taken as one group, and
    so are those of one group alone (`as_one`); how far a level lies from the common one is not told then,
    see `intervals_of`.
    Source: analysis of variance of a one-way random model, estimated by moments; best linear unbiased
    prediction (Searle, Casella & McCulloch, Variance Components). What not knowing `between` makes a level
    less sure: R. N. Kackar & D. A. Harville, Journal of the American Statistical Association 79 (1984)
    853–862; N. G. N. Prasad & J. N. K. Rao, the same 85 (1990) 163–171.
    """

    def __init__(self, rows):
        values = [value for row in rows for value in row]
        self.rows, self.count = rows, len(values)
        self.as_one = len(rows) == 1 or len(values) == len(rows)
        self.mean, self.between = mean_of(values), 0.0
        self.freedom = len(values) - (1 if self.as_one else len(rows))
        if self.as_one:
            self.within = squares_about(values, self.mean) / self.freedom
        else:
            self._part(rows)

    def _part(self, rows):
        means = [mean_of(row) for row in rows]
        inside = apart = squares = 0.0
        for row, mean in zip(rows, means):
            inside += squares_about(row, mean)
            apart += len(row) * (mean - self.mean) * (mean - self.mean)
            squares += len(row) * len(row)
        self.within = inside / self.freedom
        usual = (self.count - squares / self.count) / (len(rows) - 1)
        self.between = max(0.0, (apart / (len(rows) - 1) - self.within) / usual)
        # of the estimate of between, for groups of `usual` values each
        part = usual * self.between + self.within
        of_means = part * part / (len(rows) - 1)
        self.unsure = 2 * (of_means + self.within * self.within / self.freedom) / (usual * usual)
        if self.between == 0:
            # their weights are their counts, and the common level is the mean of all
            return
        total = whole = 0.0
        for row, mean in zip(rows, means):
            total += mean / self._variance(row)
            whole += 1 / self._variance(row)
        self.mean = total / whole

    def _variance(self, row):
        # of a group's mean about the common level
        return self.between + self.within / len(row)

    def level_of(self, row):
        """Estimate the level of a group: (level, variance of the estimate)."""
        if self.as_one:
            return self.mean, self.within / self.count
        if self.between == 0:
            return self.mean, self._widened(self.within / self.count, row)
        whole = 0.0
        for other in self.rows:
            whole += 1 / self._variance(other)
        own = self.between / self._variance(row)
        level = self.mean + own * (mean_of(row) - self.mean)
        return level, self._widened(own * self.within / len(row) + (1 - own) * (1 - own) / whole, row)

    def _widened(self, variance, row):
        # by not knowing how far groups differ; but never beyond what its own values alone tell
        alone, about = self.within / len(row), self._variance(row)
        if alone == 0:
            return variance
        more = variance + alone / about * (alone / about) * self.unsure / about
        return max(variance, min(alone, more))

    def spread_of(self, row):
        """Tell the standard errors of a group's level and of a further value of it."""
        variance = self.level_of(row)[1]
        return sqrt(variance), sqrt(variance + self.within)

    def intervals_of(self, row, t):
        """Tell between what a group's level lies, and between what a further value: (low, high, low, high).

        Several groups taken as one may share any part B of their variance. For each B a further value lies
        round level + B·off, off by which the group's own value is above it, by at most t·√(1 − B²) of the
        error at B = 0. The ends of all these, for which there is a closed form, are those of both.
        Takes: t, of Student's t with `freedom`.
        """
        level = self.level_of(row)[0]
        error, next_error = self.spread_of(row)
        if self.as_one and len(self.rows) > 1:
            off, reach = row[0] - level, t * next_error
            low, high = level - _longest(reach, -off), level + _longest(reach, off)
            return low, high, low, high
        return level - t * error, level + t * error, level - t * next_error, level + t * next_error


def _longest(reach, off):
    # the most of B·off + √(1 − B²)·reach for B from 0 to 1
    return sqrt(reach * reach + off * off) if off > 0 else reach
