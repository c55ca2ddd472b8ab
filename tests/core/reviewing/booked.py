"""Bookings that are over, as records and sums: what results are made of."""

from tests.core.costing.one_batch import fact
from tests.core.ids import named

WAGE = 1500
DAYS = {"b1": "2026-06-06", "b2": "2026-06-13", "b3": "2026-06-07"}
COSTS = {"g1": [{"at": 5, "made": 10, "good": 10, "cost": 500.0}]}
FACTS = [
    fact("wage-set", 1, wage=WAGE, **{"from": "2026-01-01"}),
    fact("wage-set", 2, wage=1200, person=named("p1"), **{"from": "2026-01-01"}),
    fact("expense", 3, day="2026-06-06", what="Parking", amount=450, booking=named("b1")),
    fact("work-time", 4, person=named("p1"), what="other", minutes=30, booking=named("b1")),
]
RECORDS = {
    "business": {named("z1"): {"name": "Tern & Tansy", "currency": "EUR", "card_fee": 1.6, "per_km": 30}},
    "market": {
        named("m1"): {"name": "Quay", "fee": 2800, "fee_percent": 5, "opens": "09:00", "closes": "15:00",
                      "distance_km": 10, "travel_minutes": 20, "set_up_minutes": 60, "other": 100},
        named("m2"): {"name": "Barn", "fee": 1000, "opens": "09:00", "closes": "13:00"},
        named("m3"): {"name": "Hall", "fee": 14500},
    },
    "booking": {
        named("b1"): {"market": named("m1"), "days": [DAYS["b1"]]},
        named("b2"): {"market": named("m1"), "days": [DAYS["b2"]]},
        named("b3"): {"market": named("m2"), "days": [DAYS["b3"]]},
    },
    "product": {named("g1"): {"size": named("s1"), "price": 600, "group": "Everyday"}},
}  # fmt: skip


def costs():
    """{product: what the material of its batches cost}: 50 a piece."""
    return {named(product): rows for product, rows in COSTS.items()}


def taken(where, amount, pieces, **more):
    """Sum a day's takings at a booking, all of one product."""
    row = {"day": DAYS.get(where, "2026-06-06"), "booking": named(where), "at": 9, "sales": 1}
    row |= {"pieces": pieces, "taken": amount, "given_back": 0, "card": 0}
    return row | {"products": {named("g1"): pieces}, "sizes": {}, "others": 0} | more
