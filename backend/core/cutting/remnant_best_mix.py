"""remnant-best-mix: the dearest strips of several sizes that one remnant gives."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator
from ..numbers.dividing import greatest_common_divisor
from ..numbers.rounding import GUARD, half_up
from .remnant.bars import Bars
from .remnant.checking import fault_of
from .remnant.dynamic_programme import ACROSS
from .remnant.fields import INPUTS, MOST_PIECES, OUTPUTS
from .remnant.grid import Grid
from .remnant.layout import count_pieces, lay_out, pieces_in
from .remnant.raster_points import whole_units
from .remnant.shelves import Shelves
from .remnant.solver import Solver

LARGEST = 9007199254740991
# values are told apart by a millionth
MOST_PARTS_OF_ONE = 1000000

# what is done: rows with strips as they are, and turned too; bounds; layouts of fewer stages; all of them
ROWS, TURNED, BARS, SOONER, SEARCH = "rows", "rows, turned", "bars", "search for few stages", "search"
# the parts of all steps that each of those may take, by stages: the same whatever else may be done, so
# that more stages and turning never find less
ROWS_PART, OTHER_PART = {2: 60, 3: 16, 0: 8}, 12


class MixSearch:
    """A mix that is being worked out, in whole units: one way to look for it after the other.

    Has: way, (what, stages, whether across and along are exchanged), and those waiting; value,
    in whole parts, and found, the tree of cuts of the best layout.
    """

    def __init__(self, given):
        self.given = given
        self.steps = self.allowed = 0
        rows = given["sizes"]
        lengths = [row["length"] for row in rows] + [row["width"] for row in rows]
        units, across, _ = whole_units(lengths, given["width"])
        _, along, _ = whole_units(lengths, given["length"])
        self.cloth = (across, along)
        self.values, self.parts_of_one, self.common = _whole_values(rows, self.cloth, units)
        inexact = [row for row in rows if _in_parts(row["value"], self.parts_of_one) is None]
        self.is_exact = self.parts_of_one == MOST_PARTS_OF_ONE or not inexact
        self.sizes = []
        for size in range(len(rows)):
            length, width = units[size], units[len(rows) + size]
            lying = [(length, width, False)]
            if given["rotate"] and length != width:
                lying.append((width, length, True))
            for one in lying:
                if one[0] <= across and one[1] <= along and self.values[size]:
                    self.sizes.append((one[0], one[1], self.values[size], size, one[2]))
        self.limits = [self._limit(row, size, units) for size, row in enumerate(rows)]
        self.bound_of_done = 0
        self.found, self.value, self.grids, self.work = None, 0, {}, None
        asked = 0 if given["stages"] == "any" else int(given["stages"])
        ways = [(SEARCH, asked, swapped) for swapped in ((False,) if asked == 0 else (False, True))]
        fewer = {2: (2,), 3: (2, 3), 0: (2, 3, 0)}[asked]
        rows = [
            (what, stages, swapped) for stages in fewer for what in self._rows() for swapped in (False, True)
        ]
        rows += [(BARS, 0, swapped) for swapped in (False, True)]
        self.searches = len(ways)
        first = self._search(ways[0])
        self.bound_of_any = first.area_bound
        if first.is_easy():
            # nearly always proven: rows only where it is not
            self.waiting = ways + rows
        else:
            # layouts of few stages are found sooner: good ones to start from
            sooner = [(SOONER, stages, swapped) for stages in fewer[:-1] for swapped in (False, True)]
            self.waiting = rows + sooner + ways
        self._next_work()

    def _rows(self):
        # what may be turned may also lie as it is
        turned = [one for one in self.sizes if one[4]]
        return (ROWS, TURNED) if turned else (ROWS,)

    def _limit(self, row, size, units):
        # a quantity that cloth of this area cannot hold is none
        area = float(units[size]) * units[len(self.given["sizes"]) + size]
        most = int(float(self.cloth[0]) * self.cloth[1] / area * (1 + GUARD))
        return None if row["quantity"] is None or row["quantity"] >= most else row["quantity"]

    def _next_work(self):
        self.way = self.waiting.pop(0)
        what, stages, swapped = self.way
        left = self.given["steps"] - self.steps
        most = self.given["steps"] // ROWS_PART[stages]
        cloth, sizes = self._lying(swapped)
        if what == ROWS:
            sizes = [one for one in sizes if not one[4]]
        if what in (ROWS, TURNED):
            self.work = Shelves(cloth, sizes, self.limits, stages, swapped, most)
        elif what == BARS:
            self.work = Bars(cloth, sizes, self.limits, most)
        else:
            self.work = self._search(self.way)
        if what == SOONER:
            most = left // OTHER_PART
        elif what == SEARCH:
            # some are left for the rows after it
            rows = len([one for one in self.waiting if one[0] != SEARCH])
            most = left * (OTHER_PART - min(rows, OTHER_PART // 2)) // OTHER_PART // self.searches
        self.until = self.steps + most

    def _lying(self, swapped):
        if not swapped:
            return self.cloth, self.sizes
        return (self.cloth[1], self.cloth[0]), [(one[1], one[0]) + one[2:] for one in self.sizes]

    def _search(self, way):
        _, stages, swapped = way
        cloth, sizes = self._lying(swapped)
        if swapped not in self.grids:
            self.grids[swapped] = Grid(cloth, sizes, self.limits)
        return Solver(self.grids[swapped], cloth, sizes, self.limits, stages, self.value)

    def advance(self, steps):
        """Work on for so many steps; returns whether all is done."""
        # what one slice takes too much the next takes less, so that slices change nothing
        self.allowed += steps
        while self.steps < self.allowed and self.work is not None:
            if self.work.done() or self.steps >= self.until:
                self._end_work()
            else:
                self.steps += self.work.advance()
        return self.work is None

    def _end_work(self):
        self._take_over()
        if self.way[0] == SEARCH:
            self.bound_of_done = max(self.bound_of_done, self.work.bound)
            self.searches -= 1
        self.work = None
        if self.value < self.bound() and self.waiting:
            self._next_work()

    def _take_over(self):
        what, _, swapped = self.way
        if what == BARS:
            if self.work.bound is not None:
                self.bound_of_any = min(self.bound_of_any, self.work.bound)
        elif self.work.tree is not None and self.work.value > self.value:
            self.value, self.found = self.work.value, self.work.tree
            if what in (SEARCH, SOONER):
                grid, traced = self.found
                self.found = pieces_in(traced, grid, self.limits, swapped)

    def bound(self):
        """Return what no layout is worth more than, in whole parts."""
        if self.work is not None:
            self._take_over()
        bound = self.bound_of_any
        if self.searches == 0:
            bound = min(bound, self.bound_of_done)
        elif self.searches == 1 and self.work is not None and self.way[0] == SEARCH:
            bound = min(bound, max(self.bound_of_done, self.work.bound))
        return max(bound, self.value)


def _whole_values(rows, cloth, units):
    # values as whole numbers with no common part, to as many decimals as whole numbers have room for
    largest = 0.0
    for size, row in enumerate(rows):
        area = float(units[size]) * units[len(rows) + size]
        most = max(1.0, float(cloth[0]) * cloth[1] / area)
        largest = max(
            largest, row["value"] * (most if row["quantity"] is None else min(most, row["quantity"]))
        )
    parts = 1
    while parts < MOST_PARTS_OF_ONE and largest * parts * 10 * 2 <= LARGEST:
        if not [row for row in rows if _in_parts(row["value"], parts) is None]:
            break
        parts *= 10
    values, common = [half_up(row["value"] * parts) for row in rows], 0
    for one in values:
        common = greatest_common_divisor(common, one)
    common = common or 1
    return [one // common for one in values], parts, common


def _in_parts(value, parts):
    # None where it is no whole number of parts
    whole = half_up(value * parts)
    return whole if abs(value * parts - whole) <= GUARD * max(1.0, value * parts) else None


def start(given):
    """Begin to look for the dearest mix; see `work` for what is found.

    Returns: a state for `advance` and `best`.
    """
    return MixSearch(given)


def advance(state, steps):
    """Work on for so many steps; returns whether nothing is left to do."""
    return state.advance(steps)


def best(state):
    """Tell the best layout found so far, with a bound that holds: (result, notes).

    Raises: Problems if it has over 2,000 strips.
    """
    given = state.given
    bound = state.bound()
    found, tree = state.value, state.found
    if count_pieces(tree) > MOST_PIECES:
        refuse("sizes", "too_many_pieces", count_pieces(tree), MOST_PIECES, "count")
    placed = lay_out(tree, given["sizes"])
    value, highest = [float(one) * state.common / state.parts_of_one for one in (found, bound)]
    if not state.is_exact:
        # no piece is worth more by a half part, so that none of these layouts is by more than this
        value = _worth(given["sizes"], placed)
        highest = max(value, highest + MOST_PIECES / 2 / state.parts_of_one)
    covered = 0.0
    for spot in placed:
        covered += spot["length"] * spot["width"]
    result = {
        "value": value,
        "bound": highest,
        "gap": 0.0 if highest == value else 100.0 * (highest - value) / value if found else 100.0,
        "optimal": highest == value,
        "pieces": len(placed),
        "first_cuts": "along" if tree and tree[0] == ACROSS and isinstance(tree[1], list) else "across",
        "waste": max(0.0, 100 * (1 - covered / (given["width"] * given["length"]))),
        "placed": placed,
        "steps_used": state.steps,
    }
    fault = fault_of(given, result)
    if fault:
        raise ValueError("a layout that cannot be cut: " + fault)
    return result, [] if state.sizes else [note("pieces", "no_size_fits")]


def _worth(sizes, placed):
    worth = 0.0
    for spot in placed:
        worth += sizes[spot["size"]]["value"]
    return worth


def work(given):
    """Find the layout of strips of several sizes that is worth most, by straight cuts right through.

    Exact for any quantities and stages, as long as `steps` last: with
    quantities not limited by dynamic programming over all places where cuts
    need to be, else by a best-first search over parts under bounds of the
    same. A large remnant is laid in rows first. Where the steps end first,
    the best found is given, with a bound that no layout exceeds. A strip that
    does not fit the remnant is left out.
    Source: Gilmore and Gomory, The theory and computation of knapsack
    functions, Operations Research 14 (1966); Viswanathan and Bagchi, Best-first
    search methods for constrained two-dimensional cutting stock problems,
    Operations Research 41 (1993).
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


CALCULATOR = Calculator(
    "remnant-best-mix",
    "Best mix from a remnant",
    "The strips of several sizes, worth most together, that one remnant gives, and where each lies.",
    INPUTS,
    OUTPUTS,
    work,
    main=("value", "bound"),
    by_steps=(start, advance, best),
)
