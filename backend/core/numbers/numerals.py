"""Digits in and out, without the runtimes' float formatting, which differs."""

from .rounding import half_up

# no, one, two … eighths, as they are typed and as they are printed
TYPED = ("", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8")
PRINTED = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")
# fractions in one mark, and marks that mean the same as another
READ = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "⅓": "1/3",
    "⅔": "2/3",
}
SAME = {
    "⁄": "/",
    "∕": "/",
    "−": "-",
    "–": "-",
    "‐": "-",
    "‑": "-",
    "\u00a0": " ",
    "\u202f": " ",
    "\u2009": " ",
}


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
    """Write a number in eighths as it is typed: whole and fraction.

    Example: eighths(18.125) == "18 1/8"
    """
    return _in_eighths(value, rounded, " ", TYPED)


def read_eighths(value, rounded=half_up):
    """Write a number in eighths as on a tape. Example: read_eighths(18.125) == "18⅛" """
    return _in_eighths(value, rounded, "", PRINTED)


def _in_eighths(value, rounded, joint, fractions):
    count = rounded(value * 8)
    sign = "-" if count < 0 else ""
    whole, fraction = abs(count) // 8, fractions[abs(count) % 8]
    if not whole and fraction:
        return sign + fraction
    return sign + str(whole) + (joint + fraction if fraction else "")


def parse(text):
    """Read a typed number: `46.2`, `46,2`, `18 1/8`, `18-1/8`, `18⅛`, `1/8`; None if it is none.

    A whole number comes back as an int, so that counts stay counts.
    """
    text = _plain(text)
    sign = 1
    if text[:1] == "-":
        sign, text = -1, text[1:]
    words = text.split(" ")
    for joint in ("-", "+"):
        if joint in text:
            # "18-1/8" and "18 - 1/8" are mixed numbers; "18 -1/8" may mean to take away
            words = (
                [word for word in words if word != joint] if " " + joint + " " in text else text.split(joint)
            )
            if len(words) != 2:
                return None
    if len(words) > 2:
        return None
    values = [_fraction(word) if "/" in word else _decimal(word) for word in words]
    if None in values:
        return None
    if len(values) == 2:
        # "18 1/8" is a mixed number; "18 5" is a slip of the thumb
        if not all_digits(words[0]) or "/" not in words[1]:
            return None
        return sign * (values[0] + values[1])
    return sign * values[0]


def _plain(text):
    # the many marks that keyboards have for one thing, as one; a fraction in one mark joins what is before it
    plain = ""
    for mark in text:
        if mark in READ:
            plain += (READ[mark] if plain[-1:] in ("-", "+") else " " + READ[mark]) + " "
        else:
            plain += SAME.get(mark, mark)
    # the runtimes' own split() disagree on what else is a space
    return " ".join([word for word in plain.split(" ") if word]).replace(" / ", "/")


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
