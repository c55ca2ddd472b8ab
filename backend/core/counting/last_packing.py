"""What was packed for a place the last time: where the next packing list begins."""

from ..numbers.ordering import in_order, in_text_order
from ..records.reader import readable
from ..records.uses import STOCK
from .keys import moment_of

# a move that goes back as soon as this was an undo
UNDONE_WITHIN_MS = 60000


def last_packing(facts, source, target):
    """Add up what went from one place to another on the latest day that anything did.

    Takes: facts, moves with their `day`; others pass by.
    Returns: {"day", None if there was none, "pieces": [{"product", "quantity"}]};
    what was moved back within a minute never went. Facts that cannot be read are set aside.
    """
    facts = readable(facts, STOCK)
    days = {}
    for fact in in_order([fact for fact in facts if fact["kind"] == "move"], moment_of):
        if fact.get("product") is not None and isinstance(fact.get("day"), str):
            there, back = days.setdefault(fact["day"], ([], []))
            if fact["from"] == source and fact["to"] == target:
                there.append(fact)
            elif fact["from"] == target and fact["to"] == source:
                back.append(fact)
    latest_first = in_text_order(list(days))
    latest_first.reverse()
    for day in latest_first:
        went = _without_undone(days[day][0], days[day][1])
        if went:
            return {"day": day, "pieces": _added_up(went)}
    return {"day": None, "pieces": []}


def _added_up(went):
    pieces = {}
    for fact in went:
        pieces[fact["product"]] = pieces.get(fact["product"], 0) + int(fact["quantity"])
    return [{"product": product, "quantity": pieces[product]} for product in in_text_order(list(pieces))]


def _without_undone(there, back):
    went = list(there)
    for fact in back:
        for index in range(len(went) - 1, -1, -1):
            if _undoes(fact, went[index]):
                went.pop(index)
                break
    return went


def _undoes(fact, before):
    alike = fact["product"] == before["product"] and fact["quantity"] == before["quantity"]
    return alike and 0 <= fact["at"] - before["at"] <= UNDONE_WITHIN_MS
