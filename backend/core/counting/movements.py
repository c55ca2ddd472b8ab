"""What a fact moves: pieces of a product, or of a size alone, at a place."""

# no text of a fact has such a character in it (reading_facts.py)
MARK = "\u001f"
SIZE_MARK = MARK + MARK


def key_of(place, row):
    """Name the stock of a row's product, or of its size alone, at a place; None for neither."""
    if row.get("product") is not None:
        return place + MARK + row["product"]
    if row.get("size") is not None:
        return place + SIZE_MARK + row["size"]
    return None


def parts_of(key):
    """Take a key apart: (place, product, size), one of the two None."""
    place, _, size = key.partition(SIZE_MARK)
    if size:
        return place, None, size
    place, _, product = key.partition(MARK)
    return place, product, None


def count_of(fact):
    """Name the count that a line or a close belongs to: a session at a place."""
    return fact["place"] + MARK + fact["session"]


def moment_of(fact):
    """Give a fact's place in the order of what happened: (at, id)."""
    return (fact["at"], fact.get("id") or "")


def movements(fact):
    """List what a fact moves: [(place, row, pieces)], pieces below nothing for what leaves.

    A refund of spoilt goods, a void and what moves no stock give an empty list.
    """
    kind = fact["kind"]
    if kind == "sale":
        place = fact["place"]
        moved = [(place, row, -row["quantity"]) for row in fact["lines"]]
        if fact.get("returned") and fact.get("goods") != "spoilt":
            moved += [(place, row, row["quantity"]) for row in fact["returned"]]
        return moved
    if kind == "refund":
        back = fact["lines"] if fact["goods"] == "table" else []
        return [(fact["place"], row, row["quantity"]) for row in back]
    if kind == "move":
        return [(fact["from"], fact, -fact["quantity"]), (fact["to"], fact, fact["quantity"])]
    if kind == "set-aside":
        pieces = fact["quantity"] if fact["reason"] == "found" else -fact["quantity"]
        return [(fact["place"], fact, pieces)]
    return []
