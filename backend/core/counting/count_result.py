"""How far a count and the books agree, before it is closed and after."""

from ..reading import read
from .count_review import count_review
from .count_variance import INPUTS, work
from .movements import MARK, count_of
from .reading_facts import LATEST, refuse_other_than_facts

TOTALS = ("accuracy", "missing", "extra", "missing_value", "extra_value")


def count_result(facts, session, place, close, prices):
    """Tell the differences of a count, with what they are worth.

    Takes: facts, in any order, all that moved stock at the place and this
    count's lines and closes among them; close, the fields of the close that is
    going to be stated, {} where it was; prices, {product: minor units}.
    Returns: {"rows": those of `count_review`, with "difference" after the
    answers about sales made meanwhile, "value" of the difference in minor units
    or None, "right" and the "reason" that the closes give; "closed"; and, of
    count-variance, "accuracy" in percent, "missing", "extra", "missing_value",
    "extra_value", all None where nothing was counted or expected}.
    Raises: Problems naming each `facts.N.field` that the fold cannot take; on
    `lines` for more than count-variance takes.
    """
    refuse_other_than_facts(facts)
    if close:
        facts = facts + [_planned(facts, session, place, close)]
    rows = count_review(facts, session, place)
    result = {"rows": rows, "closed": not close}
    result.update({name: None for name in TOTALS})
    if rows:
        told = work(read(INPUTS, {"lines": [_line(row, prices) for row in rows]}))[0]
        result.update({name: told[name] for name in TOTALS})
        reasons = _reasons(facts, session, place)
        for row, line in zip(rows, told["lines"]):
            row["difference"], row["value"], row["right"] = line["difference"], line["value"], line["right"]
            row["reason"] = reasons.get(_goods(row), "")
    return result


def _planned(facts, session, place, close):
    latest = 0
    for fact in facts:
        latest = max(latest, fact["at"])
    planned = {"kind": "count-close", "id": "", "at": min(latest + 1, LATEST)}
    planned.update(close)
    planned.update({"session": session, "place": place})
    return planned


def _line(row, prices):
    held = [sale["quantity"] for sale in row["meanwhile"] if sale["already_out"] is False]
    still_held = 0
    for quantity in held:
        still_held += quantity
    return {
        "place": row["place"],
        "product": row["product"] or row["size"],
        "expected": row["expected"],
        "counted": row["counted"],
        "price": prices.get(row["product"]),
        "sold_meanwhile": still_held,
        "already_out": False,
    }


def _reasons(facts, session, place):
    # the last close that gives one
    closes = [fact for fact in facts if fact.get("kind") == "count-close"]
    reasons, given_at = {}, {}
    for fact in closes:
        if count_of(fact) == place + MARK + session:
            for row in fact.get("reasons") or []:
                goods = _goods(row)
                if row["reason"] and given_at.get(goods, -1) <= fact["at"]:
                    reasons[goods], given_at[goods] = row["reason"], fact["at"]
    return reasons


def _goods(row):
    return (row.get("product") or "") + MARK + (row.get("size") or "")
