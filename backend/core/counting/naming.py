"""What counts are called, so that phones without signal mean the same one."""

from ..declaring.errors import refuse

NAMED = ("opening", "midday", "closing")


def count_name(place, day, which):
    """Write the name whose UUIDv5 within the business is a count's session id.

    Takes: place, its id; day, the local day, YYYY-MM-DD; which, `opening`,
    `midday`, `closing`, or the number of a further one, from 1.
    Raises: Problems on `which`.
    Source: RFC 9562, section 5.5.
    Example: count_name("home", "2026-03-14", "opening") == "home 2026-03-14 opening"
    """
    if which not in NAMED and not _is_number(which):
        refuse("which", "choice", which, ", ".join(NAMED + ("1, 2, …",)), "choice")
    return place + " " + day + " " + which


def _is_number(text):
    digits = [mark for mark in text if "0" <= mark <= "9"]
    return 0 < len(digits) == len(text) and text[0] != "0"
