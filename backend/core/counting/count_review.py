"""What a count found: differences, and sales made meanwhile."""

from ..numbers.ordering import in_order
from ..records.reader import movements, once, readable, voided
from ..records.uses import STOCK
from .fold import stock_of
from .keys import MARK, count_of, key_of, moment_of, parts_of
from .sessions import Counts, Session


def count_review(facts, session, place):
    """Compare what a count saw with what was expected.

    Takes: facts, in any order, this count's lines and closes among them;
    session, the count; place, where it is.
    Returns: rows, by product, sizes alone last: {"place", "product", "size",
    "expected", "counted", "difference", "seen", "first", "meanwhile": [{"sale",
    "at", "quantity", "already_out"}]}. What is expected is the stock when the
    last line of the product was counted; what was not seen is counted 0, and
    expected as of the close that stands, if there is one; then only what it
    covers is told. First says that the books know of none: no count took it in,
    and no more came than left. Meanwhile are the sales between the first and last line of a
    product: were the pieces already out when they were counted? `already_out`
    is what that close answers, None without an answer. Facts that cannot be read are set aside.
    """
    facts = once(readable(facts, STOCK))
    voids, count = voided(facts, STOCK), place + MARK + session
    counting = [fact for fact in facts if fact["kind"] in ("count-line", "count-close")]
    ours, seen = _of_count(counting, count)
    last = {key: max(seen[key]) for key in seen}
    # what was looked for and not seen is none as of the close that said so first
    until = {key: ours.anchor(key).moment for key in ours.listed}
    until.update(last)
    closed = ours.all or ours.closed
    others = [fact for fact in counting if count_of(fact) != count and _is_before(fact, until, closed)]
    others += [fact for fact in facts if fact["kind"] not in ("count-line", "count-close")]
    counts = Counts(others)
    stock = stock_of(others, counts, voids, {place: True}, until, closed)
    meanwhile = _meanwhile(others, voids, seen, _answers(ours))
    keys = list(stock) + [key for key in seen if key not in stock]
    rows = [_row(key, stock, ours, meanwhile.get(key, [])) for key in keys if _is_covered(ours, key)]
    rows = [row for row in rows if row["seen"] or row["expected"]]
    for row in rows:
        row["first"] = row["expected"] <= 0 and counts.anchor(place, key_of(place, row)) is None
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
    return ours.settle(), seen


def _is_before(fact, until, closed):
    # what a later count saw is not what this one expected
    moments = [until[key] for key in until] + ([closed] if closed else [])
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


def _answers(ours):
    # {key: {sale: already out}} of the close that stands
    answers = {}
    for row in (ours.close.get("answers") or []) if ours.closes else []:
        key = key_of(ours.close["place"], row)
        answers.setdefault(key, {})[row["sale"]] = row["sale"] not in ours.still_held.get(key, {})
    return answers


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
                sale["already_out"] = answer
                between.setdefault(key, []).append(sale)
    return between
