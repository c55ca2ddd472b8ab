"""basket-total: what a basket comes to with the cheapest valid use of the offers."""

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up, spread
from ..numbers.ordering import in_order
from ..numbers.rounding import half_up
from ..records.offers import is_whole
from .cheapest import cheapest_use
from .filling import Pool

MOST_PIECES = 200
MOST_OFFERS_OF_A_GROUP = 3
MOST_PRICE = 100000000

GROUP = Field("group", "text", "Group of products", None, most=60, example="Everyday")

LINE = [
    Field("product", "text", "The product", example="Everyday, Seagrass lawn"),
    Field("group", "text", "The group that offers name; none for no offer", None, most=60,
          example="Everyday"),
    Field("unit_price", "money", "Price of one", highest=MOST_PRICE, example=600),
    Field("quantity", "count", "Pieces", lowest=1, highest=MOST_PIECES, example=3),
    Field("off", "money", "Taken off the line, after offers", 0, highest=MOST_PRICE * MOST_PIECES),
]  # fmt: skip

OFFER = [
    Field("name", "text", "What the offer says", most=60, example="Three Everyday for 15"),
    GROUP,
    Field("groups", "list", "Groups, where it may mix several", None, item=GROUP, most=20, fewest=1),
    Field("n", "count", "Pieces it takes", None, lowest=1, highest=MOST_PIECES, example=3),
    Field("price", "money", "Price of that many", None, highest=MOST_PRICE * MOST_PIECES, example=1500),
    Field("percent", "percent", "Share off each piece, instead of a price", None),
]  # fmt: skip

INPUTS = [
    Field("lines", "list", "What is in the basket", fields=LINE, most=60, fewest=1),
    Field("offers", "list", "Offers that may be used", [], fields=OFFER, most=12),
    Field("basket_off", "money", "Taken off the whole basket, after offers", 0,
          highest=MOST_PRICE * MOST_PIECES),
]  # fmt: skip

TOLD_LINE = [
    Field("product", "text", "The product"),
    Field("total", "money", "What the line comes to; the lines add up to the total"),
    Field("saving", "money", "What offers save on it"),
]

USE = [
    Field("name", "text", "The offer"),
    Field("times", "count", "Times it is used: bundles, or pieces of a share off"),
    Field("saving", "money", "What it takes off"),
    Field("offer", "count", "Its row in the list given, from 0"),
]

OUTPUTS = [
    Field("total", "money", "To pay", formula="{before} − {saving} − {taken_off}"),
    Field("before", "money", "At full price"),
    Field("saving", "money", "What offers save"),
    Field("taken_off", "money", "Discounts on lines and basket beside offers"),
    Field("lines", "list", "What each line comes to", fields=TOLD_LINE, most=60),
    Field("uses", "list", "Offers used, in the order given", fields=USE, most=12),
]


def work(given):
    """Find the cheapest valid use of the offers, exactly, and split it over the lines.

    A piece is in at most one offer. A share off is rounded half up a piece; a
    bundle's price is spread over its pieces by their prices. `off` and then
    `basket_off` come after offers and take a line or a basket to nothing at
    most. All spreading is by largest remainder, ties in line order; the
    parts add up to the cent.

    Exact because a piece outside bundles costs least under the best share off
    of its group, whatever else is used: what is left is which pieces to bundle
    (see cheapest.py). Only where many offers overlap in many groups may the
    proof take too long; the note `not_proven` then says that a cheaper use may
    exist.
    Raises: Problems naming offers that are no offer, the fourth of a group, and
    more than 200 pieces.
    """
    _refuse_other_than_offers(given)
    lines, offers = given["lines"], given["offers"]
    used = [[0] * len(lines) for _ in offers]
    shares_off = [_share_off(line, offers) for line in lines]
    taken, proven = _bundled(lines, offers, shares_off, used)
    for number, line in enumerate(lines):
        offer, _ = shares_off[number]
        if offer is not None:
            used[offer][number] = line["quantity"] - taken[number]
    return _told(given, used, proven, shares_off)


def _refuse_other_than_offers(given):
    problems, times = [], {}
    pieces = add_up([line["quantity"] for line in given["lines"]])
    if pieces > MOST_PIECES:
        problems.append(problem("lines", "too_many_in_basket", pieces, MOST_PIECES, "count"))
    for number, offer in enumerate(given["offers"]):
        path = "offers." + str(number)
        if (offer["group"] is None) == (offer["groups"] is None):
            problems.append(problem(path + ".group", "group_or_groups"))
        if not is_whole(offer):
            problems.append(problem(path + ".n", "price_or_percent"))
        for group in _groups(offer):
            times[group] = times.get(group, 0) + 1
            if times[group] == MOST_OFFERS_OF_A_GROUP + 1:
                problems.append(problem(path, "offers_of_a_group", group, MOST_OFFERS_OF_A_GROUP, "count"))
    if problems:
        raise Problems(problems)


