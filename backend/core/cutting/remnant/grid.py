"""The points of both axes of a cloth, and the pieces that lie on them."""

from .dynamic_programme import ACROSS, ALONG
from .lagrangian import with_pieces_named
from .raster_points import Points

MOST_POINTS = 3000
# more parts than this are too many for the memory of a phone
MOST_PARTS = 4000000
# pieces in the first layout: more are not laid out
ENOUGH = 2001


class Grid:
    """Points across and along, and pieces on them.

    Takes: cloth, (units across, units along); sizes, [(units across, units along,
    value, size, turned)]; limits, the most of each size, None for any; gives_layouts,
    false where sizes were rounded down to units, so that what fits there may not;
    gives_bounds, false where they were rounded up.
    `pieces` are [(point across, point along, value, size)] of those that fit, and
    `turned` says of (point across, point along, size) how it lies; the grid is not
    `fine` where there would be too many points.
    """

    def __init__(self, cloth, sizes, limits, gives_layouts=True, gives_bounds=True):
        self.gives_layouts, self.gives_bounds = gives_layouts, gives_bounds
        inside = [one for one in sizes if one[0] <= cloth[0] and one[1] <= cloth[1]]
        self.across = Points(_with_most(inside, 0, cloth, limits), cloth[0], MOST_POINTS)
        self.along = Points(_with_most(inside, 1, cloth, limits), cloth[1], MOST_POINTS)
        self.fine = self.across.at is not None and self.along.at is not None
        self.pieces, self.turned = [], {}
        if self.fine:
            for across, along, value, size, lies_turned in inside:
                spot = (self.across.number_for(across), self.along.number_for(along))
                if spot[0] is not None and spot[1] is not None and limits[size] != 0:
                    self.pieces.append((spot[0], spot[1], value, size))
                    self.turned.setdefault((spot[0], spot[1], size), lies_turned)
            self.fine = len(self.across.at) * len(self.along.at) <= MOST_PARTS

    def effort(self):
        """Estimate the steps that working out all values takes."""
        across, along = len(self.across.at), len(self.along.at)
        return across * along * (across + along + 16) // 8

    def one_size(self, limits):
        """Lay rows of one size, the one that is worth most so: (value, tree)."""
        best, tree = 0, None
        for across, along, value, size in self.pieces:
            beside = self.across.at[-1] // self.across.at[across]
            behind = self.along.at[-1] // self.along.at[along]
            count = min(beside * behind, ENOUGH)
            if limits[size] is not None:
                count = min(count, limits[size])
            if value * count > best:
                best = value * count
                rows = [(across, along, size)] * min(beside, count)
                rows = [(ACROSS, rows)] * (count // len(rows)) + [(ACROSS, rows[: count % len(rows)])]
                tree = (ALONG, rows)
        return best, tree

    def densest(self, values):
        """Work out what the whole would be worth if all of it were worth as much as the best piece."""
        best = 0.0
        for (across, along, _, _), value in zip(self.pieces, values):
            best = max(best, value / (float(self.across.at[across]) * self.along.at[along]))
        return best * self.across.at[-1] * self.along.at[-1]

    def keeper(self, values, loss):
        """Make the question whether a part falls short of its area's value by no more than `loss`."""
        whole = self.densest(values)
        each = whole / (float(self.across.at[-1]) * self.along.at[-1])
        across = [each * units for units in self.across.at]
        along = [float(units) for units in self.along.at]
        least = loss + 1e-9 * whole
        return lambda a, b, value: value >= across[a] * along[b] - least

    def named(self, tree, values):
        """Name the pieces of a traced layout: (point across, point along, size)."""
        dearest = {}
        for (across, along, _, size), value in zip(self.pieces, values):
            spot = (across, along)
            if spot not in dearest or value > dearest[spot][0]:
                dearest[spot] = (value, size)
        return with_pieces_named(tree, lambda across, along: (across, along, dearest[(across, along)][1]))


def rounded_up(cloth, sizes, limits, points):
    """Make a grid of about so many points an axis, with sizes rounded up to them."""
    steps = [-(-units // points) for units in cloth]
    whole = (cloth[0] // steps[0], cloth[1] // steps[1])
    up = [(-(-one[0] // steps[0]), -(-one[1] // steps[1])) + one[2:] for one in sizes]
    return Grid(whole, up, limits, True, False)


def rounded_down(cloth, sizes, limits, points):
    """Make a grid of about so many points an axis, with sizes rounded down to them.

    Returns: None where a size would be rounded down to nothing.
    """
    steps = [-(-units // points) for units in cloth]
    whole = (cloth[0] // steps[0], cloth[1] // steps[1])
    down = [(one[0] // steps[0], one[1] // steps[1]) + one[2:] for one in sizes]
    lost = [one for one in down if one[0] == 0 or one[1] == 0]
    return None if lost else Grid(whole, down, limits, False, True)


def _with_most(sizes, axis, cloth, limits):
    found = []
    for one in sizes:
        most = cloth[axis] // one[axis]
        found.append((one[axis], most if limits[one[3]] is None else min(most, limits[one[3]])))
    return found
