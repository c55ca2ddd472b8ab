"""What every part of a cloth is worth at most where the stages of cuts are counted.

Level 0 is one piece, perhaps trimmed. A part of level t is parts of level t − 1
put side by side where its cuts run along the cloth, or one behind the other where
they run across; the last level's cuts run right across the cloth, and they alternate
(Gilmore and Gomory 1965). As in `dynamic_programme.py` only first parts are tried.
"""

from .dynamic_programme import ACROSS, ALONG


class StagedProgramme:
    """Values with cuts of so many stages, the first of them right across.

    Takes: as `DynamicProgramme`, and stages.
    `lines[t][n]` are the values of level t along line n of its axis: n is a point
    along for parts side by side, else a point across. The last level has one line.
    """

    def __init__(self, across, along, pieces, stages, keep=None):
        self.points = (across, along)
        self.keep = keep
        self.stages = stages
        self.pieces = pieces
        self.lines = [self._single_pieces()] + [[] for _ in range(stages)]
        self.firsts = [[] for _ in range(stages + 1)]
        self.level = 1
        self.done = False

    def axis(self, level):
        """Say how the parts of a level lie: those of the last level behind each other."""
        return ALONG if (self.stages - level) % 2 == 0 else ACROSS

    def _single_pieces(self):
        # along the lines of level 1; a line without a piece of its own is the one before
        axis = self.axis(1)
        starts = [{} for _ in self.points[1 - axis].at]
        for a, b, value in self.pieces:
            number, place = (b, a) if axis == ACROSS else (a, b)
            starts[number][place] = max(value, starts[number].get(place, 0))
        lines = [[0] * len(self.points[axis].at)]
        for start in starts:
            line = lines[-1]
            if start:
                best, line = 0, line[:]
                for place, value in enumerate(line):
                    best = max(best, value, start.get(place, 0))
                    line[place] = best
            lines.append(line)
        return lines[1:]

    def advance(self):
        """Work out one more line; returns the steps that took."""
        lines, firsts = self.lines[self.level], self.firsts[self.level]
        axis = self.axis(self.level)
        points, other = self.points[axis], self.points[1 - axis]
        number = len(lines) if self.level < self.stages else len(other.at) - 1
        if self.level == 1:
            lower, steps = self.lines[0][number], 1
        else:
            lower = [line[number] for line in self.lines[self.level - 1]]
            steps = len(lower) // 2
        if lines and (lower is self.below or lower == self.below):
            lines.append(lines[-1])
            firsts.append(firsts[-1])
        else:
            steps += self._fill(lines, firsts, lower, points, axis, number)
        self.below = lower
        if number + 1 == len(other.at):
            self.done = self.level == self.stages
            self.level += 1
        return steps

    def _fill(self, lines, firsts, lower, points, axis, number):
        line, tried, left, steps = [], [], 0, 0
        for place, value in enumerate(lower):
            best = left
            if tried:
                best = max(best, max([first + line[down[place]] for first, down, _ in tried]))
            if value > best:
                best = value
                a, b = (place, number) if axis == ACROSS else (number, place)
                if self.keep is None or self.keep(a, b, value):
                    tried.append((value, points.down(place), place))
            line.append(best)
            steps += 2 + len(tried)
            left = best
        lines.append(line)
        firsts.append(tried)
        return steps

    def best(self):
        """Return the value of the whole."""
        return self.lines[-1][-1][-1]

    def trace(self):
        """Trace what the whole is made of, as `DynamicProgramme.trace` does."""
        tree = [None]
        across, along = self.points
        waiting = [(self.stages, len(across.at) - 1, len(along.at) - 1, tree, 0)]
        while waiting:
            level, a, b, owner, place = waiting.pop()
            if level == 0:
                owner[place] = self._piece(a, b)
                continue
            axis = self.axis(level)
            parts = []
            owner[place] = (axis, parts)
            for part in self._parts(level, a, b, axis):
                spot = (part, b) if axis == ACROSS else (a, part)
                parts.append(None)
                waiting.append((level - 1, spot[0], spot[1], parts, len(parts) - 1))
        return tree[0]

    def _piece(self, a, b):
        value = self._value(0, a, b)
        while a and self._value(0, a - 1, b) == value:
            a -= 1
        while b and self._value(0, a, b - 1) == value:
            b -= 1
        return (a, b) if value else None

    def _value(self, level, a, b):
        if self.axis(level or 1) == ACROSS:
            return self.lines[level][b][a]
        return self.lines[level][a][b]

    def _parts(self, level, a, b, axis):
        # where each part of level - 1 ends that a part of this level is made of
        number, place = (b, a) if axis == ACROSS else (a, b)
        if level == self.stages:
            number = 0
        line, found = self.lines[level][number], []
        value = line[place]
        while value:
            while place and line[place - 1] == value:
                place -= 1
            spot = (place, b) if axis == ACROSS else (a, place)
            if self._value(level - 1, spot[0], spot[1]) == value:
                found.append(place)
                break
            for first, down, end in self.firsts[level][number]:
                if end <= place and first + line[down[place]] == value:
                    found.append(end)
                    place, value = down[place], value - first
                    break
        return found
