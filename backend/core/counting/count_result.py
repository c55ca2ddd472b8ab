"""How far a count and the books agree, before it is closed and after."""

from ..declaring.reading import read
from ..declaring.spec import LIMITS
from ..numbers.ordering import in_order
from ..records.reader import readable
from ..records.uses import STOCK
from .count_review import count_review
from .count_variance import OF_A_COUNT, work
from .keys import MARK, count_of

LATEST = LIMITS["instant"][1]
TOTALS = ("accuracy", "missing", "extra", "missing_value", "extra_value")


def count_result(facts, session, place, close, products):
    """Tell the differences of a count, with what they are worth.

    Takes: facts, in any order, all that moved stock at the place and this
    count's lines and closes among them; close, the fields of the close that is
    going to be stated, {} where it was; products, {product: {"size", "price" in
    minor units}}.
    Returns: {"rows": those of `count_review`, with "difference" after the
    answers about sales made meanwhile, "first" where the books begin with it, so
    that it cannot differ, "value" of the difference in minor units
    or None, "right", the "reason" that the closes give, and "settled"; "closed";
    "listed", what a close of a list should name: what was seen, and sizes alone
    all of whose expected products were; and, of count-variance, "accuracy" in percent, "missing", "extra",
    "missing_value", "extra_value", of all but what is first, None where that is
    nothing}. What was sold as a size alone is found among the missing pieces
    of its size, the largest gap first: so many of a row are settled, and are
    not expected any more. Facts that cannot be read are set aside.
    Raises: Problems on `lines` for more than count-variance takes.
    """
    facts = readable(facts, STOCK)
    sizes, prices = _of_each(products, "size"), _of_each(products, "price")
    listed = []
    if close:
        planned = _planned(facts, session, place, close)
        if planned.get("scope") == "list":
            listed = _looked_for(count_review(facts, session, place), sizes)
            planned["listed"] = planned.get("listed") or listed
        facts = facts + [planned]
    rows = [_open_row(row) for row in count_review(facts, session, place)]
    rows = _taken_in(_settled(rows, sizes), sizes)
    result = {"rows": rows, "closed": not close, "listed": listed}
    result.update({name: None for name in TOTALS})
    reasons = _reasons(facts, session, place)
    for row in rows:
        row["value"], row["right"] = None, True
        row["reason"] = reasons.get(_goods(row), "")
    known = [row for row in rows if not row["first"]]
    if known:
        told = work(read(OF_A_COUNT, {"lines": [_line(row, prices) for row in known]}))[0]
        result.update({name: told[name] for name in TOTALS})
        for row, line in zip(known, told["lines"]):
            row["value"], row["right"] = line["value"], line["right"]
    return result


def _taken_in(rows, sizes):
    # of what the books know none none is too many: they begin with it
    known = {sizes.get(row["product"]): True for row in rows if not row["first"]}
    for row in rows:
        row["first"] = row["first"] and row["size"] not in known
        if row["first"]:
            row["expected"] += row["difference"]
            row["difference"] = 0
    return rows


def _looked_for(rows, sizes):
    listed = []
    for row in rows:
        of_size = [
            other["seen"] for other in rows if row["size"] and sizes.get(other["product"]) == row["size"]
        ]
        if row["seen"] or (of_size and False not in of_size):
            listed.append({"product": row["product"], "size": row["size"]})
    return listed


def _of_each(products, name):
    return {key: products[key].get(name) for key in products if isinstance(products[key], dict)}


def _open_row(row):
    # pieces that were sold by now, and still lay there when they were counted
    for sale in row["meanwhile"]:
        if sale["already_out"] is False:
            row["difference"] -= sale["quantity"]
    row["settled"] = 0
    return row


def _settled(rows, sizes):
    for alone in rows:
        if alone["size"] is not None and not alone["seen"] and alone["expected"] < 0:
            numbers = [
                number for number in range(len(rows)) if sizes.get(rows[number]["product"]) == alone["size"]
            ]
            for number in in_order(numbers, lambda number: (rows[number]["difference"], number)):
                pieces = min(alone["difference"], -rows[number]["difference"])
                if pieces > 0:
                    _take(rows[number], pieces)
                    _take(alone, -pieces)
    return [row for row in rows if row["seen"] or row["expected"] or row["settled"] > 0]


def _take(row, pieces):
    row["expected"] -= pieces
    row["difference"] += pieces
    row["settled"] += pieces


def _planned(facts, session, place, close):
    latest = 0
    for fact in facts:
        latest = max(latest, fact["at"])
    planned = {"kind": "count-close", "id": "", "at": min(latest + 1, LATEST)}
    planned.update(close)
    planned.update({"session": session, "place": place})
    return planned


def _line(row, prices):
    # what was sold and still lay there, or less than none: it came back after it was counted
    meanwhile = row["counted"] - row["expected"] - row["difference"]
    return {
        "place": row["place"],
        "product": row["product"] or row["size"],
        "expected": row["expected"],
        "counted": row["counted"] + max(0, -meanwhile),
        "price": prices.get(row["product"]),
        "sold_meanwhile": max(0, meanwhile),
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
                if row.get("reason") and given_at.get(goods, -1) <= fact["at"]:
                    reasons[goods], given_at[goods] = row["reason"], fact["at"]
    return reasons


def _goods(row):
    return (row.get("product") or "") + MARK + (row.get("size") or "")
