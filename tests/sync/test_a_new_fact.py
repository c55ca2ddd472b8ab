"""A fact that nobody foresaw: one declaration and one table, and all that reads facts knows it."""

import json

import pytest
from sqlalchemy.orm import Mapped

from backend import store
from backend.core import bridge
from backend.core.declaring.spec import NEEDED, Field
from backend.core.records import checking, reader
from backend.core.records.kinds import DAY, GOODS, Cash, Kind, Moves, Only, link, money, quantity
from backend.store import takings
from backend.store.database import Model
from backend.store.models.columns import Choice, Day, Fact, Id, Money, Rows
from backend.sync.rebuild import rebuild
from tests.phones import Phone, add_business, uuid7
from tests.tables import tables_of

HOME, BOX, BOOKING, EVERYDAY, GRAND = (uuid7() for _ in range(5))
TODAY = "2026-05-02"


PRIZE = GOODS + [quantity("Pieces"), money("worth", "What it is sold for")]


def declared(takings=None):
    """Declare prizes that leave a place, for tickets whose price goes into a box."""
    return Kind("tombola", True, "Prizes for tickets", [
        DAY,
        link("booking", "The market it was at"),
        link("place", "Where the prizes were", NEEDED),
        link("box", "The cash box the tickets were paid into"),
        Field("prizes", "list", "What was won", fields=PRIZE, most=60),
        Field("payment", "choice", "How tickets were paid", choices=("cash", "card")),
        money("amount", "What the tickets came to"),
    ], helper="write", takings=takings,
        moves=(Moves("prizes", out_of="place", worth="worth"),),
        cash=(Cash("paid_in", Only("payment", "cash")),))  # fmt: skip


@pytest.fixture(scope="module")
def model():
    class Tombola(Fact):
        """Prizes for tickets."""

        __tablename__ = "tombola"

        day: Mapped[Day]
        booking: Mapped[Id | None]
        place: Mapped[Id]
        box: Mapped[Id | None]
        prizes: Mapped[Rows]
        payment: Mapped[Choice]
        amount: Mapped[Money]

    # others in this process look at every table there is
    Model.metadata.remove(Tombola.__table__)
    return Tombola.__table__


@pytest.fixture
def learn(monkeypatch):
    """Know one kind of fact more, as its place among the declarations would have it."""

    def learned(kind):
        checking.KINDS.append(kind)
        monkeypatch.setitem(checking._BY_NAME, kind.name, kind)
        monkeypatch.setitem(reader.READERS, kind.name, reader.READERS["sale"])
        reader.learn(kind)
        return kind

    yield learned
    checking.KINDS[:] = [kind for kind in checking.KINDS if kind.name != "tombola"]
    reader.FOUND.clear()


@pytest.fixture
def tombola(learn, model):
    kind = learn(declared())
    Model.metadata._add_table("tombola", None, model)
    yield kind
    Model.metadata.remove(model)


@pytest.fixture
def owner(tombola, own_app):
    with store.writing() as connection:
        Model.metadata.tables["tombola"].create(connection)
    return Phone(own_app, add_business())


def won(quantity=2, **more):
    prizes = [{"product": EVERYDAY, "quantity": quantity, "worth": 600 * quantity}]
    where = {"day": TODAY, "booking": BOOKING, "place": HOME, "box": BOX}
    return where | {"prizes": prizes, "payment": "cash", "amount": 500} | more


def as_facts(changes):
    return [change["fields"] | {name: change[name] for name in ("kind", "id", "at")} for change in changes]


def ask(method, **args):
    """Ask as a phone does."""
    told = json.loads(bridge.call(json.dumps({"method": method, "args": args})))
    assert "answer" in told, told
    return told["answer"]


def on_hand(facts):
    rows = ask("answer", name="stock-on-hand", given={"facts": facts})["result"]["on_hand"]
    return {(row["place"], row["product"]): row["quantity"] for row in rows}


def test_a_push_checks_it_and_the_tables_hold_it(owner):
    good, bad = owner.fact("tombola", won()), owner.fact("tombola", won(0, payment="promise"))
    told = owner.exchange([good, bad])["results"]
    assert [result["status"] for result in told] == ["accepted", "rejected"]
    assert set(told[1]["errors"]) == {"prizes.0.quantity", "payment"}
    both = [{"product": EVERYDAY, "size": GRAND, "quantity": 1, "worth": 0}]
    [told] = owner.exchange([owner.fact("tombola", won(prizes=both))])["results"]
    assert set(told["errors"]) == {"prizes.0.size"}
    kept = tables_of(owner.business)
    assert [row["amount"] for row in map(json.loads, kept["tombola"])] == [500]
    lines = list(map(json.loads, kept["goods_line"]))
    assert [(row["part"], row["product"], row["quantity"], row["total"]) for row in lines] == [
        ("prizes", EVERYDAY, 2, 1200)
    ]
    [row] = owner.ask("GET", f"/tombolas?product={EVERYDAY}").get_json()["records"]
    assert row["id"] == good["id"]
    assert owner.ask("GET", f"/tombolas?product={GRAND}").get_json()["records"] == []


