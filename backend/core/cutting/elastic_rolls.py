"""elastic-rolls: how to cut lengths of elastic from the fewest rolls."""

from ..errors import Problems, note, problem, refuse
from ..ordering import in_order
from ..spec import Calculator, Field
from .grid import in_parts, parts_for
from .plan import Kind, Plan
from .search import Search

MOST_PIECES = 100000
SHARES = 1000  # what a roll's length is told in, where fewest rolls leave a choice

LENGTH = [
    Field("length", "length", "Cut length of the elastic", lowest=5, highest=100000, example=260),
    Field("quantity", "count", "Pieces of it", lowest=1, highest=MOST_PIECES, example=60),
]
ROLL = [
    Field("length", "length", "Length of the roll", lowest=5, highest=1000000, unit="m", example=10000),
    Field("count", "count", "How many there are; none said for plenty", None, example=4),
]

INPUTS = [
    Field("lengths", "list", "Pieces wanted", fields=LENGTH, fewest=1, most=40, group="The pieces"),
    Field("rolls", "list", "Rolls to cut from", fields=ROLL, fewest=1, most=12, group="The rolls"),
    Field("steps", "count", "How long to look for a better answer, and for its proof", 3000,
          highest=20000, group="The search"),
]  # fmt: skip

CUT = [
    Field("length", "length", "Set the stop of the cutting board here"),
    Field("count", "count", "Pieces to cut at this stop"),
]
PATTERN = [
    Field("roll", "count", "Which of the rolls, from 0"),
    Field("roll_length", "length", "Its length", unit="m"),
    Field("cuts", "list", "What to cut from one such roll, longest first", fields=CUT, most=40),
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
    Field("optimal", "flag", "Proven: fewer rolls cannot do"),
    Field("left", "length", "Left over from all of them", unit="m"),
    Field("waste", "percent", "Share of the rolls used that is left over"),
    Field("patterns", "list", "How to cut each roll", fields=PATTERN, most=2000, drawn=True),
    Field("unplaced", "list", "What the rolls cannot give", fields=MISSING, most=40),
    Field("steps_used", "count", "Steps that the search took"),
]


class State:
    """A search in the middle of its work, with what it was asked."""

    def __init__(self, given, lengths, search, whole):
        self.given = given
        self.lengths = lengths
        self.search = search
        self.whole = whole
        self.steps = 0


def start(given):
    """Begin to cut lengths from rolls; see `work` for what is found.

    Returns: a state for `advance` and `best`.
    Raises: Problems on a length that no roll is long enough for.
    """
    _refuse_too_long(given)
    lengths = _merged(given["lengths"])
    parts = parts_for([row["length"] for row in lengths])
    reaches = [in_parts(row["length"], parts) for row in lengths]
    rolls = [(in_parts(row["length"], parts), row["count"]) for row in given["rolls"]]
    wanted = [row["quantity"] for row in lengths]
    whole = _most_rolls(wanted, reaches, rolls) * SHARES + 1 if len(rolls) > 1 else 1
    kinds = _kinds(reaches, rolls, whole)
    dear = whole * (_most_rolls(wanted, reaches, rolls) + 1)
    for size, reach in enumerate(reaches):
        if not [room for room, count in rolls if count is None and reach <= room]:
            # leaving out a piece: dearer than any number of rolls
            kinds.append(Kind(reach, [(size, reach, False, 1)], dear, ladder=1))
    state = State(given, lengths, Search(Plan(wanted, kinds, [], reaches)), (whole, dear))
    state.search.step()
    return state


def advance(state, steps):
    """Work on for so many steps; returns whether all is proven."""
    state.steps += steps
    while not state.search.done and state.search.effort <= state.steps:
        state.search.step()
    return state.search.done


def best(state):
    """Tell the best way of cutting found so far, with a bound that holds: (result, notes)."""
    search, rolls = state.search, state.given["rolls"]
    missing, patterns = [0] * len(state.lengths), []
    for rows in search.layout:
        number = search.plan.kinds[rows.kind].mark
        if number is None:
            missing = [one + rows.times * other for one, other in zip(missing, rows.counts)]
        else:
            patterns.append(_pattern(number, rolls[number]["length"], state.lengths, rows))
    used, over, length = 0, 0.0, 0.0
    for pattern in patterns:
        used += pattern["times"]
        over += pattern["left"] * pattern["times"]
        length += pattern["roll_length"] * pattern["times"]
    short = [{"length": row["length"], "count": count} for row, count in zip(state.lengths, missing) if count]
    bound = min(used, _bound(search, state.whole, missing))
    result = {
        "rolls_used": used,
        "bound": bound,
        "optimal": used == bound and (not short or search.cost == search.least),
        "left": over,
        "waste": 100 * over / length if length else 0.0,
        "patterns": patterns,
        "unplaced": short,
        "steps_used": search.effort,
    }
    return result, [note("unplaced", "rolls_too_few")] if short else []


def work(given):
    """Find how to cut the lengths from the fewest rolls, and of those the least roll.

    The bound is proven in whole numbers (see proof.py) and holds wherever the
    search is stopped; `optimal` says that no way of cutting needs fewer rolls.
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


def _most_rolls(wanted, reaches, rolls):
    # no sensible way of cutting takes more
    longest = max([room for room, _ in rolls])
    limited = [most for _, most in rolls if most is not None]
    total = 0
    for count, reach in zip(wanted, reaches):
        total += count if limited else -(-count // (longest // reach))
    return total


def _kinds(reaches, rolls, whole):
    # fewest rolls first, then the shorter ones
    longest = max([room for room, _ in rolls])
    kinds = []
    for number in in_order(list(range(len(rolls))), lambda number: rolls[number][0]):
        room, count = rolls[number]
        pieces = [(size, reach, False, 1) for size, reach in enumerate(reaches) if reach <= room]
        if pieces and count != 0:
            cost = whole + (room * (SHARES - 1) // longest if len(rolls) > 1 else 0)
            kinds.append(Kind(room, pieces, cost, most=count, mark=number, height=room))
    return kinds


def _pattern(number, roll_length, lengths, rows):
    cuts = [{"length": row["length"], "count": count} for row, count in zip(lengths, rows.counts) if count]
    used = 0.0
    for cut in cuts:
        used += cut["length"] * cut["count"]
    return {
        "roll": number,
        "roll_length": roll_length,
        "cuts": cuts,
        "times": rows.times,
        "left": max(0.0, roll_length - used),
    }


def _bound(search, whole, missing):
    # of a proven least cost, the rolls in it
    one_roll, dear = whole
    least = search.least
    for count in missing:
        least -= count * dear
    return max(0, least // one_roll)


CALCULATOR = Calculator(
    "elastic-rolls",
    "Elastic from rolls",
    "How to cut lengths of elastic from the fewest rolls, and the proof that fewer cannot do.",
    INPUTS,
    OUTPUTS,
    work,
    main=("rolls_used", "bound"),
    by_steps=(start, advance, best),
)
