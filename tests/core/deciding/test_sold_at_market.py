"""What a market day tells: pieces, the hours that they were there, what was asked for in vain."""

import json

from backend.core import bridge
from backend.core.deciding import sold_at_market as module
from backend.core.deciding.sold_at_market import MOST_LOOKS, sold_at_markets

DAY, BETWEEN, NEXT_DAY, HOME = "2026-05-02", "2026-05-03", "2026-05-04", "home"
HOUR = 3600000
LAWN, CHECK, GRAND = "lawn", "check", "grand"
EVERYDAY, GRANDE, STALL, MARKET, BOOKING = (
    f"00000000-0000-7000-8000-00000000000{number}" for number in range(5)
)
NEXT_BOOKING = "00000000-0000-7000-8000-000000000005"
PRODUCTS = {
    product: {"size": size, "price": 600, "group": "all"}
    for product, size in ((LAWN, EVERYDAY), (CHECK, EVERYDAY), (GRAND, GRANDE))
}
BOOKED = {"market": MARKET, "days": [DAY], "place": STALL}
OPEN = {"opens": "09:00", "closes": "15:00"}
ASKED = {"day": DAY, "booking": BOOKING, "noon": 12 * HOUR, "since": ""}


class Day:
    """The facts of a day, each at an hour of it."""

    def __init__(self):
        self.facts = []

    def state(self, kind, hour, **fields):
        id = f"{kind} {len(self.facts):03}"
        self.facts.append({"kind": kind, "id": id, "at": int(hour * HOUR), "day": DAY, **fields})
        return id

    def count(self, hour, **pieces):
        where = {"session": f"count {hour}", "place": STALL}
        for product, quantity in pieces.items():
            self.state("count-line", hour, **where, product=product, quantity=quantity)
        self.state("count-close", hour, **where, scope="all")

    def sell(self, hour, pieces=1, price=600, total=None, payment="cash", returned=(), **goods):
        line = {**goods, "quantity": pieces, "unit_price": price}
        line["total"] = pieces * price if total is None else total
        return self.state("sale", hour, booking=BOOKING, place=STALL, lines=[line], returned=list(returned),
                          amount=line["total"], payment=payment)  # fmt: skip

    def ask(self, hour, product):
        self.state("asked-for", hour, booking=BOOKING, place=STALL, product=product)

    def told(self, **said):
        market, booking = {"name": "Quay", **OPEN}, {**BOOKED, **said}
        if said:
            market.update(opens=None)
        records = {"market": {MARKET: market}, "booking": {BOOKING: booking}, "product": PRODUCTS}
        return sold_at_markets(self.facts, records, [ASKED])[0]

    def rows(self):
        rows = self.told()["rows"]
        return {row["product"]: (row["sold"], row["hours"], row["asked"], row["sold_out"]) for row in rows}


def counted(**pieces):
    day = Day()
    day.count(8, **pieces)
    return day


def test_a_product_is_there_until_its_last_piece_is_sold():
    day = counted(lawn=3, check=5, grand=2)
    day.sell(10, 2, product=LAWN)
    day.sell(11.5, 1, product=LAWN)
    day.sell(14, 4, product=CHECK)
    assert day.rows() == {
        LAWN: (3, 2.5, 0, True),
        CHECK: (4, None, 0, False),
        # nobody wanted it, though it was there
        GRAND: (0, None, 0, False),
    }
    assert day.told()["brought"] == 10


def test_a_day_whose_hours_nobody_said_is_no_longer_than_a_day_whatever_a_clock_said():
    day = counted(lawn=3)
    day.sell(10, product=LAWN)
    day.sell(10 + 24 * 50, product=LAWN)
    assert (day.told(opens=None)["hours"], day.told(opens=None)["said"]) == (24, False)


def test_what_was_not_there_tells_nothing_but_that_it_was_asked_for():
    day = counted(lawn=3, check=0, grand=0)
    day.sell(10, product=LAWN)
    day.ask(11, CHECK)
    assert day.rows() == {LAWN: (1, None, 0, False), CHECK: (0, 0.0, 1, False)}


