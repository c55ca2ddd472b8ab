"""What a piece brings where it is sold: its price less offers, tax, fees and what it cost."""

from ..declaring.reading import is_number
from ..numbers.money import add_up
from ..numbers.rounding import half_up
from ..records.descriptions_of_markets import terms_of


def gains_of(recorded, booking, products, costs, known):
    """Tell what a piece of each product brings at a booking, if it is sold.

    The price without tax, less what offers and discounts took off its size on the days before, less the
    share of takings paid as fee, less card fees on the part that was paid by card on those days, less what
    it cost. The fee for the pitch is paid whatever sells.
    Takes: booking, its record; products, ids; costs, {product: what one costs, None where it is not
    known}; known, the days before, each with "kept", "taken" and "by_card" as `sold_at_markets` tells them.
    Returns: {product: {"price", "kept": percent of the price, "cost", "gain"}}, gain in whole minor units.
    """
    business, terms = recorded.business(), terms_of(booking, recorded.record("market", booking["market"]))
    taken = add_up([day["taken"] for day in known])
    by_card = add_up([day["by_card"] for day in known]) / taken if taken else 0
    fees = (terms["fee_percent"] or 0) + (business["card_fee"] or 0) * by_card
    kept, told = _kept(known), {}
    for id in products:
        product = recorded.record("product", id)
        share = kept.get(product["size"], 1.0)
        cost = costs.get(id) if is_number(costs.get(id)) else None
        net = product["price"] * share / (1 + (business["tax_percent"] or 0) / 100)
        gain = half_up(net * (1 - fees / 100) - (cost or 0))
        told[id] = {"price": product["price"], "kept": 100 * share, "cost": cost, "gain": gain}
    return told


def _kept(known):
    # {size: which part of its full prices was taken}
    full, taken = {}, {}
    for day in known:
        for row in day["kept"]:
            full[row["size"]] = full.get(row["size"], 0) + row["full"]
            taken[row["size"]] = taken.get(row["size"], 0) + row["taken"]
    return {size: taken[size] / full[size] for size in full if full[size]}


def hours_said(terms):
    """Tell when a market opens and closes, in minutes of the day; (None, None) where it is not said.

    Example: hours_said({"opens": "09:30", "closes": "15:00"}) == (570, 900)
    """
    opens, closes = [_minutes(terms.get(name)) for name in ("opens", "closes")]
    return (None, None) if opens is None or closes is None or opens >= closes else (opens, closes)


def _minutes(time):
    return None if time is None else int(time[:2]) * 60 + int(time[3:])
