"""cutting-layout: the layout of all strips on the cloths there are that takes least cloth, and its proof."""

from ..errors import note, refuse
from ..money import add_up, cost_of
from ..spec import Calculator
from .bars import Bars
from .cloths import cloths_of, parts_of_plan
from .cuts import cuts_of, settings_of
from .laying import Part
from .layout_fields import INPUTS, MOST_PIECES, OUTPUTS
from .rows_laid import lay, length_of, offcuts_of
from .totals import Total


class State:
    """Searches in the middle of their work, one for each part of the plan, with what was asked.

    Has: parts; where a third stage is asked for, stacked, the same parts with strips
    over each other, and bars, what bounds both.
    """

    def __init__(self, given, cloths, priced, parts, stacked):
        self.given = given
        self.cloths = cloths
        self.priced = priced
        self.parts = parts
        self.stacked = stacked
        self.bars = [Bars(part) for part in stacked]
        self.works = [part.search for part in parts + stacked] + self.bars
        self.steps = 0


def start(given):
    """Begin a layout: the first good one is there at once; see `work`.

    Returns: a state for `advance` and `best`.
    Raises: Problems where a cloth's trims leave nothing of it, or there are too many strips.
    """
    pieces = 0
    for strip in given["strips"]:
        pieces += strip["quantity"]
    if pieces > MOST_PIECES:
        refuse("strips", "too_many_to_cut", pieces, MOST_PIECES, "count")
    cloths = cloths_of(given)
    bolts = [cloth for cloth in cloths if cloth.length is None]
    priced = bool(bolts) and not [cloth for cloth in bolts if not cloth.given["price"]]
    parts, stacked = [
        [
            Part(given["strips"], cloths, strips, owned, priced, stacking)
            for strips, owned in parts_of_plan(cloths, given["strips"])
            if given["stages"] == 3 or not stacking
        ]
        for stacking in (False, True)
    ]
    for part in parts + stacked:
        part.search.step()
    return State(given, cloths, priced, parts, stacked)


def advance(state, steps):
    """Work on for so many steps; returns whether all is proven."""
    state.steps += steps
    while True:
        least, effort = None, 0
        for work in state.works:
            effort += work.effort
            # the one that has had least, so that none waits for another
            if not work.done and (least is None or work.effort < least.effort):
                least = work
        if least is None or effort > state.steps:
            return least is None
        least.step()


