"""One count: what it is called, what it has seen so far, how it comes out, and what is packed after it."""

import pytest

from backend.core.counting.count_result import count_result
from backend.core.counting.count_so_far import count_so_far
from backend.core.counting.last_packing import last_packing
from backend.core.counting.naming import count_name
from backend.core.declaring.errors import Problems

STALL, HOME, DAY = "stall", "home", "2026-11-28"
MINUTE = 60000
PRODUCTS = {
    "E": {"size": "S", "price": 600},
    "F": {"size": "S", "price": 600},
    "G": {"size": "L", "price": 900},
}


def line(name, at, quantity, product="E", box="", phone="imke", **more):
    fact = {"kind": "count-line", "id": name, "at": at, "session": "noon", "place": STALL, "phone": phone}
    return {**fact, "product": product, "quantity": quantity, "box_label": box, **more}


def close(at, **more):
    fact = {"kind": "count-close", "id": f"c{at}", "at": at, "session": "noon", "place": STALL}
    return {**fact, "scope": "all", **more}


def move(name, at, quantity, product="E", source=HOME, target=STALL, day=DAY):
    fact = {"kind": "move", "id": name, "at": at, "from": source, "to": target, "day": day}
    return {**fact, "product": product, "quantity": quantity}


def sale(name, at, quantity=1):
    row = {"product": "E", "quantity": quantity}
    return {"kind": "sale", "id": name, "at": at, "place": STALL, "lines": [row]}


# what it is called


def test_a_count_is_named_after_its_place_day_and_turn():
    assert count_name(STALL, DAY, "closing") == "stall 2026-11-28 closing"
    assert count_name(STALL, DAY, "12") == "stall 2026-11-28 12"


@pytest.mark.parametrize("which", ["", "noon", "0", "-1", "1.5", "01"])
def test_a_count_of_no_known_turn_is_refused(which):
    with pytest.raises(Problems) as caught:
        count_name(STALL, DAY, which)
    assert [item["field"] for item in caught.value.problems] == ["which"]


# what it has seen so far


def so_far(*facts):
    return count_so_far(list(facts), "noon", STALL)


def test_the_same_box_replaces_and_boxes_add():
    told = so_far(line("a", 1, 5, box="tray"), line("c", 3, 7, box="tray"), line("b", 2, 4))
    assert [(row["box_label"], row["quantity"], row["fact"]) for row in told["lines"]] == [
        ("", 4, "b"),
        ("tray", 7, "c"),
    ]
    assert told["pieces"] == 11


def test_of_two_phones_that_counted_one_box_the_later_stands_and_each_has_its_own():
    told = so_far(
        line("a", 1, 5, box="tray"), line("b", 2, 6, box="tray", phone="joss"), line("c", 3, 1, "G")
    )
    assert told["phones"] == [
        {"phone": "imke", "lines": 1, "pieces": 1},
        {"phone": "joss", "lines": 1, "pieces": 6},
    ]


def test_what_is_of_another_count_or_place_or_came_twice_is_left_out():
    mine = line("a", 1, 5)
    told = so_far(mine, mine, line("b", 2, 9, session="closing"), line("c", 3, 9, place=HOME), sale("s", 4))
    assert [row["fact"] for row in told["lines"]] == ["a"]


def test_a_line_after_the_close_stands_and_is_told():
    told = so_far(line("a", 1, 5), close(2), line("b", 3, 6))
    assert (told["closed_at"], told["late"], told["pieces"]) == (2, 1, 6)
    again = so_far(line("a", 1, 5), close(2), line("b", 3, 6), close(4))
    assert (again["closed_at"], again["late"], again["differing"]) == (2, 1, 0)
    assert so_far(line("a", 1, 5))["closed_at"] is None


def test_sizes_alone_come_after_products():
    told = so_far(line("a", 1, 5, None, size="A"), line("b", 2, 4, "Z"))
    assert [(row["product"], row["size"]) for row in told["lines"]] == [("Z", None), (None, "A")]


# how it comes out


def result(facts, planned=None):
    return count_result(facts, "noon", STALL, planned or {}, PRODUCTS)


def test_missing_pieces_are_valued_at_their_price():
    told = result(
        [move("m", 1, 12), move("n", 1, 3, "G"), line("a", 10, 10), line("b", 11, 4, "G"), close(20)]
    )
    assert [(row["difference"], row["value"], row["right"]) for row in told["rows"]] == [
        (-2, -1200, False),
        (1, 900, False),
    ]
    assert (told["missing"], told["missing_value"], told["extra_value"]) == (2, 1200, 900)
    assert (told["accuracy"], told["closed"]) == (0, True)


def test_what_was_not_seen_is_missing_only_if_all_was_looked_for():
    facts = [move("m", 1, 5), move("n", 1, 3, "G"), line("a", 10, 5)]
    assert [row["difference"] for row in result(facts, {"scope": "all"})["rows"]] == [0, -3]
    assert [row["product"] for row in result(facts, {"scope": "list"})["rows"]] == ["E"]
    looked = result(facts, {"scope": "list", "listed": [{"product": "G"}]})
    assert [row["difference"] for row in looked["rows"]] == [0, -3]


def test_an_answer_about_a_sale_made_meanwhile_changes_the_difference():
    facts = [move("m", 1, 12), line("a", 10, 6, box="tray"), sale("s", 15, 2), line("b", 20, 6, box="bag")]
    answers = [{"product": "E", "sale": "s", "already_out": False}]
    assert result(facts, {"scope": "all"})["rows"][0]["difference"] == 2
    told = result(facts, {"scope": "all", "answers": answers})["rows"][0]
    assert (told["difference"], told["meanwhile"][0]["already_out"]) == (0, False)
    assert result([*facts, close(30, answers=answers)])["rows"][0]["difference"] == 0


