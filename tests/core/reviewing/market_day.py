"""Any facts of a day at two markets and two cash boxes, from a seed."""

from random import Random

DAY = "2026-10-25"  # the clocks of Berlin go back in its night
HOUR = 3_600_000
MIDNIGHT = 1792879200000  # 00:00 in Berlin, summer time
# a day of 25 hours: two of them are called 02:00
NAMES = [f"{hour:02}:00" for hour in (0, 1, 2, *range(2, 24))]
HOURS = [{"at": MIDNIGHT + number * HOUR, "name": name} for number, name in enumerate([*NAMES, "24:00"])]
BOOKINGS = ("quay", "barn", None)
BOXES = ("green tin", "blue tin", None)
PLACES = {"quay": "quay stall", "barn": "barn stall", None: "shelf"}
PAYMENTS = ("cash", "cash", "card", "other", "none")
REASONS = ("", "a regular", "=late", "rain")
KINDS = ("sale", "sale", "sale", "sale", "refund", "void", "set-aside", "asked-for", "cash-count",
         "cash-movement", "move", "expense", "purchase")  # fmt: skip


def facts_of_a_day(seed):
    """Make facts with ids "0", "1" …, in any order: some of another day, some not of a market."""
    random = Random(seed)
    kinds = [random.choice(KINDS) for _ in range(random.randrange(25))]
    sales = [str(number) for number, kind in enumerate(kinds) if kind == "sale"]
    facts = [a_fact(random, str(number), kind, sales) for number, kind in enumerate(kinds)]
    random.shuffle(facts)
    return facts


def a_fact(random, name, kind, sales):
    booking = random.choice(BOOKINGS)
    return {
        "kind": kind,
        "id": name,
        "day": random.choice((DAY, DAY, DAY, DAY, "2026-10-24")),
        "at": MIDNIGHT + random.randrange(-HOUR, 26 * HOUR),
        "booking": booking,
        "place": PLACES[booking],
        "box": random.choice(BOXES),
        **PARTS[kind](random, sales),
    }


def a_line(random):
    goods = random.choice(
        [{"product": "everyday"}, {"product": "grand"}, {"size": "petite"}, {"name": "button jar"}]
    )
    line = {
        "product": None,
        "size": None,
        "quantity": random.randrange(1, 5),
        "reason": random.choice(REASONS),
    }
    return line | goods | {"unit_price": random.randrange(900), "total": random.randrange(3000)}


def a_sale(random, sales):
    return {
        "lines": [a_line(random) for _ in range(random.randrange(1, 4))],
        "amount": random.randrange(3000),
        "payment": random.choice(PAYMENTS),
        "returned": [a_line(random) for _ in range(random.randrange(2))],
        "offers": [
            {"offer": random.choice(("three", "half")), "times": 1, "saving": random.randrange(300)}
            for _ in range(random.randrange(3))
        ],
        "off": random.choice((0, 0, 50)),
        "reason": random.choice(REASONS),
    }


def a_refund(random, sales):
    return {
        "lines": [a_line(random)],
        "amount": random.randrange(3000),
        "payment": random.choice(PAYMENTS[:3]),
        "goods": random.choice(("table", "spoilt")),
        "sale": random.choice([None, *sales]),
        "reason": random.choice(REASONS),
    }


def a_void(random, sales):
    return {"sale": random.choice([*sales, "a sale not here"]), "reason": random.choice(REASONS)}


def a_set_aside(random, sales):
    reason = random.choice(("spoilt", "given", "lost", "found"))
    return {"product": random.choice(("everyday", "grand")), "quantity": 2, "reason": reason}


def a_cash_count(random, sales):
    counted = [{"value": value, "count": random.randrange(9)} for value in (500, 200, 5)]
    moment, reason = random.choice(("float", "cash-up")), random.choice(REASONS)
    amount = sum(part["value"] * part["count"] for part in counted)
    # a float is often kept without its notes and coins
    return {"moment": moment, "amount": amount, "counted": random.choice(([], counted)), "reason": reason}


def a_cash_movement(random, sales):
    direction = random.choice(("paid in", "taken out"))
    return {"direction": direction, "amount": random.randrange(1, 3000), "reason": "lunch"}


PARTS = {
    "sale": a_sale,
    "refund": a_refund,
    "void": a_void,
    "set-aside": a_set_aside,
    "asked-for": lambda random, sales: {"product": random.choice(("everyday", "grand")), "size": None},
    "cash-count": a_cash_count,
    "cash-movement": a_cash_movement,
    "expense": lambda random, sales: {"what": "parking", "amount": random.randrange(1, 3000)},
    "purchase": lambda random, sales: {"cloth": "lawn", "length": 500.0, "amount": random.randrange(3000)},
    "move": lambda random, sales: {"from": "shelf", "to": "quay stall", "product": "grand", "quantity": 2},
}
