"""What the material of pieces cost, batch by batch, for all goods at once: what sales are charged with."""

from ..declaring.errors import note, refuse
from ..declaring.reading import is_number
from ..numbers.ordering import in_order
from ..records.recorded import Recorded
from .bought import purchases_of
from .materials_taken import materials_taken
from .moving_average import fold
from .pieces_made import MOST_RESULTS, lines_made
from .unit_cost import carrying


def goods_costs(facts, records):
    """Work out what the material in each line of each batch's result cost: no time, no overheads.

    The same uses and the same moving average as `cost_of_goods` has for one product.
    Takes: facts in any order: cuts, results of batches, purchases and what voids them, others passing by;
    records, {kind: {id: fields}}.
    Returns: {"goods": {product: [{"at", "made", "good", "cost": minor units, not rounded}]}, the
    earliest first; "notes", of materials that were used and never bought}.
    """
    recorded = Recorded(facts, records)
    lines = lines_made(recorded)
    costs, notes = {}, []
    for kind, uses, _, _ in materials_taken(recorded):
        for id in in_order(list(uses), lambda id: id):
            bought = purchases_of(recorded, kind, id)
            folded = fold(bought, uses[id])
            for use, cost in zip(uses[id], folded["costs"]):
                key = (use["result"], use["product"])
                costs[key] = costs.get(key, 0.0) + cost
            if not bought:
                record = recorded.record(kind, id)
                notes.append(note("", "never_bought", record["name"] if record else "", None, "text"))
    made, goods = {}, {}
    for line in lines:
        key = (line["result"], line["product"])
        made[key] = made.get(key, 0) + line["made"]
    for line in lines:
        key = (line["result"], line["product"])
        if line["made"]:
            # two lines of one result that name one product share what it cost by what they made
            cost = costs.get(key, 0.0) * line["made"] / made[key]
            row = {"at": line["at"], "made": line["made"], "good": line["good"], "cost": cost}
            goods.setdefault(line["product"], []).append(row)
    return {"goods": goods, "notes": notes}


def count_by(rows, at):
    """Count the rows up to a time, at least one where there are any: before a first batch its cost holds.

    Takes: rows, as `goods_costs` lists them of the goods, the earliest first; at, UTC ms.
    """
    low, high = min(1, len(rows)), len(rows)
    while low < high:
        middle = (low + high + 1) // 2
        if rows[middle - 1]["at"] <= at:
            low = middle
        else:
            high = middle - 1
    return low


def cost_each_of(rows, count):
    """Work out what one piece had cost with so many of the rows, from the last of them, as `cost_of_goods`.

    Returns: minor units, not rounded; None without any.
    Source: weighted average as IAS 2.25 and 2.27 describe it; 2.16, abnormal waste is no cost of the pieces.
    """
    last = rows[max(0, count - MOST_RESULTS) : count]
    made = good = 0
    cost = 0.0
    for row in last:
        made, good, cost = made + row["made"], good + row["good"], cost + row["cost"]
    return cost / carrying(made, good) if last else None


def refuse_other_than_costs(costs):
    """Refuse what is not {product: rows} as `goods_costs` tells. Raises: Problems."""
    for product in costs:
        rows = costs[product]
        good = isinstance(rows, list) and [row for row in rows if not _is_row(row)] == []
        if not good:
            refuse("costs", "object", None, None, "object")


def _is_row(row):
    if not isinstance(row, dict):
        return False
    numbers = [row.get(name) for name in ("at", "made", "good", "cost")]
    return [one for one in numbers if not is_number(one)] == [] and numbers[1] > 0
