"""Strips that were cut and wait for a batch."""

from ..ordering import in_order


def waiting_strips(cuts):
    """Add up the strips of all cuts, by cloth and size.

    Takes: cuts, [{"cloth", "lines": [{"size", "quantity"}]}].
    Returns: [{"cloth", "size", "quantity"}], in the order of their ids.
    Example: waiting_strips([{"cloth": "c", "lines": [{"size": "s", "quantity": 6}]}])[0]["quantity"] == 6
    """
    pieces = {}
    for cut in cuts:
        for line in cut["lines"]:
            key = (cut["cloth"], line["size"])
            pieces[key] = pieces.get(key, 0) + line["quantity"]
    return [
        {"cloth": cloth, "size": size, "quantity": pieces[(cloth, size)]}
        for cloth, size in in_order(list(pieces), lambda key: key)
    ]
