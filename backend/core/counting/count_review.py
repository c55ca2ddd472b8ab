"""What a count found: differences, and sales made meanwhile."""

from ..ordering import in_order
from .fold import once, stock_of, voided
from .movements import MARK, count_of, key_of, moment_of, movements, parts_of
from .reading_facts import refuse_other_than_facts
from .sessions import Counts, Session


def count_review(facts, session, place):
    """Compare what a count saw with what was expected.

    Takes: facts, in any order, this count's lines and closes among them;
    session, the count; place, where it is.
    Returns: rows, by product, sizes alone last: {"place", "product", "size",
    "expected", "counted", "difference", "seen", "meanwhile": [{"sale", "at",
    "quantity", "already_out"}]}. What is expected is the stock when the last
    line of the product was counted; what was not seen is counted 0, and
    expected as of the first close, if there is one; then only what the closes
    cover is told. Meanwhile are the sales between the first and last line of a
    product: were the pieces already out when they were counted? `already_out`
    is what the closes answer, None without an answer.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    refuse_other_than_facts(facts)
    facts = once(facts)
    voids, count = voided(facts), place + MARK + session
    counting = [fact for fact in facts if fact["kind"] in ("count-line", "count-close")]
    ours, seen = _of_count(counting, count)
    last = {key: max(seen[key]) for key in seen}
    closed = min(ours.closes) if ours.closes else None
    others = [fact for fact in counting if count_of(fact) != count and _is_before(fact, last, closed)]
    others += [fact for fact in facts if fact["kind"] not in ("count-line", "count-close")]
    stock = stock_of(others, Counts(others), voids, {place: True}, last, closed)
    meanwhile = _meanwhile(others, voids, seen, ours.answers)
    keys = list(stock) + [key for key in seen if key not in stock]
    rows = [_row(key, stock, ours, meanwhile.get(key, [])) for key in keys if _is_covered(ours, key)]
    rows = [row for row in rows if row["seen"] or row["expected"]]
    return in_order(rows, lambda row: (row["size"] or "", row["product"] or ""))


def _of_count(counting, count):
    # this count's session, and the moments at which each key was seen
    ours, seen = Session(), {}
    for fact in counting:
        if count_of(fact) == count:
            if fact["kind"] == "count-line":
                key = key_of(fact["place"], fact)
                ours.add_line(key, fact)
                seen.setdefault(key, []).append(moment_of(fact))
            else:
                ours.add_close(fact)
    return ours, seen


def _is_before(fact, last, closed):
    # what a later count saw is not what this one expected
    moments = [last[key] for key in last] + ([closed] if closed else [])
    return not moments or moment_of(fact) < max(moments)


def _is_covered(ours, key):
    return not ours.closes or ours.all is not None or key in ours.boxes or key in ours.listed


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


def _meanwhile(facts, voids, seen, answers):
    between = {}
    for fact in facts:
        if fact["kind"] == "sale" and fact["id"] not in voids:
            moment, pieces = moment_of(fact), {}
            for place, row, moved in movements(fact):
                key = key_of(place, row)
                if key in seen and min(seen[key]) < moment < max(seen[key]):
                    pieces[key] = pieces.get(key, 0) - moved
            for key in pieces:
                answer = answers.get(key, {}).get(fact["id"])
                sale = {"sale": fact["id"], "at": fact["at"], "quantity": pieces[key]}
                sale["already_out"] = None if answer is None else not answer[1]
                between.setdefault(key, []).append(sale)
    return between
