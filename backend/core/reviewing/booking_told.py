"""One booking opened to its parts, and the time of day at which it had paid for itself."""

from ..catalogue import answer_of_facts
from ..costing.time_taken import wage_of
from ..deciding.market_result import INPUTS
from ..declaring.spec import by_name
from ..numbers.money import add_up
from ..numbers.rounding import half_up
from ..records.reader import kinds_of_takings, movements, readable, stands
from ..records.uses import STOCK, TAKINGS
from .ledger import Ledger, result_row

MOST_SALES = by_name(INPUTS)["sales"].most


def booking_told(facts, records, sums, costs, booking, voids):
    """Tell what a booking came to, and when what its sales left had paid for it.

    Takes: facts, records, sums and costs as `Ledger` does, sums of its days at least, and among the facts
    what was sold and given back on its days; booking, its id; voids, {fact: true}.
    Returns: what `Ledger.booking` tells, "per_hour" and "after_wage" as market-result does, None where its
    hours are not known, and "broke_even_at": UTC ms of the first sale from which what
    sales leave stays at or above what the booking costs; None where it never
    did, or with more than 2000 sales.
    """
    ledger = Ledger(facts, records, sums, costs)
    told = ledger.booking(booking)
    told.update({"per_hour": None, "after_wage": None})
    if told["own_minutes"]:
        wage = wage_of(ledger.recorded, None, max(told["days"]))
        asked = _alone([result_row(told)], wage or 0, 0)
        row = answer_of_facts("market-result", asked)["result"]["bookings"][0]
        told.update({"per_hour": row["per_hour"], "after_wage": None if wage is None else row["after_wage"]})
    sales = _sales(ledger, facts, booking, voids)
    told["broke_even_at"] = _broke_even_at(ledger, told, sales) if len(sales) <= MOST_SALES else None
    return told


def _sales(ledger, facts, booking, voids):
    summed, told = kinds_of_takings(), []
    ours = [fact for fact in readable(facts, TAKINGS) if fact["kind"] in summed]
    for fact in readable([fact for fact in ours if fact.get("booking") == booking], STOCK):
        if stands(fact, voids):
            sold = summed[fact["kind"]][0] == "taken"
            amount = ledger.without_tax(fact["amount"])
            cost = 0.0
            for _, row, pieces in movements(fact):
                cost -= pieces * (ledger.cost_each(row.get("product"), row.get("size"), fact["at"]) or 0)
            told.append({
                "at": fact["at"],
                "amount": amount if sold else -amount,
                "cost": half_up(cost),
                "card": sold and fact["payment"] == "card",
            })  # fmt: skip
    return told


def _broke_even_at(ledger, told, sales):
    terms = told["charged"]
    # what they are called is no matter of this, and may be nothing but spaces
    row = {"name": "booking", "market": "market", "own_minutes": 1}
    row.update({"takings": told["takings"], "goods_cost": max(0, told["goods"]), "distance_km": 0})
    row.update({"fee": told["fee"], "fee_percent": terms["fee_percent"] or 0})
    row["other"] = add_up([told[part] for part in ("travel", "helpers", "other", "expenses")])
    # a card costs its share of what is paid, tax and all
    asked = _alone([row], 0, min(100, (ledger.business["card_fee"] or 0) * ledger.taxed))
    asked["sales"] = sales
    return answer_of_facts("market-result", asked)["result"]["broke_even_at"]


def _alone(rows, wage, card_fee):
    return {"bookings": rows, "wage": wage, "helper_wage": 0, "per_km": 0, "card_fee": card_fee}
