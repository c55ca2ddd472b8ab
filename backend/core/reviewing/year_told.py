"""A year: takings, costs and profit by month and by market, from the records."""

from ..declaring.errors import note, refuse
from ..numbers.calendar import length, padded
from ..numbers.money import add_up
from ..numbers.numerals import all_digits
from ..numbers.ordering import in_order, in_text_order
from ..numbers.rounding import half_up
from ..numbers.shapes import FIRST_YEAR, LAST_YEAR
from .ledger import Ledger

# what is taken off the takings, in the order of the columns; overheads are no market's
CHARGES = ("goods", "fees", "travel", "helpers", "expenses", "overheads")
FIGURES = ("takings",) + CHARGES + ("profit",)
# what of a booking is in which of them, at its first day; the other parts come with each day's sales
OF_BOOKING = {"fee": "fees", "travel": "travel", "helpers": "helpers", "other": "expenses"}
OF_DAY = {"goods": "goods", "share": "fees", "card": "fees"}


def year_told(facts, records, sums, costs, year, day):
    """Add up a calendar year.

    Takes: facts, records, sums and costs as `Ledger` does, records also of overheads, facts also
    purchases; year, YYYY; day, today: overheads run up to it.
    Returns: {"year", "years": those with any figure, the latest first, "months": [{"month": YYYY-MM,
    FIGURES, "bought": material bought, less the tax that comes back, "days": [{"day", "booking",
    "takings"}]}], all twelve, "markets": [{"market",
    "name", "bookings", FIGURES}], most profit first; market None for what was at none; "total":
    {FIGURES, "bought"}, "notes"}: minor units without tax; takings less what was given back; profit is
    takings less CHARGES, before her own time is paid.
    Raises: Problems on a year that is none.
    """
    _refuse_other_than_year(year)
    ledger = Ledger(facts, records, sums, costs)
    rows = _entries(ledger)
    ours = [row for row in rows if row["day"][:4] == year]
    bought = [fact for fact in ledger.recorded.of("purchase") if fact["day"][:4] == year]
    months = [_month(year + "-" + padded(month, 2), ours, bought, ledger, day) for month in range(1, 13)]
    total = {name: add_up([month[name] for month in months]) for name in FIGURES + ("bought",)}
    return {
        "year": year,
        "years": _years(rows, ledger, year),
        "months": months,
        "markets": _markets(ledger, ours),
        "total": total,
        "notes": _notes(ledger, year),
    }


def _refuse_other_than_year(year):
    if len(year) != 4 or not all_digits(year) or not FIRST_YEAR <= int(year) <= LAST_YEAR:
        refuse("year", "year", year, None, "text")


def _entries(ledger):
    # each amount with its day, its booking and the figure it is of
    rows = []
    for day in ledger.days:
        rows.append(_entry(day["day"], day["booking"], "takings", day["takings"] - day["refunds"]))
        rows += [_entry(day["day"], day["booking"], OF_DAY[part], day[part]) for part in OF_DAY]
    for id in ledger.attended():
        booking = ledger.booking(id)
        known = [row["day"] for found in (ledger.days_of, ledger.spent) for row in found.get(id, ())]
        first = min(booking["days"] or known)
        rows += [_entry(first, id, OF_BOOKING[part], booking[part]) for part in OF_BOOKING]
    for fact in ledger.recorded.of("expense"):
        rows.append(_entry(fact["day"], fact["booking"], "expenses", fact["amount"]))
    return rows


def _entry(day, booking, figure, amount):
    return {"day": day, "booking": booking, "figure": figure, "amount": amount}


def _summed(rows, overheads=0):
    told = {name: 0 for name in FIGURES}
    for row in rows:
        told[row["figure"]] += row["amount"]
    told["overheads"] = overheads
    told["profit"] = told["takings"] - add_up([told[name] for name in CHARGES])
    return told


def _month(month, rows, bought, ledger, day):
    told = {"month": month}
    told.update(_summed([row for row in rows if row["day"][:7] == month], _overheads(ledger, month, day)))
    told["bought"] = add_up([fact["amount"] - fact["tax"] for fact in bought if fact["day"][:7] == month])
    told["days"] = [
        {"day": row["day"], "booking": row["booking"], "takings": row["takings"] - row["refunds"]}
        for row in ledger.days
        if row["day"][:7] == month
    ]
    return told


def _overheads(ledger, month, day):
    # a twelfth of what is paid a year, by the days of the month that it ran
    days = length(int(month[:4]), int(month[5:]))
    first, last = month + "-01", min(month + "-" + padded(days, 2), day)
    began = ledger.days[0]["day"] if ledger.days else day
    amount = 0.0
    for id in ledger.recorded.ids("overhead"):
        overhead = ledger.recorded.record("overhead", id)
        start, end = max(first, overhead["from"] or began), min(last, overhead["to"] or last)
        if not overhead["archived"] and start <= end:
            ran = int(end[8:]) - int(start[8:]) + 1
            amount += overhead["amount"] / (12 if overhead["per"] == "year" else 1) * ran / days
    return half_up(amount)


def _markets(ledger, rows):
    # {market or booking of none, "" for what was at none: its rows}
    found, names, bookings = {}, {}, {}
    for row in rows:
        market, name = ledger.market_of(row["booking"])
        key = market or row["booking"] or ""
        found.setdefault(key, []).append(row)
        names[key] = (market, name) if row["booking"] else (None, "")
        if row["booking"]:
            bookings.setdefault(key, {})[row["booking"]] = True
    told = []
    for key in in_order(list(found), lambda key: key):
        record = ledger.recorded.record("market", names[key][0])
        row = {"market": names[key][0], "name": record["name"] if record else names[key][1]}
        row["bookings"] = len(bookings.get(key, {}))
        row.update(_summed(found[key]))
        told.append(row)
    return in_order(told, lambda row: (-row["profit"], row["name"]))


def _years(rows, ledger, year):
    years = [row["day"][:4] for row in rows] + [fact["day"][:4] for fact in ledger.recorded.of("purchase")]
    known = {one: True for one in years + [year]}
    told = in_text_order(list(known))
    told.reverse()
    return told


def _notes(ledger, year):
    uncosted = add_up([day["uncosted"] for day in ledger.days if day["day"][:4] == year])
    return [note("", "sold_without_cost", uncosted, None, "count")] if uncosted > 0 else []
