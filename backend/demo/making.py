"""At home: the bench, the weekly count that finds what is new, the shopping list, the checklists."""

from ..core.catalogue import answer
from .counting import count
from .days import at

THREADS = ("grey", "rust", "white", "navy")
# what is bought each quarter, enough for this many pieces of each cloth
SHOPPED_FOR = ("Everyday", 60)


class Bench:
    """What is sewn: batches, spread evenly over the weeks of the year."""

    def __init__(self, year, weeks):
        self.pieces = year["pieces_of_a_batch"]
        self.by_week = [
            range(year["batches"] * week // weeks, year["batches"] * (week + 1) // weeks)
            for week in range(weeks)
        ]

    def sew(self, week, products, shelf):
        """Put a week's batches on the shelf, of what runs out first; returns {product: what is new}."""
        new = {}
        for number in self.by_week[week]:
            product = min(products, key=lambda one: (shelf[one.id] / one.liked, one.id))
            shelf[product.id] += self.pieces
            told = f"batch {number + 1}, {THREADS[number % len(THREADS)]} thread"
            new[product.id] = f"{new[product.id]}; {told}" if product.id in new else f"new: {told}"
        return new


def count_shelf(random, things, bench, shelf, week, friday):
    """Bring the week's batches to the shelf, and count it; what is spoilt or given goes before."""
    new = bench.sew(week, things.products, shelf)
    if random.random() < 0.45:
        product = random.choice([one for one in things.products if one.id not in new and shelf[one.id] > 4])
        pieces, reason = random.choice((1, 1, 2)), random.choice(("spoilt", "spoilt", "given"))
        things.imke.fact(
            "set-aside", at(friday, "12:00"), friday, place=things.home, product=product.id, quantity=pieces,
            reason=reason,
        )  # fmt: skip
        shelf[product.id] -= pieces
    count(things, things.imke, things.home, friday, "17:00", "1", shelf, new)


def sign_checklist(phone, day):
    """Sign the checklist of the week's cutting."""
    time = at(day, "10:00")
    wanted = {"tool": "rotary cutter", "cloth": "woven"}
    items = answer("safe-cutting-checklist", wanted)["result"]["items"]
    ticked = [{"item": item["id"]} for item in items if item["must"]]
    phone.fact("checklist-signature", time, day, person="Imke", ticked=ticked, **wanted)


def shop(things, day):
    """Put the quarter's cloth on the shopping list; returns its lines."""
    size, pieces = SHOPPED_FOR
    cut = {name: value for name, value in things.strips[size].items() if name != "name"}
    strip = answer("strip-length", cut)["result"]
    listed = []
    for name, cloth in things.cloths.items():
        known = {field: value for field, value in cloth.items() if field not in ("name", "tear")}
        asked = {"strip_length": strip["strip_length"], "strip_width": strip["strip_width"], **known}
        found = answer("fabric-per-dozen", asked | {"quantity": pieces})["result"]
        made = {"name": name, "for_what": f"{size}, {pieces // 12} dozen", "quantity": pieces}
        made |= {"length_to_buy": found["length_to_buy"], "cost": found["cost"]}
        listed.append(things.imke.describe("list-line", at(day, "18:00"), **made))
    return listed


def put_in_bag(things, day, listed):
    """Buy what is on the list."""
    for record in listed:
        things.imke.describe("list-line", at(day, "11:00"), record, bought=True)
