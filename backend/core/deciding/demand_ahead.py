"""What will be asked for at each of the next bookings, and what a piece sold there brings."""

from ..declaring.reading import read
from .bring_to_market import INPUTS, Packing
from .next_market import market_inputs


def demand_ahead(days, records, costs, stock, bookings, choices):
    """Foretell the next bookings, each as `next_market` foretells one.

    Takes: days, records, stock and choices as `next_market` takes them; costs, {product: what the material of
    one costs}; bookings, ids in order.
    Returns: {"demand": {product: [{"mean", "size", "gain"}, one a booking]}, "from": what the first is known
    from, here|elsewhere|guess, None where nothing is known, "days": how many it is learnt from}.
    """
    told, packing = {"demand": {}, "from": None, "days": 0}, None
    for number, booking in enumerate(bookings):
        asked = market_inputs(days, records, costs, stock, booking, choices, 0)
        known = [day for day in asked["days"] if [row for row in day["rows"] if row["sold"]]]
        if not asked["products"] or (not known and asked["guess"] is None):
            return told
        asked = read(INPUTS, asked)
        packing = packing or Packing(asked)
        if number == 0:
            here = [day for day in known if day["market"] == asked["market"]]
            told["from"] = "here" if here else "elsewhere" if known else "guess"
            told["days"] = len(known)
        for row, (mean, size, _) in zip(asked["products"], packing.laws_at(asked)):
            told["demand"].setdefault(row["product"], []).append({
                "mean": mean,
                "size": size,
                "gain": row["gain"],
            })  # fmt: skip
    return told
