"""remnant-best-mix: the dearest strips of several sizes that one remnant gives."""

from ..dividing import greatest_common_divisor
from ..errors import note, refuse
from ..placed import PLACED
from ..rounding import GUARD, half_up
from ..spec import Calculator, Field
from .grid_pieces import Grid
from .mix_layout import count_pieces, lay_out, pieces_in
from .mix_run import Run
from .points import whole_units
from .worths import ACROSS

MOST_PIECES = 2000
STEPS = 12000000
MOST_STEPS = 24000000
LARGEST = 9007199254740991
# values are told apart by a millionth
MOST_PARTS_OF_ONE = 1000000

SIZE = [
    Field("name", "text", "The size", None, most=60, example="Everyday"),
    Field("length", "length", "Cut length of the strip, round the loop",
          lowest=1, highest=10000, example=482),
    Field("width", "length", "Cut width of the strip, round the tube",
          lowest=1, highest=10000, example=110),
    Field("value", "number", "What one is worth, to a millionth: its price, its area, or 1 to count strips",
          highest=1000000000, example=600),
    Field("quantity", "count", "Strips wanted at most; as many as fit where left out",
          None, highest=100000, example=12),
]  # fmt: skip

INPUTS = [
    Field("width", "length", "Width of the remnant as it can be cut now",
          lowest=1, highest=10000, unit="cm", example=900, group="The remnant"),
    Field("length", "length", "Length of the remnant as it can be cut now",
          lowest=1, highest=100000, unit="cm", example=700, group="The remnant"),
    Field("sizes", "list", "Sizes that may be cut", fields=SIZE, most=60, fewest=1),
    Field("rotate", "flag", "Strips may lie along the cloth too, else their length lies across it", True),
    Field("stages", "choice", "Times the cuts change direction: cuts right through, cross cuts, "
          "then cuts of what those leave", "any", choices=("2", "3", "any"),
          choice_words=("cuts right through, then cross cuts", "once more", "as often as it pays")),
    Field("steps", "count", "Steps of calculation after which the best found is given",
          STEPS, lowest=1, highest=MOST_STEPS),
]  # fmt: skip

MIXED = [Field("size", "count", "Its row in the list of sizes, from 0")] + PLACED

OUTPUTS = [
    Field("value", "number", "What the strips are worth together"),
    Field("bound", "number", "Proven: no layout is worth more"),
    Field("gap", "percent", "What a better layout could add at most",
          formula="100 × ({bound} − {value}) ÷ {value}", highest=None),
    Field("optimal", "flag", "No layout is worth more than this one"),
    Field("pieces", "count", "Strips it gives"),
    Field("first_cuts", "choice", "Which cuts come first", choices=("across", "along")),
    Field("waste", "percent", "Share of the remnant that is left over"),
    Field("placed", "list", "Where each strip lies", fields=MIXED, most=MOST_PIECES, drawn=True),
    Field("steps_used", "count", "Steps of calculation taken", highest=None),
]  # fmt: skip


