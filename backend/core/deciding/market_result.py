"""market-result: what market days were worth, and which markets to keep."""

from ..costing import break_even
from ..costing.price import MOST_PRICE
from ..declaring.errors import note
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.money import to_hundredths
from ..numbers.ordering import in_order
from ..numbers.rounding import GUARD, at_most, half_up
from ..numbers.student import student_below, student_quantile
from .random_effects import Groups

OF_BREAK_EVEN = by_name(break_even.INPUTS)
MOST_TAKEN = MOST_PRICE * 1000
BELOW_NOTHING = -1e18

BOOKING = [
    Field("name", "text", "The market day", example="Harbour market, 12 September"),
    Field("market", "text", "The market it was of", example="Harbour market"),
    Field("takings", "money", "Takings, without tax", highest=MOST_TAKEN, example=70000),
    Field("refunds", "money", "Paid back of them, without tax", 0, highest=MOST_TAKEN),
    Field("goods_cost", "money", "What the pieces sold had cost, without your time", highest=MOST_TAKEN,
          example=12000),
    Field("card_takings", "money", "Takings paid by card", 0, highest=MOST_TAKEN),
    OF_BREAK_EVEN["fee"],
    OF_BREAK_EVEN["fee_percent"],
    OF_BREAK_EVEN["distance_km"],
    OF_BREAK_EVEN["trips"],
    OF_BREAK_EVEN["helper_minutes"],
    Field("own_minutes", "minutes", "Your own time: open, setting up, packing up and travelling", lowest=1,
          example=540),
    OF_BREAK_EVEN["other"],
]  # fmt: skip

SALE = [
    Field("at", "instant", "When it was", example=1789200000000),
    Field("amount", "money", "What was taken, without tax; below 0 for money paid back", lowest=-MOST_TAKEN,
          highest=MOST_TAKEN, example=1200),
    Field("cost", "money", "What its pieces had cost; below 0 for pieces that came back", lowest=-MOST_TAKEN,
          highest=MOST_TAKEN, example=300),
    Field("card", "flag", "Paid by card", False),
]  # fmt: skip

INPUTS = [
    Field("bookings", "list", "Market days that are over, the latest last", fields=BOOKING, fewest=1,
          most=120, group="The days"),
    Field("wage", "money", "What you want for an hour of your time", highest=MOST_PRICE, example=1500,
          group="Time"),
    OF_BREAK_EVEN["helper_wage"],
    OF_BREAK_EVEN["per_km"],
    OF_BREAK_EVEN["card_fee"],
    Field("confidence", "percent", "How sure the verdict is to be", 80, choices=(80, 90, 95),
          group="The verdict"),
    Field("sales", "list", "Sales of the last of these days", None, fields=SALE, most=2000,
          group="One day"),
]  # fmt: skip

TOLD_BOOKING = [
    Field("name", "text", "The market day"),
    Field("profit", "money", "What was left of it", lowest=BELOW_NOTHING),
    Field("per_hour", "money_each", "What an hour of your time earned", lowest=BELOW_NOTHING),
    Field("after_wage", "money", "What was left with your time paid", lowest=BELOW_NOTHING),
]

VERDICTS = ("keep", "drop", "cannot tell")

MARKET = [
    Field("name", "text", "The market"),
    Field("days", "count", "Days of it"),
    Field("mean", "money_each", "What an hour there earned on average", lowest=BELOW_NOTHING),
    Field("shrunk", "money_each", "What an hour there is likely to earn: few days tell little, so it is "
          "drawn towards all markets", lowest=BELOW_NOTHING),
    Field("low", "money_each", "It is hardly less", None, lowest=BELOW_NOTHING, close=True),
    Field("high", "money_each", "It is hardly more", None, lowest=BELOW_NOTHING, close=True),
    Field("next_low", "money_each", "An hour of the next day there hardly earns less", None,
          lowest=BELOW_NOTHING, close=True),
    Field("next_high", "money_each", "Nor more", None, lowest=BELOW_NOTHING, close=True),
    Field("verdict", "choice", "Whether the market pays what an hour should", choices=VERDICTS),
    Field("chance", "percent", "Chance that the next day there pays it", None, close=True),
]  # fmt: skip

OUTPUTS = [
    Field("markets", "list", "Each market", fields=MARKET, most=120),
    Field("bookings", "list", "Each day by itself", fields=TOLD_BOOKING, most=120),
    Field("mean", "money_each", "What an hour earns at a market of yours", lowest=BELOW_NOTHING,
          formula="the mean of the markets, those with more days and steadier ones counting more: each by "
                  "1 ÷ ({between} + {within} ÷ its days)"),
    Field("within", "number", "Variance of days of one market",
          formula="squares of each day's earnings an hour less its market's mean, added up, ÷ (days − "
                  "markets)"),
    Field("between", "number", "Variance of the markets' levels",
          formula="how far the markets' means lie apart, less what {within} alone makes of it; at least 0"),
    Field("broke_even_at", "instant", "The sale that had paid for the day, for good", None,
          formula="the first sale from which what sales leave stays at or above fee, travel, helper and "
                  "other costs"),
]  # fmt: skip


