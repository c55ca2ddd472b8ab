"""What to bring to a booking: what is recorded put as a question, and all that a screen shows of it."""

from ..declaring.reading import read
from ..declaring.spec import by_name
from ..numbers.money import add_up
from ..numbers.samples import mean_of
from ..records.descriptions_of_markets import terms_of
from ..records.recorded import Recorded
from .bring_to_market import DAY, INPUTS, PACKED, Packing
from .gains import gains_of, hours_said
from .known_days import MOST_ROWS

KNOWN = by_name(INPUTS)
MOST_DAYS, MOST_PRODUCTS, MOST_BOX = KNOWN["days"].most, KNOWN["products"].most, KNOWN["capacity"].highest
MOST_STOCK = by_name(PACKED)["stock"].highest
LEAST_HOURS = by_name(DAY)["hours"].lowest
# what is chosen on the screen
CHOICES = [KNOWN["guess"], KNOWN["factor"], by_name(PACKED)["at_least"], by_name(PACKED)["carry"]]
# where neither the booking nor any day before says how long a market is open; common practice, no source
USUAL_HOURS = 6.0
# so many of the latest days of a product are shown, those at this market alone if there are a few
SHOWN_DAYS, FEWEST_HERE = 8, 3
# what is on consignment cannot be brought
NOT_AT_HAND = "shop"


def next_market(days_sold, records, costs, stock, booking, choices):
    """Tell what to bring to a booking, for a box of any size.

    Takes: days_sold, [{"day", "booking"} and what `sold_at_markets` tells of it], the latest last; records,
    {kind: {id: fields}}; costs, {product: what one costs, None where it is not known}; stock, as
    `list_stock` tells it; booking, its id; choices, {field: value} of CHOICES.
    Returns: None where the booking is not here, else {"hours", "hours_from": said, usual or guess,
    "market_days", "from": what is known of this market: here, elsewhere, guess, or None where a guess is
    needed, "days": how many days were learnt from, "here": those at this market, "level", "asked_share",
    "brought": how many pieces were there the last time, here or else anywhere, None where nobody knows,
    "stock": pieces in all, "order": for each place in the box, while one brings a coin, which of the
    products it is for, "worths": what that place brings, on average, "products": [{"product", "stock",
    "price", "kept", "cost", "gain", "mean", "size", "low", "high", "sell_out", "sold", "left": by how many
    of it come, from none on, "days": [{"day", "booking", "here", "sold", "hours", "asked", "sold_out"}],
    the latest last}], "notes"}. Products without stock are told of with the rest.
    Raises: Problems on a choice that is none.
    """
    found = asked_about(days_sold, Recorded([], records), costs, stock, booking, choices)
    if found is None:
        return None
    asked, about = found
    told = {"from": about["from"], "order": [], "worths": [], "products": [], "notes": []}
    told.update({name: about[name] for name in ("hours", "hours_from", "market_days", "days", "here")})
    told["brought"], told["stock"] = about["brought"], add_up([row["stock"] for row in asked["products"]])
    told.update({"level": None, "asked_share": 0.0})
    if about["from"] is None or not asked["products"]:
        return told
    # the days were read as they came
    given = read(INPUTS, {name: asked[name] for name in asked if name != "days"})
    given["days"] = asked["days"]
    packing = Packing(given)
    told["notes"] = packing.notes
    told.update({name: packing.result[name] for name in ("level", "asked_share")})
    told["order"], told["worths"] = _worth_a_coin(packing)
    rows = zip(asked["products"], packing.wanted, packing.result["products"], packing.laws)
    for number, (row, wanted, foretold, law) in enumerate(rows):
        most = len([place for place in told["order"] if place == number])
        product = {name: row[name] for name in ("product", "stock", "gain")}
        product.update(about["products"][row["product"]])
        product.update({name: foretold[name] for name in ("mean", "low", "high")})
        product["size"] = law[1]
        product.update(_by_number(wanted, most))
        product["days"] = _days_of(row["product"], about["known"], about["market"])
        told["products"].append(product)
    return told


def _worth_a_coin(packing):
    # the places of the box, without the last that bring less than the smallest coin each
    worths, brought, last = [], [0] * len(packing.wanted), 0
    for place in packing.order:
        worths.append(packing.wanted[place].worth(brought[place]))
        brought[place] += 1
        if worths[-1] >= 1:
            last = len(worths)
    return packing.order[:last], worths[:last]


def market_inputs(days_sold, records, costs, stock, booking, choices, capacity):
    """Put what is recorded as the question for bring-to-market. Takes: as `next_market`; capacity of the box.

    Raises: Problems as it does.
    """
    found = asked_about(days_sold, Recorded([], records), costs, stock, booking, choices)
    if found is None:
        return None
    found[0]["capacity"] = capacity
    return found[0]


