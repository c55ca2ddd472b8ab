"""Counting: the fold of facts into stock, against a slow independent one, in any order and any batches."""

import itertools
import json
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.bridge import call
from backend.core.catalogue import answer
from backend.core.counting.count_result import count_result
from backend.core.counting.count_review import count_review
from backend.core.counting.count_so_far import count_so_far
from backend.core.counting.held import fold_stock, take_in_stock
from backend.core.counting.needed import needed_since
from backend.core.counting.stock_on_hand import list_stock
from backend.core.declaring.errors import Problems
from tests.core.counting.random_facts import GOODS, PLACES, SESSIONS, UNDOING, history

pytestmark = pytest.mark.full

PRODUCTS = {"E": {"size": "E", "price": 600}}
AT, PLACE = some.integers(0, 12), some.sampled_from(PLACES)


# the slow fold: each key by itself, straight from the words of the design ---------------------------


def goods_of(entry):
    return ("product", entry["product"]) if entry.get("product") else ("size", entry["size"])


def moves(fact):
    """List (place, goods, pieces) that a fact moves."""
    kind = fact["kind"]
    if kind == "sale":
        out = [(fact["place"], goods_of(line), -line["quantity"]) for line in fact["lines"]]
        back = fact.get("returned", ()) if fact.get("goods", "table") == "table" else ()
        return out + [(fact["place"], goods_of(line), line["quantity"]) for line in back]
    if kind == "refund" and fact["goods"] == "table":
        return [(fact["place"], goods_of(line), line["quantity"]) for line in fact["lines"]]
    if kind == "move":
        goods, pieces = goods_of(fact), fact["quantity"]
        return [(fact["from"], goods, -pieces), (fact["to"], goods, pieces)]
    if kind == "batch-result":
        return [(fact["place"], goods_of(line), line["good"]) for line in fact["lines"]]
    if kind == "set-aside":
        sign = 1 if fact["reason"] == "found" else -1
        return [(fact["place"], goods_of(fact), sign * fact["quantity"])]
    return []


def when(fact):
    return (fact["at"], fact["id"])


def covers(close, goods):
    return close["scope"] == "all" or goods in [goods_of(listed) for listed in close["listed"]]


def last_count(facts, place, goods):
    """Find the latest closed session that covers goods: (moment, counted, sales still lying there)."""
    found = []
    for session in SESSIONS:
        mine = [fact for fact in facts if fact.get("session") == session and fact["place"] == place]
        closes = sorted((fact for fact in mine if fact["kind"] == "count-close"), key=when)
        lines = sorted(
            (fact for fact in mine if fact["kind"] == "count-line" and goods_of(fact) == goods), key=when
        )
        # the last close says what is covered, since the first that says so without one between that does not
        covering = list(itertools.takewhile(lambda close: covers(close, goods), reversed(closes)))
        if not closes or not (lines or covering):
            continue
        boxes = {line.get("box_label", ""): line["quantity"] for line in lines}
        # of two answers about one sale the one for still lying there stands
        answers = {}
        for answered in closes[-1]["answers"]:
            if goods_of(answered) == goods:
                answers[answered["sale"]] = answers.get(answered["sale"]) or not answered["already_out"]
        moment = when(lines[-1]) if lines else when(covering[-1])
        found.append((moment, sum(boxes.values()), [sale for sale, lay in answers.items() if lay]))
    return max(found) if found else None


def slow_fold(facts, at=None):
    """Fold facts into {(place, goods): pieces}."""
    never = {fact[UNDOING[fact["kind"]]] for fact in facts if fact["kind"] in UNDOING}
    facts = [fact for fact in facts if at is None or fact["at"] <= at]
    stock = {}
    for place in PLACES:
        for goods in GOODS:
            count = last_count(facts, place, goods)
            pieces = count[1] if count else 0
            for fact in facts:
                after = count is None or when(fact) > count[0]
                still = count is not None and fact["kind"] == "sale" and fact["id"] in count[2]
                if fact["id"] not in never and (after or still):
                    pieces += sum(moved for to, what, moved in moves(fact) if (to, what) == (place, goods))
            stock[place, goods] = pieces
    return stock


