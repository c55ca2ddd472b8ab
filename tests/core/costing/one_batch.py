"""The records of one batch of eighteen: what was bought, cut, sewn and timed."""

from tests.core.ids import named

DAY = "2026-05-10"
SIZE = {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45, "elastic": named("e1")}
RECORDS = {
    "business": {named("b1"): {"name": "Tern & Tansy", "currency": "EUR", "points": [{"price": 700}]}},
    "piece": {named("s1"): SIZE},
    "cloth": {named("c1"): {"name": "Lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}},
    "remnant": {named("r1"): {"name": "Rest", "cloth": named("c1"), "width": 388, "length": 1000}},
    "elastic": {named("e1"): {"name": "Braided", "roll_length": 50000, "knot_takeup": 31}},
    "thread": {named("t1"): {"name": "Sea green", "length": 1000000}},
    "supply": {named("p1"): {"name": "Bags", "use": "packaging", "lasts": 100}},
    "product": {named("g1"): {"size": named("s1"), "cloth": named("c1"), "price": 600, "group": "Everyday"}},
    "batch": {
        named("h1"): {
            "number": "1",
            "needle": named("t1"),
            "lines": [{"size": named("s1"), "cloth": named("c1"), "quantity": 18}],
        }
    },
}


def fact(kind, at, **fields):
    return {"kind": kind, "id": f"{kind} {at}", "at": at, "day": "2026-05-02", **fields}


def lap(pieces, minutes, disturbed=False):
    return {"pieces": pieces, "took_ms": minutes * 60000, "disturbed": disturbed}


FACTS = [
    fact("purchase", 1, cloth=named("c1"), length=2600, amount=2314),
    fact("purchase", 2, elastic=named("e1"), quantity=1, amount=790),
    fact("purchase", 3, thread=named("t1"), quantity=1, amount=420),
    fact("purchase", 4, supply=named("p1"), quantity=1, amount=400, tax=100),
    fact("wage-set", 5, wage=1500, **{"from": "2026-01-01"}),
    fact(
        "cut",
        6,
        cloth=named("c1"),
        length=1000,
        lines=[{"size": named("s1"), "quantity": 18}],
        offcuts=[named("r1")],
    ),
    fact("batch-step", 7, batch=named("h1"), step="tube", laps=[lap(18, 27)]),
    fact("batch-step", 8, batch=named("h1"), step="knot", laps=[lap(9, 5), lap(9, 12, True)]),
    fact(
        "batch-result",
        9,
        batch=named("h1"),
        place="home",
        lines=[{"product": named("g1"), "made": 18, "good": 17}],
    ),
]
