"""unit-cost: what one good piece of a batch costs, and what an hour of it earns."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.money import add_up, rounded_together, to_hundredths
from ..numbers.rounding import half_up
from .moving_average import fold
from .price import LOWEST_SHARE, MOST_PRICE, POINT, TAX

MOST_COST = 100000000000  # minor units, of a material and of the time: whole numbers stay exact
SHORTEST = 0.1  # min: of less work an hour says nothing
PARTS = ("cloth", "elastic", "thread", "packaging", "other")
TIME = ("labour", "consumables", "overheads")

BOUGHT = [
    Field("at", "instant", "When", example=1767225600000),
    Field("quantity", "number", "How much: area of cloth, length, or pieces", lowest=0.001,
          highest=1000000000000, example=1000),
    Field("cost", "money", "What it cost", highest=MOST_PRICE, example=890),
]  # fmt: skip

USED = [
    Field("at", "instant", "When", example=1767312000000),
    Field("quantity", "number", "How much", example=100),
    Field("mine", "flag", "For this batch; else for something else", True),
]

MATERIAL = [
    Field("part", "choice", "What it is in the piece", choices=PARTS),
    Field("name", "text", "What you call it", most=60, example="Seagrass lawn"),
    Field("bought", "list", "Purchases", [], fields=BOUGHT, most=100),
    Field("used", "list", "What was taken of it", [], fields=USED, most=200),
]

INPUTS = [
    Field("materials", "list", "The materials", fields=MATERIAL, most=200, group="Materials"),
    Field("made", "count", "Pieces made", lowest=1, example=48, group="The batch"),
    Field("good", "count", "Good ones among them", example=47, group="The batch"),
    Field("normal_loss", "percent", "Share that is usually spoilt", 5, highest=99, group="The batch"),
    Field("minutes", "minutes", "Work on it", example=210, group="Time"),
    Field("wage", "money", "What an hour of work is paid", highest=MOST_PRICE, example=1500, group="Time"),
    Field("consumables", "money", "Needles, blades, current: an hour", 0, highest=MOST_PRICE, group="Time"),
    Field("overheads", "money", "Rent, insurance, machines: an hour", 0, highest=MOST_PRICE, group="Time"),
    Field("points", "list", "Prices to look at", [], item=POINT, most=20, group="Prices"),
    TAX,
]

TOLD_MATERIAL = [
    Field("part", "choice", "What it is in the piece", choices=PARTS),
    Field("name", "text", "The material"),
    Field("cost", "money", "What this batch took of it"),
    Field("used", "list", "Each use by this batch", item=Field("cost", "money", "What it cost"), most=200),
    Field("left_quantity", "number", "What is left"),
    Field("left_cost", "money", "What that cost"),
]

SHARE = [
    Field("part", "choice", "What it goes into", choices=PARTS + TIME),
    Field("cost", "money", "What it costs"),
    Field("share", "percent", "Share of the total", None),
]

TOLD_POINT = [
    Field("price", "money", "The price"),
    Field(
        "margin",
        "percent",
        "Share of the price without tax that is left after the cost",
        None,
        lowest=LOWEST_SHARE,
    ),
    Field("hour_earns", "money", "What an hour of work earns at it", None),
]

OUTPUTS = [
    Field("cost_each", "money_each", "What a good piece costs",
          formula="{total} ÷ the greater of {good} and {made} × (1 − {normal_loss} ÷ 100)"),
    Field("cash_each", "money_each", "What of that is paid for other things than your time",
          formula="({total} − {labour}) ÷ the greater of {good} and {made} × (1 − {normal_loss} ÷ 100)"),
    Field("total", "money", "What the batch costs",
          formula="the materials + {labour} + {consumables} + {overheads}"),
    Field("labour", "money", "Work", formula="{minutes} ÷ 60 × {wage}"),
    Field("consumables", "money", "Needles, blades, current"),
    Field("overheads", "money", "Rent, insurance, machines"),
    Field("abnormal_loss", "money", "Lost with more spoilt pieces than usual",
          formula="{total} − {good} × {cost_each}"),
    Field("materials", "list", "Material by material", fields=TOLD_MATERIAL, most=200),
    Field("shares", "list", "What it goes into", fields=SHARE),
    Field("points", "list", "At each price", fields=TOLD_POINT),
]  # fmt: skip


def work(given):
    """Work out what a batch and a good piece of it cost, and what each price leaves.

    A use costs the moving average of what was bought by then. Usual losses are carried
    by the good pieces; beyond them what the spoilt ones cost is `abnormal_loss`.
    `hour_earns` is 60 × good × (price without tax − cash_each) ÷ minutes.
    Returns: money rounded at the end alone; the shares' costs add up to the total, and
    the uses of a material to its cost, by largest remainder; hour_earns None without work.
    Raises: Problems on good above made, on a material or a time that costs beyond all sense.
    Source: IAS 2.16 (abnormal waste is no cost of the pieces), 2.25 (weighted average).
    """
    if given["good"] > given["made"]:
        refuse("good", "good_above_made", given["good"], given["made"], "count")
    materials, notes = [], []
    for number, material in enumerate(given["materials"]):
        told, noted = _material(material, "materials." + str(number))
        materials.append(told)
        notes += noted
    times = {
        "labour": _of_an_hour(given, "wage"),
        "consumables": _of_an_hour(given, "consumables"),
        "overheads": _of_an_hour(given, "overheads"),
    }
    total = add_up([row["cost"] for row in materials] + [times[name] for name in TIME])
    expected = carrying(given["made"], given["good"], given["normal_loss"])
    cost_each, cash_each = total / expected, (total - times["labour"]) / expected
    result = {
        "materials": materials,
        "total": total,
        "cost_each": to_hundredths(cost_each),
        "cash_each": to_hundredths(cash_each),
        "abnormal_loss": half_up(total * (1 - given["good"] / expected)),
        "shares": _shares(materials, times, total),
        "points": [_point(given, price, cost_each, cash_each) for price in given["points"]],
    }
    result.update(times)
    return result, notes


NORMAL_LOSS = by_name(INPUTS)["normal_loss"].default


def carrying(made, good, normal_loss=NORMAL_LOSS):
    """Say over how many pieces the cost of a batch is shared: no fewer than usually come out good.

    Takes: made and good, in pieces; normal_loss, percent.
    Source: IAS 2.16, abnormal waste is no cost of inventories.
    Example: carrying(1000, 860, 10) == 900
    """
    return max(good, made * (1 - normal_loss / 100))


def _material(material, path):
    folded = fold(material["bought"], material["used"])
    mine = [cost for cost, row in zip(folded["costs"], material["used"]) if row["mine"]]
    whole = 0.0
    for cost in mine:
        whole += cost
    most = max([folded["cost"], whole])
    if most > MOST_COST:
        refuse(path + ".used", "cost_too_high", half_up(most), MOST_COST, "money")
    notes = []
    if folded["beyond"] and material["bought"]:
        notes.append(note(path + ".used", "used_before_bought", folded["beyond"], None, "number"))
    elif folded["beyond"]:
        notes.append(note(path + ".bought", "never_bought", material["name"]))
    told = {
        "part": material["part"],
        "name": material["name"],
        "cost": half_up(whole),
        "used": rounded_together(mine),
        "left_quantity": folded["quantity"],
        "left_cost": half_up(folded["cost"]),
    }
    return told, notes


def _of_an_hour(given, name):
    cost = half_up(given["minutes"] * given[name] / 60)
    if cost > MOST_COST:
        refuse(name, "cost_too_high", cost, MOST_COST, "money")
    return cost


def _shares(materials, times, total):
    costs = [(part, add_up([row["cost"] for row in materials if row["part"] == part])) for part in PARTS]
    costs += [(name, times[name]) for name in TIME]
    return [
        {"part": part, "cost": cost, "share": 100 * cost / total if total else None} for part, cost in costs
    ]


def _point(given, price, cost_each, cash_each):
    net = price / (1 + given["tax_percent"] / 100)
    hour_earns = None
    if given["minutes"] >= SHORTEST:
        hour_earns = half_up(60 * given["good"] * (net - cash_each) / given["minutes"])
    return {
        "price": price,
        "margin": 100 * (net - cost_each) / net,
        "hour_earns": hour_earns,
    }


CALCULATOR = Calculator(
    "unit-cost",
    "Cost of a piece",
    "What one good piece of a batch costs, by material and by hour, and what prices leave of it.",
    INPUTS,
    OUTPUTS,
    work,
    main=("cost_each", "cash_each"),
)
