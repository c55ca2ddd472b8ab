"""elastic-rolls: how to cut lengths of elastic from the rolls that cost least, or else from the fewest."""

from ..declaring.errors import Problems, note, problem, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.ordering import in_order
from ..numbers.rounding import floor
from ..numbers.whole_parts import in_parts, parts_for
from .roll_costs import RollCosts, prices_of
from .rows.branch_and_bound import BranchAndBound
from .rows.problem import Problem, RowType

MOST_PIECES = 100000
MOST_LENGTHS = 200
STEPS, MOST_STEPS = 300000, 4000000

LENGTH = [
    Field("length", "length", "Cut length of the elastic", lowest=5, highest=100000, example=260),
    Field("quantity", "count", "Pieces of it", lowest=1, highest=MOST_PIECES, example=60),
]
ROLL = [
    Field(
        "length",
        "length",
        "Length of the roll",
        lowest=5,
        highest=1000000,
        unit="m",
        example=10000,
        rounded=floor,
    ),
    Field("count", "count", "How many there are; none said for plenty", None, example=4),
    Field(
        "price", "money", "Price of a roll to buy; none said for one there already", None, highest=100000000
    ),
]

INPUTS = [
    Field("lengths", "list", "Pieces wanted", fields=LENGTH, fewest=1, most=MOST_LENGTHS, group="The pieces"),
    Field("rolls", "list", "Rolls to cut from", fields=ROLL, fewest=1, most=12, group="The rolls"),
    Field("steps", "count", "How long to look for a better answer, and for its proof", STEPS,
          highest=MOST_STEPS, group="The search"),
]  # fmt: skip

CUT = [
    Field("length", "length", "Set the stop of the cutting board here"),
    Field("count", "count", "Pieces to cut at this stop"),
]
PATTERN = [
    Field("roll", "count", "Which of the rolls, from 0"),
    Field("roll_length", "length", "Its length", unit="m"),
    Field("cuts", "list", "What to cut from one such roll, longest first", fields=CUT, most=MOST_LENGTHS),
    Field("times", "count", "How many rolls to cut so"),
    Field("left", "length", "What is left of each"),
]
MISSING = [
    Field("length", "length", "Cut length"),
    Field("count", "count", "Pieces there is no elastic for"),
]

OUTPUTS = [
    Field("rolls_used", "count", "Rolls to cut from"),
    Field("bound", "count", "No way of cutting needs fewer"),
    Field("optimal", "flag", "Proven: no way of cutting costs less; without prices, fewer rolls cannot do"),
    Field("left", "length", "Left over from all of them", unit="m"),
    Field("waste", "percent", "Share of the rolls used that is left over"),
    Field("patterns", "list", "How to cut each roll", fields=PATTERN, most=2000, drawn=True),
    Field("cost", "money", "What the rolls used cost, where each that is to be bought has a price", None),
    Field("cost_bound", "money", "No way of cutting costs less", None),
    Field("unplaced", "list", "What the rolls cannot give", fields=MISSING, most=MOST_LENGTHS),
    Field("steps_used", "count", "Steps that the search took"),
]


class RollsSearch:
    """A search in the middle of its work, with what it was asked.

    Takes: costs, a RollCosts; fewest, the rolls that hold as much elastic as is asked for,
    however it is cut.
    """

    def __init__(self, given, lengths, search, costs, fewest):
        self.given = given
        self.lengths = lengths
        self.search = search
        self.costs = costs
        self.fewest = fewest
        self.steps = 0

    def is_done(self):
        """Say whether all is proven."""
        return self.search.done or self.costs.each == 1 and self.search.cost == self.fewest


def start(given):
    """Begin to cut lengths from rolls; see `work` for what is found.

    Returns: a state for `advance` and `best`.
    Raises: Problems on a length that no roll is long enough for.
    """
    _refuse_too_long(given)
    lengths = _merged(given["lengths"])
    parts = parts_for([row["length"] for row in lengths])
    whole_lengths = [in_parts(row["length"], parts) for row in lengths]
    rolls = [(in_parts(row["length"], parts), row["count"]) for row in given["rolls"]]
    demand = [row["quantity"] for row in lengths]
    most_rolls = _most_rolls(demand, whole_lengths, rolls, given["rolls"])
    costs = RollCosts(given["rolls"], max([capacity for capacity, _ in rolls]), most_rolls)
    row_types = _row_types(whole_lengths, rolls, costs)
    for size, length in enumerate(whole_lengths):
        if not [capacity for capacity, count in rolls if count is None and length <= capacity]:
            row_types.append(RowType(length, [(size, length, False, 1)], costs.left_out, family=1))
    search = BranchAndBound(Problem(demand, row_types, [], whole_lengths))
    state = RollsSearch(given, lengths, search, costs, _fewest(demand, whole_lengths, rolls))
    state.search.step()
    return state


def advance(state, steps):
    """Work on for so many steps; returns whether all is proven."""
    state.steps += steps
    while not state.is_done() and state.search.effort <= state.steps:
        state.search.step()
    return state.is_done()


