"""What a basket at the stall comes to, and how it may be paid in cash."""

from ..catalogue import answer
from ..declaring.errors import Problems
from ..records.offers import is_whole
from .cash_ways import cash_ways

CALCULATOR = "basket-total"


def price(basket, returned, cash_rounding, denominations):
    """Price a basket in one go.

    Takes: basket, {"lines", "offers", "basket_off"} as `basket-total` takes
    them; returned, lines that come back, [] for none; cash_rounding and
    denominations as `cash_ways`.
    Returns: the result of `basket-total`, and "incomplete": the offers, by their
    rows, that do not say what they give, and are not used; "full": the others
    cannot be used together, as four for one group, and none is: they stop no sale; "back":
    what comes back is worth; "due": the total less that, below nothing where
    money goes back; "returned": what of that each line that comes back is for;
    "cash": what `cash_ways` tells of the money that changes hands. In a swap
    the lines come to what is paid beside what comes back.
    Raises: Problems of `basket-total` that have other causes than the offers.
    """
    offers = basket.get("offers", [])
    whole = [row for row in range(len(offers)) if is_whole(offers[row])]
    basket = _with_offers(basket, [offers[row] for row in whole])
    try:
        told, full = answer(CALCULATOR, basket)["result"], False
    except Problems:
        told, full = answer(CALCULATOR, _with_offers(basket, []))["result"], True
    for use in told["uses"]:
        use["offer"] = whole[use["offer"]]
    told["incomplete"] = [row for row in range(len(offers)) if row not in whole]
    told["full"] = full
    told["back"], told["due"], told["returned"] = 0, told["total"], []
    if returned:
        _swap(told, basket, returned)
    told["cash"] = cash_ways(abs(told["due"]), cash_rounding, denominations)
    return told


def _with_offers(basket, offers):
    given = dict(basket)
    given["offers"] = offers
    return given


def _swap(told, basket, returned):
    # what comes back pays for what goes out; of what is left over, each line of it has its share
    back = answer(CALCULATOR, {"lines": returned})["result"]["before"]
    told["back"], told["due"] = back, told["total"] - back
    told["lines"] = _lines(basket, min(basket.get("basket_off", 0) + back, told["before"]), told["full"])
    given_back = _lines({"lines": returned}, back + min(0, told["due"]), False)
    told["returned"] = [line["total"] for line in given_back]


def _lines(basket, off, full):
    given = _with_offers(basket, []) if full else dict(basket)
    given["basket_off"] = off
    return answer(CALCULATOR, given)["result"]["lines"]
