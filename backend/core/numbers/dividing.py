"""What whole numbers divide, as the phone's runtime has no such functions."""


def greatest_common_divisor(one, other):
    """Find the largest whole number that both are multiples of.

    Example: greatest_common_divisor(482, 110) == 2
    """
    while other:
        one, other = other, one % other
    return one


def least_common_multiple(one, other):
    """Find the smallest whole number that is a multiple of both.

    Example: least_common_multiple(4, 6) == 12
    """
    return one // greatest_common_divisor(one, other) * other
