"""Where cuts need to be: the points of one axis, in whole units.

A normal layout pushes every piece to the near left corner, so each cut lies at a
sum of sizes (Herz 1972; Christofides and Whitlock 1977). Of those sums only the
raster points are needed: the largest sum in what each sum leaves of the length
(Terno, Lindemann and Scheithauer 1987; Cintra, Miyazawa, Wakabayashi and Xavier
2008). A size, or two places put together, is rounded up to the next point, which
loses nothing: what is rounded up still fits whatever fitted before.
"""

from ...numbers.dividing import greatest_common_divisor
from ...numbers.ordering import in_order
from ...numbers.rounding import GUARD

# parts of a millimetre that lengths are told apart by
FINE = 1000000000


def whole_units(lengths, whole):
    """Turn lengths into whole units with no common part, and the whole they must fit in.

    Takes: lengths and whole, mm. What fits as far as a float's last bits can
    tell (see rounding.py) fits in units.
    Returns: (units of each length, units of the whole, units of a millimetre).
    """
    units = [int(length * FINE + 0.5) for length in lengths]
    common = 0
    for one in units:
        common = greatest_common_divisor(common, one)
    common = common or 1
    limit = int((whole + GUARD * max(1.0, whole)) * FINE)
    return [one // common for one in units], limit // common, FINE / common


class Points:
    """The points of one axis, by number from the lowest.

    Takes: sizes, [(units, most)], `most` of each in a layout; whole, the units
    of the axis; most_points, more than that are not wanted.
    `at` holds the units of each point, None where there are too many.
    """

    def __init__(self, sizes, whole, most_points):
        self.at = _raster(sizes, whole, most_points)
        self.whole = whole
        self._down, self._up = {}, {}

    def number_for(self, units):
        """Find the first point that holds so many units; None where none does."""
        low, high = 0, len(self.at)
        while low < high:
            middle = (low + high) // 2
            if self.at[middle] < units:
                low = middle + 1
            else:
                high = middle
        return low if low < len(self.at) else None

    def down(self, part):
        """For each point, the point that holds what is left beside `part`; -1 where it does not fit."""
        if part not in self._down:
            found, place = [], -1
            for units in self.at:
                while place < len(self.at) - 1 and self.at[place + 1] <= units - self.at[part]:
                    place += 1
                found.append(place)
            self._down[part] = found
        return self._down[part]

    def up(self, part):
        """For each point, the point that holds both it and `part`; one past the last where none does."""
        if part not in self._up:
            found, place = [], 0
            for units in self.at:
                while place < len(self.at) and self.at[place] < units + self.at[part]:
                    place += 1
                found.append(place)
            self._up[part] = found
        return self._up[part]


def _raster(sizes, whole, most_points):
    # the fewer of: raster points for any quantities, sums of the quantities there are
    free = _sums([(units, whole // units) for units, _ in sizes], whole, most_points)
    if free is not None:
        free = _reduced(free, whole)
    limited = _sums(sizes, whole, most_points)
    if free is None or limited is not None and len(limited) < len(free):
        return limited
    return free


def _sums(sizes, whole, most_points):
    # every sum of sizes up to the whole, in order, or None where there are too many
    sums, known = [0], {0: True}
    for units, most in sizes:
        fresh = sums
        for _ in range(min(most, whole // units)):
            fresh = [one + units for one in fresh if one + units <= whole and one + units not in known]
            if not fresh:
                break
            for one in fresh:
                known[one] = True
            # in place: a long list copied for each strip is much to clear away for the phone's runtime
            sums += fresh
            if len(sums) > most_points:
                return None
    return in_order(sums, lambda one: one)


def _reduced(sums, whole):
    found, place = [], len(sums) - 1
    for units in sums:
        while sums[place] > whole - units:
            place -= 1
        if not found or found[-1] != sums[place]:
            found.append(sums[place])
    found.reverse()
    return found
