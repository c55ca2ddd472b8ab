"""price: a price to ask for a piece, and what it leaves at the stall, in shops and in an offer."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.money import to_hundredths
from ..numbers.rounding import at_most, half_up, step_nearest, step_up

MOST_PRICE = 100000000
LEAST = 1e-6  # minor units: of less there is no share

TAX = Field("tax_percent", "percent", "Sales tax", 0, group="The price")

CARD = [
    Field("card_fee", "percent", "What the card company takes of what is paid by card", 0, group="Selling"),
    Field("card_share", "percent", "Share of the takings that is paid by card", 0, group="Selling"),
]

OFFER = [
    Field("n", "count", "Pieces it takes; 1 to compare another price", lowest=1, highest=200, example=3),
    Field("price", "money", "Price of that many", highest=MOST_PRICE * 200, example=1500),
]

POINT = Field("point", "money", "A price", lowest=1, highest=MOST_PRICE, example=500)

# a price may lie far below the cost, and an offer above the price
LOWEST_SHARE = -1e12

INPUTS = [
    Field("cost", "money", "What one piece costs", highest=MOST_PRICE, example=180, group="The piece"),
    Field("variable", "money", "What each further piece costs; its cost if left out", None,
          highest=MOST_PRICE, group="The piece"),
    Field("margin", "percent", "Share of the price without tax that is left after the cost", None,
          highest=95, group="The price"),
    Field("markup", "percent", "Or what is put on the cost", None, highest=1000, example=150,
          group="The price"),
    Field("price", "money", "Or the price itself, to see what it leaves", None, highest=MOST_PRICE,
          group="The price"),
    TAX,
    Field("tax_included", "flag", "The tax is inside the price", True, group="The price"),
    Field("points", "list", "Prices to choose from; whole steps if left out", None, item=POINT, most=60,
          fewest=1, group="The price"),
    Field("step", "money", "Step from price to price", 50, lowest=1, highest=MOST_PRICE, group="The price"),
    Field("direction", "choice", "Which way to such a price", "up", choices=("up", "nearest"),
          group="The price"),
] + CARD + [
    Field("wholesale", "percent", "What a shop that buys pays less than the price without tax", 50,
          group="Shops"),
    Field("shop_share", "percent", "What a shop that sells for you takes of the price without tax", 40,
          group="Shops"),
    Field("offer", "object", "An offer: so many for a price", None, fields=OFFER, group="An offer"),
]  # fmt: skip

WHOLESALE = [
    Field("price", "money", "What the shop pays for one, without tax"),
    Field("margin", "percent", "Share of that left after the cost", None, lowest=LOWEST_SHARE),
]

CONSIGNMENT = [
    Field("receives", "money", "What you get for one that is sold, without tax"),
    Field("margin", "percent", "Share of that left after the cost", None, lowest=LOWEST_SHARE),
]

TOLD_OFFER = [
    Field("each", "money_each", "What one costs in the offer"),
    Field("off", "money_each", "How much less that is than the price", lowest=LOWEST_SHARE),
    Field("lift", "percent", "How many more must be sold for it to leave as much; nothing if it never does",
          None, lowest=LOWEST_SHARE),
    Field("must_be_extra", "percent",
          "Share of the pieces in the offer that would not have been sold without it", None,
          lowest=LOWEST_SHARE),
]  # fmt: skip

OUTPUTS = [
    Field("price", "money", "The price on the card",
          formula="{cost} ÷ (1 − {margin} ÷ 100), with tax if it is inside, to a price that you use"),
    Field("net", "money", "The price without tax",
          formula="{gross} ÷ (1 + {tax_percent} ÷ 100)"),
    Field("gross", "money", "What the customer pays",
          formula="{net} × (1 + {tax_percent} ÷ 100)"),
    Field("margin", "percent", "Share of the price without tax that is left after the cost", None,
          lowest=LOWEST_SHARE,
          formula="100 × ({net} − {cost}) ÷ {net}"),
    Field("markup", "percent", "What that is of the cost", None, lowest=LOWEST_SHARE,
          formula="100 × ({net} − {cost}) ÷ {cost}"),
    Field("contribution", "money", "What each further piece leaves",
          formula="{net} − {gross} × {card_fee} ÷ 100 × {card_share} ÷ 100 − what it costs"),
    Field("wholesale", "object", "To a shop that buys", fields=WHOLESALE),
    Field("consignment", "object", "Through a shop that sells for you", fields=CONSIGNMENT),
    Field("offer", "object", "What the offer does", None, fields=TOLD_OFFER),
]  # fmt: skip


def work(given):
    """Work out a price from a margin, a markup or itself, and what it leaves.

    A wanted price goes to one of `points`, or a whole number of steps and at least
    one: up to the next, or to the nearest, of two as near the higher. A price that
    is given stays. Margins are then told from the price without tax, before that is
    rounded. The card company takes its share of what is paid, tax included.

    A piece at full price leaves m, and one in an offer less by d, both without tax
    and card: `lift` is 100 × d ÷ (m − d), `must_be_extra` 100 × d ÷ m. Where d is not
    below m, or m nothing, both are None: it never pays. A negative lift is how many
    fewer may be sold at a higher price.
    Returns: money in whole minor units, margin and markup None where there is
    nothing to divide by, offer None without one.
    Raises: Problems on margin unless one of margin, markup and price is given, on
    points if none is high enough.
    Source: arithmetic; half the price to a shop is common practice.
    """
    price = _price(given)
    net, gross = _net_and_gross(given, price)
    cost = given["cost"]
    variable = cost if given["variable"] is None else given["variable"]
    left = _after_card(given, net, gross) - variable
    wholesale = net * (1 - given["wholesale"] / 100)
    receives = net * (1 - given["shop_share"] / 100)
    offer, notes = _offer(given, price, left)
    result = {
        "price": price,
        "net": half_up(net),
        "gross": half_up(gross),
        "margin": _share(net - cost, net),
        "markup": _share(net - cost, cost),
        "contribution": half_up(left),
        "wholesale": {"price": half_up(wholesale), "margin": _share(wholesale - cost, wholesale)},
        "consignment": {"receives": half_up(receives), "margin": _share(receives - cost, receives)},
        "offer": offer,
    }
    return result, notes


def _price(given):
    wanted = [name for name in ("margin", "markup", "price") if given[name] is not None]
    if len(wanted) != 1:
        refuse("margin", "one_of_three")
    if given["price"] is not None:
        return given["price"]
    if given["margin"] is not None:
        target = given["cost"] / (1 - given["margin"] / 100)
    else:
        target = given["cost"] * (1 + given["markup"] / 100)
    if given["tax_included"]:
        target = target * (1 + given["tax_percent"] / 100)
    if given["points"] is None:
        to_step = step_up if given["direction"] == "up" else step_nearest
        return max(to_step(target, given["step"]), given["step"] if target > 0 else 0)
    return _point(given, target)


def _point(given, target):
    best = None
    for point in given["points"]:
        high_enough = at_most(target, point)
        if given["direction"] == "up" and high_enough and (best is None or point < best):
            best = point
        if given["direction"] == "nearest" and (best is None or _is_nearer(point, best, target)):
            best = point
    if best is None:
        refuse("points", "no_point", half_up(target), max(given["points"]), "money")
    return best


def _is_nearer(point, best, target):
    distance, least = abs(point - target), abs(best - target)
    return at_most(distance, least) and (point > best or not at_most(least, distance))


def _share(part, whole):
    return 100 * part / whole if whole >= LEAST else None


def _net_and_gross(given, amount):
    taxed = 1 + given["tax_percent"] / 100
    return (amount / taxed, float(amount)) if given["tax_included"] else (float(amount), amount * taxed)


def _after_card(given, net, gross):
    # of a price without tax, or of what is taken off it
    return net - gross * given["card_fee"] / 100 * given["card_share"] / 100


def _offer(given, price, left):
    if given["offer"] is None:
        return None, []
    each = given["offer"]["price"] / given["offer"]["n"]
    off = _after_card(given, *_net_and_gross(given, price - each))
    pays = left > 0 and not at_most(left, off)
    told = {
        "each": to_hundredths(each),
        "off": to_hundredths(price - each),
        "lift": 100 * off / (left - off) if pays else None,
        "must_be_extra": 100 * off / left if pays else None,
    }
    return told, [] if pays else [note("offer", "never_pays")]


CALCULATOR = Calculator(
    "price",
    "Price",
    "A price from what a piece costs, and what it leaves at the stall, in shops and in an offer.",
    INPUTS,
    OUTPUTS,
    work,
    main=("price", "margin", "contribution"),
)
