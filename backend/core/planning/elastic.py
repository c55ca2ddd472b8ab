"""Elastic in a plan made from records: what each size takes, and the rolls it may come from."""

from ..catalogue import answer
from ..cutting.elastic_rolls import ROLL
from ..declaring.spec import by_name
from ..numbers.rounding import step_nearest
from ..numbers.units import ruler_step
from ..records.descriptions import ELASTIC_NAMES

SHORTEST_ROLL = by_name(ROLL)["length"].lowest


def planned_elastic(pieces, elastics, unit):
    """Make what buy-list is given of elastic.

    A size takes the elastic that its record names, or the only one there is.
    Takes: pieces, the record of each strip's size; elastics, {id: fields of the
    record}; unit, what the ruler is read in.
    Returns: {"strips", fields for each strip; "rolls", for buy-list; "sources",
    [{"elastic", "roll"}], the record behind each roll and which of it: opened,
    whole or new; "estimated", of which elastics nobody measured the knot}.
    """
    strips = [_strip(piece, elastics, unit) for piece in pieces]
    used = []
    for strip in strips:
        if strip and strip["elastic_name"] not in used:
            used.append(strip["elastic_name"])
    rows = [(id, what, roll) for id in used for what, roll in _rolls(elastics[id])]
    for id, _, roll in rows:
        roll["name"] = id
    return {
        "strips": strips,
        "rolls": [roll for _, _, roll in rows],
        "sources": [{"elastic": id, "roll": what} for id, what, _ in rows],
        "estimated": [id for id in used if elastics[id]["knot_takeup"] is None],
    }


def _strip(piece, elastics, unit):
    id = piece["elastic"]
    if id not in elastics:
        if len(elastics) != 1:
            return {}
        id = list(elastics)[0]
    asked = {name: elastics[id][name] for name in ELASTIC_NAMES if elastics[id][name] is not None}
    asked["loop"] = piece["loop"]
    length = answer("elastic-cut-length", asked)["result"]["cut_length"]
    return {"elastic": step_nearest(length, ruler_step(unit)), "elastic_name": id}


def _rolls(elastic):
    rolls = []
    if elastic["opened"] >= SHORTEST_ROLL:
        rolls.append(("opened", {"length": elastic["opened"], "count": 1, "use_first": True}))
    if elastic["rolls"]:
        rolls.append(("whole", {"length": elastic["roll_length"], "count": elastic["rolls"]}))
    return rolls + [("new", {"length": elastic["roll_length"], "price": elastic["price"]})]
