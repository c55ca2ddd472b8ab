"""What market days tell of the next: what sold, for how long it was there, what was asked for."""

from ..counting.fold import fold
from ..counting.keys import parts_of
from ..counting.pieces_at import pieces_at
from ..declaring.reading import LARGEST
from ..numbers.calendar import MINUTE_MS
from ..numbers.money import add_up, spread
from ..numbers.ordering import in_text_order
from ..records.descriptions_of_markets import terms_of
from ..records.reader import movements
from ..records.recorded import Recorded
from .gains import hours_said
from .known_days import SHORTEST
from .there import HOUR_MS, There

NOON = 720
# a day whose hours nobody said lasted from its first sale to its last, and so long at least
SHORTEST_DAY_MS = HOUR_MS
# and no longer, whatever a clock said
LONGEST_DAY_MS = 24 * HOUR_MS
# a day with more counts is looked at so often, evenly, as each look folds all that was until then
MOST_LOOKS = 24


def sold_at_markets(facts, records, markets):
    """Tell what some market days tell of the next.

    A product's hours end when its last piece was sold, by the counts and the movements of the stall;
    when it was asked for in vain, or a count found none, with the last sale before. What was sold as
    a size alone counts for its products by what was sold of each by name. Of more than MOST_LOOKS counts
    some are looked at together with a later one.
    Takes: facts of these days, and of their stalls' stock since the day before each that there was a market;
    records, {kind: {id: fields}} of bookings, markets and products; markets, [{"day", YYYY-MM-DD, "booking",
    its id, "noon" of that day where the market is, UTC ms, "since": the day from which on facts tell of it}].
    Returns: of each None where nothing was sold, else {"hours": of the day, "said": whether somebody said
    them, "rows": [{"product", "sold", "hours": None for all day, "asked", "sold_out"}], "brought": pieces
    known to be there in all, "kept": [{"size", "full": at full price, "taken"}], "taken", "by_card":
    money}. Facts that cannot be read are set aside.
    """
    recorded = Recorded(facts, records)
    sizes = {id: recorded.record("product", id)["size"] for id in recorded.ids("product")}
    # of kinds that are not known nobody asked what their day is
    given = [fact.get("day") for fact in recorded.standing]
    days = [day if isinstance(day, str) else None for day in given]
    return [_sold_at(recorded, days, sizes, **market) for market in markets]


def _sold_at(recorded, days, sizes, day, booking, noon, since):
    standing = [fact for fact, on in zip(recorded.standing, days) if on is None or since <= on <= day]
    ours = [fact for fact in standing if fact.get("day") == day and fact.get("booking") == booking]
    sales = [fact for fact in ours if fact["kind"] == "sale"]
    if not sales:
        return None
    said = recorded.record("booking", booking)
    terms = terms_of(said, recorded.record("market", said["market"])) if said else {}
    opens, closes = [None if told is None else noon + (told - NOON) * MINUTE_MS for told in hours_said(terms)]
    place = terms.get("place") or sales[0]["place"]
    start, end, is_said = _hours(sales, opens, closes)
    sold = _sold(ours, sizes)
    lying = _Lying(standing, place, start, end)
    lying.follow([fact for fact in standing if fact["at"] >= start and fact.get("day") == day])
    told = {"hours": (end - start) / HOUR_MS, "said": is_said, "brought": lying.brought}
    for product in sold:
        lying.of(product)
    rows = [
        _row(product, sold.get(product, 0), lying, told["hours"])
        for product in in_text_order(list(lying.found))
    ]
    told["rows"] = [row for row in rows if row]
    told["kept"] = _kept(sales, sizes)
    told["taken"] = add_up([sale["amount"] for sale in sales])
    told["by_card"] = add_up([sale["amount"] for sale in sales if sale["payment"] == "card"])
    return told


def _hours(sales, opens, closes):
    if opens is not None:
        return opens, closes, True
    first, last = sales[0]["at"], sales[-1]["at"]
    return first, min(max(last, first + SHORTEST_DAY_MS), first + LONGEST_DAY_MS), False


