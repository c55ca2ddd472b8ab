"""At home: what the bench is to sew, what is spoilt, the shopping list, the checklists."""

from ..catalogue import answer
from ..numbers.calendar import day_of
from ..numbers.money import add_up, spread

# cloth is bought each quarter, enough for so many pieces, of each cloth by how well it is liked
SHOPPED_FOR = ("Everyday", 1440)
CUT_WITH = {"tool": "rotary cutter", "cloth": "woven"}
# days ahead that she sews for, and what is sewn whatever comes, as so many sales
SEWN_AHEAD, SEWN_ANYWAY = 35, 60
NOT_ASKED = ("name", "tear")


class Bench:
    """What is sewn: batches, each week more of them the more the weeks after it will sell.

    Takes: year, as the fixtures tell it; weeks, the numbers of its Fridays;
    days, the market days.
    """

    def __init__(self, year, weeks, days):
        self.pieces = year["pieces_of_a_batch"]
        weights = []
        for friday in weeks:
            soon = [one.expected for one in days if 0 < one.number - friday <= SEWN_AHEAD]
            weights.append(SEWN_ANYWAY + add_up(soon))
        self.by_week = {friday: count for friday, count in zip(weeks, spread(year["batches"], weights))}

    def choose(self, friday, products, shelf):
        """Choose what is sewn by a Friday, a product for each batch: of what runs out first."""
        chosen, there = [], dict(shelf)
        for _ in range(self.by_week[friday]):
            product = _runs_out_first(products, there)
            there[product.id] += self.pieces
            chosen.append(product)
        return chosen


def _runs_out_first(products, shelf):
    first = products[0]
    for one in products[1:]:
        # shelf ÷ liked, compared without dividing
        if shelf[one.id] * first.liked < shelf[first.id] * one.liked:
            first = one
    return first


def set_aside(chance, things, in_work, shelf, number):
    """Take what is spoilt or given from the shelf, of what is not just sewn."""
    if chance.draw() < 0.45:
        product = chance.one_of(
            [one for one in things.products if one.id not in in_work and shelf[one.id] > 4]
        )
        gone = {"place": things.home, "product": product.id, "quantity": chance.one_of((1, 1, 2))}
        gone["reason"] = chance.one_of(("spoilt", "spoilt", "given"))
        things.imke.fact("set-aside", things.clock(number, "12:00"), day_of(number), gone)
        shelf[product.id] -= gone["quantity"]


def musts():
    """List what is ticked before a week's cutting: [{"item"}]."""
    items = answer("safe-cutting-checklist", CUT_WITH)["result"]["items"]
    return [{"item": item["id"]} for item in items if item["must"]]


def sign_checklist(things, number, ticked):
    """Sign the checklist of the week's cutting."""
    signed = {"person": things.stall["people"][0], "ticked": ticked}
    signed.update(CUT_WITH)
    things.imke.fact("checklist-signature", things.clock(number, "10:00"), day_of(number), signed)


def needed(things, liked):
    """List the cloth of a quarter, as lines of the shopping list: whole dozens of each, {cloth: percent}."""
    name, of_all = SHOPPED_FOR
    [size] = [one for one in things.strips if one["name"] == name]
    strip = answer("strip-length", {field: size[field] for field in size if field != "name"})["result"]
    lines = []
    for cloth in things.cloths:
        asked = {field: cloth[field] for field in cloth if field not in NOT_ASKED}
        asked.update({"strip_length": strip["strip_length"], "strip_width": strip["strip_width"]})
        number_of_dozens = -(-of_all * liked[cloth["name"]] // 1200)
        pieces = asked["quantity"] = 12 * number_of_dozens
        found = answer("fabric-per-dozen", asked)["result"]
        made = {"name": cloth["name"], "for_what": name + ", " + _dozen(number_of_dozens)}
        made.update({"quantity": pieces, "cloth": things.cloth_ids[cloth["name"]]})
        made.update({"size": things.sizes[name], "length_to_buy": found["length_to_buy"]})
        made["cost"] = found["cost"]
        lines.append(made)
    return lines


def shop(things, number, lines):
    """Put lines on the shopping list; returns each with its record."""
    at = things.clock(number, "19:20")
    return [(line, things.imke.describe("list-line", at, line)) for line in lines]


def _dozen(number):
    return str(number) + " dozen"


def put_in_bag(things, at, listed):
    """Tick what is on the list."""
    for _, record in listed:
        things.imke.describe("list-line", at, {"bought": True}, record)
