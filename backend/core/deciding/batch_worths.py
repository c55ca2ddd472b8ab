"""What each batch of a product is worth, by the booking that it is ready for."""

from ..numbers.counts import chances_up_to


def batch_worths(product, wage):
    """List what each batch is worth, a list with one number for each booking it may be ready for.

    The q-th piece is for the q-th customer: ready for booking a it brings the gain of the booking at which
    demand reaches q, if that is a or a later one, else what a piece left over is worth. The pieces of a
    batch follow those of the stock and of the batches before it; its minutes cost their wage.
    Takes: product, a checked row of make-next; wage, an hour.
    Source: worked by hand; demand as a negative binomial law after Agrawal & Smith, Naval Research
    Logistics 43 (1996).
    """
    first, size = product["stock"] + 1, product["batch"]
    last = product["stock"] + product["most"] * size
    each = _piece_worths(product, first, last)
    cost = product["minutes"] * wage / 60
    return [
        [_added(ready[number * size : (number + 1) * size]) - cost for ready in each]
        for number in range(product["most"])
    ]


def _piece_worths(product, first, last):
    # for each booking that pieces may be ready for: the worth of each piece from the first to the last
    told, after = [], [product["left"] + 0.0] * (last - first + 1)
    reached = _chances_to_reach(product["demand"], first, last)
    for booking in range(len(product["demand"]) - 1, -1, -1):
        more = product["demand"][booking]["gain"] - product["left"]
        until, before = reached[booking + 1], reached[booking]
        after = [worth + more * (until[at] - before[at]) for at, worth in enumerate(after)]
        told.insert(0, after)
    return told


def _chances_to_reach(demand, first, last):
    # before any booking, then up to each: the chance that so many and more are wanted
    mean = variance = 0.0
    told = [[0.0] * (last - first + 1)]
    for row in demand:
        mean += row["mean"]
        variance += row["mean"] + (row["mean"] * row["mean"] / row["size"] if row["size"] else 0.0)
        size = mean * mean / (variance - mean) if variance > mean else None
        fewer = chances_up_to(mean, size, last - 1)
        told.append([1 - fewer[count - 1] for count in range(first, last + 1)])
    return told


def _added(worths):
    total = 0.0
    for worth in worths:
        total += worth
    return total
