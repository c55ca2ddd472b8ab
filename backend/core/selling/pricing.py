"""What a basket at the stall comes to, and how it may be paid in cash."""

from ..catalogue import answer
from ..errors import Problems
from .cash_ways import cash_ways

CALCULATOR = "basket-total"


def price(basket, returned, cash_rounding, denominations):
    """Price a basket in one go.

    Takes: basket, {"lines", "offers", "basket_off"} as `basket-total` takes
    them; returned, lines that come back, [] for none; cash_rounding and
    denominations as `cash_ways`.
    Returns: the result of `basket-total`, and "full": the offers cannot be used
    together, as four for one group, and none is: they stop no sale; "back":
    what comes back is worth; "cash": what `cash_ways` tells of the total.
    Raises: Problems of `basket-total` that have other causes than the offers.
    """
    try:
        told, full = answer(CALCULATOR, basket)["result"], False
    except Problems:
        without = {name: basket[name] for name in basket if name != "offers"}
        told, full = answer(CALCULATOR, without)["result"], True
    told["full"] = full
    told["back"] = answer(CALCULATOR, {"lines": returned})["result"]["before"] if returned else 0
    told["cash"] = cash_ways(told["total"], cash_rounding, denominations)
    return told
