"""Whatever push accepts, every screen opens: random facts, and good ones bent a little, through each fold."""

import json
from random import Random

import pytest

from backend.core.bridge import call
from backend.core.declaring.errors import Problems
from backend.core.records.checking import KINDS
from backend.core.records.envelope import ENVELOPE, MOST_AHEAD_MS
from backend.sync.checking import check
from tests.store.random_changes import FEW_IDS, random_fields

pytestmark = pytest.mark.full

FACTS = [kind for kind in KINDS if kind.fact]
PRODUCTS = {id: {"size": FEW_IDS[2], "cloth": FEW_IDS[3]} for id in FEW_IDS}
BATCHES = {id: {"lines": [{"size": FEW_IDS[2], "cloth": FEW_IDS[3], "quantity": 12}]} for id in FEW_IDS}
DAY, PLACE, PRODUCT = "2026-05-09", FEW_IDS[0], FEW_IDS[1]
LATEST = next(field.highest for field in ENVELOPE if field.name == "at")
ODD_TEXTS = (
    " ",
    "\x1f",
    "\x01 a",
    "\n",
    "a/b",
    "\x7f",
    "\ue000",
    "𝔘",
    "=1",
    "'",
    '"',
    "x" * 80,
    "x" * 81,
    "x" * 200,
)
ODD = (
    None,
    0,
    1,
    -1,
    0.5,
    True,
    False,
    [],
    {},
    [None],
    2**31,
    2**53 - 1,
    10**9,
    "2000-01-01",
    "2199-12-31",
    *ODD_TEXTS,
)
BATCH = 40


def bent(random, value):
    """Change something of a JSON value, anywhere in it."""
    if isinstance(value, dict) and value and random.random() < 0.9:
        name = random.choice(sorted(value))
        if random.random() < 0.15:
            return {key: value[key] for key in value if key != name}
        return value | {name: bent(random, value[name])}
    if isinstance(value, list) and value and random.random() < 0.8:
        index = random.randrange(len(value))
        if random.random() < 0.2:
            return value[:index] + value[index + 1 :]
        return [*value[:index], bent(random, value[index]), *value[index + 1 :]]
    return random.choice(ODD)


def accepted_facts(seed, count):
    """Make facts as the log would hold them: {kind, id, at, fields} of what the check at push lets pass."""
    random, made = Random(seed), []
    while len(made) < count:
        kind = FACTS[len(made) % len(FACTS)]
        fields = random_fields(random, kind.fields, True)
        for _ in range(random.choice((0, 0, 1, 1, 2))):
            fields = bent(random, fields)
        if not isinstance(fields, dict):
            continue
        if random.random() < 0.7 and "day" in fields:
            fields["day"] = DAY
        try:
            check(kind.name, fields, True)
        except Problems:
            continue
        at = random.choice((0, 1, LATEST, random.randrange(10**12, 2 * 10**12)))
        made.append(
            {**fields, "kind": kind.name, "id": f"017f22e2-79b0-7cc3-98c4-{len(made):012x}", "at": at}
        )
    return made


def answer(method, **args):
    """Ask through the phone's door; fails where the core refuses."""
    told = json.loads(call(json.dumps({"method": method, "args": args})))
    assert "answer" in told, (method, told["problems"][:3])
    return told["answer"]


def open_every_screen(facts):
    """Ask all that the screens of stock, counts, sales, cuts and reviewing ask."""
    open_folds(facts, {fact["session"] for fact in facts if "session" in fact})
    cut_voids = [{"cut": fact["cut"]} for fact in facts if fact["kind"] == "cut-void"]
    cuts = parts_of(facts, "cut", "id", "remnant", "offcuts")
    answer("cuts_taken_back", cuts=cuts, cut_voids=cut_voids, taken_back=[])


