"""When a market recurs, checked against the calendar library."""

from datetime import date, datetime, timedelta

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given
from hypothesis import strategies as some

from backend.core.declaring.errors import Problems
from backend.core.numbers.shapes import is_recurrence
from backend.core.records.recurring import next_days, recurrences

# with what is asked after them, all within the years that a day may be of
DAYS = some.dates(date(2000, 2, 1), date(2198, 6, 1))


@given(DAYS, some.integers(-20, 400))
def test_the_next_days_are_those_of_the_calendar_library(first, later):
    after = first + timedelta(later)
    for choice in recurrences(str(first)):
        assert is_recurrence(choice["rule"])
        found = next_days(choice["rule"], str(first), str(after), 3)
        start = datetime.combine(first, datetime.min.time())
        wanted = rrulestr(choice["rule"], dtstart=start).xafter(
            datetime.combine(after, datetime.min.time()), count=3, inc=True
        )
        assert found == [str(day.date()) for day in wanted]


def test_the_choices_are_said_in_words():
    words = [choice["words"] for choice in recurrences("2026-11-28")]
    assert words == [
        "every week, on Saturday", "every second week, on Saturday",
        "every month, on the fourth Saturday", "every month, on the last Saturday",
    ]  # fmt: skip


def test_another_rule_gives_no_days():
    assert next_days("FREQ=DAILY", "2026-11-28", "2026-11-28", 3) == []


def test_a_day_that_is_none_is_refused():
    with pytest.raises(Problems):
        recurrences("2026-02-30")