def work(given):
    """Work out what each market day left, what an hour earns at each market, and which ones to keep.

    Profit is takings less refunds, goods, fee, share of what was taken, card, travel, helper and other; an
    hour is one of her own, travel and setting up included. The markets are a one-way random model estimated
    by moments (`random_effects`): the level of one is drawn towards all by how little its days tell. A market
    is kept where the interval of its level lies above the wage and dropped where below. Where no market has
    a second day, that interval is the next day's, its own day within it. `sales` are those of the last
    booking.
    Returns: one row a booking in the order given, one a market in the order they first come; low, high,
    next_low, next_high and chance None with one booking; broke_even_at None without sales, or where they
    never paid for the day.
    Source: Searle, Casella & McCulloch, Variance Components; Student's t.
    """
    results = [_result(booking, given) for booking in given["bookings"]]
    names, rows = _by_market(given["bookings"], [result["hour"] for result in results])
    if len(results) == 1:
        groups, notes = None, [note("bookings", "one_day")]
    else:
        groups = Groups(rows)
        notes = [note("bookings", "markets_as_one")] if groups.as_one and len(rows) > 1 else []
    result = {
        "bookings": [result["told"] for result in results],
        "markets": [_market(name, row, groups, given) for name, row in zip(names, rows)],
        "mean": groups.mean if groups else results[0]["hour"],
        "within": groups.within if groups else 0.0,
        "between": groups.between if groups else 0.0,
        "broke_even_at": _broke_even_at(given),
    }
    return result, notes


def _fixed(booking, given):
    # what the day cost, whatever was sold
    travel = travel_cost(booking, given["per_km"])
    return (
        booking["fee"] + travel + pay_of(booking["helper_minutes"], given["helper_wage"]) + booking["other"]
    )


def travel_cost(terms, per_km):
    """Work out what the way to a market costs, in minor units, not rounded."""
    return terms["distance_km"] * terms["trips"] * per_km


def pay_of(minutes, wage):
    """Work out what minutes cost at a wage an hour, in minor units, not rounded."""
    return minutes * wage / 60


def share_of(amount, percent):
    """Work out a share of an amount of money, in minor units, not rounded."""
    return amount * percent / 100


def _result(booking, given):
    taken = booking["takings"] - booking["refunds"]
    profit = taken - share_of(taken, booking["fee_percent"]) - booking["goods_cost"]
    profit -= share_of(booking["card_takings"], given["card_fee"]) + _fixed(booking, given)
    hours = booking["own_minutes"] / 60
    told = {
        "name": booking["name"],
        "profit": half_up(profit),
        "per_hour": to_hundredths(profit / hours),
        "after_wage": half_up(profit - hours * given["wage"]),
    }
    return {"told": told, "hour": profit / hours}


def _by_market(bookings, hours):
    names, rows = [], []
    for booking, hour in zip(bookings, hours):
        if booking["market"] not in names:
            names.append(booking["market"])
            rows.append([])
        rows[names.index(booking["market"])].append(hour)
    return names, rows


def _market(name, row, groups, given):
    total = 0.0
    for hour in row:
        total += hour
    mean = total / len(row)
    told = {"name": name, "days": len(row), "mean": mean, "shrunk": mean}
    told.update({"low": None, "high": None, "next_low": None, "next_high": None})
    told.update({"verdict": "cannot tell", "chance": None})
    if groups is None:
        return told
    level, next_error = groups.level_of(row)[0], groups.spread_of(row)[1]
    t = student_quantile((1 + given["confidence"] / 100) / 2, groups.freedom)
    low, high, next_low, next_high = groups.intervals_of(row, t)
    told.update({"shrunk": level, "low": low, "high": high, "next_low": next_low, "next_high": next_high})
    told["verdict"] = _verdict(told, given["wage"])
    told["chance"] = _chance(level - given["wage"], next_error, groups.freedom, level)
    return told


def _verdict(told, wage):
    if not at_most(told["low"], wage):
        return "keep"
    return "cannot tell" if at_most(wage, told["high"]) else "drop"


def _chance(above, error, freedom, level):
    # days that are all alike have a spread all the same, of a float's last bits
    if error <= GUARD * max(1.0, abs(level)):
        return 100.0 if at_most(0, above) else 0.0
    return 100 * student_below(above / error, freedom)


def _broke_even_at(given):
    booking, found, left = given["bookings"][-1], None, 0.0
    fixed = _fixed(booking, given)
    for sale in in_order(given["sales"] or [], lambda sale: sale["at"]):
        kept = 1 - booking["fee_percent"] / 100 - (given["card_fee"] / 100 if sale["card"] else 0)
        left += sale["amount"] * kept - sale["cost"]
        if not at_most(fixed, left):
            found = None
        elif found is None:
            found = sale["at"]
    return found


CALCULATOR = Calculator(
    "market-result",
    "Worth of a market",
    "What market days left, what an hour earns at each market, and which ones to keep.",
    INPUTS,
    OUTPUTS,
    work,
    main=("mean", "markets"),
)
