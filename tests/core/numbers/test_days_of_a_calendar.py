"""Days as numbers, against Python's own calendar."""

from datetime import date

from backend.core.numbers.calendar import day_of, number_of, weekday


def test_every_day_of_two_centuries_is_counted_there_and_back():
    # ordinals count from 1, our days from 0
    for ordinal in range(date(2000, 1, 1).toordinal(), date(2200, 1, 1).toordinal()):
        day = date.fromordinal(ordinal)
        assert number_of(day.isoformat()) == ordinal - 1
        assert day_of(ordinal - 1) == day.isoformat()
        assert weekday(ordinal - 1) == day.weekday()


def test_the_first_days_and_the_leap_days_are_right():
    assert day_of(0) == "0001-01-01"
    for day in ("0001-12-31", "1600-02-29", "1900-02-28", "2000-02-29", "2400-12-31"):
        assert day_of(number_of(day)) == day
