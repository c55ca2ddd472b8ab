"""What is used of one material costs, by the moving weighted average of what was bought."""

from ..numbers.ordering import in_order
from ..numbers.rounding import at_most


def fold(bought, used):
    """Walk through the purchases and uses of one material in time.

    One pair is carried along: the quantity that is left and what it cost. A purchase
    adds to both; a use takes its share of the cost. At one time purchases come first,
    else rows stand as given. What is used beyond what there is costs the last average;
    before any purchase, the price of the next one; nothing where there is none.
    Takes: bought, [{"at", "quantity", "cost"}], quantities above 0; used, [{"at",
    "quantity"}]; at, whatever can be put in order.
    Returns: {"costs": what each use costs, in the order given, not rounded, "quantity"
    and "cost" that are left, "beyond": the quantity used beyond what there was}.
    Source: weighted average as IAS 2.25 and 2.27 describe it.
    """
    uses = in_order(list(range(len(used))), lambda row: used[row]["at"])
    purchases = in_order(bought, lambda row: row["at"])
    costs = [0.0] * len(used)
    quantity = cost = beyond = 0.0
    average, place = None, 0
    for row in uses:
        while place < len(purchases) and purchases[place]["at"] <= used[row]["at"]:
            quantity, cost = quantity + purchases[place]["quantity"], cost + purchases[place]["cost"]
            average = cost / quantity
            place += 1
        taken = used[row]["quantity"]
        if not at_most(quantity, taken):
            costs[row] = taken * cost / quantity
            quantity, cost = quantity - taken, cost - costs[row]
            continue
        # all there is, and what goes beyond it at the last average; a float's last bits are not beyond
        missing = 0.0 if at_most(taken, quantity) else taken - quantity
        if average is None and place < len(purchases):
            costs[row] = missing * purchases[place]["cost"] / purchases[place]["quantity"]
        else:
            costs[row] = cost + missing * (average or 0)
        beyond += missing
        quantity = cost = 0.0
    for purchase in purchases[place:]:
        quantity, cost = quantity + purchase["quantity"], cost + purchase["cost"]
    return {"costs": costs, "quantity": quantity, "cost": cost, "beyond": beyond}
