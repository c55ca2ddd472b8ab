"""What came of a batch: pieces by product."""

from .batch_standing import batch_pieces
from .lines_left import lines_left


def finished_lines(batch, goods, sewn, results, products):
    """Say what a batch still comes to, by product: as its lines name it, or as size and cloth are sold.

    Fewer pieces sewn than there are strips are the first lines' first.
    Takes: batch, {"lines": [{"size", "cloth", "product", "quantity"}]}; goods, [{"id", "size",
    "cloth"}], the ones on sale first; sewn, pieces that every step is done with, None for all;
    results, what was made of it already, and products, as `lines_left` takes them.
    Returns: [{"product", "size", "cloth", "quantity", "made"}], lines of one
    product together; product None where there is none.
    """
    lines = lines_left(batch.get("lines") or [], results, products)
    made_before = batch_pieces(batch) - batch_pieces({"lines": lines})
    left = None if sewn is None else max(0, sewn - made_before)
    rows, found = [], {}
    for line in lines:
        size, cloth = line["size"], line["cloth"]
        product = line["product"] or _sold_as(goods, size, cloth)
        key = product or (size, cloth)
        made = line["quantity"] if left is None else min(left, line["quantity"])
        if left is not None:
            left -= made
        if key in found:
            rows[found[key]]["quantity"] += line["quantity"]
            rows[found[key]]["made"] += made
        else:
            found[key] = len(rows)
            rows.append({
                "product": product, "size": size, "cloth": cloth,
                "quantity": line["quantity"], "made": made,
            })  # fmt: skip
    return rows


def _sold_as(goods, size, cloth):
    for product in goods:
        if product.get("size") == size and product.get("cloth") == cloth:
            return product["id"]
    return None
