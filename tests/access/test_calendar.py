"""The calendar, read by what RFC 5545 says and by nothing that wrote it."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from backend.api import calendar as module
from backend.api.calendar import MOST_DAYS
from tests.phones import uuid7

# when it is read
TODAY = datetime(2026, 5, 1, 7, 30, tzinfo=UTC)

LONG = (
    "Bring the trestles; tent pegs, and the \\ sign. "
    + "Grüße an die Nähstube \U0001f9f5 " * 5
    + "\nRing first"
)


def read(text):
    """Read content lines (section 3.1): a list of components, each {name: (parameters, value)}."""
    lines = text.removesuffix("\r\n").split("\r\n")
    assert not any("\n" in line or "\r" in line for line in lines)
    assert all(len(line.encode()) <= 75 for line in lines)
    components, unfolded = [], re.sub("\r\n[ \t]", "", text).split("\r\n")[:-1]
    open_ones = []
    for line in unfolded:
        name, parameters, value = re.fullmatch('([A-Z-]+)((?:;[A-Z-]+=[^:;"]+)*):(.*)', line).groups()
        if name == "BEGIN":
            open_ones.append({"BEGIN": value})
        elif name == "END":
            component = open_ones.pop()
            assert component["BEGIN"] == value
            components.append(component)
        else:
            open_ones[-1].setdefault(name, []).append((parameters, value))
    assert not open_ones
    return components


def plain(value):
    """Undo the escapes of a TEXT (section 3.3.11)."""
    assert not re.search(r"(?<!\\)(\\\\)*[;,]", value)
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], value)


@pytest.fixture
def calendar(owner, monkeypatch):
    """Send edits, and read the calendar as of TODAY: (the calendar's own lines, its events)."""
    write, today = module.write, int(TODAY.timestamp()) * 1000
    monkeypatch.setattr(module, "write", lambda connection, business, now: write(connection, business, today))

    def read_with(*edits):
        results = owner.exchange([owner.edit(kind, uuid7(), fields) for kind, fields in edits])["results"]
        assert {result["status"] for result in results} <= {"accepted"}, results
        reply = owner.ask("GET", "/bookings.ics")
        assert reply.mimetype == "text/calendar"
        *events, whole = read(reply.data.decode())
        assert whole["BEGIN"] == "VCALENDAR" and {event["BEGIN"] for event in events} <= {"VEVENT"}
        return whole, events

    return read_with


def test_it_is_a_calendar_even_without_a_booking(calendar):
    whole, events = calendar()
    assert whole["VERSION"] == [("", "2.0")]
    assert len(whole["PRODID"]) == 1
    assert events == []


def test_texts_of_any_length_and_language_come_out_as_they_were_typed(calendar):
    _, [event] = calendar(
        ("booking", {"name": "Quay; market, \\ noon", "days": ["2026-05-02"], "note": LONG, "pitch": "B,7"})
    )
    assert [plain(event[name][0][1]) for name in ("SUMMARY", "DESCRIPTION", "LOCATION")] == [
        "Quay; market, \\ noon",
        LONG,
        "B,7",
    ]


def test_each_event_has_a_name_of_its_own_and_says_when_it_was_written(calendar):
    _, events = calendar(
        ("booking", {"name": "Fair", "days": ["2026-05-02", "2026-05-03"]}),
        ("booking", {"name": "Fair", "days": ["2026-05-02"]}),
    )
    names = [event["UID"] for event in events]
    assert len(events) == 3 == len({value for [(_, value)] in names})
    for event in events:
        [(parameters, stamp)] = event["DTSTAMP"]
        # in UTC (section 3.8.7.2)
        assert (parameters, stamp) == ("", "20260501T073000Z")


def test_a_day_without_hours_is_all_of_that_day(calendar):
    # the end is the day after, and not in it (section 3.6.1)
    _, [event] = calendar(("booking", {"name": "Fair", "days": ["2026-02-28"]}))
    assert event["DTSTART"] == [(";VALUE=DATE", "20260228")]
    assert event["DTEND"] == [(";VALUE=DATE", "20260301")]


def test_hours_are_local_to_the_stall_and_may_go_past_midnight(calendar):
    # neither Z nor a zone: form 1 of section 3.3.5
    _, events = calendar(
        ("booking", {"name": "Day", "days": ["2026-05-02"], "opens": "09:30", "closes": "17:00"}),
        ("booking", {"name": "Night", "days": ["2026-12-31"], "opens": "18:00", "closes": "01:00"}),
    )
    [day, night] = sorted(events, key=lambda event: event["DTSTART"])
    assert (day["DTSTART"], day["DTEND"]) == ([("", "20260502T093000")], [("", "20260502T170000")])
    assert (night["DTSTART"], night["DTEND"]) == ([("", "20261231T180000")], [("", "20270101T010000")])


def test_a_market_recurs_but_for_the_days_that_are_booked(calendar, owner):
    market = uuid7()
    terms = {"name": "Quay", "first_day": "2026-05-02", "recurrence": "FREQ=WEEKLY;BYDAY=SA"}
    owner.exchange([
        owner.edit("market", market, terms | {"opens": "09:00", "closes": "16:00"}),
        owner.edit("booking", uuid7(), {"market": market, "days": ["2026-05-09"]}),
    ])  # fmt: skip
    _, events = calendar()
    [again] = [event for event in events if "RRULE" in event]
    [booked] = [event for event in events if "RRULE" not in event]
    assert sorted(again["RRULE"][0][1].split(";")) == ["BYDAY=SA", "FREQ=WEEKLY"]
    # of the same type as DTSTART (section 3.8.5.1)
    assert again["DTSTART"] == [("", "20260502T090000")] and again["EXDATE"] == [("", "20260509T090000")]
    assert booked["DTSTART"] == [("", "20260509T090000")]
    assert plain(booked["SUMMARY"][0][1]) == "Quay"


def test_an_event_says_what_to_bring_by_the_plan_for_it_and_nothing_of_money(calendar, owner):
    size, cloth, other = uuid7(), uuid7(), uuid7()
    named, plain_one, booking = uuid7(), uuid7(), uuid7()
    long = "Grüne Wolle; dick, \\ weich " + "\U0001f9f5" * 20
    owner.exchange([
        owner.edit("piece", size, {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45}),
        owner.edit("cloth", cloth, {"name": long, "price": 4711}),
        owner.edit("product", named, {"name": "Surprise bag", "size": size, "price": 4711}),
        owner.edit("product", plain_one, {"size": size, "cloth": cloth, "price": 4711}),
        owner.edit("plan", uuid7(), {"use": "pack", "booking": booking, "lines": [
            {"product": plain_one, "quantity": 24}, {"product": named, "quantity": 6},
            {"product": uuid7(), "quantity": 1},
        ]}),
        owner.edit("plan", uuid7(), {"use": "pack", "booking": other, "archived": True,
                                     "lines": [{"product": named, "quantity": 99}]}),
        owner.edit("plan", uuid7(), {"use": "sew", "booking": other,
                                     "lines": [{"product": named, "quantity": 98}]}),
        owner.edit("booking", booking, {"name": "Fair", "days": ["2026-05-02", "2026-05-03"], "fee": 4711,
                                        "other": 4711, "note": "Ring first"}),
        owner.edit("booking", other, {"name": "Quay", "days": ["2026-05-09"]}),
    ])  # fmt: skip
    _, events = calendar()
    told = {event["DTSTART"][0][1]: event for event in events}
    bring = [
        "Ring first", "", "Bring", "24 × Everyday " + long, "6 × Surprise bag", "1 × a product not here yet"
    ]  # fmt: skip
    for day in ("20260502", "20260503"):
        assert plain(told[day]["DESCRIPTION"][0][1]).split("\n") == bring
    assert "DESCRIPTION" not in told["20260509"]
    # an id may hold any digits
    said = str([{name: value for name, value in event.items() if name != "UID"} for event in events])
    assert "47.11" not in said and "4711" not in said


def test_what_was_put_away_is_not_in_it(calendar):
    _, events = calendar(
        ("booking", {"name": "Fair", "days": ["2026-05-02"], "archived": True}),
        (
            "market",
            {"name": "Quay", "first_day": "2026-05-02", "recurrence": "FREQ=WEEKLY", "archived": True},
        ),
    )
    assert events == []


def days_from(first, count):
    """List days, YYYY-MM-DD, from so many days after today on."""
    start = TODAY.date() + timedelta(days=first)
    return [(start + timedelta(days=number)).isoformat() for number in range(count)]


def starts(events):
    return sorted(event["DTSTART"][0][1] for event in events if "RRULE" not in event)


def test_of_more_days_than_a_calendar_takes_the_nearest_are_in_it(calendar):
    # as a helper may book: 46 × 31 days, each further ahead than the last
    far = [("booking", {"name": "x", "days": days_from(10 + 31 * number, 31)}) for number in range(46)]
    _, events = calendar(*far, ("booking", {"name": "Fair", "days": days_from(-3, 2)}))
    wanted = days_from(-3, 2) + days_from(10, MOST_DAYS - 2)
    assert starts(events) == [day.replace("-", "") for day in wanted]


def test_days_of_more_than_a_year_ago_are_over(calendar):
    days = [*days_from(-400, 2), *days_from(-300, 1), *days_from(400, 1)]
    _, events = calendar(("booking", {"name": "Fair", "days": days}))
    assert starts(events) == [day.replace("-", "") for day in days[2:]]


def test_a_market_that_recurs_leaves_out_booked_days_of_long_ago_but_no_more_than_a_calendar_takes(
    calendar, owner
):
    market = uuid7()
    terms = {"name": "Quay", "first_day": "2020-01-04", "recurrence": "FREQ=DAILY"}
    owner.exchange([owner.edit("market", market, terms)])
    old = [("booking", {"market": market, "days": days_from(-400, 2)})]
    _, [again] = calendar(*old)
    assert len(again["EXDATE"]) == 2
    many = [("booking", {"market": market, "days": days_from(31 * number, 31)}) for number in range(46)]
    _, events = calendar(*many)
    [again] = [event for event in events if "RRULE" in event]
    assert len(again["EXDATE"]) == MOST_DAYS
    assert len(events) == MOST_DAYS + 1