def test_a_result_stays_what_it_was_when_the_count_was_closed():
    facts = [move("m", 1, 5), move("n", 1, 3, "G"), line("a", 10, 5), close(20)]
    later = [sale("s", 30), move("o", 31, 7, "G"), {**line("z", 40, 9), "session": "closing"}]
    assert result(facts + later) == result(facts)


def test_the_reasons_of_the_last_close_are_told():
    reasons = [{"product": "E", "reason": "a gift"}]
    facts = [move("m", 1, 5), line("a", 10, 4), close(20, reasons=reasons)]
    again = [close(30, reasons=[{"product": "E", "reason": "a swap"}, {"size": "E", "reason": "none"}])]
    assert result(facts)["rows"][0]["reason"] == "a gift"
    assert result(facts + again)["rows"][0]["reason"] == "a swap"


def test_a_count_of_nothing_has_no_accuracy():
    told = result([], {"scope": "all"})
    assert (told["rows"], told["accuracy"], told["missing_value"]) == ([], None, None)


def test_a_size_alone_has_no_value():
    before = {**close(1), "session": "opening"}
    told = result([before, line("a", 10, 4, None, size="E"), close(20)])
    assert [(row["size"], row["difference"], row["value"]) for row in told["rows"]] == [("E", 4, None)]


def sale_of_a_size(name, at, quantity):
    return {**sale(name, at), "lines": [{"size": "S", "quantity": quantity}]}


def test_what_was_sold_as_a_size_alone_is_found_among_the_missing_pieces_of_that_size():
    there = [move("m", 1, 12), move("f", 1, 12, "F"), move("g", 1, 5, "G"), sale_of_a_size("s", 5, 3)]
    told = result([*there, line("a", 10, 11), line("b", 11, 9, "F"), line("c", 12, 4, "G"), close(20)])
    assert [(row["product"], row["difference"], row["settled"]) for row in told["rows"]] == [
        ("E", -1, 0),
        ("F", 0, 3),
        ("G", -1, 0),
    ]
    assert (told["missing"], told["missing_value"], told["extra"]) == (2, 1500, 0)


def test_a_list_names_a_size_alone_once_all_that_is_expected_of_it_was_seen():
    there = [move("m", 1, 12), move("f", 1, 12, "F"), sale_of_a_size("s", 5, 3), line("a", 10, 9)]
    part = result(there, {"scope": "list"})
    assert part["listed"] == [{"product": "E", "size": None}]
    assert [(row["difference"], row["settled"]) for row in part["rows"]] == [(-3, 0)]
    told = result([*there, line("b", 11, 12, "F")], {"scope": "list"})
    assert told["listed"][-1] == {"product": None, "size": "S"}
    assert [(row["difference"], row["settled"]) for row in told["rows"]] == [(0, 3), (0, 0)]


def test_what_was_sold_as_a_size_alone_and_is_not_missing_is_one_too_many():
    there = [move("m", 1, 12), sale_of_a_size("s", 5, 3), line("a", 10, 11), close(20)]
    assert [(row["product"], row["size"], row["difference"]) for row in result(there)["rows"]] == [
        ("E", None, 0),
        (None, "S", 2),
    ]


# what was packed the last time


def packed(*facts):
    told = last_packing(list(facts), HOME, STALL)
    return told["day"], {row["product"]: row["quantity"] for row in told["pieces"]}


def test_the_last_packing_is_all_that_went_on_the_latest_day():
    old = move("a", 1, 9, day="2026-11-21")
    assert packed(old, move("b", 2, 5), move("c", 3, 2), move("d", 4, 1, "G")) == (DAY, {"E": 7, "G": 1})


def test_what_came_back_in_the_evening_went_all_the_same():
    back = move("b", 8 * 60 * MINUTE, 5, source=STALL, target=HOME)
    assert packed(move("a", 1, 5), back) == (DAY, {"E": 5})


def test_what_was_taken_back_at_once_never_went():
    old, undone = move("a", 1, 9, day="2026-11-21"), move("b", 2, 5)
    back = move("c", 2 + MINUTE, 5, source=STALL, target=HOME)
    assert packed(old, undone, back) == ("2026-11-21", {"E": 9})
    assert packed(undone, back, move("d", 3 + MINUTE, 6)) == (DAY, {"E": 6})


def test_nothing_packed_yet_is_an_empty_list():
    assert packed(move("a", 1, 9, target="barn"), sale("s", 1)) == (None, {})


def test_a_first_count_is_taken_into_the_books_and_nothing_is_too_many():
    facts = [sale("s", 1, 2), line("a", 10, 20), line("b", 11, 5, "G")]
    told = result(facts, {"scope": "all"})
    assert [(row["first"], row["difference"], row["value"]) for row in told["rows"]] == [(True, 0, None)] * 2
    assert (told["extra"], told["accuracy"]) == (None, None)


def test_what_was_sold_as_a_size_alone_before_a_first_count_is_not_too_many_either():
    row = {"product": None, "size": "S", "quantity": 2}
    sold = {"kind": "sale", "id": "s", "at": 1, "place": STALL, "lines": [row]}
    told = result([sold, line("a", 10, 20)], {"scope": "all"})
    assert [row["difference"] for row in told["rows"]] == [0, 0]


def test_after_a_first_count_the_next_one_differs():
    before = {"session": "opening"}
    facts = [line("a", 1, 20, **before), close(2, **before), line("b", 10, 21)]
    [row] = result(facts, {"scope": "all"})["rows"]
    assert (row["first"], row["difference"]) == (False, 1)
