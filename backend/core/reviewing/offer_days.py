"""Market days on which an offer was used, against days at the same markets on which it was not."""

from ..catalogue import answer_of_facts
from ..costing.offer_check import INPUTS
from ..declaring.spec import by_name
from ..numbers.rounding import half_up
from .ledger import Ledger

KNOWN = by_name(INPUTS)
MOST_DAYS = KNOWN["with"].most
LEAST_HOURS = by_name(KNOWN["with"].fields)["hours"].lowest


def offer_days(facts, records, sums, costs, offer):
    """Compare the days on which an offer was used with the others at the markets where it was.

    A day of a booking is with the offer where a sale that stands used it. What is left of its takings is
    without tax, after goods, fees and card; the fee for the pitch is shared by the days of its booking.
    Takes: facts, records, sums and costs as `Ledger` does, and among the facts the sales with offers and
    what voids them; offer, its id.
    Returns: {"with", "without": how many days are compared, the latest 60 of each, "no_hours": days left
    out, as opening and closing are not said, "uncosted": pieces of which no batch tells a cost, "markets":
    what those are called, "measures": as offer-check tells its days}.
    """
    ledger = Ledger(facts, records, sums, costs)
    used = _used(ledger.recorded, offer)
    record = ledger.recorded.record("offer", offer)
    groups = record["groups"] if record else []
    markets, bookings = {}, {}
    for _, booking in used:
        id, _ = ledger.market_of(booking)
        market = ledger.recorded.record("market", id)
        if market:
            markets[id] = market["name"]
    told = {"with": 0, "without": 0, "no_hours": 0, "uncosted": 0}
    rows = {"with": [], "without": []}
    for sum_of, day in zip(sums, ledger.days):
        id = day["booking"]
        if not id or ledger.market_of(id)[0] not in markets:
            continue
        if id not in bookings:
            bookings[id] = ledger.booking(id)
        row = _row(ledger.recorded, sum_of, day, bookings[id], groups)
        if row is None:
            told["no_hours"] += 1
        else:
            rows["with" if (day["day"], id) in used else "without"].append((row, day["uncosted"]))
    asked = {"uses": []}
    for name in ("with", "without"):
        latest = rows[name][-MOST_DAYS:]
        told[name] = len(latest)
        asked[name] = [row for row, _ in latest]
        for _, uncosted in latest:
            told["uncosted"] += max(0, uncosted)
    told["markets"] = [markets[id] for id in ledger.recorded.ids("market") if id in markets]
    told["measures"] = answer_of_facts("offer-check", asked)["result"]["days"]
    return told


def _used(recorded, offer):
    used = {}
    for sale in recorded.of("sale"):
        if sale["booking"] and [row for row in sale["offers"] if row["offer"] == offer]:
            used[(sale["day"], sale["booking"])] = True
    return used


def _row(recorded, sum_of, day, booking, groups):
    days = max(1, len(booking["days"]))
    hours = (booking["open_minutes"] or 0) / 60 / days
    if hours < LEAST_HOURS:
        return None
    left = day["takings"] - day["refunds"] - day["goods"] - day["share"] - day["card"]
    return {
        "hours": hours,
        "sales": sum_of["sales"],
        "pieces": sum_of["pieces"],
        "group_pieces": max(0, min(sum_of["pieces"], _of_groups(recorded, sum_of, groups))),
        "contribution": left - half_up(booking["fee"] / days),
    }


def _of_groups(recorded, sum_of, groups):
    # of a size alone: where any product of it is of the groups, as an offer takes it then
    pieces, sizes = 0, {}
    for id in recorded.ids("product"):
        product = recorded.record("product", id)
        if product["group"] in groups:
            pieces += sum_of["products"].get(id, 0)
            sizes[product["size"]] = True
    for size in sizes:
        pieces += sum_of["sizes"].get(size, 0)
    return pieces
