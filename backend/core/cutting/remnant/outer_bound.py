"""The outer bound: what the rest of a cloth may be worth beside a part of it.

The other half of `dynamic_programme.py` and `staged_programme.py`, worked out backwards:
the value of the best layout of the whole that holds a given part, less that part. A
part's own value and its outer bound together bound every layout that holds it.
"""

from .dynamic_programme import ACROSS, ALONG


class OuterBounds:
    """Outer bounds of parts of a cloth whose `DynamicProgramme` is done.

    Takes: never, so far below nothing that what any parts are worth is not above it.
    `columns[0][a][b]`, and never one past the last point of either axis.
    """

    def __init__(self, programme, never):
        self.programme, self.never = programme, never
        self.across, self.along = len(programme.points[ACROSS].at), len(programme.points[ALONG].at)
        column = [never] * (self.along + 1)
        self.columns = [[column[:] for _ in range(self.across + 1)]]
        self.next = self.along - 1
        self.done = False

    def advance(self):
        """Work out one more row; returns the steps that took."""
        across, along = self.programme.points
        columns, b, steps = self.columns[0], self.next, 0
        row = [self.never] * (self.across + 1)
        beside = [(value, across.up(place)) for value, _, place in self.programme.firsts[ACROSS][b]]
        ends = self.across - 1
        for a in range(ends, -1, -1):
            column = columns[a]
            best = max(row[a + 1], column[b + 1])
            if a == ends and b == self.along - 1:
                best = 0
            if beside:
                best = max(best, max([value + row[up[a]] for value, up in beside]))
            behind = self.programme.firsts[ALONG][a]
            if behind:
                best = max(best, max([value + column[along.up(place)[b]] for value, _, place in behind]))
            row[a] = column[b] = best
            steps += 3 + len(beside) + 2 * len(behind)
        self.next -= 1
        self.done = self.next < 0
        return steps


class StagedOuterBounds:
    """Outer bounds of parts of each level of a cloth whose `StagedProgramme` is done.

    Takes: as `OuterBounds`.
    `columns[t][a][b]` of a part of level t; those of the last level reach
    right across whatever they are made of.
    """

    def __init__(self, programme, never):
        self.programme, self.never = programme, never
        self.across, self.along = len(programme.points[ACROSS].at), len(programme.points[ALONG].at)
        self.columns = [None] * (programme.stages + 1)
        self.level, self.lines = programme.stages, []
        self.done = False

    def advance(self):
        """Work out one more line, from the last of a level to its first; returns the steps that took."""
        level, programme = self.level, self.programme
        axis = programme.axis(level)
        points = programme.points[axis]
        if level == programme.stages:
            line, steps = self._line(
                [self.never] * (self.along + 1), self._lasts(), points, programme.firsts[level][0]
            )
            self.columns[level] = [line] * self.across + [[self.never] * (self.along + 1)]
            self.level -= 1
            return steps
        above, count = self.columns[level + 1], self.along if axis == ACROSS else self.across
        number = count - 1 - len(self.lines)
        higher = [row[number] for row in above] if axis == ACROSS else above[number]
        wider = self.lines[-1] if self.lines else [self.never] * len(higher)
        line, steps = self._line(wider, higher, points, programme.firsts[level][number] if level else [])
        self.lines.append(line)
        if number == 0:
            self._end_level(axis)
        return steps

    def _end_level(self, axis):
        lines = self.lines
        lines.reverse()
        lines.append([self.never] * len(lines[0]))
        if axis == ACROSS:
            lines = [[row[place] for row in lines] for place in range(len(lines[0]))]
        self.columns[self.level] = lines
        self.lines = []
        self.level -= 1
        self.done = self.level < 0

    def _lasts(self):
        # what is beside a part right across that reaches to a point along
        return [self.never] * (self.along - 1) + [0, self.never]

    def _line(self, wider, higher, points, firsts):
        line, steps = [self.never] * len(wider), 0
        tried = [(value, points.up(place)) for value, _, place in firsts]
        for place in range(len(line) - 2, -1, -1):
            best = max(line[place + 1], wider[place], higher[place])
            if tried:
                best = max(best, max([value + line[up[place]] for value, up in tried]))
            line[place] = best
            steps += 2 + len(tried)
        return line, steps