def open_folds(facts, sessions):
    """Ask all that is folded from facts as they are in the log; what cannot be read is set aside there."""
    held = answer("fold_stock", facts=facts, at=None, places=None)
    answer("list_stock", held=held)
    answer("pieces_at", held=held, place=PLACE)
    answer("take_in_stock", held={}, facts=facts, sales=[])
    answer("take_in_stock", held=held, facts=facts, sales=facts)
    voids = held["voids"]
    answer("takings", facts=facts, voids=voids)
    answer("days_taken", facts=facts, voids=voids)
    report = {
        "facts": facts, "voids": voids, "day": DAY, "booking": None, "stall": PLACE, "hours": [],
        "stock": None, "boxes": [{"box": PRODUCT, "usual_float": 4000}], "names": {},
    }  # fmt: skip
    answer("told_day", **report)
    answer("report_csv", **report, currency="EUR")
    answer("cash_up_of", facts=facts, voids=voids, day=DAY, box=PRODUCT, usual_float=0, counted=None)
    for session in sessions:
        answer("count_so_far", facts=facts, session=session, place=PLACE)
        answer("needed_since", facts=facts, session=session, place=PLACE, at=None)
        close = {"day": DAY, "session": session, "place": PLACE, "scope": "all", "listed": [], "answers": []}
        answer("count_result", facts=facts, session=session, place=PLACE, close=close, products={})
    answer("last_packing", facts=facts, source=PLACE, target=PRODUCT)
    answer("waiting_strips", facts=facts, batches={}, products=PRODUCTS)
    received = {fact["id"]: LATEST for fact in facts}
    records = {"batch": BATCHES}
    answer("doubtful", facts=facts, received=received, voids=voids, dearest=600, records=records)


