"""Strips that were cut and wait for a batch."""

from ..ordering import in_order


def waiting_strips(cuts, cut_voids):
    """Add up the strips of all cuts that stand, by cloth and size.

    Takes: cuts, [{"id", "cloth", "lines": [{"size", "quantity"}]}]; cut_voids, [{"cut"}],
    in any order, of cuts that may not be here yet.
    Returns: [{"cloth", "size", "quantity"}], in the order of their ids.
    Example: waiting_strips([{"id": "a", "cloth": "c", "lines": []}], [{"cut": "a"}]) == []
    """
    pieces, never = {}, {void["cut"]: True for void in cut_voids}
    for cut in [one for one in cuts if one["id"] not in never]:
        for line in cut["lines"]:
            key = (cut["cloth"], line["size"])
            pieces[key] = pieces.get(key, 0) + line["quantity"]
    return [
        {"cloth": cloth, "size": size, "quantity": pieces[(cloth, size)]}
        for cloth, size in in_order(list(pieces), lambda key: key)
    ]
