"""How strongly a common level holds where rows differ by more than chance alone would make them."""

LEAST, MOST = 1.0, 1000000.0


def strength(rows, freedom):
    """Estimate how strongly rows hold to what is expected of them.

    Takes: rows of (counted, expected, weight); freedom, rows less what their expectations were fitted with.
    Returns: the strength c, in the unit of the weights, from LEAST to MOST: a row's own level varies by its
    square ÷ c for a gamma law; MOST where rows differ by no more than Poisson's law lets them.
    Source: Pearson's statistic, set to its mean (method of moments).
    Example: strength([(4, 2.0, 2.0), (0, 2.0, 2.0)], 1) == 4 / 3
    """
    apart = whole = 0.0
    for counted, expected, weight in rows:
        whole += weight
        if expected > 0:
            apart += (counted - expected) * (counted - expected) / expected
    if apart <= freedom:
        return MOST
    return min(MOST, max(LEAST, whole / (apart - freedom)))