def work(given):
    """Find the layout that takes least cloth, exactly the strips wanted, and a bound on any other.

    Guillotine layouts of two stages: rows right across, each cross-cut, lower
    strips trimmed. Least cost (bolt length before washing, or its price where
    every bolt has one), remnants free; where cloth does not reach, first the
    least area is left out. `bound` is proven in whole numbers (see proof.py) for
    all such layouts and holds wherever the search is stopped. With three stages
    low strips of a size may also lie over each other in a row as high as another
    strip, where less is to be bought so; `bound` then holds for layouts of any
    cuts (see bars.py).
    Raises: as `start`.
    Source: Gilmore and Gomory, Multistage cutting stock problems of two and more
    dimensions, Operations Research 13 (1965).
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


def best(state):
    """Tell the best layout found so far, with a bound that holds: (result, notes)."""
    result = _told_of(state, state.parts)
    if state.stacked:
        stacked = _told_of(state, state.stacked)
        if _buying(state, stacked) < _buying(state, result):
            result = stacked
    return result, _notes(state, result)


def _buying(state, result):
    # the least left out, then the least bought
    left_out = 0.0
    for row in result["unplaced"]:
        strip = state.given["strips"][row["strip"]]
        left_out += row["quantity"] * strip["length"] * strip["width"]
    return left_out, result["length_to_buy"] if result["cost"] is None else result["cost"]


def _told_of(state, parts):
    given, cloths = state.given, state.cloths
    laid = [[] for _ in cloths]
    missing = [0 if fits else strip["quantity"] for strip, fits in zip(given["strips"], _placeable(state))]
    total = Total()
    for number, part in enumerate(parts):
        for index, rows in zip(part.cloth_numbers, lay(part)):
            laid[index] = rows
        own = [laid[index] for index in part.cloth_numbers]
        total.add(part, _left_out(part, missing), own, state.bars[number] if state.bars else None)
    told = [_told(given, number, cloth, laid[number]) for number, cloth in enumerate(cloths)]
    unplaced = [
        {"name": strip["name"], "strip": number, "quantity": count}
        for number, (strip, count) in enumerate(zip(given["strips"], missing))
        if count
    ]
    result = {
        "cloths": told,
        "unplaced": unplaced,
        "waste": _waste(cloths, told),
        "settings": add_up([settings_of(cloth["cuts"]) for cloth in told]),
        "steps_used": add_up([work.effort for work in state.works]),
    }
    result.update(_bought(state, told, total))
    return result


def _placeable(state):
    placed = [number for part in state.parts for number in part.strip_numbers]
    return [number in placed for number in range(len(state.given["strips"]))]


def _left_out(part, missing):
    # counts what a part leaves out into `missing`; returns what that costs
    cost = 0
    for rows in part.search.layout:
        if rows.lying.mark is None:
            for size, count in enumerate(rows.counts):
                missing[part.strip_numbers[size]] += count * rows.times
            cost += rows.lying.cost * rows.times
    return cost


def _told(given, number, cloth, rows):
    used, needed, to_buy, length = length_of(rows), None, None, cloth.length
    if length is None:
        needed = cloth.length_needed(used)
        to_buy = cloth.length_to_buy(needed)
        length = max(used, to_buy * cloth.kept - cloth.given["squaring"]) if rows else 0.0
    return {
        "name": cloth.given["name"],
        "cloth": number,
        "usable_width": cloth.width,
        "usable_length": cloth.length,
        "used_length": used,
        "length_needed": needed,
        "length_to_buy": to_buy,
        "rows": [{"y": row["y"], "height": row["height"], "strips": row["strips"]} for row in rows],
        "cuts": cuts_of(cloth, rows, cloth.length),
        "offcuts": offcuts_of(cloth, rows, length, given["strips"]),
    }


def _waste(cloths, told):
    # of bolts all that is bought counts, of remnants the rows
    whole, strips = 0.0, 0.0
    for cloth, laid in zip(cloths, told):
        length = laid["used_length"]
        if cloth.length is None and length:
            length = max(length, laid["length_to_buy"] * cloth.kept - cloth.given["squaring"])
        whole += cloth.width * length
        for row in laid["rows"]:
            for strip in row["strips"]:
                strips += strip["length"] * strip["width"]
    return max(0.0, 100 * (1 - strips / whole)) if whole else 0.0


def _bought(state, told, total):
    bolts = [(state.cloths[laid["cloth"]].given, laid) for laid in told if laid["length_to_buy"] is not None]
    needed, to_buy, cost, dearest = 0.0, 0.0, 0, 0.0
    for cloth, laid in bolts:
        needed += laid["length_needed"]
        to_buy += laid["length_to_buy"]
        if state.priced:
            cost += cost_of(laid["length_to_buy"], cloth["price"], cloth["price_length"])
            dearest = max(dearest, cloth["price"] / cloth["price_length"])
    bound = total.bound / dearest if state.priced else total.bound
    gap = 100 * (total.found - total.bound) / total.found if total.found else 0.0
    return {
        "bolt_length": needed,
        "length_to_buy": to_buy,
        "cost": cost if state.priced else None,
        "bound": needed if total.optimal and len(bolts) < 2 else min(needed, bound),
        "cost_bound": total.bound if state.priced else None,
        "gap": max(0.0, gap),
        "optimal": total.optimal,
        "optimal_to_buy": total.optimal_to_buy,
    }


def _notes(state, result):
    notes, known = [], [cloth.given["name"] for cloth in state.cloths]
    fits = _placeable(state)
    for number, strip in enumerate(state.given["strips"]):
        path = "strips." + str(number)
        for name in strip["cloths"] or []:
            if name not in known:
                notes.append(note(path + ".cloths", "cloth_unknown", name))
        if not fits[number]:
            notes.append(note(path + ".length", "fits_no_cloth"))
    for index, cloth in enumerate(state.cloths):
        if cloth.given["tear"] and cloth.given["repeat"]:
            notes.append(note("cloths." + str(index) + ".tear", "tear_print"))
    if [row for row in result["unplaced"] if fits[row["strip"]]]:
        notes.append(note("unplaced", "cloth_too_short"))
    return notes


CALCULATOR = Calculator(
    "cutting-layout",
    "Cutting layout",
    "How to cut all strips from bolts and remnants so that least cloth is bought, with the proof of it.",
    INPUTS,
    OUTPUTS,
    work,
    main=("length_to_buy", "gap", "cost"),
    by_steps=(start, advance, best),
)
