"""Days of the calendar as numbers, so that they can be counted on and back (Gregorian, ISO 8601)."""

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MINUTE_MS = 60000
LENGTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# 1970-01-01, from which instants are told
EPOCH = 719162
DAYS_OF_400_YEARS = 146097


def number_of(day):
    """Count the days from 1 January of the year 1, a Monday, to a day YYYY-MM-DD.

    Example: number_of("1970-01-01") == EPOCH
    """
    return count(*parts(day))


def day_of(number):
    """Write the day of such a number.

    Example: day_of(EPOCH + 59) == "1970-03-01"
    """
    # a year too early at most, as none is shorter than its average by a day
    year = number * 400 // DAYS_OF_400_YEARS
    year = max(1, year)
    while count(year + 1, 1, 1) <= number:
        year += 1
    month = 1
    left = number - count(year, 1, 1)
    while left >= length(year, month):
        left -= length(year, month)
        month += 1
    return written(year, month, left + 1)


def weekday(number):
    """Say which day of the week it is, 0 for Monday.

    Example: weekday(number_of("2026-03-14")) == 5
    """
    return number % 7


def parts(day):
    """Take YYYY-MM-DD apart: year, month, day of the month."""
    return int(day[:4]), int(day[5:7]), int(day[8:])


def written(year, month, number):
    """Write a day as YYYY-MM-DD."""
    return "-".join([padded(year, 4), padded(month, 2), padded(number, 2)])


def padded(number, width):
    """Write a whole number with zeros before it. Example: padded(7, 3) == "007" """
    return ("0000000000000" + str(number))[-width:]


def length(year, month):
    """Tell how many days a month has."""
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return 29 if month == 2 and leap else LENGTHS[month - 1]


def count(year, month, number):
    """Count the days from 1 January of the year 1 to a day told by its parts."""
    before = year - 1
    days = before * 365 + before // 4 - before // 100 + before // 400
    for other in range(1, month):
        days += length(year, other)
    return days + number - 1