class State:
    """A mix that is being worked out: in whole units, a run for each way of the first cuts."""

    def __init__(self, given):
        self.given = given
        self.steps = self.allowed = 0
        rows = given["sizes"]
        lengths = [row["length"] for row in rows] + [row["width"] for row in rows]
        units, across, _ = whole_units(lengths, given["width"])
        _, along, _ = whole_units(lengths, given["length"])
        self.cloth = (across, along)
        self.worths, self.parts, self.common = _whole_worths(rows, self.cloth, units)
        self.sizes = []
        for size in range(len(rows)):
            length, width = units[size], units[len(rows) + size]
            lying = [(length, width, False)]
            if given["rotate"] and length != width:
                lying.append((width, length, True))
            for one in lying:
                if one[0] <= across and one[1] <= along and self.worths[size]:
                    self.sizes.append((one[0], one[1], self.worths[size], size, one[2]))
        self.limits = [self._limit(row, size, units) for size, row in enumerate(rows)]
        # each (stages, whether across and along are exchanged, whether its bound counts)
        self.waiting = [(0, False, True)]
        if given["stages"] != "any":
            self.waiting = [(int(given["stages"]), swapped, True) for swapped in (False, True)]
        self.bound_of_rest, self.found, self.worth, self.grids = 0, None, 0, {}
        self._next()
        if not self.run.is_easy():
            # layouts of few stages are found sooner: good ones to start from
            fewer = {"2": (), "3": (2,), "any": (2, 3)}[given["stages"]]
            sooner = [(stages, swapped, False) for stages in fewer for swapped in (False, True)]
            self.waiting = sooner + [self.asked] + self.waiting
            self._next()

    def _limit(self, row, size, units):
        # a quantity that cloth of this area cannot hold is none
        area = float(units[size]) * units[len(self.given["sizes"]) + size]
        most = int(float(self.cloth[0]) * self.cloth[1] / area * (1 + GUARD))
        return None if row["quantity"] is None or row["quantity"] >= most else row["quantity"]

    def _next(self):
        self.asked = self.waiting.pop(0)
        stages, swapped, _ = self.asked
        cloth, sizes = self.cloth, self.sizes
        if swapped:
            cloth = (cloth[1], cloth[0])
            sizes = [(one[1], one[0]) + one[2:] for one in sizes]
        if swapped not in self.grids:
            self.grids[swapped] = Grid(cloth, sizes, self.limits)
        self.run = Run(self.grids[swapped], cloth, sizes, self.limits, stages, self.worth)
        left = self.given["steps"] - self.steps
        self.until = self.steps + (left // (len(self.waiting) + 1) if self.asked[2] else left // 12)

    def advance(self, steps):
        """Work on for so many steps; returns whether all is done."""
        # what one slice takes too much the next takes less, so that slices change nothing
        self.allowed += steps
        while self.steps < self.allowed and self.run is not None:
            if self.run.done() or self.steps >= self.until:
                self._end_run()
            else:
                self.steps += self.run.advance()
        return self.run is None

    def _end_run(self):
        self._take_over()
        if self.asked[2]:
            self.bound_of_rest = max(self.bound_of_rest, self.run.bound)
        self.run = None
        if self.waiting:
            self._next()

    def _take_over(self):
        if self.run.made is not None and self.run.worth > self.worth:
            self.worth, self.found = self.run.worth, (self.run.made, self.asked[1])

    def bound(self):
        """Return what no layout is worth more than, in whole parts."""
        bound = self.bound_of_rest
        if self.run is not None:
            self._take_over()
            bound = max(bound, self.run.bound if self.asked[2] else 0)
            if self.waiting:
                bound = max(bound, self.run.area_bound)
        return max(bound, self.worth)


def _whole_worths(rows, cloth, units):
    # worths as whole numbers with no common part, to as many decimals as whole numbers have room for
    together = 0.0
    for size, row in enumerate(rows):
        area = float(units[size]) * units[len(rows) + size]
        together = max(together, row["value"] * max(1.0, float(cloth[0]) * cloth[1] / area))
    parts = 1
    while parts < MOST_PARTS_OF_ONE and together * parts * 10 * 2048 <= LARGEST:
        if not [row for row in rows if _in_parts(row["value"], parts, GUARD) is None]:
            break
        parts *= 10
    worths = [_in_parts(row["value"], parts, 1.0) for row in rows]
    common = 0
    for one in worths:
        common = greatest_common_divisor(common, one)
    common = common or 1
    return [one // common for one in worths], parts, common


def _in_parts(value, parts, guard):
    # None where it is no whole number of parts
    whole = half_up(value * parts)
    return whole if abs(value * parts - whole) <= guard * max(1.0, value * parts) else None


def start(given):
    """Begin to look for the dearest mix; see `work` for what is found.

    Returns: a state for `advance` and `best`.
    """
    return State(given)


def advance(state, steps):
    """Work on for so many steps; returns whether nothing is left to do."""
    return state.advance(steps)


def best(state):
    """Tell the best layout found so far, with a bound that holds: (result, notes).

    Raises: Problems if it has over 2,000 strips.
    """
    given = state.given
    bound = state.bound()
    worth, made = state.worth, None
    if state.found:
        (grid, traced), swapped = state.found
        made = pieces_in(traced, grid, state.limits, swapped)
    if count_pieces(made) > MOST_PIECES:
        refuse("sizes", "too_many_pieces", count_pieces(made), MOST_PIECES, "count")
    placed = lay_out(made, given["sizes"])
    value, highest = [float(one) * state.common / state.parts for one in (worth, bound)]
    covered = 0.0
    for spot in placed:
        covered += spot["length"] * spot["width"]
    result = {
        "value": value,
        "bound": highest,
        "gap": 0.0 if bound == worth else 100.0 * (highest - value) / value if worth else 100.0,
        "optimal": bound == worth,
        "pieces": len(placed),
        "first_cuts": "along" if made and made[0] == ACROSS and isinstance(made[1], list) else "across",
        "waste": max(0.0, 100 * (1 - covered / (given["width"] * given["length"]))),
        "placed": placed,
        "steps_used": state.steps,
    }
    return result, [] if state.sizes else [note("pieces", "no_size_fits")]


def work(given):
    """Find the layout of strips of several sizes that is worth most, by straight cuts right through.

    Exact for any quantities and stages, as long as `steps` last: with
    quantities not limited by dynamic programming over all places where cuts
    need to be, else by a best-first search over parts under bounds of the
    same. Where they end first, the best found is given, with a bound that no
    layout exceeds. A strip that does not fit the remnant is left out.
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
