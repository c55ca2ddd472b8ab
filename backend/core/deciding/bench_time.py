"""How many minutes there are for sewing before each of the next bookings."""

from ..costing.time_taken import minutes_worked
from ..declaring.spec import by_name
from ..numbers.calendar import WEEKDAYS, day_of, number_of, weekday
from ..records.descriptions import BENCH_NAMES
from .make_next import BOOKING

MOST_MINUTES = by_name(BOOKING)["minutes"].highest
WEEK = len(WEEKDAYS)
# a habit shows in so many weeks
WEEKS_LOOKED_AT = 8
SAID, TYPED, WORKED, UNKNOWN = "said", "typed", "worked", "unknown"


def minutes_of_weekdays(recorded, day, week_minutes):
    """Tell how long she sews on each day of a week, and what that is known from.

    Takes: day, of the asking; week_minutes, as she typed them, shared evenly, None where she did not.
    Returns: (minutes from Monday on, "said" by the business | "typed" | "worked", of the laps of the last
    eight weeks, | "unknown", all 0).
    """
    business = recorded.business()
    said = [business[name] for name in BENCH_NAMES]
    if [minutes for minutes in said if minutes]:
        return [minutes or 0.0 for minutes in said], SAID
    if week_minutes is not None:
        return [week_minutes / WEEK] * WEEK, TYPED
    today = number_of(day)
    earliest = day_of(max(1, today - WEEKS_LOOKED_AT * WEEK))
    minutes, first = minutes_worked(recorded, earliest, day)
    if not minutes:
        return [0.0] * WEEK, UNKNOWN
    days = max(WEEK, today - number_of(first))
    return [minutes / days] * WEEK, WORKED


def bench_minutes(bookings, day, of_weekdays):
    """List the minutes for sewing before each booking since the one before it, from a day on.

    The day itself counts; days of a market do not. More than MOST_MINUTES are not told apart.
    Takes: bookings, [{"days"}] in the order of their first days; of_weekdays, minutes from Monday on.
    Example: bench_minutes([{"days": ["2026-03-14"]}], "2026-03-12", [60.0] * 7) == [120.0]
    """
    away = {one: True for booking in bookings for one in booking["days"]}
    told, now = [], number_of(day)
    for booking in bookings:
        minutes, begins = 0.0, number_of(booking["days"][0])
        while now < begins and minutes < MOST_MINUTES:
            if day_of(now) not in away:
                minutes += of_weekdays[weekday(now)]
            now += 1
        now = max(now, begins)
        told.append(min(minutes, MOST_MINUTES))
    return told


def less(minutes, taken):
    """Take minutes that are spoken for off the first there are.

    Example: less([60.0, 30.0], 70) == [0.0, 20.0]
    """
    told = []
    for each in minutes:
        told.append(max(0.0, each - taken))
        taken = max(0.0, taken - each)
    return told
