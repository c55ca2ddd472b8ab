"""cutting-layout: the layout of all strips on the cloths there are that takes least cloth, and its proof."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator
from ..numbers.money import add_up, cost_of
from .layout.bar_bound import BarBound
from .layout.cloths import cloths_of, components_of
from .layout.cuts import cuts_of, settings_of
from .layout.fields import INPUTS, MOST_PIECES, OUTPUTS
from .layout.model import Component
from .layout.placing import length_of, offcuts_of
from .layout.totals import Totals


class LayoutSearch:
    """The searches in the middle of their work, one for each component of the plan, with what was asked.

    Has: components; where a third stage is asked for, stacked, the same components with
    strips over each other, and bars, what bounds both.
    """

    def __init__(self, given, cloths, priced, components, stacked):
        self.given = given
        self.cloths = cloths
        self.priced = priced
        self.components = components
        self.stacked = stacked
        self.bars = [BarBound(component) for component in stacked]
        self.searches = []
        for component in components:
            component.begin()
        for component, bars in zip(stacked, self.bars):
            component.begin(bars)
        for component in components + stacked:
            self.searches += component.searches()
        self.searches += self.bars
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
    components, stacked = [
        [
            Component(given["strips"], cloths, strips, owned, priced, stacking)
            for strips, owned in components_of(cloths, given["strips"])
            if given["stages"] == 3 or not stacking
        ]
        for stacking in (False, True)
    ]
    return LayoutSearch(given, cloths, priced, components, stacked)


def advance(state, steps):
    """Work on for so many steps; returns whether all is proven."""
    state.steps += steps
    while True:
        least, effort = None, 0
        for search in state.searches:
            effort += search.effort
            # the one that has had least, so that none waits for another
            if not search.done and (least is None or search.effort < least.effort):
                least = search
        if least is None or effort > state.steps:
            return least is None
        least.step()


def work(given):
    """Find the layout that takes least cloth, exactly the strips wanted, and a bound on any other.

    Guillotine layouts of two stages: rows right across, each cross-cut, lower
    strips trimmed. Least bolt, remnants free; where cloth does not reach, first the
    least area is left out. Of several bolts those are chosen that are paid least for,
    as each shop cuts them (or least length of them, where not every bolt has a price):
    see layout/purchase.py, which `gap_to_buy` is from. `bound`, `cost_bound` and
    `gap` count every mm alike. `bound` is proven in whole numbers (see rows/dual_bound.py) for
    all such layouts and holds wherever the search is stopped. With three stages
    low strips may also lie over each other in a row as high as another strip, where
    less is to be bought so; those of several sizes only on one bolt, and as far as a search
    without a proof finds them (see layout/nests.py). `bound` then holds for layouts of
    any cuts (see layout/bar_bound.py).
    Raises: as `start`.
    Source: Gilmore and Gomory, Multistage cutting stock problems of two and more
    dimensions, Operations Research 13 (1965).
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


def best(state):
    """Tell the best layout found so far, with a bound that holds: (result, notes)."""
    result = _result_of(state, state.components)
    if state.stacked:
        stacked = _result_of(state, state.stacked)
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


def _result_of(state, components):
    given, cloths = state.given, state.cloths
    laid = [[] for _ in cloths]
    missing = [0 if fits else strip["quantity"] for strip, fits in zip(given["strips"], _placeable(state))]
    totals = Totals()
    for number, component in enumerate(components):
        own = component.laid()
        for index in component.cloth_numbers:
            laid[index] = own.rows[index]
        for strip, count in zip(component.strip_numbers, own.left_out):
            missing[strip] += count
        totals.add(component, own, state.bars[number] if state.bars else None)
    cut_cloths = [_cut_cloth(given, number, cloth, laid[number]) for number, cloth in enumerate(cloths)]
    unplaced = [
        {"name": strip["name"], "strip": number, "quantity": count}
        for number, (strip, count) in enumerate(zip(given["strips"], missing))
        if count
    ]
    result = {
        "cloths": cut_cloths,
        "unplaced": unplaced,
        "waste": _waste(cloths, cut_cloths),
        "settings": add_up([settings_of(cloth["cuts"]) for cloth in cut_cloths]),
        "steps_used": add_up([search.effort for search in state.searches]),
    }
    result.update(_bought(state, cut_cloths, totals))
    return result


def _placeable(state):
    placed = [number for component in state.components for number in component.strip_numbers]
    return [number in placed for number in range(len(state.given["strips"]))]


def _cut_cloth(given, number, cloth, rows):
    used, needed, to_buy, length = length_of(rows), None, None, cloth.length
    if length is None:
        needed = cloth.length_needed(used)
        to_buy = cloth.length_to_buy(needed)
        length = max(used, cloth.usable_length(to_buy)) if rows else 0.0
    return {
        "name": cloth.name,
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


def _waste(cloths, cut_cloths):
    # of bolts all that is bought counts, of remnants the rows
    whole, strips = 0.0, 0.0
    for cloth, laid in zip(cloths, cut_cloths):
        length = laid["used_length"]
        if cloth.length is None and length:
            length = max(length, cloth.usable_length(laid["length_to_buy"]))
        whole += cloth.width * length
        for row in laid["rows"]:
            for strip in row["strips"]:
                strips += strip["length"] * strip["width"]
    return max(0.0, 100 * (1 - strips / whole)) if whole else 0.0


def _bought(state, cut_cloths, totals):
    bolts = [
        (state.cloths[laid["cloth"]].given, laid) for laid in cut_cloths if laid["length_to_buy"] is not None
    ]
    needed, to_buy, cost, dearest = 0.0, 0.0, 0, 0.0
    for cloth, laid in bolts:
        needed += laid["length_needed"]
        to_buy += laid["length_to_buy"]
        if state.priced:
            cost += cost_of(laid["length_to_buy"], cloth["price"], cloth["price_length"])
            dearest = max(dearest, cloth["price"] / cloth["price_length"])
    bound = totals.bound / dearest if state.priced else totals.bound
    return {
        "bolt_length": needed,
        "length_to_buy": to_buy,
        "cost": cost if state.priced else None,
        "bound": needed if totals.optimal and len(bolts) < 2 else min(needed, bound),
        "cost_bound": totals.bound if state.priced else None,
        "gap": _gap(totals.found, totals.bound),
        "gap_to_buy": _gap(totals.paid, totals.paid_bound),
        "optimal": totals.optimal,
        "optimal_to_buy": totals.optimal_to_buy,
    }


def _gap(found, bound):
    # percent; a float's last bits may go beyond them all
    return max(0.0, min(100.0, 100 * (found - bound) / found)) if found else 0.0


def _notes(state, result):
    notes, known = [], [cloth.name for cloth in state.cloths]
    fits = _placeable(state)
    for number, strip in enumerate(state.given["strips"]):
        path = "strips." + str(number)
        for name in strip["cloths"] or []:
            if name not in known:
                notes.append(note(path + ".cloths", "cloth_unknown", name))
        if not fits[number]:
            notes.append(note(path + ".length", "fits_no_cloth"))
    for index, cloth in enumerate(state.cloths):
        if cloth.given["tear"] and cloth.repeat:
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
