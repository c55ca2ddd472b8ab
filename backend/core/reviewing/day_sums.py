"""What was taken on each day at each booking, in few numbers: results of markets and years are made of it."""

from ..declaring.errors import refuse
from ..numbers.ordering import in_order
from ..records.reader import kinds_of_takings, movements, readable, stands
from ..records.uses import STOCK, TAKINGS
from ..selling.takings import Takings


def day_sums(facts, voids):
    """Sum up money and goods by day and booking.

    Takes: facts, each once, in any order, of whole days; voids, {fact: true}. Kinds that are not of the
    takings pass by.
    Returns: [{"day", "booking": None for what was at none, "at": when the last of it happened, "sales",
    "pieces", "taken", "given_back", "card": what was taken by card; and pieces that left less those that
    came back to the table: "products": {product: pieces}, "sizes" {size: pieces} of those whose cloth was
    not named, "others": what is neither}], by day, then booking.
    What cannot be read is set aside.
    """
    found, summed = {}, kinds_of_takings()
    ours = [fact for fact in readable(facts, TAKINGS) if fact["kind"] in summed]
    for fact in readable(ours, STOCK):
        if fact["id"] in voids and not stands(fact, voids):
            continue
        key = (fact.get("day") or "", fact.get("booking") or "")
        if key not in found:
            row = {"day": key[0], "booking": key[1] or None, "at": fact["at"], "card": 0}
            row.update({"products": {}, "sizes": {}, "others": 0})
            found[key] = (Takings(), row)
        takings, row = found[key]
        takings.add(fact, voids)
        row["at"] = max(row["at"], fact["at"])
        for _, goods, pieces in movements(fact):
            _count(row, goods, pieces)
    return [_told(*found[key]) for key in in_order(list(found), lambda key: key)]


def _count(row, goods, pieces):
    product, size = goods.get("product"), goods.get("size")
    if product:
        row["products"][product] = row["products"].get(product, 0) - pieces
    elif size:
        row["sizes"][size] = row["sizes"].get(size, 0) - pieces
    else:
        row["others"] -= pieces


def _told(takings, row):
    told = takings.told()
    row.update({name: told[name] for name in ("sales", "pieces", "taken", "given_back")})
    for part in told["payments"]:
        row["card"] += part["taken"] if part["payment"] == "card" else 0
    return row


def refuse_other_than_sums(sums):
    """Refuse sums whose goods are no pieces by id; their other fields are declared.

    Raises: Problems.
    """
    for number, row in enumerate(sums):
        for kind in ("products", "sizes"):
            for id in row[kind]:
                pieces = row[kind][id]
                if isinstance(pieces, bool) or not isinstance(pieces, int):
                    refuse("sums." + str(number) + "." + kind, "whole", None, None, "object")