def test_pieces_that_come_later_are_there_from_then_on():
    day = counted(lawn=1, check=4)
    day.sell(10, product=LAWN)
    day.state("move", 12, **{"from": HOME, "to": STALL}, product=LAWN, quantity=2)
    day.sell(13, product=LAWN)
    # from nine to ten, from twelve to three
    assert day.rows()[LAWN] == (2, 4.0, 0, False)
    assert day.told()["brought"] == 7


def test_what_was_packed_up_after_closing_had_not_sold_out():
    day = counted(lawn=3)
    day.sell(10, product=LAWN)
    day.state("move", 16, **{"from": STALL, "to": HOME}, product=LAWN, quantity=2)
    day.count(17)
    assert day.rows()[LAWN] == (1, None, 0, False)


def test_who_packs_up_early_sells_no_longer():
    day = counted(lawn=3)
    day.sell(10, product=LAWN)
    day.state("move", 12, **{"from": STALL, "to": HOME}, product=LAWN, quantity=2)
    assert day.rows()[LAWN] == (1, 3.0, 0, False)


def test_where_the_books_say_none_and_a_piece_sells_they_are_not_believed():
    day = counted(lawn=1)
    day.sell(10, product=LAWN)
    day.sell(14, product=LAWN)
    assert day.rows()[LAWN] == (2, None, 0, False)
    day.ask(14.5, LAWN)
    # it had gone with the last one
    assert day.rows()[LAWN] == (2, 5.0, 1, True)


def test_of_what_nobody_counted_only_sales_and_who_asks_tell():
    day = Day()
    day.sell(10, product=LAWN)
    day.sell(12, product=CHECK)
    day.ask(13, CHECK)
    day.ask(14, CHECK)
    assert day.rows() == {LAWN: (1, None, 0, False), CHECK: (1, 3.0, 2, True)}
    assert day.told()["brought"] == 0


def test_a_count_that_finds_none_says_that_it_sold_out_with_the_last_sale():
    day = counted(lawn=5, check=5)
    day.sell(11, 3, product=LAWN)
    day.sell(12, 1, product=CHECK)
    day.count(15.5, check=4)
    assert day.rows() == {LAWN: (3, 2.0, 0, True), CHECK: (1, None, 0, False)}


def test_a_size_alone_counts_for_its_products_by_what_sold_by_name():
    day = counted(lawn=20, check=20)
    day.sell(10, 6, product=LAWN)
    day.sell(10, 2, product=CHECK)
    day.sell(11, 4, size=EVERYDAY)
    assert [row[0] for row in (day.rows()[LAWN], day.rows()[CHECK])] == [9, 3]
    alone = counted(lawn=20, check=20)
    alone.sell(11, 4, size=EVERYDAY)
    assert [row[0] for row in (alone.rows()[LAWN], alone.rows()[CHECK])] == [2, 2]


def test_a_void_sale_a_swap_and_a_refund_are_no_demand():
    day = counted(lawn=9, check=9)
    never = day.sell(10, 5, product=LAWN)
    day.state("void", 10.1, sale=never)
    day.sell(11, 2, product=LAWN)
    day.sell(12, 1, price=0, payment="none", product=CHECK, returned=[{"product": LAWN, "quantity": 1}])
    back = [{"product": LAWN, "quantity": 1, "total": 600}]
    day.state(
        "refund", 13, booking=BOOKING, place=STALL, lines=back, amount=600, payment="cash", goods="table"
    )
    assert (day.rows()[LAWN], day.rows()[CHECK]) == ((0, None, 0, False), (1, None, 0, False))


def test_hours_that_nobody_said_are_those_of_the_sales():
    day = counted(lawn=9)
    day.sell(10, product=LAWN)
    told = day.told(opens=None)
    assert (told["hours"], told["said"]) == (1.0, False)
    day.sell(12.5, product=LAWN)
    assert [day.told(**said)["hours"] for said in ({"opens": None}, {"opens": "10:00"}, {})] == [
        2.5,
        5.0,
        6.0,
    ]
    # hours that end before they begin are none
    assert day.told(opens="16:00")["hours"] == 2.5


def test_what_offers_left_of_full_prices_and_what_was_paid_by_card_is_told():
    day = counted(lawn=9)
    day.sell(10, 3, total=1500, product=LAWN, payment="card")
    day.sell(11, 1, product=LAWN)
    told = day.told()
    assert told["kept"] == [{"size": EVERYDAY, "full": 2400, "taken": 2100}]
    assert (told["taken"], told["by_card"]) == (2100, 1500)