def best(state):
    """Tell the best way of cutting found so far, with a bound that holds: (result, notes)."""
    search, rolls = state.search, state.given["rolls"]
    missing, patterns = [0] * len(state.lengths), []
    for run in search.layout:
        number = run.row_type.origin
        if number is None:
            missing = [one + run.times * other for one, other in zip(missing, run.counts)]
        else:
            patterns.append(_pattern(number, rolls[number]["length"], state.lengths, run))
    used, over, length = 0, 0.0, 0.0
    for pattern in patterns:
        used += pattern["times"]
        over += pattern["left"] * pattern["times"]
        length += pattern["roll_length"] * pattern["times"]
    short = [{"length": row["length"], "count": count} for row, count in zip(state.lengths, missing) if count]
    rolls_bound, least = state.costs.least(search.bound, missing)
    rolls_bound = min(used, max(rolls_bound, 0 if short else state.fewest))
    cost = _cost(state.costs.prices, patterns)
    if state.costs.by_price:
        least = min(cost, least)
        proven = cost == least
    else:
        proven = used == rolls_bound
        least = rolls_bound * state.costs.prices[0] if state.costs.prices else None
    result = {
        "rolls_used": used,
        "bound": rolls_bound,
        "optimal": proven and (not short or search.cost == search.bound),
        "cost": cost,
        "cost_bound": least,
        "left": over,
        "waste": 100 * over / length if length else 0.0,
        "patterns": patterns,
        "unplaced": short,
        "steps_used": search.effort,
    }
    return result, [note("unplaced", "rolls_too_few")] if short else []


def work(given):
    """Find how to cut the lengths from the fewest rolls, and of those the least roll.

    Where each roll that is to be bought has a price, the rolls that cost least come before
    the fewest; `cost_bound` is what no way of cutting costs less than.
    The bound is proven in whole numbers (see rows/dual_bound.py) and holds wherever the
    search is stopped; `optimal` says that no way of cutting costs less, or without prices needs
    fewer rolls.
    Where the rolls do not reach, the fewest pieces are left out.
    Source: Gilmore and Gomory, A linear programming approach to the
    cutting-stock problem, Operations Research 9 (1961).
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


def _refuse_too_long(given):
    longest = max([row["length"] for row in given["rolls"]])
    problems, pieces = [], 0
    for index, row in enumerate(given["lengths"]):
        pieces += row["quantity"]
        if row["length"] > longest:
            field = "lengths." + str(index) + ".length"
            problems.append(problem(field, "roll_short", row["length"], longest, "length"))
    if problems:
        raise Problems(problems)
    if pieces > MOST_PIECES:
        refuse("lengths", "too_many_to_cut", pieces, MOST_PIECES, "count")


def _merged(rows):
    # equal lengths together, longest first
    quantities = {}
    for row in rows:
        quantities[row["length"]] = quantities.get(row["length"], 0) + row["quantity"]
    lengths = in_order(list(quantities), lambda length: -length)
    return [{"length": length, "quantity": quantities[length]} for length in lengths]


def _most_rolls(demand, lengths, rolls, given):
    # no sensible way of cutting takes more: of the longest rolls, or where others may be cheaper, of any
    longest = max([capacity for capacity, _ in rolls])
    limited = [most for _, most in rolls if most is not None] or prices_of(given)
    total = 0
    for count, length in zip(demand, lengths):
        total += count if limited else -(-count // (longest // length))
    return total


def _fewest(demand, lengths, rolls):
    # the longest rolls, as many as hold the length of all pieces together
    needed, fewest = 0, 0
    for count, length in zip(demand, lengths):
        needed += count * length
    for capacity, most in in_order(rolls, lambda roll: -roll[0]):
        used = -(-max(0, needed) // capacity)
        used = used if most is None else min(used, most)
        needed -= used * capacity
        fewest += used
    return fewest


def _row_types(lengths, rolls, costs):
    row_types = []
    for number in in_order(list(range(len(rolls))), lambda number: rolls[number][0]):
        capacity, count = rolls[number]
        pieces = [(size, length, False, 1) for size, length in enumerate(lengths) if length <= capacity]
        if pieces and count != 0:
            cost = costs.of(number, capacity)
            row_types.append(RowType(capacity, pieces, cost, most=count, origin=number, height=capacity))
    return row_types


def _pattern(number, roll_length, lengths, run):
    cuts = [{"length": row["length"], "count": count} for row, count in zip(lengths, run.counts) if count]
    used = 0.0
    for cut in cuts:
        used += cut["length"] * cut["count"]
    return {
        "roll": number,
        "roll_length": roll_length,
        "cuts": cuts,
        "times": run.times,
        "left": max(0.0, roll_length - used),
    }


def _cost(prices, patterns):
    if prices is None:
        return None
    cost = 0
    for pattern in patterns:
        cost += prices[pattern["roll"]] * pattern["times"]
    return cost


CALCULATOR = Calculator(
    "elastic-rolls",
    "Elastic from rolls",
    "How to cut lengths of elastic from the rolls that cost least, or from the fewest, and the proof of it.",
    INPUTS,
    OUTPUTS,
    work,
    main=("rolls_used", "bound"),
    by_steps=(start, advance, best),
)
