"""What is still to be made of a batch, part of which may be finished already."""

from ..records.reader import once, readable
from ..records.uses import SHOWN
from .waiting import strips_of

SEWN = "batch-result"


def lines_left(lines, results, products):
    """Take what was made off the lines of a batch, of which each result names products.

    Takes: lines, [{"size", "cloth", "product", "quantity"}]; results, facts that stand, those of
    this batch; products, {id: record}.
    Returns: the lines with something left, in their order. What cannot be read is set aside.
    Example: lines_left([{"size": "s", "cloth": "c", "quantity": 5}], [], {})[0]["quantity"] == 5
    """
    rows = [
        {"size": line["size"], "cloth": line.get("cloth"), "product": line.get("product"),
         "quantity": line["quantity"]}
        for line in lines
    ]  # fmt: skip
    for fact in once(readable(results, SHOWN)):
        for made in fact["lines"] if fact["kind"] == SEWN else []:
            pieces = made["made"]
            for key in strips_of(made["product"], {"lines": lines}, products):
                pieces -= _take(rows, key, made["product"], pieces)
    return [row for row in rows if row["quantity"]]


def _take(rows, key, product, pieces):
    taken = 0
    for row in rows:
        if (row["cloth"], row["size"]) == key and row["product"] in (None, product):
            part = min(pieces - taken, row["quantity"])
            row["quantity"] -= part
            taken += part
    return taken


def of_batch(batch, results):
    """List the results of one batch. Example: of_batch("b", [{"batch": "c"}]) == []"""
    return [result for result in results if result.get("batch") == batch]
