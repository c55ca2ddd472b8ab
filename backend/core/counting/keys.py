"""What stock is called, and counts: the names and moments that a fold keeps facts under."""

# no text of a fact has such a character in it (records/reader.py)
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