def test_the_tables_are_made_again_with_it(owner):
    owner.exchange([owner.fact("tombola", won()), owner.sale(), owner.fact("tombola", won(3))])
    before = tables_of(owner.business)
    with store.writing() as connection:
        assert rebuild(connection, owner.business) == 3
    assert tables_of(owner.business) == before
    assert len(before["tombola"]) == 2


def test_the_stock_falls_on_the_server_and_on_the_phone_alike(owner):
    moved = {"day": TODAY, "from": GRAND, "to": HOME, "product": EVERYDAY, "quantity": 9}
    owner.exchange([owner.fact("move", moved), owner.fact("tombola", won()), owner.fact("tombola", won(3))])
    facts = as_facts(owner.pull_all()[0])
    assert on_hand(facts)[HOME, EVERYDAY] == 9 - 2 - 3
    # a part at a time, as a phone keeps it up
    held = ask("fold_stock", facts=facts[:1])
    for fact in facts[1:]:
        told = ask("take_in_stock", held=held, facts=[fact])
        assert told["refold"] == []
        held["stock"].update(told["stock"])
    whole = ask("list_stock", held=ask("fold_stock", facts=facts))
    assert ask("list_stock", held=held) == whole
    assert {row["quantity"] for row in whole if row["place"] == HOME} == {4}


def test_what_the_fold_cannot_take_is_named(tombola):
    spoilt = {"kind": "tombola", "id": "t", "at": 5, "prizes": [{"quantity": -1}]}
    asked = {"name": "stock-on-hand", "given": {"facts": [spoilt]}}
    told = json.loads(bridge.call(json.dumps({"method": "answer", "args": asked})))
    assert {problem["field"] for problem in told["problems"]} == {
        "facts.0.place", "facts.0.prizes.0.quantity", "facts.0.prizes.0.product",
    }  # fmt: skip
    # a phone goes on without it, and names it
    assert ask("list_stock", held=ask("fold_stock", facts=[spoilt])) == []
    [told] = ask("unreadable", facts=[spoilt])
    assert told["number"] == 0 and {"place", "prizes", "day", "amount"} <= set(told["fields"])


def report(facts, booking=BOOKING):
    boxes = [{"box": BOX, "usual_float": 4000}]
    return ask(
        "told_day", facts=facts, voids={}, day=TODAY, booking=booking, stall=HOME, hours=[], boxes=boxes
    )


def test_its_box_holds_what_came_in_and_the_takings_do_not_count_it(owner):
    sale = owner.sale(booking=BOOKING, box=BOX, place=HOME)
    card = owner.fact("tombola", won(payment="card", amount=70))
    owner.exchange([sale, owner.fact("tombola", won()), card])
    facts = as_facts(owner.pull_all()[0])
    told = ask("cash_up_of", facts=facts, voids={}, day=TODAY, box=BOX, usual_float=4000, counted=[])
    assert (told["cash_sales"], told["paid_in"], told["expected"]) == (600, 500, 4000 + 600 + 500)
    assert [(row["direction"], row["amount"]) for row in told["movements"]] == [("paid in", 500)]
    told = report(facts)
    assert told["takings"]["amount"] == 600
    assert [box["expected"] for box in told["boxes"]] == [5100]
    with store.reading() as connection:
        assert takings.by_day(connection, owner.business) == [(TODAY, "cash", 1, 600, 0, 0)]
    assert ask("takings", facts=facts, voids={})["amount"] == 600


def test_declared_as_takings_it_is_told_with_them(learn):
    learn(declared("taken"))
    facts = [won() | {"kind": "tombola", "id": "t", "at": 5}]
    told = ask("takings", facts=facts, voids={})
    assert (told["taken"], told["pieces"], told["payments"][0]["payment"]) == (500, 2, "cash")
    told = report(facts)
    assert told["takings"]["amount"] == 500
    assert [(row["pieces"], row["amount"]) for row in told["products"]] == [(2, 1200)]
    assert told["rounded"] == 500 - 1200
    [day] = ask("days_taken", facts=facts, voids={})
    assert (day["day"], day["booking"], day["amount"]) == (TODAY, BOOKING, 500)