def as_slow(rows):
    """Read on_hand as the slow fold tells it, what is not listed as none."""
    stock = dict.fromkeys(((place, goods) for place in PLACES for goods in GOODS), 0)
    for entry in rows:
        stock[entry["place"], goods_of(entry)] = entry["quantity"]
    return stock


# the fold -----------------------------------------------------------------------------------------


def test_stock_is_what_the_slow_fold_says(how_many):
    random = Random(1)
    for _ in range(how_many(3000, 50000)):
        facts, at = history(random), random.choice((None, None, random.randint(0, 9)))
        told = answer("stock-on-hand", {"facts": facts, "at": at})["result"]
        slow = slow_fold(facts, at)
        covered = {(entry["place"], goods_of(entry)) for entry in told["on_hand"]}
        assert as_slow(told["on_hand"]) == {key: slow[key] if key in covered else 0 for key in slow}, facts
        assert all(slow[key] == 0 for key in slow if key not in covered), facts


def test_the_order_of_arrival_and_what_comes_twice_change_nothing(how_many):
    random = Random(2)
    for _ in range(how_many(1000, 20000)):
        facts = history(random)
        shuffled = facts + facts[:4]
        random.shuffle(shuffled)
        assert answer("stock-on-hand", {"facts": shuffled}) == answer("stock-on-hand", {"facts": facts})


def close(name, at, **more):
    fact = {"kind": "count-close", "id": name, "at": at, "session": "noon", "place": "stall"}
    return {**fact, "scope": "all", "listed": [], "answers": [], **more}


@given(some.permutations(range(7)), some.booleans())
def test_of_closes_that_contradict_each_other_the_later_stands_and_is_flagged(order, all_is_later):
    all_at, list_at = (30, 25) if all_is_later else (25, 30)
    facts = [
        move("m", 1, 6), move("n", 1, 3, "G"), line("a", 10, 4), line("b", 12, 1, "tray"), sale("s", 11),
        close("c1", all_at),
        close("c2", list_at, scope="list", answers=[{"sale": "s", "product": "E", "already_out": False}]),
    ]  # fmt: skip
    facts = [facts[number] for number in order]
    told = answer("stock-on-hand", {"facts": facts})["result"]
    stock = {row["product"]: row["quantity"] for row in told["on_hand"] if row["place"] == "stall"}
    # all: what was not seen is none, and no answer means already out; a list leaves the rest as it was
    assert stock == ({"E": 5, "G": 0} if all_is_later else {"E": 4, "G": 3})
    earlier = "c2" if all_is_later else "c1"
    assert told["flags"] == [{"flag": "close_differs", "fact": earlier, "of": "noon"}]
    so_far = count_so_far(facts, "noon", "stall")
    assert (so_far["differing"], so_far["closed_at"]) == (1, 30)


def test_of_closes_of_one_moment_the_greater_id_stands():
    facts = [move("n", 1, 3, "G"), close("c1", 20, scope="list"), close("c2", 20)]
    for those in (facts, facts[::-1]):
        rows = answer("stock-on-hand", {"facts": those})["result"]["on_hand"]
        assert rows[-1]["quantity"] == 0


def test_closes_that_say_the_same_are_not_flagged():
    seen, listed = line("a", 10, 4), [{"product": "E"}]
    for first, second in [
        ({}, {}),
        ({"scope": "list", "listed": listed}, {"scope": "list"}),
        ({"answers": [{"sale": "s", "product": "E", "already_out": True}]}, {"listed": listed}),
    ]:
        facts = [seen, close("c1", 20, **first), close("c2", 21, **second)]
        assert answer("stock-on-hand", {"facts": facts})["result"]["flags"] == []
    listed = [{"product": "G"}]
    facts = [seen, close("c1", 20, scope="list", listed=listed), close("c2", 21, scope="list")]
    assert len(answer("stock-on-hand", {"facts": facts})["result"]["flags"]) == 1


