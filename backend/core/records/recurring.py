"""When a market recurs: rules to choose from, and the days they give."""

from ..declaring.errors import refuse
from ..numbers.calendar import WEEKDAYS, count, length, parts, weekday, written
from ..numbers.shapes import is_date

CODES = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
NTH = ("", "first", "second", "third", "fourth", "fifth")
# a rule that gives no day for so long gives none: a fifth Saturday comes sooner
LOOKED_AHEAD = 190


def recurrences(day):
    """List the rules that a day may be the first of: [{"rule", "words"}].

    Takes: day, YYYY-MM-DD. Raises: Problems on `day`.
    Source: RFC 5545, section 3.3.10.
    """
    if not is_date(day):
        refuse("day", "date", None, None, "day")
    year, month, number = parts(day)
    at = _weekday(year, month, number)
    name, code, nth = WEEKDAYS[at], CODES[at], (number - 1) // 7 + 1
    rules = [
        ("FREQ=WEEKLY;BYDAY=" + code, "every week, on " + name),
        ("FREQ=WEEKLY;INTERVAL=2;BYDAY=" + code, "every second week, on " + name),
    ]
    if nth < 5:
        words = "every month, on the " + NTH[nth] + " " + name
        rules.append(("FREQ=MONTHLY;BYDAY=" + "1234"[nth - 1] + code, words))
    if number + 7 > length(year, month):
        rules.append(("FREQ=MONTHLY;BYDAY=-1" + code, "every month, on the last " + name))
    return [{"rule": rule, "words": words} for rule, words in rules]


def next_days(rule, day, after, most):
    """List the next days of a rule, from a day on.

    Takes: rule, one that `recurrences` gives for day, its first; after, the
    earliest day wanted; most, how many. Another rule gives no days.
    Raises: Problems on `day` or `after`.
    Example: next_days("FREQ=WEEKLY;BYDAY=SA", "2026-03-14", "2026-03-16", 2) == ["2026-03-21", "2026-03-28"]
    """
    if not is_date(after):
        refuse("after", "date", None, None, "day")
    if rule not in [choice["rule"] for choice in recurrences(day)]:
        return []
    found, (year, month, number) = [], parts(max(day, after))
    first = count(*parts(day))
    for _ in range(LOOKED_AHEAD):
        if len(found) < most and _recurs(rule, first, year, month, number):
            found.append(written(year, month, number))
        year, month, number = _next(year, month, number)
    return found


def _recurs(rule, first, year, month, number):
    if CODES[_weekday(year, month, number)] != rule[-2:]:
        return False
    if "INTERVAL=2" in rule:
        return (count(year, month, number) - first) % 14 == 0
    if "MONTHLY" not in rule:
        return True
    if "-1" in rule:
        return number + 7 > length(year, month)
    return (number - 1) // 7 + 1 == int(rule[-3])


def _next(year, month, number):
    if number < length(year, month):
        return year, month, number + 1
    return (year, month + 1, 1) if month < 12 else (year + 1, 1, 1)


def _weekday(year, month, number):
    return weekday(count(year, month, number))
