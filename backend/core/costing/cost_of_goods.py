"""What a piece of some goods costs, from the records: every figure with where it came from."""

from ..catalogue import answer_of_facts
from ..declaring.errors import Problems, note, refuse
from ..declaring.spec import by_name
from ..numbers.money import add_up, to_hundredths
from ..numbers.numerals import parse
from ..numbers.ordering import in_order
from ..numbers.rounding import half_up
from ..numbers.shapes import SHAPES
from ..records.recorded import Recorded
from .bought import purchases_of
from .cloth_used import width_of
from .materials_taken import materials_taken
from .moving_average import fold
from .pieces_made import lines_made, mine_among
from .time_taken import time_taken
from .unit_cost import INPUTS, MATERIAL, NORMAL_LOSS, carrying

MOST_BOUGHT, MOST_USED = by_name(MATERIAL)["bought"].most, by_name(MATERIAL)["used"].most
MOST_POINTS = by_name(INPUTS)["points"].most
USE_TOLD = ("at", "day", "cut", "batch", "result", "pieces", "quantity", "cost")
PURCHASE_TOLD = ("purchase", "day", "quantity", "cost")
# what unit-cost notes of a material, as it is told of what has a name
MATERIAL_RULES = {"used_before_bought": "used_beyond_bought", "never_bought": "never_bought"}


def cost_of_goods(facts, records, product_ids, day, tax_on_top=False):
    """Work out what a piece of some goods costs, from their latest batches.

    Takes: facts in any order, each with its kind, id and at: cuts, results and steps of batches,
    work-time, purchases, wages, and what voids them, others passing by; records, {kind: {id:
    fields}}; product_ids, of what is asked about; day, the local day of the asking.
    Returns: None where no batch made any, or what is recorded is beyond any cost; else {"made",
    "good", "pieces": those that carry the cost, "normal_loss": percent that is usually spoilt,
    "batches": [{"result", "batch", "day", "made", "good"}], "parts": [{"part", "kind",
    "record", "name", "cost", "each", "uses": [{"at", "day", "cut", "batch", "result", "pieces",
    "quantity", "cost"}], "bought": [{"purchase", "day", "quantity", "cost"}]}], "time": as
    `time_taken` tells, "overheads" for all of it, with "labour" and "overheads_an_hour"; "shares":
    [{"part", "cost", "each"}], and unit-cost's "total", "cost_each", "cash_each", "abnormal_loss"
    and "points", with what is "left" of each; "notes"}.
    Raises: Problems on a day that is none.
    """
    if not SHAPES["date"](day):
        refuse("day", "date", quantity="text")
    return cost_from(Recorded(facts, records), product_ids, day, tax_on_top)


def costs_each(facts, records, product_ids):
    """Tell what one of each product costs, as of the last that was recorded of any cost.

    Takes: facts, records and product_ids as `cost_of_goods` takes them.
    Returns: {product: {"cost_each", "cash_each": without labour, "unbought": names of the materials in it of
    which no purchase is recorded, so that they cost nothing}; None where no batch made any}.
    """
    recorded, told = Recorded(facts, records), {}
    # the same few come again and again
    given = {fact.get("day"): True for fact in recorded.standing if isinstance(fact.get("day"), str)}
    days = [day for day in given if SHAPES["date"](day)]
    for id in product_ids:
        found = cost_from(recorded, [id], max(days), False) if days else None
        told[id] = {name: found[name] for name in ("cost_each", "cash_each")} if found else None
        if found:
            never = [part for part in found["parts"] if not part["bought"]]
            told[id]["unbought"] = [part["name"] or part["kind"] for part in never]
    return told


def cost_from(recorded, product_ids, day, tax_on_top):
    """Work out what a piece of some goods costs, as `cost_of_goods` tells, of records made whole."""
    mine = mine_among(recorded, product_ids)
    made, good, batches = _batches(recorded, mine)
    if not made:
        return None
    parts, notes = _parts(recorded, mine)
    time, noted = time_taken(recorded, mine, day)
    asked = {
        "materials": [_material(part, mine) for part in parts],
        "made": made,
        "good": good,
        "minutes": time["minutes"],
        "wage": time["wage"],
        "overheads": time["overheads"],
        "points": _points(recorded, product_ids),
    }
    asked["tax_percent"] = 0 if tax_on_top else recorded.business()["tax_percent"] or 0
    try:
        told = answer_of_facts("unit-cost", asked)
    except Problems:
        # what facts say of it is beyond all that a piece can cost
        return None
    result = told["result"]
    pieces = carrying(made, good)
    for part, material in zip(parts, result["materials"]):
        _tell(part, material, mine, pieces)
    time.update({
        "labour": result["labour"],
        "overheads": result["overheads"],
        "overheads_an_hour": time["overheads"],
    })  # fmt: skip
    answered = {name: result[name] for name in ("total", "cost_each", "cash_each", "abnormal_loss", "points")}
    for point in answered["points"]:
        point["left"] = to_hundredths(point["price"] / (1 + asked["tax_percent"] / 100) - result["cost_each"])
    answered["shares"] = [
        {"part": row["part"], "cost": row["cost"], "each": to_hundredths(row["cost"] / pieces)}
        for row in result["shares"]
    ]
    answered["normal_loss"] = NORMAL_LOSS
    answered.update({"made": made, "good": good, "pieces": pieces, "batches": batches, "parts": parts})
    answered.update({"time": time, "notes": notes + noted + _of_materials(told["notes"], parts)})
    return answered


