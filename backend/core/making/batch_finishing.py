"""What came of a batch: pieces by product."""


def finished_lines(batch, goods, sewn):
    """Say what a batch comes to, by product: what its lines name, or what is sold of their size and cloth.

    Fewer pieces sewn than there are strips are the first lines' first.
    Takes: batch, {"lines": [{"size", "cloth", "product", "quantity"}]}; goods, [{"id", "size",
    "cloth"}], the ones on sale first; sewn, pieces that every step is done with, None for all.
    Returns: [{"product", "size", "cloth", "quantity", "made"}], lines of one
    product together; product None where there is none.
    """
    left, rows, found = sewn, [], {}
    for line in batch.get("lines") or []:
        size, cloth = line["size"], line.get("cloth")
        product = line.get("product") or _sold_as(goods, size, cloth)
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
