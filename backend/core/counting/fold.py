"""The fold of facts into stock: the same answer for every order of arrival.

The stock of a product at a place is what the latest closed count of it saw,
and what facts after that count moved; `(at, id)` says what is after. A void
removes its sale at the sale's own time, before or after the sale arrives. A
sale made while its product was counted, and still lying there when it was, is
taken off though it is before the count: the close says so.
"""

from ..numbers.ordering import in_text_order
from ..records.kinds import LEFT_OUT
from ..records.reader import movements, once, voidable, voided
from ..records.uses import STOCK
from .keys import count_of, key_of, moment_of
from .sessions import Counts


def fold(facts, at=None, places=None, voids=None):
    """Fold facts into stock.

    Takes: facts, checked (records/reader.py), in any order, some perhaps twice;
    at, leave out what happened later (UTC ms), but for voids; places, those
    wanted, None for all; voids, what of these never happened, where that is
    known already, None to find it among them.
    Returns: held = {"stock": {key: [pieces, at, id, [sale, ...]]}, "places":
    {place: [at, id]}, "voids": {sale: true}, "closed": {count: true}}: for each
    key its pieces, the moment of its count (None, "" without one) and the sales
    before it that the count still held; for each place the moment of the last
    count that took in all of it.
    """
    facts = once(facts)
    if voids is None:
        voids = voided(facts, STOCK)
    facts = [fact for fact in facts if voids.get(fact.get("id")) != LEFT_OUT]
    known = [fact for fact in facts if at is None or fact["at"] <= at]
    counts = Counts(known)
    stock = stock_of(known, counts, voids, places)
    wanted = [place for place in counts.places if places is None or place in places]
    return {
        "stock": {key: entry(stock[key]) for key in stock},
        "places": {place: list(counts.last_of_all(place)) for place in wanted if counts.last_of_all(place)},
        "voids": voids,
        "closed": {name: True for name in counts.sessions if counts.sessions[name].closes},
    }


def stock_of(facts, counts, voids, places, until=None, others_until=None):
    """Add up what each key had at its last count and what moved since.

    Takes: facts, each once; until, {key: moment} beyond which a key's are left
    out, and others_until, the moment beyond which those of all other keys are.
    Returns: {key: [pieces, moment of the count or None, {sale: true}]}.
    """
    stock, may_be_void = {}, voidable(STOCK)
    for fact in facts:
        kind, moment = fact["kind"], moment_of(fact)
        if kind == "count-line":
            if counts.sessions[count_of(fact)].closes:
                _held(stock, counts, places, fact["place"], fact)
        elif kind == "count-close":
            for row in (fact.get("listed") or []) + (fact.get("answers") or []):
                _held(stock, counts, places, fact["place"], row)
        else:
            never = kind in may_be_void and fact["id"] in voids
            for place, row, pieces in movements(fact):
                held = _held(stock, counts, places, place, row)
                if held is not None and not never and counts_for(held, fact, moment):
                    if until is None or moment <= until.get(key_of(place, row), others_until or moment):
                        held[0] += pieces
    return stock


def _held(stock, counts, places, place, row):
    # what is held of a row's goods, begun at their last count; None where not asked for
    key = key_of(place, row)
    if key is None or (places is not None and place not in places):
        return None
    if key not in stock:
        anchor = counts.anchor(place, key)
        if anchor is None:
            stock[key] = [0, None, {}]
        else:
            stock[key] = [anchor.quantity, anchor.moment, anchor.still_held]
    return stock[key]


def counts_for(held, fact, moment):
    """Say whether a fact moves what is held: it is after the count, or the count still held it."""
    _, anchor, still_held = held
    if anchor is None or moment > anchor:
        return True
    return fact["kind"] == "sale" and fact["id"] in still_held


def entry(held):
    """Write what is held of a key as plain data for JSON."""
    pieces, anchor, still_held = held
    at, name = anchor or (None, "")
    return [int(pieces), None if at is None else int(at), name, in_text_order(list(still_held))]
