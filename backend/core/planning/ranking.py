"""Which cloth for a whole plan: one list of what to buy for each, ranked."""

from ..numbers.ordering import in_order


def rank_plans(plans):
    """Rank the lists of one plan in several cloths, the best to buy first.

    Fewest strips left out first; then what has a known cost before what has
    none; then least cost, least length to buy, and the order given.
    Takes: plans, [{"left_out", "cost", "length_to_buy"}].
    Returns: their numbers.
    Example: rank_plans([{"left_out": 0, "cost": 9, "length_to_buy": 1.0},
    {"left_out": 0, "cost": 8, "length_to_buy": 2.0}]) == [1, 0]
    """
    return in_order(list(range(len(plans))), lambda number: _rank(plans[number], number))


def _rank(plan, number):
    unknown = plan["cost"] is None
    return (plan["left_out"], int(unknown), 0 if unknown else plan["cost"], plan["length_to_buy"], number)
