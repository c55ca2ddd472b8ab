"""buy-list: what to buy for all that is planned, after what is at home, with each layout."""

from ..cutting import cutting_layout
from ..cutting.elastic_rolls import MISSING as ELASTIC_MISSING
from ..cutting.elastic_rolls import PATTERN, ROLL
from ..cutting.layout.fields import CLOTH, MOST_PIECES, STRIP
from ..cutting.layout.fields import INPUTS as LAYOUT_INPUTS
from ..cutting.layout.fields import OUTPUTS as LAYOUT_OUTPUTS
from ..declaring.errors import note
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.money import cost_of
from ..numbers.rounding import ceil
from .elastic_list import elastics_of, length_of

MOST_ROLLS = 36
ROLLS = [
    Field("name", "text", "Which elastic it is, where there are several", "", most=60),
    by_name(ROLL)["length"],
    Field("count", "count", "How many are at home; none said for rolls to buy", None),
    Field("use_first", "flag", "Use this roll up before others at home", False),
    by_name(ROLL)["price"],
]
INPUTS = [
    Field("cloths", "list", "Bolts to buy from and remnants at home", fields=CLOTH,
          fewest=1, most=12, group="The cloths"),
    Field("strips", "list", "What is planned", fewest=1, most=12, group="The pieces", fields=STRIP + [
        Field("elastic", "length", "Cut length of its elastic", None, lowest=5),
        Field("elastic_name", "text", "Which elastic that is, where there are several", "", most=60),
    ]),
    Field("spare_percent", "percent", "Pieces more, for what goes wrong: rounded up for each strip", 2,
          group="The pieces"),
    Field("rolls", "list", "Rolls of elastic at home, and rolls to buy", [], fields=ROLLS,
          most=MOST_ROLLS, group="The elastic"),
] + [field for field in LAYOUT_INPUTS if field.name not in ("cloths", "strips")]  # fmt: skip

TO_CUT = [
    Field("name", "text", "The strip"),
    Field("strip", "count", "Its number among the strips given, from 0"),
    Field("quantity", "count", "Strips to cut, the spare ones too"),
    Field("spare", "count", "Of those, the spare ones"),
]
CLOTH_TO_BUY = [
    Field("name", "text", "The cloth"),
    Field("cloth", "count", "Its number among the cloths given, from 0"),
    Field("pieces", "count", "Strips cut from it"),
    Field("length_to_buy", "length", "Ask the shop for this much", unit="m", label="ask for", asked=True),
    Field("cost", "money", "What it costs", None),
]
CLOTH_AT_HOME = [
    Field("name", "text", "The remnant"),
    Field("cloth", "count", "Its number among the cloths given, from 0"),
    Field("pieces", "count", "Strips cut from it"),
    Field("used_length", "length", "Length of it that they take", unit="cm"),
]
ROLL_TO_BUY = [
    Field("roll", "count", "Which of the rolls given, from 0"),
    Field("roll_length", "length", "Its length", unit="m"),
    Field("count", "count", "Rolls of it"),
    Field("cost", "money", "What they cost", None),
]
ELASTIC_LEFT_OUT = [Field("name", "text", "Which elastic, where there are several", "")] + ELASTIC_MISSING
OUTPUTS = [
    Field("cost", "money", "What cloth and elastic cost, where all that is bought has a price", None),
    Field("cloth_cost", "money", "What the cloth costs", None),
    Field("elastic_cost", "money", "What the elastic costs", None),
    Field("cloths_to_buy", "list", "What to ask the shop for", fields=CLOTH_TO_BUY, most=12),
    Field("cloths_at_home", "list", "Remnants to use first", fields=CLOTH_AT_HOME, most=12),
    Field("to_cut", "list", "Strips to cut, spare ones included", fields=TO_CUT, most=12),
    Field("rolls_to_buy", "count", "Rolls of elastic to buy"),
    Field("rolls_bound", "count", "Fewer rolls cannot do"),
    Field("elastic_cost_bound", "money", "Elastic cannot cost less", None),
    Field("elastic_length", "length", "Elastic in all pieces together", unit="m"),
    Field("elastic_to_buy", "list", "Rolls of elastic to buy", fields=ROLL_TO_BUY, most=MOST_ROLLS),
    Field("elastic", "list", "How to cut each roll, those at home first", most=MOST_PIECES, drawn=True,
          fields=PATTERN + [Field("at_home", "flag", "There already")]),
    Field("elastic_unplaced", "list", "Elastic that no roll is left for", fields=ELASTIC_LEFT_OUT, most=12),
] + [field for field in LAYOUT_OUTPUTS if field.name != "cost"]  # fmt: skip


class State:
    """What is planned, in the middle of the work on its cloth and on its elastic."""

    def __init__(self, given, layout, elastics):
        self.given = given
        self.layout = layout
        self.elastics = elastics


def start(given):
    """Begin: the first good layout and the first rolls are there at once; see `work`.

    Returns: a state for `advance` and `best`.
    Raises: as cutting-layout; Problems on a strip whose elastic no roll is long enough for.
    """
    asked = {field.name: given[field.name] for field in LAYOUT_INPUTS}
    asked["strips"] = [_with_spare(strip, given["spare_percent"]) for strip in given["strips"]]
    layout = cutting_layout.start(asked)
    return State(given, layout, elastics_of(asked["strips"], given["rolls"]))