def _batches(recorded, mine):
    made = good = 0
    told = []
    for line in lines_made(recorded):
        if line["line"] not in mine or not line["made"]:
            continue
        made, good = made + line["made"], good + line["good"]
        if not told or told[-1]["result"] != line["result"]:
            told.append({name: line[name] for name in ("result", "batch", "day")})
            told[-1].update({"made": 0, "good": 0})
        told[-1]["made"] += line["made"]
        told[-1]["good"] += line["good"]
    return made, good, told


def _parts(recorded, mine):
    # each material of which the goods took any, with all uses and purchases of it
    told, notes = [], []
    for kind, uses, unknown, rule in materials_taken(recorded):
        notes += _unknown(recorded, unknown, rule, mine)
        for id in in_order(list(uses), lambda id: id):
            for use in uses[id]:
                if use["line"] in mine:
                    told.append(_part(recorded, kind, id, uses[id]))
                    notes += _unmeasured(recorded, told[-1])
                    break
    return told, notes


def _unknown(recorded, unknown, rule, mine):
    if rule is None:
        return recorded.once("supplies without end", lambda: _lasts_not_said(recorded))
    pieces = add_up([unknown[line] for line in mine if line in unknown])
    return [note("", rule, pieces, None, "count")] if pieces else []


def _lasts_not_said(recorded):
    supplies = [recorded.record("supply", id) for id in recorded.ids("supply")]
    unsaid = [one["name"] for one in supplies if not one["archived"] and one["lasts"] is None]
    return [note("", "lasts_not_said", name, None, "text") for name in unsaid]


def _part(recorded, kind, id, uses):
    record = recorded.record(kind, id) or {"name": ""}
    told = {"part": _part_of(kind, record), "kind": kind, "record": id, "name": record["name"]}
    told["uses"] = recorded.once(("uses", kind, id), lambda: in_order(uses, lambda use: use["at"]))
    told["bought"] = recorded.once(("bought", kind, id), lambda: purchases_of(recorded, kind, id))
    return told


def _part_of(kind, record):
    if kind == "supply":
        return "packaging" if record.get("use") == "packaging" else "other"
    return kind


def _unmeasured(recorded, part):
    if part["kind"] == "cloth" and width_of(recorded.record("cloth", part["record"])) is None:
        return [note("", "cloth_not_measured", part["name"], None, "text")]
    return []


def _material(part, mine):
    bought, uses = part["bought"], _merged(part["bought"], part["uses"], mine)
    if len(bought) > MOST_BOUGHT or len(uses) > MOST_USED:
        bought, uses = _with_opening(bought, uses)
    return {
        "part": part["part"],
        "name": part["name"] or part["kind"],
        "bought": [{name: row[name] for name in ("at", "quantity", "cost")} for row in bought],
        "used": uses,
    }


def _merged(bought, uses, mine):
    # uses by other goods with no purchase between them change nothing if they are one
    told, place, before = [], 0, None
    for use in uses:
        at, is_mine = use["at"], use["line"] in mine
        if before and not is_mine and not (place < len(bought) and bought[place]["at"] <= at):
            before["quantity"] += use["quantity"]
            continue
        row = {"at": at, "quantity": use["quantity"], "mine": is_mine}
        told.append(row)
        before = None if is_mine else row
        # the first purchase after it
        while place < len(bought) and bought[place]["at"] <= at:
            place += 1
    return told


def _with_opening(bought, uses):
    # of a long history what was there when the first of these goods was made is one purchase
    first = [use["at"] for use in uses if use["mine"]][0]
    earlier = [use for use in uses if use["at"] < first]
    before = fold([row for row in bought if row["at"] <= first], earlier)
    rows = [row for row in bought if row["at"] > first]
    if before["quantity"] > 0:
        opening = {"at": first, "quantity": before["quantity"], "cost": half_up(before["cost"])}
        rows = [opening] + rows
    return rows[-MOST_BOUGHT:], uses[len(earlier) :][:MOST_USED]


def _points(recorded, product_ids):
    # the prices that are asked of these goods, and those she would ask, the lowest first
    prices = []
    for id in product_ids:
        product = recorded.record("product", id)
        prices += [product["price"]] if product else []
    prices += [row["price"] for row in recorded.business()["points"] or []]
    told = []
    for price in in_order(prices, lambda price: price):
        if price > 0 and price not in told:
            told.append(price)
    return told[:MOST_POINTS]


def _tell(part, material, mine, pieces):
    # the uses that are these goods', each with what it cost
    ours = [use for use in part["uses"] if use["line"] in mine]
    part["uses"] = []
    for use, cost in zip(ours, material["used"]):
        told = {name: use[name] for name in USE_TOLD if name != "cost"}
        told["cost"] = cost
        part["uses"].append(told)
    part["bought"] = [{name: row[name] for name in PURCHASE_TOLD} for row in part["bought"]]
    part["cost"], part["each"] = material["cost"], to_hundredths(material["cost"] / pieces)


def _of_materials(notes, parts):
    # told by the material's name: an area says nothing to her
    told = []
    for item in notes:
        number = item["field"].split(".")
        rule = MATERIAL_RULES.get(item["rule"])
        if rule and len(number) > 1:
            told.append(note("", rule, parts[parse(number[1])]["name"], None, "text"))
    return told
