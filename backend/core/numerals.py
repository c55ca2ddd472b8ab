"""Digits in and out, without the runtimes' float formatting, which differs."""

from .rounding import half_up


def decimal(value, places, rounded=half_up):
    """Write a number with at most `places` decimals, trailing zeros dropped.

    Takes: rounded, which way the last digit goes: half_up, floor or ceil.
    Example: decimal(46.25, 1) == "46.3"
    """
    digits = pointed(rounded(value * 10**places), places)
    if places == 0:
        return digits
    while digits[-1] == "0":
        digits = digits[:-1]
    return digits[:-1] if digits[-1] == "." else digits


def pointed(count, places):
    """Write a whole number of the smallest parts with the point put in.

    Example: pointed(890, 2) == "8.90"
    """
    scale = 10**places
    sign = "-" if count < 0 else ""
    count = abs(count)
    whole = str(count // scale)
    if places == 0:
        return sign + whole
    part = str(count % scale)
    return sign + whole + "." + "0" * (places - len(part)) + part


def eighths(value, rounded=half_up):
    """Write a number in eighths as on a tape: whole and fraction.

    Example: eighths(18.125) == "18 1/8"
    """
    count = rounded(value * 8)
    sign = "-" if count < 0 else ""
    count = abs(count)
    whole, rest, below = count // 8, count % 8, 8
    while rest and rest % 2 == 0:
        rest, below = rest // 2, below // 2
    if not rest:
        return sign + str(whole)
    fraction = str(rest) + "/" + str(below)
    return sign + (str(whole) + " " + fraction if whole else fraction)


def parse(text):
    """Read a typed number: `46.2`, `46,2`, `18 1/8`, `1/8`; None if it is none.

    A whole number comes back as an int, so that counts stay counts.
    """
    # the runtimes' own split() disagree on what else is a space
    words = [word for word in text.replace("\u00a0", " ").split(" ") if word]
    if not words or len(words) > 2:
        return None
    sign = 1
    if words[0][0] == "-":
        sign, words[0] = -1, words[0][1:]
    values = [_fraction(word) if "/" in word else _decimal(word) for word in words]
    if None in values:
        return None
    if len(values) == 2:
        # "18 1/8" is a mixed number; "18 5" is a slip of the thumb
        if not all_digits(words[0]) or "/" not in words[1]:
            return None
        return sign * (values[0] + values[1])
    return sign * values[0]


def _decimal(word):
    whole, _, part = word.replace(",", ".").partition(".")
    digits = whole + part
    if not digits or len(digits) > 15 or not all_digits(digits):
        return None
    # one division of exact integers rounds alike on both runtimes
    return int(digits) / 10 ** len(part) if part else int(digits)


def _fraction(word):
    above, _, below = word.partition("/")
    if not all_digits(above) or not all_digits(below) or len(word) > 9 or int(below) == 0:
        return None
    return int(above) / int(below)


def all_digits(text):
    """Say whether text is one or more of the digits 0 to 9."""
    if not text:
        return False
    for mark in text:
        if mark < "0" or mark > "9":
            return False
    return True