def _with_spare(strip, percent):
    spared = dict(strip)
    spared["quantity"] = ceil(strip["quantity"] * (100 + percent) / 100)
    return spared


def advance(state, steps):
    """Work on for so many steps; returns whether all is done."""
    done = cutting_layout.advance(state.layout, steps)
    for elastic in state.elastics:
        done = elastic.advance(state.layout.steps) and done
    return done


def work(given):
    """Find what to buy for all strips, spare ones included, and how each cloth is cut.

    The cloth is that of cutting-layout, with its bound: remnants at home cost
    nothing, so they are used as far as that saves cloth bought. Each elastic is cut
    from the rolls at home first, as many pieces as they give, before others those
    to use first, and the rest from the rolls that cost least, or where one has no price
    from the fewest; `rolls_bound` and `elastic_cost_bound` hold for any way of cutting it.
    Returns: costs in minor units, None where something bought has no price.
    Raises: as `start`.
    Source: cutting-layout and elastic-rolls; spare_percent is common practice, no source.
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


def best(state):
    """Tell the best found so far, with bounds that hold: (result, notes)."""
    result, notes = cutting_layout.best(state.layout)
    result.update(_cloth(state.given["cloths"], result["cloths"]))
    result.update(_elastic(state.given["rolls"], state.elastics))
    result["to_cut"] = [
        {
            "name": strip["name"],
            "strip": number,
            "quantity": strip["quantity"],
            "spare": strip["quantity"] - planned["quantity"],
        }
        for number, (strip, planned) in enumerate(zip(state.layout.given["strips"], state.given["strips"]))
    ]
    result["cost"] = _sum([result["cloth_cost"], result["elastic_cost"]])
    for elastic in state.elastics:
        result["steps_used"] += elastic.effort()
    return result, notes + _notes(result)


def _cloth(cloths, told):
    to_buy, at_home = [], []
    for laid in told:
        cloth, pieces = cloths[laid["cloth"]], 0
        for row in laid["rows"]:
            pieces += len(row["strips"])
        row = {"name": laid["name"], "cloth": laid["cloth"], "pieces": pieces}
        if pieces and laid["length_to_buy"] is None:
            row["used_length"] = laid["used_length"]
            at_home.append(row)
        elif pieces:
            row["length_to_buy"] = laid["length_to_buy"]
            row["cost"] = _cost(laid["length_to_buy"], cloth["price"], cloth["price_length"])
            to_buy.append(row)
    first = [row for row in at_home if cloths[row["cloth"]]["use_first"]]
    return {
        "cloths_to_buy": to_buy,
        "cloths_at_home": first + [row for row in at_home if row not in first],
        "cloth_cost": _sum([row["cost"] for row in to_buy]),
    }


def _elastic(rolls, elastics):
    told = {"rolls_bound": 0, "elastic_length": 0.0, "elastic": [], "elastic_unplaced": []}
    to_buy, bought, bounds = [], 0, []
    for elastic in elastics:
        patterns = elastic.patterns()
        rows = _rolls_to_buy(rolls, elastic.to_buy, patterns)
        count = 0
        for row in rows:
            count += row["count"]
        to_buy += rows
        bought += count
        told["rolls_bound"] += elastic.bound(count)
        bounds.append(elastic.cost_bound(_sum([row["cost"] for row in rows])))
        told["elastic_length"] += length_of(elastic.wanted)
        told["elastic"] += patterns
        told["elastic_unplaced"] += elastic.unplaced()
    told.update({"rolls_to_buy": bought, "elastic_to_buy": to_buy})
    told["elastic_cost"] = _sum([row["cost"] for row in to_buy])
    told["elastic_cost_bound"] = _sum(bounds)
    return told


def _rolls_to_buy(rolls, numbers, patterns):
    rows = []
    for number in numbers:
        count = 0
        for pattern in patterns:
            count += pattern["times"] if pattern["roll"] == number else 0
        if count:
            cost = _cost(count, rolls[number]["price"], 1)
            length = rolls[number]["length"]
            rows.append({"roll": number, "roll_length": length, "count": count, "cost": cost})
    return rows


def _cost(amount, price, per):
    return None if price is None else cost_of(amount, price, per)


def _sum(costs):
    whole = 0
    for cost in costs:
        whole = None if cost is None or whole is None else whole + cost
    return whole


def _notes(result):
    notes = [
        note("cloths_to_buy." + str(index) + ".cost", "no_price", row["name"])
        for index, row in enumerate(result["cloths_to_buy"])
        if row["cost"] is None
    ]
    for index, row in enumerate(result["elastic_to_buy"]):
        if row["cost"] is None:
            path = "elastic_to_buy." + str(index) + ".roll_length"
            notes.append(note(path, "roll_without_price", row["roll_length"], None, "length"))
    if result["elastic_unplaced"]:
        notes.append(note("elastic_unplaced", "rolls_too_few"))
    return notes


CALCULATOR = Calculator(
    "buy-list",
    "What to buy",
    "Cloth and elastic to buy for all that is planned, after what is at home, with the layout of each cloth.",
    INPUTS,
    OUTPUTS,
    work,
    main=("cost", "length_to_buy", "rolls_to_buy"),
    by_steps=(start, advance, best),
)
