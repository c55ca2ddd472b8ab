"""cloth-compare: which cloth gives the cheaper piece."""

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from . import fabric_per_dozen

PRICE = [
    Field("price", "money", "Price for each length sold", highest=100000000, example=890),
    Field("price_length", "length", "Length that price is for", lowest=10, highest=100000,
          unit="m", keeps_number=True, example=1000),
]  # fmt: skip

CLOTH = (
    [Field("name", "text", "What you call this cloth", most=60, example="Seagrass lawn")]
    + fabric_per_dozen.CLOTH
    + PRICE
)

INPUTS = fabric_per_dozen.STRIP + [
    Field("cloths", "list", "The cloths to compare", fields=CLOTH, most=20, fewest=1),
]

RANKED = [
    Field("name", "text", "The cloth"),
    Field("length_to_buy", "length", "Ask the shop for this much", unit="m", label="ask for", asked=True),
    Field("pieces_from_bought", "count", "Pieces that gives"),
    Field("cost", "money", "What it costs"),
    Field("cost_each", "money_each", "Cost for each piece ordered"),
    Field("cost_each_if_all_sewn", "money_each", "Cost for each if all are sewn"),
    Field("row", "count", "Its row in the list given, from 0"),
]

OUTPUTS = [
    Field("cheapest", "text", "Costs least for each piece ordered"),
    Field("ranking", "list", "Cheapest for each piece ordered first", fields=RANKED),
]


def work(given):
    """Rank cloths by what one ordered piece costs; say what changes the order.

    Returns: ranking, cheapest each first; ties by the cost each if all are
    sewn, then by the order given.
    Raises: Problems naming `cloths.N.field` for each cloth that cannot do.
    """
    ranking = _ranked(given, {})
    result = {"cheapest": ranking[0]["name"], "ranking": ranking}
    return result, _what_changes_the_order(given, ranking)


def _ranked(given, changes):
    ranking, problems = [], []
    for row, cloth in enumerate(given["cloths"]):
        case = {"fold": 1}
        case.update(given)
        case.update(cloth)
        case.update(changes)
        try:
            found, _ = fabric_per_dozen.plan(case)
        except Problems as error:
            prefix = "cloths." + str(row) + "."
            problems += [_moved(item, prefix) for item in error.problems]
            continue
        ranked = {field.name: found.get(field.name) for field in RANKED}
        ranked["name"], ranked["row"] = cloth["name"], row
        ranking.append(ranked)
    if problems:
        raise Problems(problems)
    return sorted(ranking, key=_rank)


def _moved(item, prefix):
    return problem(prefix + item["field"], item["rule"], item["given"], item["limit"], item["quantity"])


def _rank(ranked):
    return (ranked["cost_each"], ranked["cost_each_if_all_sewn"], ranked["row"])


def _what_changes_the_order(given, ranking):
    cloths, first = given["cloths"], ranking[0]
    widest = max([cloth["bolt_width"] for cloth in cloths])
    suppositions = [
        ("order_shrinkage", {"shrink_length": 0.0, "shrink_width": 0.0}, "ranking", None),
        # the field lends its unit to the words
        ("order_width", {"bolt_width": widest}, "cloths.0.bolt_width", widest),
        ("order_increment", {"shop_increment": 1.0, "minimum_cut": 0.0}, "ranking", None),
    ]
    notes = []
    for rule, changes, field, limit in suppositions:
        others = _ranked(given, changes)
        other, same = others[0], [row for row in others if row["row"] == first["row"]][0]
        # only what then costs less, and not as much, comes before it
        if other["cost_each"] < same["cost_each"]:
            notes.append(note(field, rule, other["name"], limit, "length" if limit else None))
    sewn = least(ranking, lambda ranked: ranked["cost_each_if_all_sewn"])
    if sewn["row"] != first["row"]:
        notes.append(note("ranking", "order_sewn", sewn["name"]))
    # the first itself leads, so that an equal rate says nothing
    metre = least([cloths[first["row"]]] + cloths, lambda cloth: cloth["price"] / cloth["price_length"])
    dear = [row for row in ranking if cloths[row["row"]] is metre and row["cost_each"] > first["cost_each"]]
    if dear:
        notes.append(note("ranking", "cheapest_metre", metre["name"]))
    return notes


def least(items, measure):
    """Find the first of the items with the least measure."""
    best = items[0]
    for item in items:
        if measure(item) < measure(best):
            best = item
    return best


CALCULATOR = Calculator(
    "cloth-compare",
    "Which cloth",
    "The same pieces from several cloths, ranked by what one piece costs.",
    INPUTS,
    OUTPUTS,
    work,
    main=("cheapest",),
)
