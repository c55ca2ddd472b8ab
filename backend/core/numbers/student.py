"""Student's t: how far a mean of few values may be off."""

from math import atan, pi, sqrt

HALVINGS = 60
DOUBLINGS = 64  # from 1 on, beyond what any chance below 1 asks for


# so far out nothing is left beyond, and its square is a number still
FURTHEST = 1e150


def student_below(t, freedom):
    """Tell the chance that Student's t lies below a value.

    Takes: freedom, whole degrees of freedom, at least 1.
    Source: Abramowitz & Stegun, 26.7.3 and 26.7.4.
    Example: student_below(0.0, 7) == 0.5
    """
    inside = _within(abs(t), freedom)
    return (1 + inside) / 2 if t > 0 else (1 - inside) / 2


def student_quantile(chance, freedom):
    """Find the value below which Student's t lies with a chance above 0 and below 1.

    Example: abs(student_quantile(0.975, 10) - 2.228139) < 5e-7
    """
    if chance < 0.5:
        return -_edge_of(1 - 2 * chance, freedom)
    return _edge_of(2 * chance - 1, freedom)


def _edge_of(wanted, freedom):
    # how far to either side so much of the chance lies
    low, high = 0.0, 1.0
    for _ in range(DOUBLINGS):
        if _within(high, freedom) >= wanted:
            break
        low, high = high, 2 * high
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if _within(middle, freedom) < wanted:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _within(t, freedom):
    # the chance to lie between -t and t: a series that ends, in the cosine of atan(t / sqrt(freedom));
    # to a float's last bits it may come out above 1
    t = min(t, FURTHEST)
    whole = freedom + t * t
    square = freedom / whole
    sine = t / sqrt(whole)
    if freedom % 2 == 0:
        return min(1.0, sine * _series(square, 1, freedom - 2))
    angle = atan(t / sqrt(freedom))
    if freedom > 1:
        angle += sine * sqrt(square) * _series(square, 2, freedom - 2)
    return min(1.0, 2 * angle / pi)


def _series(square, first, last):
    # 1 + 1/2·square·(1 + 3/4·square·(1 + …)) for first 1, 2/3 and 4/5 for 2, up to what is divided by `last`
    total = 1.0
    for below in range(last, first, -2):
        total = 1 + (below - 1) / below * square * total
    return total