BOOKING, MARKET = FEW_IDS[4], FEW_IDS[5]
CLOTH = {"name": "Fog gauze", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
RECORDS = {
    "business": {FEW_IDS[0]: {"name": "Tern & Tansy", "currency": "EUR"}},
    "place": {PLACE: {"name": "Quay stall", "use": "stall"}},
    "piece": {id: {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45} for id in FEW_IDS},
    "cloth": {id: CLOTH for id in FEW_IDS},
    "product": {id: product | {"price": 600, "group": "Everyday"} for id, product in PRODUCTS.items()},
    "batch": BATCHES,
    "market": {MARKET: {"name": "Quay", "place": PLACE, "opens": "09:00", "closes": "15:00"}},
    "booking": {id: {"market": MARKET, "days": [DAY]} for id in FEW_IDS}
    | {BOOKING: {"market": MARKET, "days": ["2026-05-16"]}},
    "offer": {id: {"name": "Three", "groups": ["Everyday"], "n": 3, "price": 1500} for id in FEW_IDS},
}  # fmt: skip
FILES = ("takings", "purchases", "expenses", "stock", "figures")
NOON = 1_778_320_800_000


def open_what_is_decided(facts):
    """Ask all that the screens of batches, costs, prices, markets, years and of what to do next ask."""
    held = answer("fold_stock", facts=facts, at=None, places=None)
    stock = answer("list_stock", held=held)
    made_of = {"facts": facts, "records": RECORDS}
    products = {**made_of, "product_ids": FEW_IDS}
    answer("cost_of_goods", **products, day=DAY)
    answer("prices_of_goods", **products, day=DAY, choices={})
    each = answer("costs_each", **products)
    costs = {id: each[id] and each[id]["cost_each"] for id in each}
    goods = answer("goods_costs", **made_of)["goods"]
    booked = {**made_of, "costs": goods}
    booked["sums"] = answer("day_sums", facts=facts, voids=held["voids"])
    answer("markets_told", **booked, day=DAY)
    answer("booking_told", **booked, booking=FEW_IDS[0], voids=held["voids"])
    answer("offer_days", **booked, offer=FEW_IDS[0])
    answer("year_told", **booked, year=DAY[:4], day=DAY)
    for file in FILES:
        then = stock if file == "stock" else None
        answer("year_file", **booked, file=file, year=DAY[:4], day=DAY, stock=then, at=NOON, currency="EUR")
    asked = {"day": DAY, "booking": FEW_IDS[0], "noon": NOON, "since": DAY}
    (sold,) = answer("sold_at_markets", **made_of, markets=[asked])
    days = [{"day": DAY, "booking": FEW_IDS[0], **sold}] if sold else []
    ahead = {"days_sold": days, "records": RECORDS, "costs": costs, "stock": stock, "choices": {"guess": 20}}
    answer("next_market", **ahead, booking=BOOKING)
    waiting = answer("waiting_strips", facts=facts, batches=BATCHES, products=PRODUCTS)
    answer("next_sewing", **ahead | {"choices": {}}, facts=facts, waiting=waiting, day=DAY)
    laps = [fact for fact in facts if fact["kind"] == "batch-step"]
    for batch in BATCHES.values():
        timed = {"batch": batch | {"people": 1}, "method_steps": [], "laps": laps}
        answer("batch_standing", **timed)
        answer("finish_time", **timed, before=laps, tray=12, now=NOON)
    answer("times_of_methods", **made_of)


def test_a_booking_named_by_spaces_is_told():
    line = {"product": FEW_IDS[1], "quantity": 1, "unit_price": 600, "total": 600}
    sale = {"day": DAY, "place": PLACE, "booking": BOOKING, "amount": 600, "payment": "cash", "lines": [line]}
    facts = stated([("sale", sale)])
    booking = check("booking", {"name": " ", "days": [DAY]}, True)
    records = RECORDS | {"booking": {BOOKING: booking}}
    made_of = {"facts": facts, "records": records}
    sums = answer("day_sums", facts=facts, voids={})
    costs = answer("goods_costs", **made_of)["goods"]
    told = answer("booking_told", **made_of, booking=BOOKING, voids={}, costs=costs, sums=sums)
    assert told["takings"] == 600


@pytest.mark.parametrize("missing", ["piece", "cloth"])
def test_what_to_sew_is_told_where_a_size_or_cloth_of_a_product_is_not_here(missing):
    records = RECORDS | {missing: {}}
    costs, choices = dict.fromkeys(FEW_IDS, 200), {"guess": 20}
    told = answer(
        "next_sewing", facts=[], days_sold=[], records=records, costs=costs, stock=[], waiting=[],
        day=DAY, choices=choices,
    )  # fmt: skip
    assert told["given"]


def parts_of(facts, kind, *names):
    return [{name: fact[name] for name in names if name in fact} for fact in facts if fact["kind"] == kind]


def test_whatever_push_accepts_every_screen_opens(how_many):
    for seed in range(how_many(250, 2500)):
        facts = accepted_facts(seed, BATCH)
        try:
            open_every_screen(facts)
            open_what_is_decided(facts)
        except AssertionError as refused:
            # one alone, so that it can be named
            for fact in facts:
                open_every_screen([fact])
                open_what_is_decided([fact])
            raise refused


def many_facts():
    """Make facts of each kind that are as large as push lets them be, and many: {what it is: facts}."""
    product, most = FEW_IDS[1], 100_000
    lines = [{"product": product, "quantity": most, "unit_price": 10**9, "total": 10**9}] * 60
    sale = {"day": DAY, "place": PLACE, "booking": FEW_IDS[0], "amount": 10**9, "payment": "card"}
    made = {"product": product, "made": most, "good": most}
    cut = {"size": FEW_IDS[2], "quantity": most}
    lap = {"pieces": 1, "took_ms": 86_400_000, "disturbed": False}
    ways = {"day": DAY, "from": FEW_IDS[2], "to": PLACE, "quantity": 1}
    line = {"day": DAY, "place": PLACE, "session": FEW_IDS[3], "quantity": 1}
    strangers = [f"017f22e2-79b0-7cc3-98c5-{number:012x}" for number in range(501)]
    return {
        "a sale": [("sale", sale | {"lines": lines})] * 3,
        "results": [("batch-result", {"day": DAY, "batch": product, "place": PLACE, "lines": [made] * 60})]
        * 3,
        "laps": [("batch-step", {"day": DAY, "batch": product, "step": "Sew", "laps": [lap] * 200})] * 20,
        "cuts": [("cut", {"day": DAY, "cloth": FEW_IDS[3], "length": 1000, "lines": [cut] * 60})] * 170,
        "moves": [("move", ways | {"product": stranger}) for stranger in strangers],
        "counts": [("count-line", line | {"product": stranger}) for stranger in strangers],
    }


@pytest.mark.parametrize("what", list(many_facts()))
def test_what_many_large_facts_add_up_to_shuts_no_screen(what):
    line = {"product": FEW_IDS[1], "quantity": 1, "unit_price": 600, "total": 600}
    sale = {
        "day": DAY,
        "place": PLACE,
        "booking": FEW_IDS[0],
        "amount": 600,
        "payment": "cash",
        "lines": [line],
    }
    lines = [{"product": FEW_IDS[1], "made": 12, "good": 12}]
    result = {"day": DAY, "batch": FEW_IDS[1], "place": PLACE, "lines": lines}
    facts = stated([*many_facts()[what], ("sale", sale), ("batch-result", result)])
    open_every_screen(facts)
    open_what_is_decided(facts)


def test_a_maker_with_many_supplies_sees_what_a_piece_costs():
    of = {"use": "packaging", "lasts": 100}
    supplies = {
        f"017f22e2-79b0-7cc3-98c5-{number:012x}": {"name": f"Bag {number}"} | of for number in range(40)
    }
    bought = [("purchase", {"day": DAY, "supply": id, "quantity": 1, "amount": 500}) for id in supplies]
    lines = [{"product": FEW_IDS[1], "made": 12, "good": 12}]
    made = ("batch-result", {"day": DAY, "batch": FEW_IDS[1], "place": PLACE, "lines": lines})
    facts = stated([*bought, made])
    records = RECORDS | {"supply": supplies}
    told = answer("cost_of_goods", facts=facts, records=records, product_ids=[FEW_IDS[1]], day=DAY)
    # each pack of 5.00 is for 100 pieces: 5 cents of each of 40 in a piece, by hand
    assert [part["each"] for part in told["parts"] if part["kind"] == "supply"] == [5] * 40


def stated(given):
    """Make facts as the log would hold them of [(kind, fields)], a millisecond after each other."""
    return [
        check(kind, fields, True)
        | {"kind": kind, "id": f"017f22e2-79b0-7cc3-98c6-{number:012x}", "at": NOON + number}
        for number, (kind, fields) in enumerate(given)
    ]


def facts_past_the_check(seed, count):
    """Make facts of which the check at push refuses many, as the log may hold them all the same."""
    random, made = Random(seed), []
    while len(made) < count:
        kind = FACTS[len(made) % len(FACTS)]
        fields = random_fields(random, kind.fields, True)
        for _ in range(random.choice((0, 1, 2, 4))):
            fields = bent(random, fields)
        if not isinstance(fields, dict):
            continue
        at = random.choice((0, LATEST, LATEST + 1, 2**53 - 1, random.randrange(10**12, 2 * 10**12)))
        id = f"017f22e2-79b0-7cc3-98c4-{len(made):012x}"
        made.append({**fields, "kind": kind.name, "id": id, "at": at})
    return made


def is_refused(fact):
    kind, fields = fact["kind"], {key: fact[key] for key in fact if key not in ("kind", "id", "at")}
    try:
        check(kind, fields, True)
    except Problems:
        return True
    return fact["at"] > LATEST


def test_what_got_past_the_check_stops_no_screen_and_is_named(how_many):
    for seed in range(how_many(250, 2500)):
        facts = facts_past_the_check(seed, BATCH)
        named = {told["number"] for told in answer("unreadable", facts=facts)}
        # nothing is named that push would take
        assert all(is_refused(facts[number]) for number in named)
        readable = [fact for number, fact in enumerate(facts) if number not in named]
        open_every_screen(readable)
        open_folds(facts, {fact["session"] for fact in readable if "session" in fact})


def test_an_event_lies_no_further_ahead_than_its_arrival_allows():
    assert MOST_AHEAD_MS == 48 * 3600 * 1000
    assert LATEST < 253_402_300_800_000
