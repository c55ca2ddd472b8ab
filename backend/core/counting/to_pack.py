"""What is still to be packed of a plan for a booking."""

from ..records.reader import movements
from ..records.recorded import Recorded


def to_pack(planned, stock, place, facts, booking):
    """Tell how many of each are still to come to a stall, so that as many are there as were planned.

    What lies there already need not be packed, nor what was sold there at that booking.
    Takes: planned, [{"product", "quantity"}], pieces to have there; stock, as `list_stock` tells it;
    place, the stall's; facts of the days of the booking; booking, its id.
    Returns: [{"product", "quantity"}], as planned. Facts that cannot be read are set aside.
    """
    there = {row["product"]: row["quantity"] for row in stock if row["place"] == place and row["product"]}
    for fact in Recorded(facts, {}).standing:
        if fact["kind"] == "sale" and fact.get("booking") == booking:
            for at_place, row, pieces in movements(fact):
                if at_place == place and row.get("product"):
                    there[row["product"]] = there.get(row["product"], 0) - int(pieces)
    return [
        {
            "product": line["product"],
            "quantity": max(0, line["quantity"] - max(0, there.get(line["product"], 0))),
        }
        for line in planned
    ]
