"""Two phones, one day: both sell without signal, share a count at noon, and in the evening all agree."""

import csv
from collections import Counter

import pytest

from .market_day import BEHIND, EACH, TABLE, MarketDay, Person
from .shop import act, ask, exchange
from .stall import Stall

SALES, ROUNDS = 300, 5
SEED = 20261125


@pytest.fixture
def phones(paired):
    """Pair the two phones at home: Imke's, an owner's, and Joss's, a helper's."""
    made = []
    for name, role in (("Imke's phone", "owner"), ("Joss's phone", "helper")):
        phone = paired(name, role)
        phone.screen.wait_until_ready_offline()
        made.append(phone)
    return made


def drive_to_the_fair(phone):
    """Switch a phone on again where there is no signal: by then its browser has put all on the disk."""
    phone.switch_off()
    phone.expected.append("ERR_INTERNET_DISCONNECTED")
    phone.switch_on(offline=True)


def at_home(imke):
    """Say what is sold and count it into the boxes; returns the stall."""
    stall = Stall(imke)
    stall.count(EACH)
    stall.day = ask(imke, "clock", "today")
    act(imke, "describeNew", "booking", {"name": "Sandholt Quay", "days": [stall.day], "place": stall.place})
    return stall


def open_for_the_day(phone, stall):
    drive_to_the_fair(phone)
    phone.screen.open("/sell")
    [booking] = ask(phone, "records", "records", "booking")
    ask(phone, "till", "openStall", {"booking": booking["id"], "place": stall.place, "box": stall.box})


def count(phone, day, where):
    """Count what lies in one place; returns the count."""
    begun = ask(phone, "counts", "beginCount", day.stall.place, "midday")
    line = {name: begun[name] for name in ("day", "place", "session")}
    for product in day.products:
        seen = day.there[product][where]
        act(phone, "state", "count-line", {**line, "box_label": where, "product": product, "quantity": seen})
    return begun


def close(phone, begun, **more):
    fields = {name: begun[name] for name in ("day", "place", "session")}
    act(phone, "state", "count-close", {**fields, "scope": "all", **more})


def shared_count(imke, joss, day):
    """Count on two phones while both go on selling; returns the count."""
    day.lose(day.products[0])
    table = count(imke.phone, day, TABLE)
    day.counting = True
    imke.do(day, 6)
    joss.do(day, 6)
    day.counting = False
    behind = count(joss.phone, day, BEHIND)
    assert behind["session"] == table["session"]
    close(imke.phone, table)
    return table


def answer_what_was_sold_meanwhile(phone, begun, day):
    """Say in the evening, once both phones' sales are there, what was gone when it was counted."""
    rows = ask(phone, "counts", "resultOf", begun)["rows"]
    asked = {(sale["sale"], row["product"]) for row in rows for sale in row["meanwhile"]}
    assert asked == set(day.meanwhile)
    answers = [
        {"sale": sale, "product": product, "already_out": day.meanwhile[sale, product] == BEHIND}
        for sale, product in sorted(asked)
    ]
    close(phone, begun, answers=answers)


def test_two_phones_sell_all_day_and_agree_in_the_evening(shop, phones, tmp_path):
    imke, joss = (Person(phone) for phone in phones)
    stall = at_home(imke.phone)
    exchange(*phones)
    day = MarketDay(stall, SEED)
    for person in (imke, joss):
        open_for_the_day(person.phone, stall)
        person.open_stall()

    many = (SALES - 6) // (2 * ROUNDS)
    for _ in range(ROUNDS):
        for person in (imke, joss):
            person.do(day, many)
    begun = shared_count(imke, joss, day)
    joss.phone.kill()
    joss.phone.switch_on(offline=True)
    joss.open_stall()
    for _ in range(ROUNDS):
        for person in (joss, imke):
            person.do(day, many)
    for person in (imke, joss):
        for sale in person.mistakes:
            act(person.phone, "state", "void", {"day": stall.day, "sale": sale})
        person.phone.context.set_offline(False)
    exchange(*phones)
    answer_what_was_sold_meanwhile(imke.phone, begun, day)
    exchange(*phones)

    for phone in phones:
        agrees(phone, day)
    facts = [ask(phone, "facts", "factsOfDay", stall.day) for phone in phones]
    assert facts[0] == facts[1]
    assert len([fact for fact in facts[0] if fact["kind"] == "sale"]) >= 2 * SALES - 12
    server_agrees(shop, day, facts[0], tmp_path)


def agrees(phone, day):
    """Hold what a phone tells to what really was, to the piece and the cent."""
    stock = ask(phone, "stock", "stock")
    left = {row["product"]: row["quantity"] for row in stock if row["place"] == day.stall.place}
    assert left == day.left()
    told = ask(phone, "facts", "takingsOf", ask(phone, "facts", "factsOfDay", day.stall.day))
    assert (told["sales"], told["pieces"]) == (day.money.sales, day.money.pieces)
    rows = {row["payment"]: (row["taken"], row["given_back"]) for row in told["payments"]}
    assert rows == {pay: (day.money.taken[pay], day.money.back[pay]) for pay in rows}
    assert set(day.money.taken) <= set(rows)
    assert ask(phone, "records", "waiting")["count"] == 0


def server_agrees(shop, day, facts, tmp_path):
    """Hold the server's tables to the same, and to what it makes of its log anew."""
    exported = []
    for name in ("before", "after"):
        shop.console("export", str(tmp_path / name))
        exported.append({file.name: file.read_bytes() for file in (tmp_path / name).iterdir()})
        shop.console("rebuild")
    assert exported[0] == exported[1]
    with (tmp_path / "before" / "sale.csv").open(newline="", encoding="utf-8") as file:
        kept = {row["id"]: int(row["amount"]) for row in csv.DictReader(file)}
    assert kept == {fact["id"]: fact["amount"] for fact in facts if fact["kind"] == "sale"}
    with (tmp_path / "before" / "takings.csv").open(newline="", encoding="utf-8") as file:
        taken = Counter({row["payment"]: int(row["taken"]) for row in csv.DictReader(file)})
    assert taken == day.money.taken
