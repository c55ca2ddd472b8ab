"""The heights that rows right across a cloth are tried at."""

from ...numbers.ordering import in_order

STACKED = 3  # the most strips over each other that a row may be as high as
MOST_PRICED = 960  # heights times ways to lie, where the strips over each other may be unlike


def row_heights(lying, longest, stages, mixes):
    """List heights worth trying, the highest first.

    Takes: lying, of `kinds_of`; longest, the length of the cloth; stages, as `Solver` has
    them; mixes, whether strips of several sizes may lie over each other.
    Returns: the height of each way to lie; where strips are mixed, also of a few like strips over
    each other, or of any few where cuts have any number of stages and there is time to try all.
    """
    alone = {high: True for _, high, _, _ in lying}
    most = STACKED if mixes else 1
    heights = _sums(alone, longest, most, stages == 0)
    if len(heights) * len(lying) > MOST_PRICED:
        heights = _sums(alone, longest, most, False)
    return in_order(heights, lambda height: -height)


def _sums(alone, longest, most, mixed):
    # of up to so many heights, alike or any
    found, last = dict(alone), alone
    for times in range(2, most + 1):
        if mixed:
            last = {before + high: True for before in last for high in alone}
        else:
            last = {high * times: True for high in alone}
        found.update(last)
    return [high for high in found if high <= longest]