def _groups(offer):
    groups = []
    for group in [offer["group"]] + (offer["groups"] or []):
        if group is not None and group not in groups:
            groups.append(group)
    return groups


def _covers(offer, line):
    return line["group"] is not None and line["group"] in _groups(offer)


def _share_off(line, offers):
    # the best share off a piece of the line: (offer, minor units); the first of equals
    best, most = None, 0
    for number, offer in enumerate(offers):
        if offer["percent"] is not None and _covers(offer, line):
            off = half_up(line["unit_price"] * offer["percent"] / 100)
            if off > most:
                best, most = number, off
    return best, most


def _bundled(lines, offers, shares_off, used):
    # marks in `used` what bundles take; returns the pieces taken of each line
    covers, covered = _lines_by_offers(lines, offers)
    costs = [line["unit_price"] - off for line, (_, off) in zip(lines, shares_off)]
    pools, owners = [], []
    for cover, numbers in zip(covers, covered):
        owner = []
        for number in in_order(numbers, lambda number: -costs[number]):
            owner += [number] * lines[number]["quantity"]
        owners.append(owner)
        pools.append(Pool([costs[number] for number in owner], cover))
    held, proven = cheapest_use(pools, [(offer["n"], offer["price"]) for offer in offers])
    taken = [0] * len(lines)
    for pool, row, owner in zip(pools, held, owners):
        place = 0
        for offer, count in zip(pool.offers, row):
            for line in owner[place : place + count]:
                used[offer][line] += 1
                taken[line] += 1
            place += count
    return taken, proven


def _lines_by_offers(lines, offers):
    # lines that the same bundle offers cover: numbers of the offers, and of the lines
    covers, covered = [], []
    for number, line in enumerate(lines):
        cover = [row for row, offer in enumerate(offers) if offer["n"] is not None and _covers(offer, line)]
        if cover and cover in covers:
            covered[covers.index(cover)].append(number)
        elif cover:
            covers.append(cover)
            covered.append([number])
    return covers, covered


def _told(given, used, proven, shares_off):
    lines = given["lines"]
    savings = [0] * len(lines)
    uses = []
    for number, offer in enumerate(given["offers"]):
        pieces = add_up(used[number])
        if pieces:
            saved = _saved(offer, used[number], lines, shares_off)
            savings = [one + other for one, other in zip(savings, saved)]
            times = pieces if offer["percent"] is not None else pieces // offer["n"]
            uses.append({"name": offer["name"], "times": times, "saving": add_up(saved), "offer": number})
    before = [line["unit_price"] * line["quantity"] for line in lines]
    totals, notes = _less_off(given, [one - other for one, other in zip(before, savings)])
    if not proven:
        notes.append(note("total", "not_proven"))
    result = {
        "total": add_up(totals),
        "before": add_up(before),
        "saving": add_up(savings),
        "taken_off": add_up(before) - add_up(savings) - add_up(totals),
        "lines": [
            {"product": line["product"], "total": total, "saving": saving}
            for line, total, saving in zip(lines, totals, savings)
        ],
        "uses": uses,
    }
    return result, notes


def _saved(offer, counts, lines, shares_off):
    # what one offer takes off each line
    if offer["percent"] is not None:
        return [count * off for count, (_, off) in zip(counts, shares_off)]
    full = [line["unit_price"] * count for line, count in zip(lines, counts)]
    price = add_up(counts) // offer["n"] * offer["price"]
    return [one - other for one, other in zip(full, spread(price, full))]


def _less_off(given, totals):
    notes = []
    for number, line in enumerate(given["lines"]):
        if line["off"] > totals[number]:
            field = "lines." + str(number) + ".off"
            notes.append(note(field, "off_too_much", line["off"], totals[number], "money"))
        totals[number] -= min(line["off"], totals[number])
    off = min(given["basket_off"], add_up(totals))
    if off < given["basket_off"]:
        notes.append(note("basket_off", "off_too_much", given["basket_off"], off, "money"))
    return [total - less for total, less in zip(totals, spread(off, totals))], notes


CALCULATOR = Calculator(
    "basket-total",
    "Basket",
    "What a basket comes to, with the cheapest valid use of the offers.",
    INPUTS,
    OUTPUTS,
    work,
    main=("total", "saving"),
)
