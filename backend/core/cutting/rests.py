"""What the rest of a cloth may be worth beside a part of it.

The other half of `worths.py` and `staged_worths.py`, worked out backwards: the
worth of the best layout of the whole that holds a given part, less that part. A
part's own worth and its rest together bound every layout that holds it.
"""

from .worths import ACROSS, ALONG

NEVER = -1000000000000


class Rests:
    """Rests beside parts of a cloth whose `Worths` are done.

    `columns[0][a][b]`, and NEVER one past the last point of either axis.
    """

    def __init__(self, worths):
        self.worths = worths
        self.across, self.along = len(worths.points[ACROSS].at), len(worths.points[ALONG].at)
        column = [NEVER] * (self.along + 1)
        self.columns = [[column[:] for _ in range(self.across + 1)]]
        self.next = self.along - 1
        self.done = False

    def advance(self):
        """Work out one more row; returns the steps that took."""
        across, along = self.worths.points
        columns, b, steps = self.columns[0], self.next, 0
        row = [NEVER] * (self.across + 1)
        beside = [(worth, across.up(place)) for worth, _, place in self.worths.firsts[ACROSS][b]]
        ends = self.across - 1
        for a in range(ends, -1, -1):
            column = columns[a]
            best = max(row[a + 1], column[b + 1])
            if a == ends and b == self.along - 1:
                best = 0
            if beside:
                best = max(best, max([worth + row[up[a]] for worth, up in beside]))
            behind = self.worths.firsts[ALONG][a]
            if behind:
                best = max(best, max([worth + column[along.up(place)[b]] for worth, _, place in behind]))
            row[a] = column[b] = best
            steps += 3 + len(beside) + 2 * len(behind)
        self.next -= 1
        self.done = self.next < 0
        return steps


class StagedRests:
    """Rests beside parts of each level of a cloth whose `StagedWorths` are done.

    `columns[t][a][b]` beside a part of level t; those of the last level reach
    right across whatever they are made of.
    """

    def __init__(self, worths):
        self.worths = worths
        self.across, self.along = len(worths.points[ACROSS].at), len(worths.points[ALONG].at)
        self.columns = [None] * (worths.stages + 1)
        self.level, self.lines = worths.stages, []
        self.done = False

    def advance(self):
        """Work out one more line, from the last of a level to its first; returns the steps that took."""
        level, worths = self.level, self.worths
        axis = worths.axis(level)
        points = worths.points[axis]
        if level == worths.stages:
            line, steps = self._line(
                [NEVER] * (self.along + 1), self._lasts(), points, worths.firsts[level][0]
            )
            self.columns[level] = [line] * self.across + [[NEVER] * (self.along + 1)]
            self.level -= 1
            return steps
        above, count = self.columns[level + 1], self.along if axis == ACROSS else self.across
        number = count - 1 - len(self.lines)
        higher = [row[number] for row in above] if axis == ACROSS else above[number]
        wider = self.lines[-1] if self.lines else [NEVER] * len(higher)
        line, steps = self._line(wider, higher, points, worths.firsts[level][number] if level else [])
        self.lines.append(line)
        if number == 0:
            self._end_level(axis)
        return steps

    def _end_level(self, axis):
        lines = self.lines
        lines.reverse()
        lines.append([NEVER] * len(lines[0]))
        if axis == ACROSS:
            lines = [[row[place] for row in lines] for place in range(len(lines[0]))]
        self.columns[self.level] = lines
        self.lines = []
        self.level -= 1
        self.done = self.level < 0

    def _lasts(self):
        # what is beside a part right across that reaches to a point along
        return [NEVER] * (self.along - 1) + [0, NEVER]

    def _line(self, wider, higher, points, firsts):
        line, steps = [NEVER] * len(wider), 0
        tried = [(worth, points.up(place)) for worth, _, place in firsts]
        for place in range(len(line) - 2, -1, -1):
            best = max(line[place + 1], wider[place], higher[place])
            if tried:
                best = max(best, max([worth + line[up[place]] for worth, up in tried]))
            line[place] = best
            steps += 2 + len(tried)
        return line, steps