class _Lying:
    """What lies on a stall on a market day."""

    def __init__(self, standing, place, start, end):
        self.standing, self.place, self.start, self.end = standing, place, start, end
        self.found, self.asked = {}, {}
        for fact in standing:
            if fact["kind"] == "asked-for" and fact["at"] >= start and fact.get("place") == place:
                self.asked[fact.get("product")] = self.asked.get(fact.get("product"), 0) + 1
        self._look([fact for fact in standing if fact["at"] < start])
        for product in in_text_order(list(self.counted)):
            self.of(product)
        self.brought = add_up([max(0, self.found[product].pieces or 0) for product in self.found])

    def _look(self, facts):
        # {product: when it was counted, None for never}, and since when all that is not named was none
        held = fold(facts, None, {self.place: True})
        known = pieces_at(held, self.place)
        self.pieces, self.others = known["pieces"], known["others"]
        self.all_counted = held["places"].get(self.place)
        rows = [(parts_of(key)[1], held["stock"][key][1]) for key in held["stock"]]
        self.counted = {product: counted for product, counted in rows if product}

    def of(self, product):
        """Find a product; what was never there was none where all was counted."""
        if product not in self.found:
            pieces = self.pieces[product] if product in self.counted else self.others
            self.found[product] = There(self.start, self.end, pieces)
        return self.found[product]

    def follow(self, facts):
        """Take in what happened on the day, in its order."""
        left = len([fact for fact in facts if self._is_close(fact)])
        every = max(1, (left + MOST_LOOKS - 1) // MOST_LOOKS)
        for fact in facts:
            if self._is_close(fact):
                left -= 1
                # a look tells what all counts until then found, and the last one is looked at
                if left % every == 0:
                    self._count(fact)
            else:
                self._follow(fact)

    def _is_close(self, fact):
        return fact["kind"] == "count-close" and fact["place"] == self.place

    def _follow(self, fact):
        if fact["kind"] == "asked-for":
            if fact["place"] == self.place and fact.get("product"):
                self.of(fact["product"]).ask(fact["at"])
        else:
            for place, row, pieces in movements(fact):
                if place == self.place and row.get("product"):
                    self._move(fact, row["product"], int(pieces))

    def _move(self, fact, product, pieces):
        if fact["kind"] == "sale" and pieces < 0:
            self.of(product).sell(fact["at"], -pieces)
            return
        self.of(product).move(fact["at"], pieces)
        if fact["kind"] == "move" and pieces > 0 and fact["at"] < self.end:
            self.brought += pieces

    def _count(self, close):
        # of what this count looked for, the stock is what it says; all else goes on
        before, all_before = self.counted, self.all_counted
        for product in before:
            self.of(product)
        self._look([fact for fact in self.standing if fact["at"] <= close["at"]])
        for product in in_text_order(list(self.counted)):
            if self.counted[product] is not None and self.counted[product] != before.get(product):
                self.of(product).count(close["at"], self.pieces[product])
        for product in in_text_order(list(self.found)):
            if product not in self.counted and self.all_counted != all_before:
                self.of(product).count(close["at"], 0)


def _row(product, sold, lying, whole):
    one, asked = lying.of(product), lying.asked.get(product, 0)
    hours = one.hours()
    if not (sold or asked or (one.was_known and hours > 0)):
        return None
    if sold:
        hours = max(hours, SHORTEST)
    row = {"product": product, "sold": sold, "asked": asked, "sold_out": one.sold_out}
    row["hours"] = hours if hours < whole else None
    return row


def _sold(ours, sizes):
    # pieces by product, less what came back
    named, of_size = {}, {}
    for fact in ours:
        if fact["kind"] == "sale":
            _add(named, of_size, fact["lines"], 1)
            _add(named, of_size, fact.get("returned") or [], -1)
        elif fact["kind"] == "refund":
            _add(named, of_size, fact["lines"], -1)
    by_size = {}
    for product in in_text_order(list(sizes)):
        by_size.setdefault(sizes[product], []).append(product)
    for size in of_size:
        of_it = by_size.get(size, [])
        weights = [max(0, named.get(product, 0)) for product in of_it]
        if of_it and of_size[size] > 0:
            weights = weights if add_up(weights) else [1] * len(of_it)
            for product, pieces in zip(of_it, spread(of_size[size], weights)):
                named[product] = named.get(product, 0) + pieces
    return {product: max(0, named[product]) for product in named}


def _add(named, of_size, lines, sign):
    for line in lines:
        where, key = (named, line.get("product")) if line.get("product") else (of_size, line.get("size"))
        if key:
            where[key] = where.get(key, 0) + sign * int(line["quantity"])


def _kept(sales, sizes):
    # what offers and discounts left of full prices, by size
    told = {}
    for sale in sales:
        for line in sale["lines"] if sale["payment"] != "none" else []:
            size = line.get("size") or sizes.get(line.get("product"))
            if size:
                row = told.setdefault(size, {"size": size, "full": 0, "taken": 0})
                row["full"] = min(LARGEST, row["full"] + line["unit_price"] * line["quantity"])
                row["taken"] += line["total"]
    return [told[size] for size in in_text_order(list(told))]
