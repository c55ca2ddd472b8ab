"""What each booking brought and cost, part by part, in whole minor units that add up to its profit."""

from ..costing.goods_costs import cost_each_of, count_by, refuse_other_than_costs
from ..costing.time_taken import wage_of
from ..deciding.market_result import pay_of, share_of, travel_cost
from ..numbers.money import add_up
from ..numbers.ordering import in_order, in_text_order
from ..numbers.rounding import half_up
from ..records.descriptions_of_markets import terms_of
from ..records.recorded import Recorded
from .day_sums import refuse_other_than_sums

# what a day at a market costs; goods, share and card come with each sale
COSTS = ("goods", "fee", "share", "card", "travel", "helpers", "other", "expenses")
OF_SALES = ("goods", "share", "card")


class Ledger:
    """Days, bookings and what is recorded of their costs.

    Takes: facts, in any order: expenses, work-time, wages and what voids them; records, {kind: {id:
    fields}} of business, market, booking and product; sums, as `day_sums` tells; costs, {product: rows} as
    `goods_costs` tells.
    Has: days, a row for each sum: {"day", "booking", "takings", "refunds", "goods", "share", "card",
    "card_takings", "pieces", "uncosted"}: money without tax, but what was paid by card; uncosted, pieces of
    which no batch tells a cost; days_of, {booking: its rows}.
    Rules: what is taken is without tax where the business says there is any in it; a piece costs what its
    last batches by then did, material alone; a card costs its share of what was paid by card; somebody
    with a wage of their own is a helper who is paid for the time recorded for a booking.
    """

    def __init__(self, facts, records, sums, costs):
        refuse_other_than_sums(sums)
        refuse_other_than_costs(costs)
        self.recorded = Recorded(facts, records)
        self.business = self.recorded.business()
        self.taxed = 1 + (self.business["tax_percent"] or 0) / 100
        self.costs, self.merged, self.said = costs, {}, {}
        self.spent = _by_booking(self.recorded.of("expense"))
        self.worked = _by_booking(self.recorded.of("work-time"))
        self.paid = {fact["person"]: True for fact in self.recorded.of("wage-set") if fact["person"]}
        self.days = [self._day(row) for row in sums]
        self.days_of = _by_booking(self.days)

    def terms(self, booking):
        """Tell a booking's terms, its market's where it says nothing; all empty where it is not here."""
        if booking not in self.said:
            record = self.recorded.record("booking", booking) or {}
            market = self.recorded.record("market", record.get("market"))
            self.said[booking] = terms_of(record, market)
        return self.said[booking]

    def terms_of_market(self, market):
        """Tell the terms of a market's record, as a booking has them that says nothing itself."""
        return terms_of({}, market)

    def market_of(self, booking):
        """Name the market of a booking: (its id, None where it has none; what it is called)."""
        record = self.recorded.record("booking", booking) or {"market": None, "name": ""}
        market = self.recorded.record("market", record["market"])
        return record["market"], record["name"] or (market["name"] if market else "")

    def attended(self):
        """Name the bookings at which something was sold or for which something was spent, by their ids."""
        known = {id: True for found in (self.days_of, self.spent) for id in found}
        return in_order(list(known), lambda id: id)

    def cost_each(self, product, size, at):
        """Work out what one piece had cost by a time, unrounded; of a size alone, over all its cloths.

        Returns: None where nothing tells it.
        """
        key = product or size
        if key not in self.merged:
            self.merged[key] = (self._rows(product, size), {})
        rows, known = self.merged[key]
        count = count_by(rows, at)
        if count not in known:
            known[count] = cost_each_of(rows, count)
        return known[count]

    def _each(self, kind, id, at):
        return self.cost_each(id, None, at) if kind == "products" else self.cost_each(None, id, at)

    def _rows(self, product, size):
        if product:
            return self.costs.get(product, [])
        rows = []
        for id in self.recorded.ids("product") if size else ():
            if self.recorded.record("product", id)["size"] == size:
                rows += self.costs.get(id, [])
        return in_order(rows, lambda row: row["at"])

    def without_tax(self, amount):
        """Take the tax out of an amount taken."""
        return half_up(amount / self.taxed)

    def _day(self, row):
        told = {"day": row["day"], "booking": row["booking"], "pieces": row["pieces"]}
        told.update({"uncosted": row["others"], "card_takings": row["card"]})
        told["takings"] = self.without_tax(row["taken"])
        told["refunds"] = self.without_tax(row["given_back"])
        goods = 0.0
        for kind in ("products", "sizes"):
            for id in in_text_order(list(row[kind])):
                pieces = row[kind][id]
                each = self._each(kind, id, row["at"])
                goods += pieces * (each or 0)
                told["uncosted"] += pieces if each is None else 0
        told["goods"] = half_up(goods)
        share = self.terms(row["booking"])["fee_percent"] or 0
        told["share"] = half_up(share_of(told["takings"] - told["refunds"], share))
        told["card"] = half_up(share_of(row["card"], self.business["card_fee"] or 0))
        return told

    def booking(self, id):
        """Add up one booking.

        Returns: {"booking", "market", "name", "days": those it was booked for, "takings", "refunds",
        "card_takings", each of COSTS, "profit", "pieces", "uncosted", "own_minutes": None
        where opening hours are not said, "open_minutes", "helper_minutes", "spent": [{"expense", "what",
        "amount"}], "charged": what its terms say}.
        """
        record = self.recorded.record("booking", id) or {"days": None}
        market, name = self.market_of(id)
        told = {"booking": id, "market": market, "name": name, "days": record["days"] or []}
        ours = self.days_of.get(id, [])
        for part in ("takings", "refunds", "card_takings", "pieces", "uncosted") + OF_SALES:
            told[part] = add_up([day[part] for day in ours])
        terms = self.terms(id)
        told["fee"], told["other"] = terms["fee"] or 0, terms["other"] or 0
        way = {"distance_km": terms["distance_km"] or 0, "trips": terms["trips"]}
        told["travel"] = half_up(travel_cost(way, self.business["per_km"] or 0))
        told["spent"] = [
            {"expense": fact["id"], "what": fact["what"], "amount": fact["amount"]}
            for fact in self.spent.get(id, ())
        ]
        told["expenses"] = add_up([row["amount"] for row in told["spent"]])
        told.update(self._time(id, terms, len(told["days"])))
        told["profit"] = told["takings"] - told["refunds"] - add_up([told[part] for part in COSTS])
        told["charged"] = terms
        return told

    def _time(self, id, terms, days):
        # her own time: open, and what was recorded beside it, else what is said of way and setting up
        own = helper = 0.0
        pay = 0
        for fact in self.worked.get(id, ()):
            if fact["person"] in self.paid:
                helper += fact["minutes"]
                pay += half_up(pay_of(fact["minutes"], wage_of(self.recorded, fact["person"], fact["day"])))
            else:
                own += fact["minutes"]
        if not own:
            own = (terms["travel_minutes"] or 0) * terms["trips"] + (terms["set_up_minutes"] or 0)
        opened = _minutes_between(terms["opens"], terms["closes"])
        whole = None if opened is None else opened * days + own
        return {
            "own_minutes": whole,
            "open_minutes": None if opened is None else opened * days,
            "helper_minutes": helper,
            "helpers": pay,
        }


def key_of(booking):
    """Name what a booking is judged with: its market, or itself where it is of none."""
    return booking["market"] or booking["booking"]


def result_row(booking):
    """Write a booking as market-result takes it, as `Ledger.booking` tells it, its time known.

    Each part is whole money already, so that profits are their parts' sums to the cent: shares, card,
    travel and helpers are among what it costs beside. Where more came back than was sold, a part is gained.
    """
    parts = [booking[part] for part in COSTS]
    return {
        "name": booking["booking"],
        "market": key_of(booking),
        "takings": booking["takings"] + add_up([-amount for amount in parts if amount < 0]),
        "refunds": booking["refunds"],
        "goods_cost": max(0, booking["goods"]),
        "fee": booking["fee"],
        "distance_km": 0,
        "own_minutes": max(1, booking["own_minutes"]),
        "other": add_up([booking[part] for part in COSTS[2:] if booking[part] > 0]),
    }


def _by_booking(rows):
    found = {}
    for row in rows:
        if row["booking"]:
            found.setdefault(row["booking"], []).append(row)
    return found


def _minutes_between(opens, closes):
    if not opens or not closes:
        return None
    first, last = [int(time[:2]) * 60 + int(time[3:]) for time in (opens, closes)]
    return last - first if last > first else None