class Phone:
    """Stock held as a phone does: batches taken in, places folded again from the log where told."""

    def __init__(self):
        self.log = []
        self.held = {"stock": {}, "places": {}, "voids": {}, "closed": {}}
        self.folded_again = 0

    def take(self, batch):
        """Take a batch into what is held and into the log."""
        voids = {fact[UNDOING[fact["kind"]]] for fact in batch if fact["kind"] in UNDOING}
        sales = [fact for fact in self.log if fact["id"] in voids]
        changed = take_in_stock(self.held, batch, sales)
        self.log += batch
        places = changed.pop("refold")
        assert not changed.pop("anew")
        self._put(changed)
        if places:
            self.folded_again += 1
            gone = [key for key in self.held["stock"] if key.split("\x1f")[0] in places]
            for key in gone:
                del self.held["stock"][key]
            for place in places:
                self.held["places"].pop(place, None)
            self._put(fold_stock(self.log, None, places))

    def _put(self, changed):
        for part, values in json.loads(json.dumps(changed)).items():
            self.held[part].update(values)


def test_batches_of_any_size_come_to_the_same_as_all_at_once(how_many):
    random = Random(3)
    for _ in range(how_many(1500, 30000)):
        left = history(random)
        phone = Phone()
        while left:
            size = random.randint(1, 4)
            phone.take(left[:size])
            left = left[size:]
            whole = fold_stock(phone.log, None, None)
            assert phone.held == whole, phone.log
            assert list_stock(phone.held) == list_stock(whole)


def test_sales_and_voids_are_taken_in_without_folding_again():
    random = Random(4)
    phone = Phone()
    phone.take(
        [{"kind": "count-close", "id": "c", "at": 1, "session": "n", "place": "stall", "scope": "all"}]
    )
    for number in range(200):
        sale = {"kind": "sale", "id": f"s{number}", "at": 2 + number, "place": "stall"}
        phone.take([{**sale, "lines": [{"product": random.choice("ABC"), "quantity": 1}]}])
        if number % 10 == 0:
            phone.take([{"kind": "void", "id": f"v{number}", "at": 300, "sale": f"s{number}"}])
    assert phone.folded_again == 1
    assert sum(entry["quantity"] for entry in list_stock(phone.held)) == -180


def test_what_an_owner_leaves_out_counts_for_nothing_whatever_it_was():
    random = Random(5)
    for _ in range(200):
        facts = history(random)
        if not facts:
            continue
        chosen = random.sample(facts, min(2, len(facts)))
        out = [
            {"kind": "left-out", "id": f"out{number}", "at": 9, "fact": fact["id"]}
            for number, fact in enumerate(chosen)
        ]
        rest = [fact for fact in facts if fact not in chosen]
        mixed = facts + out
        random.shuffle(mixed)
        there = {key: row[0] for key, row in fold_stock(mixed, None, None)["stock"].items()}
        # what an effect was left out of may be named still, with the same pieces
        assert {key: row[0] for key, row in fold_stock(rest, None, None)["stock"].items() if row[0]} == {
            key: pieces for key, pieces in there.items() if pieces
        }
        # taken in later it has all folded anew; known before, what is left out is not taken in
        held = json.loads(json.dumps(fold_stock(facts, None, None)))
        assert take_in_stock(held, out, [])["anew"]
        held = take_in_stock({}, out, [])
        for fact in chosen:
            assert take_in_stock({"voids": held["voids"]}, [fact], [])["stock"] == {}


def test_a_line_of_a_count_that_is_not_closed_folds_nothing_again():
    line = {"kind": "count-line", "id": "l", "at": 5, "session": "n", "place": "stall", "product": "E"}
    assert take_in_stock({}, [{**line, "quantity": 5}], [])["refold"] == []


