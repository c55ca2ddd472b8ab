"""Minutes at the bench before each of the next bookings."""

from backend.core.deciding.bench_time import bench_minutes, less, minutes_of_weekdays
from backend.core.records.recorded import Recorded
from tests.core.costing.one_batch import FACTS, RECORDS

EVENINGS = [60.0] * 5 + [0.0, 120.0]
# 2026-05-04 is a Monday
MONDAY = "2026-05-04"
SATURDAY = {"days": ["2026-05-09"]}


def test_each_weekday_has_its_minutes_up_to_the_first_day_of_a_booking():
    assert bench_minutes([SATURDAY], MONDAY, EVENINGS) == [300.0]
    # on Saturday nothing is left of the week
    assert bench_minutes([SATURDAY], "2026-05-09", EVENINGS) == [0.0]


def test_days_of_a_market_have_none_and_later_bookings_get_what_follows():
    fair = {"days": ["2026-05-12", "2026-05-13"]}
    # Sunday and Monday, then Thursday and Friday
    assert bench_minutes([SATURDAY, fair, {"days": ["2026-05-16"]}], MONDAY, EVENINGS) == [300, 180, 120]


def test_a_booking_under_way_gives_no_time_before_it():
    under_way = {"days": ["2026-05-03", MONDAY]}
    assert bench_minutes([under_way, SATURDAY], MONDAY, EVENINGS) == [0, 240]


def test_a_booking_far_ahead_has_as_many_minutes_as_can_be_planned_with():
    far = {"days": ["2099-05-09"]}
    assert bench_minutes([SATURDAY, far, {"days": ["2099-05-10"]}], MONDAY, [60.0] * 7) == [300, 100000, 0]


def test_what_is_spoken_for_goes_off_the_first_minutes():
    assert less([60.0, 30.0, 90.0], 75) == [0, 15, 90]
    assert less([60.0], 100) == [0]


def test_what_the_business_says_stands_before_what_is_typed_and_that_before_laps():
    recorded = Recorded(FACTS, RECORDS)
    [business] = RECORDS["business"].values()
    said = {"b": {**business, "bench_monday": 60, "bench_sunday": 0}}
    told = minutes_of_weekdays(Recorded(FACTS, {**RECORDS, "business": said}), "2026-05-10", 700)
    assert told == ([60, 0, 0, 0, 0, 0, 0], "said")
    assert minutes_of_weekdays(recorded, "2026-05-10", 700) == ([100] * 7, "typed")
    # 27, 5 and, disturbed, 5 minutes on 2 May, eight days before: 37 in eight days
    assert minutes_of_weekdays(recorded, "2026-05-10", None) == ([37 / 8] * 7, "worked")
    # within a week it is taken for a week's
    assert minutes_of_weekdays(recorded, "2026-05-03", None) == ([37 / 7] * 7, "worked")


def test_nobody_knows_where_nothing_was_timed_lately():
    recorded = Recorded(FACTS, RECORDS)
    assert minutes_of_weekdays(recorded, "2026-09-10", None) == ([0] * 7, "unknown")
    assert minutes_of_weekdays(Recorded([], {}), "2026-05-10", None) == ([0] * 7, "unknown")
