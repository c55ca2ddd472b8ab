"""Which pieces a cost is of: lines of what came of batches, and which of them are the goods asked about."""

# what a piece costs is told from so many of its latest batches
MOST_RESULTS = 12


def lines_made(recorded, goods):
    """List each line of each batch's result, the earliest first.

    Takes: goods, ids of products.
    Returns: [{"result", "batch", "at", "day", "product", "size", "made", "good", "mine"}];
    mine, whether it is of the goods in one of the last MOST_RESULTS results that name them.
    """
    results = recorded.of("batch-result")
    ours = [result["id"] for result in results if _names(result, goods)][-MOST_RESULTS:]
    return [
        _line(recorded, result, line, result["id"] in ours and line["product"] in goods)
        for result in results
        for line in result["lines"]
    ]


def _names(result, goods):
    return len([line for line in result["lines"] if line["product"] in goods and line["made"]]) > 0


def _line(recorded, result, line, mine):
    product = recorded.record("product", line["product"]) or {}
    return {
        "result": result["id"],
        "batch": result["batch"],
        "at": result["at"],
        "day": result["day"],
        "product": line["product"],
        "size": product.get("size"),
        "made": line["made"],
        "good": line["good"],
        "mine": mine,
    }
