"""Strips that were cut and wait for a batch."""

from ..numbers.ordering import in_order
from ..records.reader import once, readable, voided
from ..records.uses import SHOWN

CUT, SEWN = "cut", "batch-result"


def waiting_strips(facts, batches, products):
    """Add up the strips of all cuts that stand, less what was made of them, by cloth and size.

    What a batch made is taken off in the order of what happened, and no further
    than to nothing: strips that nobody recorded as cut are not owed by later cuts.
    Takes: facts, cuts, results of batches and what voids them, in any order, each
    with kind, id and at, others passing by; batches, {id: record} and products,
    {id: record}, which say of what size and cloth the strips of a product were.
    Returns: [{"cloth", "size", "quantity"}], in the order of their ids. What
    cannot be read is set aside.
    Example: waiting_strips([], {}, {}) == []
    """
    facts = once(readable(facts, SHOWN))
    never, waiting = voided(facts, SHOWN), {}
    standing = [fact for fact in facts if fact["kind"] in (CUT, SEWN) and fact["id"] not in never]
    for fact in in_order(standing, _moment):
        if fact["kind"] == CUT:
            for line in fact["lines"]:
                key = (fact["cloth"], line["size"])
                waiting[key] = waiting.get(key, 0) + line["quantity"]
        else:
            for line in fact["lines"]:
                strips = strips_of(line["product"], batches.get(fact["batch"]), products)
                _take(waiting, strips, line["made"])
    return [
        {"cloth": cloth, "size": size, "quantity": waiting[(cloth, size)]}
        for cloth, size in in_order(list(waiting), lambda key: key)
        if waiting[(cloth, size)]
    ]


def _moment(fact):
    # what was cut in the same moment is there to be sewn
    return (fact["at"], fact["kind"] == SEWN, fact["id"])


def strips_of(product, batch, products):
    """List the strips a product is of, [(cloth, size)]: as its batch says, else its own size and cloth."""
    known = products.get(product)
    known = known if isinstance(known, dict) else {}
    named, beside = [], []
    for line in _lines_of(batch):
        if line.get("product") == product:
            named.append(line)
        elif line.get("product") is None and line.get("size") == known.get("size"):
            beside.append(line)
    strips = [(line.get("cloth"), line.get("size")) for line in named + beside or [known]]
    return [key for key in strips if isinstance(key[0], str) and isinstance(key[1], str)]


def _lines_of(batch):
    lines = batch.get("lines") if isinstance(batch, dict) else None
    return [line for line in lines if isinstance(line, dict)] if isinstance(lines, list) else []


def _take(waiting, strips, pieces):
    for key in strips:
        taken = min(pieces, waiting.get(key, 0))
        if taken:
            waiting[key] -= taken
            pieces -= taken
