"""What stands all the same, but is worth a look: late lines, closes that differ, refunds beyond the sale."""

from ..numbers.ordering import in_order
from ..records.reader import voided
from ..records.uses import STOCK
from .keys import count_of, moment_of
from .sessions import Counts


def flags(facts):
    """List the facts worth a look, each sort in the order they happened.

    Takes: facts, checked, each once.
    Returns: [{"flag", "fact", "of"}]: `late_line`, a line counted after the
    first close of its session `of`; `close_differs`, a close of session `of` that
    said otherwise than the last, which stands; `over_refund`, a refund that
    brings back more pieces of something, or more money, than its sale `of` sold,
    refunds before it included. A sale that is not among the facts is not looked at.
    """
    sessions = Counts(facts).sessions
    return _late_lines(facts, sessions) + _differing_closes(sessions) + _over_refunds(facts)


def _late_lines(facts, sessions):
    closed = {name: sessions[name].first_close() for name in sessions if sessions[name].closes}
    lines = [fact for fact in facts if fact["kind"] == "count-line" and count_of(fact) in closed]
    late = [fact for fact in lines if moment_of(fact) > closed[count_of(fact)]]
    return [_flag("late_line", fact, fact["session"]) for fact in in_order(late, moment_of)]


def _differing_closes(sessions):
    closes = []
    for name in sessions:
        closes += sessions[name].differing()
    return [_flag("close_differs", fact, fact["session"]) for fact in in_order(closes, moment_of)]


def _over_refunds(facts):
    left, voids = {}, voided(facts, STOCK)
    for fact in facts:
        if fact["kind"] == "sale":
            left[fact["id"]] = _sold(fact) if fact["id"] not in voids else ({}, 0)
    refunds = [fact for fact in facts if fact["kind"] == "refund" and fact.get("sale") in left]
    refunds = [fact for fact in refunds if fact["id"] not in voids]
    over = []
    for fact in in_order(refunds, moment_of):
        pieces, money = left[fact["sale"]]
        beyond = False
        for row in fact["lines"]:
            goods = _goods(row)
            pieces[goods] = pieces.get(goods, 0) - row["quantity"]
            beyond = beyond or pieces[goods] < 0
        if money is not None and fact.get("amount") is not None:
            money -= fact["amount"]
            beyond = beyond or money < 0
        left[fact["sale"]] = (pieces, money)
        if beyond:
            over.append(_flag("over_refund", fact, fact["sale"]))
    return over


def _sold(sale):
    pieces = {}
    for row in sale["lines"]:
        goods = _goods(row)
        pieces[goods] = pieces.get(goods, 0) + row["quantity"]
    return pieces, sale.get("amount")


def _goods(row):
    return (row.get("product"), row.get("size"))


def _flag(name, fact, of):
    return {"flag": name, "fact": fact.get("id") or "", "of": of}
