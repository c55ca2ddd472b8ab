"""What happened beside plain sales: offers, discounts, voids, refunds, swaps, what left without money."""

from ..numbers.ordering import in_order
from ..records.reader import stands


def beside_sales(facts, ours, here, voids):
    """Tell what happened beside plain sales.

    Takes: facts of the day, in order; ours, those of the booking; here, those at
    its places; all checked; voids, {sale: true}.
    Returns: {"offers": [{"offer", "times", "saving"}], "discounts": [{"reason",
    "times", "amount"}], "voids": [{"sale", "at", "pieces", "amount", "reason"}],
    "refunds": [{"refund", "sale", "at", "goods", "pieces", "amount",
    "payment", "reason"}], "swaps": {"times", "out", "back"}, "set_asides":
    [{"reason", "pieces"}]}.
    """
    sales = [fact for fact in ours if fact["kind"] == "sale"]
    stand = [sale for sale in sales if stands(sale, voids)]
    return {
        "offers": _offers(stand),
        "discounts": _discounts(stand),
        "voids": _voids(facts, [sale for sale in sales if sale["id"] in voids]),
        "refunds": [_refund(fact) for fact in ours if fact["kind"] == "refund" and stands(fact, voids)],
        "swaps": _swaps([sale for sale in stand if _is_swap(sale)]),
        "set_asides": _set_asides(here),
    }


def _offers(sales):
    used = _Tally()
    for sale in sales:
        for use in sale.get("offers") or []:
            used.add(use["offer"], use["times"], use["saving"])
    return used.listed("offer", "times", "saving")


def _discounts(sales):
    # what a line lost beside offers and the basket's discount was taken off by hand
    given = _Tally()
    for sale in sales:
        off = sale.get("off") or 0
        if off:
            given.add(sale.get("reason") or "", 1, off)
        by_hand = 0 if _is_swap(sale) else _before(sale) - off
        for use in sale.get("offers") or []:
            by_hand -= use["saving"]
        for line in sale["lines"]:
            by_hand -= line["total"]
        if by_hand > 0:
            given.add(_reason_of_lines(sale), 1, by_hand)
    return given.listed("reason", "times", "amount")


def _is_swap(sale):
    return sale["payment"] == "none" or sale.get("returned")


def _before(sale):
    before = 0
    for line in sale["lines"]:
        price = line.get("unit_price")
        before += line["total"] if price is None else price * line["quantity"]
    return before


def _reason_of_lines(sale):
    reasons = []
    for line in sale["lines"]:
        if line.get("reason") and line["reason"] not in reasons:
            reasons.append(line["reason"])
    return "; ".join(reasons)


def _voids(facts, sales):
    reasons = {fact["sale"]: fact.get("reason") or "" for fact in facts if fact["kind"] == "void"}
    return [
        {
            "sale": sale["id"],
            "at": sale["at"],
            "pieces": _pieces(sale["lines"]),
            "amount": sale["amount"],
            "reason": reasons.get(sale["id"], ""),
        }
        for sale in sales
    ]


def _refund(fact):
    return {
        "refund": fact["id"],
        "sale": fact.get("sale"),
        "at": fact["at"],
        "goods": fact["goods"],
        "pieces": _pieces(fact["lines"]),
        "amount": fact["amount"],
        "payment": fact["payment"],
        "reason": fact.get("reason") or "",
    }


def _swaps(sales):
    told = {"times": len(sales), "out": 0, "back": 0}
    for sale in sales:
        told["out"] += _pieces(sale["lines"])
        told["back"] += _pieces(sale.get("returned") or [])
    return told


def _set_asides(facts):
    given = _Tally()
    for fact in facts:
        if fact["kind"] == "set-aside":
            given.add(fact["reason"], fact["quantity"], 0)
    rows = given.listed("reason", "pieces", "nothing")
    return [{"reason": row["reason"], "pieces": row["pieces"]} for row in rows]


def _pieces(lines):
    pieces = 0
    for line in lines:
        pieces += line["quantity"]
    return pieces


class _Tally:
    def __init__(self):
        self.found = {}

    def add(self, name, times, amount):
        """Count one more under a name."""
        row = self.found.setdefault(name, [0, 0])
        row[0] += times
        row[1] += amount

    def listed(self, name, times, amount):
        """List what was counted, the most first; of the same, by their names."""
        names = in_order(list(self.found), lambda one: (-self.found[one][1], -self.found[one][0], one))
        return [{name: one, times: self.found[one][0], amount: self.found[one][1]} for one in names]