def test_ten_thousand_facts_take_a_time_that_grows_with_their_number():
    facts = [
        {"kind": "sale", "id": f"s{number}", "at": number, "place": "stall",
         "lines": [{"product": str(number % 40), "quantity": 1}]}
        for number in range(5000)
    ]  # fmt: skip
    facts += [
        {"kind": "count-close", "id": f"c{number}", "at": number * 2, "session": str(number),
         "place": "stall", "scope": "all"}
        for number in range(5000)
    ]  # fmt: skip
    told = answer("stock-on-hand", {"facts": facts})["result"]
    assert [entry["quantity"] for entry in told["on_hand"]] == [0] * 40


@pytest.mark.parametrize("held", [
    {"stock": 5}, {"stock": {"a\x1fb": [1, 2, "x"]}}, {"stock": {"a\x1fb": ["1", None, "", []]}},
    {"places": {"a": 5}}, {"places": {"a": [None, ""]}}, {"voids": []}, {"closed": "x"},
])  # fmt: skip
def test_what_is_not_held_stock_is_refused(held):
    with pytest.raises(Problems) as caught:
        take_in_stock(held, [], [])
    assert [item["field"] for item in caught.value.problems] == ["held." + next(iter(held))]


def test_the_phone_asks_for_stock_through_its_door():
    sale = {"kind": "sale", "id": "s", "at": 5, "place": "stall", "lines": [{"product": "E", "quantity": 2}]}

    def ask(method, **args):
        return json.loads(call(json.dumps({"method": method, "args": args})))["answer"]

    held = ask("fold_stock", facts=[sale])
    assert ask("list_stock", held=held)[0]["quantity"] == -2
    void = {"kind": "void", "id": "v", "at": 6, "sale": "s"}
    changed = ask("take_in_stock", held=held, facts=[void], sales=[sale])
    assert ask("list_stock", held=changed)[0]["quantity"] == 0
    assert changed["voids"] == {"s": True}


# what no longer matters ----------------------------------------------------------------------------


def still_needed(facts, place, session, at=None):
    """Leave out, as a phone does, what no longer matters to a place's stock or one of its counts."""
    counts = [fact for fact in facts if fact["kind"].startswith("count-") and fact["place"] == place]
    told = needed_since(counts, session, place, at)

    def matters(fact):
        if fact["kind"].startswith("count-"):
            return fact["session"] in told["sessions"]
        return fact["kind"] in UNDOING or fact["at"] >= told["since"] or fact["id"] in told["sales"]

    return [fact for fact in facts if matters(fact)]


def test_what_no_longer_matters_changes_no_stock(how_many):
    random, left_out = Random(5), 0
    for _ in range(how_many(2000, 30000)):
        facts, at = history(random), random.choice((None, random.randint(0, 9)))
        needed = still_needed(facts, "stall", "", at)
        left_out += len(facts) - len(needed)
        stock = [list_stock(fold_stock(some_of, at, ["stall"])) for some_of in (facts, needed)]
        assert as_slow(stock[1]) == as_slow(stock[0]), facts
    assert left_out > 100


@pytest.mark.parametrize("close", [{}, {"scope": "all"}, {"scope": "list"}])
def test_what_no_longer_matters_changes_no_result_of_a_count(how_many, close):
    random, left_out = Random(6), 0
    for _ in range(how_many(1500, 30000)):
        facts = history(random)
        needed = still_needed(facts, "stall", "noon")
        left_out += len(facts) - len(needed)
        whole, part = (count_result(those, "noon", "stall", close, PRODUCTS) for those in (facts, needed))
        assert part == whole, facts
    assert left_out > 100


# a count before it is closed -----------------------------------------------------------------------


def review(facts):
    return count_review(facts, "noon", "stall")


def line(name, at, quantity, box="", product="E"):
    fact = {"kind": "count-line", "id": name, "at": at, "session": "noon", "place": "stall"}
    return {**fact, "product": product, "quantity": quantity, "box_label": box}