def test_a_day_without_a_sale_tells_nothing_and_bent_facts_pass_by():
    day = counted(lawn=9)
    assert day.told() is None
    day.sell(10, product=LAWN)
    day.facts.append({"kind": "sale", "id": "bent", "at": "noon", "day": DAY})
    day.facts.append("bent")
    records = {
        "market": {MARKET: {"name": "Quay", **OPEN}},
        "booking": {BOOKING: BOOKED},
        "product": PRODUCTS,
    }
    asked = {"facts": day.facts, "records": records, "markets": [ASKED]}
    answer = json.loads(bridge.call(json.dumps({"method": "sold_at_markets", "args": asked})))
    assert answer["answer"] == json.loads(json.dumps([day.told()]))


def test_days_that_are_told_together_are_told_as_each_alone():
    first, second = counted(lawn=9, check=4), Day()
    first.sell(10, 2, product=LAWN)
    first.count(15, lawn=7, check=4)
    second.state("move", 32, **{"from": HOME, "to": STALL}, product=CHECK, quantity=3)
    second.sell(35, 7, product=CHECK)
    for fact in second.facts:
        fact.update(day=NEXT_DAY, id="later " + fact["id"])
        fact.update({"booking": NEXT_BOOKING} if fact["kind"] == "sale" else {})
    # what came between belongs to the later one alone, what came before the earlier one to neither
    between = {**second.facts[0], "id": "between", "at": 20 * HOUR, "day": BETWEEN, "product": LAWN}
    before = {**second.facts[0], "id": "before", "at": 1, "day": "2026-04-30"}
    facts = [*second.facts, before, *first.facts, between]
    records = {
        "market": {MARKET: {"name": "Quay", **OPEN}},
        "booking": {BOOKING: BOOKED, NEXT_BOOKING: {**BOOKED, "days": [NEXT_DAY]}},
        "product": PRODUCTS,
    }
    early = {**ASKED, "since": DAY}
    late = {"day": NEXT_DAY, "booking": NEXT_BOOKING, "noon": 36 * HOUR, "since": DAY}
    alone = [
        *sold_at_markets(first.facts, records, [ASKED]),
        *sold_at_markets([*first.facts, between, *second.facts], records, [{**late, "since": ""}]),
    ]
    assert sold_at_markets(facts, records, [early, late]) == alone
    assert [told["brought"] for told in alone] == [13, 17]


def test_the_order_in_which_facts_come_changes_nothing():
    day = counted(lawn=3, check=5)
    day.sell(10, 3, product=LAWN)
    day.ask(11, LAWN)
    day.count(15.5, check=5)
    told = day.told()
    day.facts.reverse()
    assert day.told() == told


def folds_of(day, monkeypatch):
    """Tell what a day tells, and how many facts it folded for it."""
    folded = []

    def fold(facts, at, places):
        folded.append(len(facts))
        return plain_fold(facts, at, places)

    plain_fold = module.fold
    monkeypatch.setattr(module, "fold", fold)
    told = day.told()
    monkeypatch.undo()
    return told, folded


def crowded(counts):
    """A day on which somebody closes a count after each sale: one more of the lawn is there each time."""
    day = counted(lawn=3, check=5)
    for number in range(counts):
        day.sell(10 + number / counts, product=CHECK)
        day.count(10 + (number + 0.5) / counts, lawn=number, check=5)
    day.count(15.5, lawn=2)
    return day


def test_a_day_of_many_counts_is_looked_at_as_often_as_one_of_few(monkeypatch):
    told, folded = folds_of(crowded(400), monkeypatch)
    # the stall before the day, then a bounded number of counts, the last one among them
    assert len(folded) <= MOST_LOOKS + 1
    assert folded[-1] > 1200
    rows = {row["product"]: (row["sold"], row["sold_out"]) for row in told["rows"]}
    assert rows == {LAWN: (0, False), CHECK: (400, True)}


def test_on_a_day_of_few_counts_each_is_looked_at(monkeypatch):
    _, folded = folds_of(crowded(MOST_LOOKS - 1), monkeypatch)
    assert len(folded) == MOST_LOOKS + 1
