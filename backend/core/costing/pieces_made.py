"""Which pieces a cost is of: lines of what came of batches, and which of them are the goods asked about."""

# what a piece costs is told from so many of its latest batches
MOST_RESULTS = 12


def lines_made(recorded):
    """List each line of each batch's result, the earliest first, made when first asked.

    Returns: [{"line": its number, "result", "batch", "at", "day", "product", "size", "made", "good"}].
    """
    return recorded.once("lines made", lambda: _lines(recorded))


def mine_among(recorded, goods):
    """Tell which lines are of some goods, in one of the last MOST_RESULTS results that name them.

    Takes: goods, ids of products.
    Returns: {number of a line: True}.
    """
    lines = [line for line in lines_made(recorded) if line["product"] in goods]
    results = []
    for line in lines:
        if line["made"] and (not results or results[-1] != line["result"]):
            results.append(line["result"])
    ours = {result: True for result in results[-MOST_RESULTS:]}
    return {line["line"]: True for line in lines if line["result"] in ours}


def _lines(recorded):
    lines = []
    for result in recorded.of("batch-result"):
        for line in result["lines"]:
            lines.append(_line(recorded, result, line, len(lines)))
    return lines


def _line(recorded, result, line, number):
    product = recorded.record("product", line["product"]) or {}
    return {
        "line": number,
        "result": result["id"],
        "batch": result["batch"],
        "at": result["at"],
        "day": result["day"],
        "product": line["product"],
        "size": product.get("size"),
        "made": line["made"],
        "good": line["good"],
    }
