"""What each price of some goods leaves, at the stall, in shops, in offers, and at markets."""

from ..catalogue import answer_of_facts
from ..declaring.reading import read
from ..declaring.spec import by_name
from ..numbers.rounding import half_up
from ..records.descriptions_of_markets import terms_of
from ..records.offers import is_whole
from ..records.recorded import Recorded
from .cost_of_goods import cost_of_goods
from .offer_check import INPUTS as CHECKED
from .price import INPUTS

KNOWN = by_name(INPUTS)
# what is chosen on the screen; the rest is of the business or the goods
CHOICES = [KNOWN[name] for name in ("tax_included", "card_share", "wholesale", "shop_share")]
MOST_USES = by_name(CHECKED)["uses"].most


def prices_of_goods(facts, records, product_ids, day, choices):
    """Set the prices of some goods side by side.

    Takes: facts, records, product_ids and day as `cost_of_goods` takes them, and sales among the facts; the
    first of the products says the price and the group; choices, {field: value} of CHOICES.
    Returns: None where no batch made any; else {"cost": as `cost_of_goods` tells, "price": what is
    asked now, "points": [{"price", "left", "margin", "hour_earns", "net", "gross", "wholesale",
    "consignment"}], "offers": [{"offer", "name", "n", "price", "each", "off", "lift",
    "must_be_extra", "used": as offer-check tells of the sales with it, None without any}], "markets":
    [{"market", "name", "fee", "fee_percent", "travel", "other", "pieces"}], those that cost something: travel
    is distance × trips × what a kilometre costs}. What each leaves is of the price without tax.
    Raises: Problems on a choice that is none.
    """
    chosen = read(CHOICES, choices)
    cost = cost_of_goods(facts, records, product_ids, day, not chosen["tax_included"])
    recorded = Recorded(facts, records)
    product = recorded.record("product", product_ids[0]) if product_ids else None
    if cost is None or product is None:
        return None
    chosen["card_fee"] = recorded.business()["card_fee"] or 0
    chosen["tax_percent"] = recorded.business()["tax_percent"] or 0
    chosen["cost"], chosen["variable"] = half_up(cost["cost_each"]), half_up(cost["cash_each"])
    told = {"cost": cost, "price": product["price"], "offers": [], "markets": []}
    told["points"] = [_point(point, chosen) for point in cost["points"]]
    for id in recorded.ids("offer"):
        offer = recorded.record("offer", id)
        if offer["n"] and is_whole(offer) and product["group"] in offer["groups"] and not offer["archived"]:
            told["offers"].append(_offer(recorded, id, offer, product["price"], chosen))
    for id in recorded.ids("market"):
        market = recorded.record("market", id)
        row = None if market["archived"] else _market(id, market, told["price"], recorded.business(), chosen)
        if row:
            told["markets"].append(row)
    return told


def _priced(price, chosen, offer=None):
    asked = {"price": price, "offer": offer}
    asked.update(chosen)
    return answer_of_facts("price", asked)["result"]


def _point(point, chosen):
    told = _priced(point["price"], chosen)
    row = {name: point[name] for name in ("price", "left", "hour_earns")}
    row.update({name: told[name] for name in ("net", "gross", "margin", "wholesale", "consignment")})
    return row


def _offer(recorded, id, offer, price, chosen):
    row = {"offer": id, "name": offer["name"], "n": offer["n"], "price": offer["price"], "used": None}
    row.update(_priced(price, chosen, {"n": offer["n"], "price": offer["price"]})["offer"])
    uses = _uses(recorded, id, offer["n"], offer["price"], chosen)
    if uses:
        row["used"] = answer_of_facts("offer-check", {"uses": uses})["result"]
        row["used"]["times"] = len(uses)
    return row


def _uses(recorded, id, n, price, chosen):
    # each time it was used, at the price it has and what it saved then, the tax taken out; only the last of
    # them are made, as a sale may say any number of times
    taxed = 1 + chosen["tax_percent"] / 100 if chosen["tax_included"] else 1
    uses = []
    for sale in reversed(recorded.of("sale")):
        for row in [row for row in reversed(sale["offers"]) if row["offer"] == id]:
            times, left = row["times"], MOST_USES - len(uses)
            for number in range(times - 1, max(times - left, 0) - 1, -1):
                saving = row["saving"] * (number + 1) // times - row["saving"] * number // times
                uses.append({
                    "pieces": n,
                    "full": half_up((price + saving) / taxed),
                    "taken": half_up(price / taxed),
                    "variable": n * chosen["variable"],
                })  # fmt: skip
        if len(uses) == MOST_USES:
            break
    return list(reversed(uses))


def _market(id, market, price, business, chosen):
    # None where it costs nothing to be there
    terms, per_km = terms_of(market, None), business["per_km"] or 0
    asked = {name: terms[name] or 0 for name in ("fee", "fee_percent", "distance_km", "trips", "other")}
    row = {"market": id, "name": market["name"], "travel": asked["distance_km"] * asked["trips"] * per_km}
    row.update({name: asked[name] for name in ("fee", "fee_percent", "other")})
    if not (row["fee"] or row["fee_percent"] or row["travel"] or row["other"]):
        return None
    asked.update({name: chosen[name] for name in ("card_fee", "card_share")})
    net = _priced(price, chosen)["net"]
    asked["mix"] = [{"name": market["name"], "price": net, "variable": chosen["variable"], "share": 1}]
    asked["per_km"] = per_km
    row["pieces"] = answer_of_facts("break-even", asked)["result"]["pieces"]
    return row
