"""What some texts must look like: dates, times, ids, recurrence rules."""

from .numerals import all_digits

FIRST_YEAR, LAST_YEAR = 2000, 2199
FREQUENCIES = ("DAILY", "WEEKLY", "MONTHLY", "YEARLY")
RULE_PARTS = ("FREQ", "UNTIL", "COUNT", "INTERVAL", "BYDAY", "BYMONTHDAY", "BYMONTH", "BYSETPOS", "BYYEARDAY",
              "BYWEEKNO", "WKST")  # fmt: skip
OF_IDS = "0123456789abcdef-"


def is_date(text):
    """Say whether text is a day of the calendar, YYYY-MM-DD, of a year that people plan and look back in."""
    parts = text.split("-")
    if [len(part) for part in parts] != [4, 2, 2] or not all_digits("".join(parts)):
        return False
    year, month, day = [int(part) for part in parts]
    if not 1 <= month <= 12 or not FIRST_YEAR <= year <= LAST_YEAR:
        return False
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    days = {2: 29 if leap else 28, 4: 30, 6: 30, 9: 30, 11: 30}.get(month, 31)
    return 1 <= day <= days


def is_time(text):
    """Say whether text is a time of day, HH:MM."""
    if len(text) != 5 or text[2] != ":" or not all_digits(text[:2] + text[3:]):
        return False
    return int(text[:2]) < 24 and int(text[3:]) < 60


def is_id(text):
    """Say whether text is a UUID as RFC 9562 writes it, in small letters."""
    if len(text) != 36 or text.count("-") != 4 or text.strip(OF_IDS):
        return False
    return text[8] == text[13] == text[18] == text[23] == "-"


def is_stamp(text):
    """Say whether text is a stamp: 13 digits, 4 digits and a device's id, joined by hyphens."""
    if len(text) != 55 or text[13] != "-" or text[18] != "-":
        return False
    return all_digits(text[:13] + text[14:18]) and is_id(text[19:])


def is_recurrence(text):
    """Say whether text reads as a recurrence rule (RFC 5545, section 3.3.10).

    Its parts are known, each there once and not empty, and FREQ a whole day or
    more; what the values say together is the calendar library's to judge.
    """
    parts = [part.split("=") for part in text.split(";")]
    if [part for part in parts if len(part) != 2 or not part[1] or part[0] not in RULE_PARTS]:
        return False
    rule = dict([(part[0], part[1]) for part in parts])
    return len(rule) == len(parts) and rule.get("FREQ") in FREQUENCIES


SHAPES = {
    "date": is_date,
    "time": is_time,
    "id": is_id,
    "stamp": is_stamp,
    "recurrence": is_recurrence,
}
