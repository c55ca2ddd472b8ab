"""Pieces at a place: what was counted is a number, what never was may be unknown."""

import pytest

from backend.core.counting.held import fold_stock
from backend.core.counting.pieces_at import pieces_at
from backend.core.declaring.errors import Problems


def a_move(id, to="stall", quantity=4, product="lawn", **more):
    fact = {"kind": "move", "id": id, "at": 10, "from": "home", "to": to, "product": product}
    return {**fact, "quantity": quantity, **more}


def a_count(product, quantity, at=5, scope="all"):
    about = {"place": "stall", "session": "s", "at": at}
    line = {"kind": "count-line", "id": "l" + product, "product": product, "quantity": quantity}
    close = {"kind": "count-close", "id": "z", "scope": scope, "listed": [], "answers": []}
    return [{**line, **about}, {**close, **about, "at": at + 1}]


def told(*facts, place="stall"):
    return pieces_at(fold_stock(list(facts), None, None), place)


def test_where_nothing_was_counted_nobody_knows_of_what_left():
    assert told(a_move("a")) == {"pieces": {"lawn": 4}, "others": None}
    assert told(a_move("a"), place="home") == {"pieces": {"lawn": None}, "others": None}
    assert told() == {"pieces": {}, "others": None}


def test_what_came_and_left_again_uncounted_is_unknown():
    back = a_move("b", to="home", **{"from": "stall"})
    assert told(a_move("a"), back)["pieces"] == {"lawn": None}


def test_what_was_counted_is_a_number_and_all_else_is_none():
    assert told(*a_count("check", 3)) == {"pieces": {"check": 3}, "others": 0}
    more_left = a_move("a", to="home", product="check", **{"from": "stall"})
    assert told(*a_count("check", 3), more_left)["pieces"] == {"check": -1}


def test_a_size_alone_is_told_by_its_own_name():
    sized = {**a_move("a"), "product": None, "size": "Grand"}
    assert told(sized)["pieces"] == {"Grand": 4}


def test_what_is_not_held_is_refused():
    with pytest.raises(Problems):
        pieces_at({"stock": 1}, "stall")
