"""What will be asked for at each of the next bookings, and what a piece sold there brings."""

from ..declaring.reading import read
from .bring_to_market import INPUTS, Packing
from .next_market import asked_about


def demand_ahead(days_sold, recorded, costs, stock, bookings, choices):
    """Foretell the next bookings, each as `next_market` foretells one.

    Takes: days_sold, recorded, stock and choices as `asked_about` takes them; costs, {product: what the
    material of one costs}; bookings, ids in order.
    Returns: {"demand": {product: [{"mean", "size", "gain"}, one a booking]}, "from": what the first is known
    from, here|elsewhere|guess, None where nothing is known, "days": how many it is learnt from}.
    """
    told, packing = {"demand": {}, "from": None, "days": 0}, None
    for number, booking in enumerate(bookings):
        asked, about = asked_about(days_sold, recorded, costs, stock, booking, choices)
        if about["from"] is None or not asked["products"]:
            return told
        if number == 0:
            told["from"], told["days"] = about["from"], about["days"]
        # the days were read as they came
        given = read(INPUTS, {name: asked[name] for name in asked if name != "days"})
        given["days"] = asked["days"]
        packing = packing or Packing(given)
        for row, (mean, size, _) in zip(given["products"], packing.laws_at(given)):
            law = {"mean": mean, "size": size, "gain": row["gain"]}
            told["demand"].setdefault(row["product"], []).append(law)
    return told