def move(name, at, quantity, product="E"):
    fact = {"kind": "move", "id": name, "at": at, "from": "home", "to": "stall"}
    return {**fact, "product": product, "quantity": quantity}


def sale(name, at, quantity=1):
    return {
        "kind": "sale", "id": name, "at": at, "place": "stall",
        "lines": [{"product": "E", "quantity": quantity}],
    }  # fmt: skip


def test_a_review_shows_differences_as_of_the_last_line_and_sales_made_meanwhile():
    facts = [
        move("m", 1, 12), sale("before", 5), line("a", 10, 6, "tray"), sale("meanwhile", 15, 2),
        sale("v", 16), {"kind": "void", "id": "x", "at": 17, "sale": "v"}, line("b", 20, 2, "box"),
        sale("after", 25),
    ]  # fmt: skip
    assert review(facts) == [{
        "place": "stall", "product": "E", "size": None, "expected": 9, "counted": 8, "difference": -1,
        "seen": True, "meanwhile": [{"sale": "meanwhile", "at": 15, "quantity": 2, "already_out": None}],
        "first": False,
    }]  # fmt: skip


def test_a_piece_that_comes_back_meanwhile_is_counted_as_there_where_it_came_after():
    back = {
        "kind": "sale", "id": "swap", "at": 15, "place": "stall", "payment": "none", "goods": "table",
        "lines": [{"product": "G", "quantity": 1}], "returned": [{"product": "E", "quantity": 1}],
    }  # fmt: skip
    facts = [move("m", 1, 12), move("n", 1, 3, "G"), line("a", 10, 6, "tray"), back, line("b", 20, 6, "box")]
    for already_out, difference in ((True, -1), (False, 0)):
        answer = {"sale": "swap", "product": "E", "size": None, "already_out": already_out}
        told = count_result(facts, "noon", "stall", {"scope": "all", "answers": [answer]}, PRODUCTS)
        [row] = [row for row in told["rows"] if row["product"] == "E"]
        assert row["meanwhile"][0]["quantity"] == -1
        assert (row["difference"], row["value"]) == (difference, 600 * difference)


def test_a_review_shows_what_was_expected_and_not_seen():
    rows = review([move("m", 1, 3, "G"), move("n", 2, 5), line("a", 10, 5)])
    assert [(entry["product"], entry["difference"], entry["seen"]) for entry in rows] == [
        ("E", 0, True), ("G", -3, False),
    ]  # fmt: skip


def test_a_review_leaves_out_its_own_close_and_later_counts():
    close = {"kind": "count-close", "id": "c", "at": 30, "session": "noon", "place": "stall", "scope": "all"}
    later = [{**line("z", 40, 1), "session": "closing"}, {**close, "id": "d", "at": 41, "session": "closing"}]
    rows = review([move("m", 1, 6), line("a", 10, 5), close, *later])
    assert [(entry["expected"], entry["counted"]) for entry in rows] == [(6, 5)]


# variance -----------------------------------------------------------------------------------------


@given(some.lists(some.tuples(PLACE, some.sampled_from("EGP"), AT, AT), min_size=1, max_size=12))
def test_the_parts_of_a_variance_add_up(counts):
    lines = [
        {"place": place, "product": product, "expected": expected, "counted": counted, "price": 450}
        for place, product, expected, counted in counts
    ]
    told = answer("count-variance", {"lines": lines})["result"]
    assert told["net_difference"] == told["extra"] - told["missing"] == sum(c - e for _, _, e, c in counts)
    for part in ("places", "products"):
        for name in ("net_difference", "missing", "extra", "missing_value", "extra_value"):
            assert sum(entry[name] for entry in told[part]) == told[name]
    assert told["missing_value"] == 450 * told["missing"]
    assert told["accuracy"] == 100 * sum(entry["right"] for entry in told["lines"]) / len(lines)
