"""What a count found before it is closed: differences, and sales made meanwhile."""

from ..ordering import in_order
from .fold import once, stock_of, voided
from .movements import MARK, count_of, key_of, moment_of, movements, parts_of
from .reading_facts import refuse_other_than_facts
from .sessions import Counts, Session


def count_review(facts, session, place):
    """Compare what a count saw with what was expected.

    Takes: facts, in any order, this count's lines among them; session, the
    count; place, where it is.
    Returns: rows, by product, sizes alone last: {"place", "product", "size",
    "expected", "counted", "difference", "seen", "meanwhile": [{"sale", "at",
    "quantity"}]}. What is expected is the stock when the last line of the
    product was counted; what was not seen is expected as of now, and counted 0.
    Meanwhile are the sales between the first and last line of a product: were
    the pieces already out when they were counted? `count-close` keeps the answer.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    refuse_other_than_facts(facts)
    facts = once(facts)
    voids, count = voided(facts), place + MARK + session
    counting = [fact for fact in facts if fact["kind"] in ("count-line", "count-close")]
    ours, seen = Session(), {}
    for fact in counting:
        if fact["kind"] == "count-line" and count_of(fact) == count:
            key = key_of(fact["place"], fact)
            ours.add_line(key, fact)
            seen.setdefault(key, []).append(moment_of(fact))
    last = {key: max(seen[key]) for key in seen}
    others = [fact for fact in counting if count_of(fact) != count and _is_before(fact, last)]
    others += [fact for fact in facts if fact["kind"] not in ("count-line", "count-close")]
    stock = stock_of(others, Counts(others), voids, {place: True}, last)
    meanwhile = _meanwhile(others, voids, seen)
    keys = list(stock) + [key for key in seen if key not in stock]
    rows = [_row(key, stock, ours, meanwhile.get(key, [])) for key in keys]
    rows = [row for row in rows if row["seen"] or row["expected"]]
    return in_order(rows, lambda row: (row["size"] or "", row["product"] or ""))


def _is_before(fact, last):
    # what a later count saw is not what this one expected
    return not last or moment_of(fact) < max([last[key] for key in last])


def _row(key, stock, ours, meanwhile):
    place, product, size = parts_of(key)
    expected = int(stock[key][0]) if key in stock else 0
    counted = ours.anchor(key).quantity if key in ours.boxes else 0
    return {
        "place": place,
        "product": product,
        "size": size,
        "expected": expected,
        "counted": int(counted),
        "difference": int(counted) - expected,
        "seen": key in ours.boxes,
        "meanwhile": in_order(meanwhile, lambda sale: (sale["at"], sale["sale"])),
    }


def _meanwhile(facts, voids, seen):
    between = {}
    for fact in facts:
        if fact["kind"] == "sale" and fact["id"] not in voids:
            moment, pieces = moment_of(fact), {}
            for place, row, moved in movements(fact):
                key = key_of(place, row)
                if key in seen and min(seen[key]) < moment < max(seen[key]):
                    pieces[key] = pieces.get(key, 0) - moved
            for key in pieces:
                sale = {"sale": fact["id"], "at": fact["at"], "quantity": pieces[key]}
                between.setdefault(key, []).append(sale)
    return between
