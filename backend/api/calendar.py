"""The bookings as a calendar that any calendar program reads (RFC 5545)."""

import heapq
from datetime import UTC, date, datetime, time, timedelta

from icalendar import Calendar, Event, vRecur

from ..core.numbers.shapes import is_date
from ..core.records.checking import kind_named
from ..core.records.descriptions_of_markets import terms_of
from ..core.records.naming import name_of
from ..store import records

MEDIA_TYPE = "text/calendar"
PRODUCT = "-//Boltfair//Bookings//EN"
MOST = 100_000
# what a calendar program reads again and again; helpers book any number of days
MOST_DAYS, DAYS_BACK = 1_000, 366


def write(connection, business, now):
    """Write a business's bookings, and the markets that recur, as an iCalendar file.

    Times are local to the stall, as they were typed: no time zone is given. What a helper may not know, all
    that is money, is in none of it. Of the booked days those since a year ago are in it, of more than
    MOST_DAYS the nearest; that many, of whatever time, are left out of markets that recur.
    """
    read = lambda kind: records.page(connection, business, kind, "helper", None, MOST, {})  # noqa: E731
    markets = _by_id(read("market"))
    bookings = [booking for booking in read("booking") if booking["days"] and not booking["archived"]]
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    stamped = datetime.fromtimestamp(now // 1000, UTC)
    packed = _packed(read)
    recurring = {id: market for id, market in markets.items() if _recurs(market)}
    first = (stamped.date() - timedelta(days=DAYS_BACK)).isoformat()
    days = [(day, booking) for booking in bookings for day in filter(is_date, booking["days"])]
    for day, booking in _nearest([one for one in days if one[0] >= first], stamped.date()):
        market, bring = markets.get(booking["market"]), packed.get(booking["id"], "")
        calendar.add_component(_event(booking, market, bring, day, stamped))
    booked = {}
    for day, booking in _nearest([one for one in days if one[1]["market"] in recurring], stamped.date()):
        booked.setdefault(booking["market"], set()).add(day)
    for market in recurring.values():
        calendar.add_component(_recurring(market, booked.get(market["id"], ()), stamped))
    return calendar.to_ical()


def _nearest(days, today):
    """Find of (day, booking) the MOST_DAYS nearest to today, in their own order; of one day the first."""
    if len(days) <= MOST_DAYS:
        return days
    away = [(abs((date.fromisoformat(day) - today).days), number) for number, (day, _) in enumerate(days)]
    return [days[number] for number in sorted(number for _, number in heapq.nsmallest(MOST_DAYS, away))]


def _by_id(rows):
    return {row["id"]: row for row in rows}


def _packed(read):
    """Say what each booking's packing plan brings: {booking: text}."""
    found = {}
    plans = [plan for plan in read("plan") if plan["use"] == "pack" and not plan["archived"]]
    if not plans:
        return found
    there = {kind: _by_id(read(kind)) for kind in ("product", "piece", "cloth")}
    for plan in plans:
        lines = [f"{line['quantity']} × {_named(line['product'], there)}" for line in plan["lines"] or []]
        # of two plans, which phones made before they were one business, the screens show the first
        found.setdefault(plan["booking"], "\n".join(["Bring", *lines]))
    return found


def _named(id, there):
    product = there["product"].get(id)
    if product is None:
        return "a product not here yet"
    return name_of(kind_named("product"), product, lambda kind, id: there[kind].get(id))


def _event(booking, market, bring, day, stamped):
    terms = {"name": booking["name"] or (market or {}).get("name"), **terms_of(booking, market)}
    terms["note"] = "\n\n".join(filter(None, [terms["note"], bring]))
    event = _begun(f"{booking['id']}-{day}", terms, stamped)
    event.add("status", "CONFIRMED")
    _add_hours(event, date.fromisoformat(day), terms["opens"], terms["closes"])
    return event


def _recurs(market):
    return market["recurrence"] and is_date(market["first_day"] or "") and not market["archived"]


def _recurring(market, booked, stamped):
    event = _begun(market["id"], market, stamped)
    event.add("status", "TENTATIVE")
    event.add("transp", "TRANSPARENT")
    first = date.fromisoformat(market["first_day"])
    _add_hours(event, first, market["opens"], market["closes"])
    try:
        event.add("rrule", vRecur.from_ical(market["recurrence"]))
    except ValueError:
        # a rule that only looks like one: the first day stands alone
        return event
    # a day that is booked is there already, as its booking
    start = event.decoded("dtstart")
    for day in sorted(booked):
        there = date.fromisoformat(day)
        event.add("exdate", datetime.combine(there, start.time()) if isinstance(start, datetime) else there)
    return event


def _begun(uid, terms, stamped):
    event = Event()
    event.add("uid", uid + "@boltfair")
    event.add("dtstamp", stamped)
    event.add("summary", terms["name"] or "Market")
    if terms["pitch"]:
        event.add("location", terms["pitch"])
    if terms["note"]:
        event.add("description", terms["note"])
    return event


def _add_hours(event, day, opens, closes):
    """Say when: from opening to closing, or the whole day where no hours are known."""
    if not (opens and closes):
        event.add("dtstart", day)
        event.add("dtend", day + timedelta(days=1))
        return
    start, end = (datetime.combine(day, time.fromisoformat(text)) for text in (opens, closes))
    event.add("dtstart", start)
    event.add("dtend", end if end > start else end + timedelta(days=1))
