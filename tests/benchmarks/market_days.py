"""The market days of the demo's year as `bring-to-market` asks for them, by sums of our own over facts."""

from collections import Counter, defaultdict
from datetime import UTC, date, datetime

from backend.demo.loading import evenings

BUSINESS = "0190a000-0000-7000-8000-000000000001"
HOUR_MS = 3_600_000


def days_of_the_demo(today=date(2026, 1, 1)):
    """Live the demo's year: ([a day as the calculator's `days`], [{"product", "group"}])."""
    changes = [change for _, _, made in evenings(BUSINESS, today) for change in made]
    described, facts = defaultdict(dict), []
    for change in changes:
        if "record" in change:
            described[change["kind"]].setdefault(change["record"], {}).update(change["fields"])
        else:
            facts.append(change["fields"] | {name: change[name] for name in ("kind", "id", "at")})
    _, table = described["place"]
    by_day = defaultdict(list)
    for fact in sorted(standing(facts), key=lambda fact: (fact["at"], fact["id"])):
        if table in (fact.get("place"), fact.get("from"), fact.get("to")):
            by_day[fact["day"]].append(fact)
    told, stock = [], Counter()
    for day, here in sorted(by_day.items()):
        booking = booked(described["booking"], day)
        if booking and any(fact["kind"] == "sale" for fact in here):
            told.append(market_day(booking, here, table, stock))
        else:
            for fact in here:
                stock.update(moved(fact, table))
    groups = [{"product": id, "group": row["group"]} for id, row in described["product"].items()]
    return told, groups


def standing(facts):
    """Leave out sales that never happened."""
    never = {fact["sale"] for fact in facts if fact["kind"] == "void"}
    return [fact for fact in facts if fact["id"] not in never]


def booked(bookings, day):
    """Find the booking of a day; None where there is none."""
    return next((booking for booking in bookings.values() if day in booking["days"]), None)


def moved(fact, place):
    """Tell how many pieces of each product come to a place by a fact, or leave it."""
    pieces = Counter()
    if fact["kind"] == "move":
        pieces[fact["product"]] = fact["quantity"] * (1 if fact["to"] == place else -1)
    elif fact["kind"] == "set-aside":
        pieces[fact["product"]] = -fact["quantity"]
    elif fact["kind"] == "sale":
        for sign, lines in ((-1, fact["lines"]), (1, fact.get("returned", ()))):
            for line in lines:
                pieces[line.get("product")] += sign * line["quantity"]
    elif fact["kind"] == "refund" and fact["goods"] == "table":
        for line in fact["lines"]:
            pieces[line.get("product")] += line["quantity"]
    del pieces[None]
    return pieces


def market_day(booking, facts, table, stock):
    """Tell of one day what each product sold, when it had sold out, and how often it was asked for then."""
    opens, closes = (int(booking[name][:2]) for name in ("opens", "closes"))
    # the demo lives by UTC
    opened = datetime.fromisoformat(facts[0]["day"]).replace(tzinfo=UTC).timestamp() * 1000 + opens * HOUR_MS
    hours = closes - opens
    sold, asked, ended = Counter(), Counter(), {}
    there = None
    for fact in facts:
        if there is None and fact["kind"] == "sale":
            there = {product for product in stock if stock[product] > 0}
        stock.update(moved(fact, table))
        if fact["kind"] == "sale":
            sold.subtract(moved(fact, table))
            for product in there:
                if stock[product] <= 0:
                    ended.setdefault(product, (fact["at"] - opened) / HOUR_MS)
        if fact["kind"] == "asked-for":
            asked[fact["product"]] += 1
        # what was not seen to go is found by the count at the end
        if fact["kind"] == "count-line" and fact["place"] == table:
            stock[fact["product"]] = fact["quantity"]
    rows = []
    for product in sorted(there):
        row = {"product": product, "sold": max(0, sold[product])}
        if product in ended:
            row |= {"hours": min(hours, max(0.01, ended[product])), "asked": asked[product]}
        rows.append(row)
    return {"market": booking.get("market") or booking["name"], "hours": hours, "rows": rows}