def asked_about(days_sold, recorded, costs, stock, booking, choices):
    """Put what is recorded as the question for bring-to-market, for a box as large as any.

    Takes: as `next_market`; recorded, its records.
    Returns: (the question, what is known of it besides), None where the booking is not here.
    """
    chosen = read(CHOICES, choices)
    record = recorded.record("booking", booking)
    if record is None:
        return None
    market = market_of(recorded, booking)
    at_hand = _at_hand(recorded, stock)
    products = _products(recorded, at_hand)
    known = _known(recorded, days_sold, products)
    gains = gains_of(recorded, record, products, costs, known)
    here = [day for day in known if day["market"] == market]
    hours, hours_from = _hours(recorded, record, here or known)
    asked = {
        "products": [
            {
                "product": id,
                "group": recorded.record("product", id)["size"],
                "stock": at_hand.get(id, 0),
                "gain": gains[id]["gain"],
                "carry": chosen["carry"],
                "at_least": chosen["at_least"],
            }
            for id in products
        ],
        "days": [{name: day[name] for name in ("market", "hours", "rows")} for day in known],
        "market": market,
        "hours": hours,
        "market_days": len(record["days"]),
        "factor": chosen["factor"],
        "guess": chosen["guess"],
        "capacity": MOST_BOX,
    }
    sold = len([row for day in known for row in day["rows"] if row["sold"]]) > 0
    how = "here" if here else "elsewhere"
    about = {"from": how if sold else None if chosen["guess"] is None else "guess", "known": known}
    about.update({"market": market, "hours": hours, "hours_from": hours_from, "products": gains})
    about.update({"market_days": len(record["days"]), "days": len(known), "here": len(here)})
    brought = [day["brought"] for day in here or known if day["brought"]]
    about["brought"] = brought[-1] if brought else None
    return asked, about


def market_of(recorded, booking):
    """Name the market that a booking is of: of none, one of the same name, else that name itself."""
    record = recorded.record("booking", booking) if booking else None
    if record is None:
        return ""
    if record["market"] is not None:
        return record["market"]
    for id in recorded.ids("market"):
        if recorded.record("market", id)["name"] == record["name"]:
            return id
    return record["name"] or booking


def _hours(recorded, booking, known):
    # all days together; those that nobody said are as long as the days before
    count = len(booking["days"])
    opens, closes = hours_said(terms_of(booking, recorded.record("market", booking["market"])))
    if opens is not None:
        return count * (closes - opens) / 60, "said"
    if known:
        return count * mean_of([day["hours"] for day in known]), "usual"
    return count * USUAL_HOURS, "guess"


def _at_hand(recorded, stock):
    pieces = {}
    for row in stock:
        place = recorded.record("place", row["place"])
        if row["product"] is not None and not (place and place["use"] == NOT_AT_HAND):
            pieces[row["product"]] = pieces.get(row["product"], 0) + max(0, row["quantity"])
    return {id: min(pieces[id], MOST_STOCK) for id in pieces}


def _products(recorded, at_hand):
    # what is offered, as many as can be asked about: what there is of first
    offered = []
    for id in recorded.ids("product"):
        product = recorded.record("product", id)
        if product["active"] and not product["archived"]:
            offered.append(id)
    there = [id for id in offered if at_hand.get(id)]
    none = [id for id in offered if not at_hand.get(id)]
    chosen = {id: True for id in (there + none)[:MOST_PRODUCTS]}
    return [id for id in offered if id in chosen]


def _known(recorded, days, products):
    # the latest days, with the rows of these products, as many as can be asked about
    wanted, known, count = {id: True for id in products}, [], 0
    for day in reversed(days[-MOST_DAYS:]):
        rows = [row for row in day["rows"] if row["product"] in wanted]
        count += len(rows)
        if count > MOST_ROWS:
            break
        if rows and day["hours"] >= LEAST_HOURS:
            told = dict(day)
            told["market"] = market_of(recorded, day["booking"])
            told["rows"] = [
                {name: row[name] for name in ("product", "sold", "hours", "asked")} for row in rows
            ]
            told["sold_out"] = {row["product"]: row["sold_out"] for row in rows}
            known.append(told)
    return list(reversed(known))


def _days_of(product, known, market):
    told = []
    for day in known:
        for row in day["rows"]:
            if row["product"] == product:
                shown = {name: row[name] for name in ("sold", "hours", "asked")}
                shown.update({"day": day["day"], "booking": day["booking"], "here": day["market"] == market})
                shown["sold_out"] = day["sold_out"][product]
                told.append(shown)
    here = [shown for shown in told if shown["here"]]
    return (here if len(here) >= FEWEST_HERE else told)[-SHOWN_DAYS:]


def _by_number(wanted, most):
    told = {"sell_out": [], "sold": [0.0], "left": [0.0]}
    for number in range(most + 1):
        told["sell_out"].append(100 * wanted.above[number])
        if number < most:
            told["sold"].append(told["sold"][-1] + wanted.above[number])
            told["left"].append(told["left"][-1] + wanted.up_to[number])
    return told
