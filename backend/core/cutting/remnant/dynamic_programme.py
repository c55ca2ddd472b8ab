"""What every part of a cloth is worth at most, by dynamic programming over its points.

A part is [number of its point across][number along]. What lies in it is one
piece, or parts side by side, or parts one behind the other: it is worth the
dearest of those (Gilmore and Gomory 1966). Of parts side by side the first is
taken to be none itself: only such *first parts* are tried, those that beat every
row of others and every narrower part, which are few.
"""

ACROSS, ALONG = 0, 1


class DynamicProgramme:
    """Values with cuts of any number of stages.

    Takes: across and along, Points; pieces, [(point across, point along, value)];
    keep(across, along, value), whether a part may be in a layout worth the while,
    None for every part.
    `columns[a][b]` is the value of a part, 0 until it is reached; row after row,
    `advance` gets there.
    """

    def __init__(self, across, along, pieces, keep=None):
        self.points = (across, along)
        self.keep = keep
        self.columns = [[] for _ in across.at]
        self.firsts = ([[] for _ in along.at], [[] for _ in across.at])
        self.pieces = {}
        for a, b, value in pieces:
            self.pieces[(a, b)] = max(value, self.pieces.get((a, b), 0))
        self.done = False

    def advance(self):
        """Work out one more row; returns the steps that took."""
        across, along = self.points
        row, steps = [], 0
        b = len(self.columns[0])
        beside, left = self.firsts[ACROSS][b], 0
        for a, column in enumerate(self.columns):
            behind = self.firsts[ALONG][a]
            near = column[b - 1] if b else 0
            in_row = in_column = 0
            if beside:
                in_row = max([value + row[down[a]] for value, down, _ in beside])
            if behind:
                in_column = max([value + column[down[b]] for value, down, _ in behind])
            best = max(left, near, in_row, in_column, self.pieces.get((a, b), 0))
            row.append(best)
            column.append(best)
            if best > left or best > near:
                if self.keep is None or self.keep(a, b, best):
                    if best > left and best > in_row:
                        beside.append((best, across.down(a), a))
                    if best > near and best > in_column:
                        behind.append((best, along.down(b), b))
            steps += 3 + len(beside) + len(behind)
            left = best
        self.done = b + 1 == len(along.at)
        return steps

    def best(self):
        """Return the value of the whole."""
        return self.columns[-1][-1]

    def trace(self):
        """Trace what the whole is made of, as a tree of cuts.

        Returns: None for nothing, (a, b) for a piece, (axis, [trees]) for parts
        beside or behind each other.
        """
        tree = [None]
        waiting = [(len(self.columns) - 1, len(self.columns[-1]) - 1, tree, 0)]
        while waiting:
            a, b, owner, place = waiting.pop()
            a, b = self._shrunk(a, b)
            value = self.columns[a][b]
            if value == 0:
                continue
            if self.pieces.get((a, b), 0) == value:
                owner[place] = (a, b)
                continue
            axis, first, rest = self._split(a, b)
            parts = [None, None]
            owner[place] = (axis, parts)
            for number, part in enumerate((first, rest)):
                waiting.append((part[0], part[1], parts, number))
        return tree[0]

    def _shrunk(self, a, b):
        value = self.columns[a][b]
        while a and self.columns[a - 1][b] == value:
            a -= 1
        while b and self.columns[a][b - 1] == value:
            b -= 1
        return a, b

    def _split(self, a, b):
        value = self.columns[a][b]
        for first, down, place in self.firsts[ACROSS][b]:
            if place < a and first + self.columns[down[a]][b] == value:
                return ACROSS, (place, b), (down[a], b)
        for first, down, place in self.firsts[ALONG][a]:
            if place < b and first + self.columns[a][down[b]] == value:
                return ALONG, (a, place), (a, down[b])
