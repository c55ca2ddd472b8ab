"""What each market is worth, from the records: what an hour there earns, and what pays for a day there."""

from ..catalogue import answer_of_facts
from ..costing.time_taken import wage_of
from ..deciding.market_result import INPUTS
from ..declaring.errors import note, refuse
from ..declaring.spec import by_name
from ..numbers.money import add_up
from ..numbers.ordering import in_order
from ..numbers.rounding import half_up
from ..numbers.samples import mean_of
from ..numbers.shapes import SHAPES
from .ledger import COSTS, Ledger, key_of, result_row

MOST_BOOKINGS = by_name(INPUTS)["bookings"].most
MOST_PAST = 60
JUDGED = ("days", "mean", "shrunk", "low", "high", "next_low", "next_high", "verdict", "chance")
TOLD_BOOKING = ("booking", "market", "name", "days", "takings", "refunds") + COSTS + (
    "profit", "pieces", "own_minutes")  # fmt: skip


def markets_told(facts, records, sums, costs, day):
    """Set the markets side by side, by what an hour of her own time earned at each.

    Takes: facts, records, sums and costs as `Ledger` does; day, today: what is over lies before it.
    Returns: {"wage": what she wants for an hour, None where none is set, "mean", "markets", the best first:
    [{"key": the market's id, or that of a booking that is of none, "market": its id or None, "name",
    "bookings": how many are over, "takings", "profit", "minutes", and of market-result "days" to "chance",
    None where no day tells, and "break_even": {"pieces", "with_wage", "takings", "reached", "of", "chance",
    "guessed": whether the pieces are those of other markets}, None where nothing was sold anywhere}],
    "bookings": [{TOLD_BOOKING, "per_hour", "after_wage", "key"}], the latest first, "notes"}. Of more than
    120 bookings the latest are judged.
    """
    if not SHAPES["date"](day):
        refuse("day", "date", quantity="text")
    ledger = Ledger(facts, records, sums, costs)
    over = [ledger.booking(id) for id in _over(ledger, day)]
    wage = wage_of(ledger.recorded, None, day)
    timed = [booking for booking in over if booking["own_minutes"]][-MOST_BOOKINGS:]
    judged = answer_of_facts("market-result", _asked(timed, wage))["result"] if timed else None
    keys, by_key = [], {}
    for booking in over:
        key = key_of(booking)
        if key not in by_key:
            keys.append(key)
            by_key[key] = []
        by_key[key].append(booking)
    # and those of which no day is over
    for id in ledger.recorded.ids("market"):
        if id not in by_key and not ledger.recorded.record("market", id)["archived"]:
            keys.append(id)
            by_key[id] = []
    told = {"wage": wage, "mean": judged["mean"] if judged else None}
    rows = [_market(ledger, key, by_key[key], over, judged, wage) for key in keys]
    told["markets"] = in_order(rows, lambda row: (row["shrunk"] is None, -(row["shrunk"] or 0)))
    told["bookings"] = _bookings(over, timed, judged)
    told["notes"] = _notes(over, timed, wage)
    return told


def _over(ledger, day):
    # bookings before today, the earliest first
    found = []
    for id in ledger.attended():
        record = ledger.recorded.record("booking", id)
        days = record["days"] if record else None
        if days and max(days) < day:
            found.append((min(days), id))
    return [id for _, id in in_order(found, lambda row: row)]


def _asked(timed, wage):
    rows = [result_row(booking) for booking in timed]
    return {"bookings": rows, "wage": wage or 0, "helper_wage": 0, "per_km": 0, "card_fee": 0}


def _market(ledger, key, ours, over, judged, wage):
    record = ledger.recorded.record("market", key)
    told = {"market": key if record else None, "key": key, "bookings": len(ours)}
    told["name"] = record["name"] if record else ours[0]["name"]
    for part in ("takings", "profit"):
        told[part] = add_up([booking[part] for booking in ours])
    told["minutes"] = add_up([booking["own_minutes"] or 0 for booking in ours])
    found = [row for row in judged["markets"] if row["name"] == key] if judged else []
    told.update({name: found[0][name] if found else None for name in JUDGED})
    told["break_even"] = _break_even(ledger, record, ours, over, wage)
    return told


def _break_even(ledger, record, ours, over, wage):
    # a day like its last ones; the pieces of all markets where it sold none yet
    sold = [booking for booking in ours if booking["pieces"]]
    mix = sold or [booking for booking in over if booking["pieces"]]
    pieces = add_up([booking["pieces"] for booking in mix])
    if not pieces:
        return None
    terms = ours[-1]["charged"] if ours else ledger.terms_of_market(record)
    taken = add_up([booking["takings"] - booking["refunds"] for booking in mix])
    goods = add_up([booking["goods"] for booking in mix])
    gross = add_up([booking["takings"] for booking in mix]) * ledger.taxed
    card = add_up([booking["card_takings"] for booking in mix])
    beside = [booking["helpers"] + booking["other"] + booking["expenses"] for booking in ours]
    own = [booking["own_minutes"] for booking in ours if booking["own_minutes"]]
    piece = {"name": "piece", "share": 1}
    piece["price"] = half_up(max(0, taken) / pieces)
    piece["variable"] = half_up(max(0, goods) / pieces)
    asked = {
        "fee": terms["fee"] or 0,
        "fee_percent": terms["fee_percent"] or 0,
        "distance_km": terms["distance_km"] or 0,
        "trips": terms["trips"],
        "per_km": ledger.business["per_km"] or 0,
        "other": half_up(mean_of(beside)) if beside else terms["other"] or 0,
        "own_minutes": mean_of(own) if own else 0,
        "wage": wage or 0,
        # a card costs its share of what is paid, tax and all
        "card_fee": min(100, (ledger.business["card_fee"] or 0) * ledger.taxed),
        "card_share": min(100, 100 * card / gross) if gross else 0,
        "mix": [piece],
        "past": [max(0, booking["takings"] - booking["refunds"]) for booking in sold][-MOST_PAST:] or None,
    }
    result = answer_of_facts("break-even", asked)["result"]
    return {
        "pieces": result["pieces"],
        "takings": result["takings"],
        "with_wage": result["with_wage"]["pieces"],
        "reached": result["reached"]["days"] if result["reached"] else None,
        "of": result["reached"]["of"] if result["reached"] else None,
        "chance": result["chance"],
        "guessed": not sold,
    }


def _bookings(over, timed, judged):
    hours = {}
    for booking, row in zip(timed, judged["bookings"] if judged else ()):
        hours[booking["booking"]] = row
    told = []
    for booking in over:
        row = {name: booking[name] for name in TOLD_BOOKING}
        found = hours.get(booking["booking"], {})
        row.update({name: found.get(name) for name in ("per_hour", "after_wage")})
        row["key"] = key_of(booking)
        told.append(row)
    told.reverse()
    return told


def _notes(over, timed, wage):
    notes = []
    untimed = len([booking for booking in over if not booking["own_minutes"]])
    uncosted = add_up([booking["uncosted"] for booking in over])
    if untimed:
        notes.append(note("", "hours_not_said", untimed, len(over), "count"))
    if uncosted > 0:
        notes.append(note("", "sold_without_cost", uncosted, None, "count"))
    if timed and wage is None:
        notes.append(note("", "no_wage_wanted"))
    return notes
