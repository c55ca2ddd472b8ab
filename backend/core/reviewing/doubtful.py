"""What helpers undid, gave back or claim beyond what is usual: it stands, and owners look at it.

Cash that went out of the box is gone whatever the server says, so nothing of it is
refused; but a void long after its sale, or money back for no sale, is how takings go missing.
What was sewn and how long it took are paid for, too, so more than there can have been is told.
"""

from ..counting.keys import moment_of
from ..declaring.reading import is_number
from ..numbers.money import add_up
from ..numbers.ordering import in_order
from ..records.kinds import ANY_FACT, FOUND_RIGHT, LEFT_OUT
from ..records.reader import READERS, once, readable, stands
from ..records.recorded import Recorded
from ..records.uses import SHOWN

# a market and the evening after it, whichever way a clock is wrong
FAR_FROM_IT_MS = 36 * 3600 * 1000
# a phone without signal is back in reach within a week
RECEIVED_LATE_MS = 7 * 24 * 3600 * 1000
# without its sale one piece or two come back: more is worth a look, in any currency and at any price
MOST_PIECES_WITHOUT_SALE = 2
# of one person in a day; common practice, no source
MOST_MINUTES_A_DAY = 16 * 60


def doubtful(facts, received, voids, dearest, records):
    """List what helpers undid, gave back or claim, and an owner should look at.

    Takes: facts, all that give money back, those that helpers made to undo
    others, whichever are undone or given back on, all results of the batches and all times of the days
    that helpers claim something of, and what owners found right, as far as they are here;
    received, {fact: UTC ms}, when the server got what helpers made; voids,
    {fact: true}; dearest, the highest price of a product, minor units; records, {kind: {id: fields}} of
    batches.
    Returns: [{"fact", "doubt", "of", "given", "limit"}], the latest first; of, the fact that was
    undone or given back on, or None; doubt, `late`: undone more than 36 hours from when it
    happened, or received more than 7 days after it; `sale_unknown`: money back
    for a sale that is not here; `beyond_sale`: more than was left of it, as of one that is void;
    `no_sale`: without one, and more than two of the dearest come to; `beyond_batch`: with it `given` pieces
    are made of the batch `of`, which has `limit`; `beyond_day`: with it one person worked `given` minutes on
    its day, `limit` at most. What cannot be read is set aside.
    """
    facts = once(in_order(readable(facts, SHOWN), moment_of))
    received = {name: received[name] for name in received if is_number(received[name])}
    known = {fact["id"]: fact for fact in facts if fact["kind"] in READERS}
    right = {fact[ANY_FACT]: True for fact in facts if fact["kind"] == FOUND_RIGHT and stands(fact, voids)}
    left, claimed, found = {}, {}, []
    recorded = Recorded([], records)
    for fact in facts:
        name, reader = fact["id"], READERS.get(fact["kind"])
        if reader is None or voids.get(name) == LEFT_OUT:
            continue
        given = limit = None
        if reader.voids:
            doubt, of = _of_undone(fact, reader, known, received)
        elif reader.takings == "given_back" and stands(fact, voids):
            doubt, of = _of_refund(fact, known, left, dearest, voids)
        elif reader.kind.claims and stands(fact, voids):
            doubt, of, given, limit = CLAIMS[reader.kind.claims](fact, claimed, recorded)
        else:
            continue
        if doubt and name in received and name not in right:
            found.append({"fact": name, "doubt": doubt, "of": of, "given": given, "limit": limit})
    found.reverse()
    return found


def _of_undone(fact, reader, known, received):
    of = fact[reader.voids]
    if of not in known or fact["id"] not in received:
        return None, of
    happened = known[of]["at"]
    far = abs(fact["at"] - happened) > FAR_FROM_IT_MS
    late = received[fact["id"]] - happened > RECEIVED_LATE_MS
    return "late" if far or late else None, of


def _of_refund(fact, known, left, dearest, voids):
    of, amount = fact.get("sale"), fact["amount"]
    if of is None:
        beyond = amount > MOST_PIECES_WITHOUT_SALE * dearest
        return "no_sale" if beyond else None, None
    if of not in known:
        return "sale_unknown", of
    if of not in left:
        # of a sale that never happened there is nothing to give back
        happened = known[of]["kind"] == "sale" and stands(known[of], voids)
        left[of] = known[of]["amount"] if happened else 0
    left[of] -= amount
    return "beyond_sale" if left[of] < 0 else None, of


def _of_made(fact, claimed, recorded):
    # all results of the batch together, in the order of their times
    of = fact["batch"]
    made = claimed[of] = claimed.get(of, 0) + add_up([line["made"] for line in fact["lines"]])
    batch = recorded.record("batch", of)
    pieces = add_up([line["quantity"] for line in batch["lines"]]) if batch else made
    return ("beyond_batch" if made > pieces else None, of, made, pieces)


def _of_minutes(fact, claimed, recorded):
    minutes, person = fact["minutes"], fact.get("person")
    # two times of nobody said may be two people's
    if person is not None:
        whose = (person, fact["day"])
        minutes = claimed[whose] = claimed.get(whose, 0) + minutes
    return ("beyond_day" if minutes > MOST_MINUTES_A_DAY else None, None, minutes, MOST_MINUTES_A_DAY)


CLAIMS = {"made": _of_made, "minutes": _of_minutes}
