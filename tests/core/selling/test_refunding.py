"""What goes back for pieces that come back: their share of the line, never more than was paid."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.declaring.errors import Problems
from backend.core.selling.refunding import refund_of

# three Everyday for 15.00 and a Grand: common practice, no source
LINES = [
    {"product": "e", "size": None, "name": "", "quantity": 3, "total": 1500},
    {"product": "g", "size": None, "name": "", "quantity": 1, "total": 900},
]


def test_a_piece_of_an_offer_is_worth_its_share():
    told = refund_of(LINES, [1, 0], 2400, [])
    assert told["lines"] == [{"product": "e", "size": None, "name": "", "quantity": 1, "total": 500}]
    assert (told["amount"], told["left"], told["left_amount"]) == (500, [3, 1], 2400)


def test_all_of_it_back_is_what_was_paid():
    assert refund_of(LINES, [3, 1], 2400, [])["amount"] == 2400
    # cash was rounded down
    assert refund_of([{**LINES[0], "total": 492}], [3], 490, [])["amount"] == 490


def test_no_more_comes_back_than_was_sold():
    with pytest.raises(Problems) as told:
        refund_of(LINES, [4, 1], 2400, [])
    assert [item["field"] for item in told.value.problems] == ["back.0"]
    with pytest.raises(Problems):
        refund_of(LINES, [1], 2400, [])


def test_what_came_back_before_comes_back_no_second_time():
    before = refund_of(LINES, [2, 0], 2400, [])
    told = refund_of(LINES, None, 2400, [before])
    assert (told["left"], told["left_amount"], told["amount"]) == ([1, 1], 1400, 1400)
    with pytest.raises(Problems) as refused:
        refund_of(LINES, [2, 0], 2400, [before])
    assert refused.value.problems[0]["limit"] == 1
    assert refund_of(LINES, None, 2400, [before, told])["amount"] == 0


def test_more_given_back_than_was_asked_for_leaves_less_money():
    generous = {
        "lines": [{"product": "e", "size": None, "name": "", "quantity": 1, "total": 2000}],
        "amount": 2000,
    }
    told = refund_of(LINES, [2, 0], 2400, [generous])
    assert (told["amount"], told["left_amount"]) == (400, 400)


@given(some.integers(1, 7), some.integers(0, 10**5))
def test_piece_by_piece_comes_to_what_all_at_once_does(quantity, total):
    lines, refunds = [{"product": "e", "quantity": quantity, "total": total}], []
    for _ in range(quantity):
        refunds.append(refund_of(lines, [1], total, refunds))
    assert sum(refund["amount"] for refund in refunds) == total


@given(
    some.lists(some.tuples(some.integers(1, 20), some.integers(0, 10**5), some.integers(0, 20)), max_size=5)
)
def test_the_more_comes_back_the_more_is_given_and_never_more_than_was_paid(rows):
    lines = [{"quantity": quantity, "total": total} for quantity, total, _ in rows]
    paid = sum(total for _, total, _ in rows)
    back = [min(quantity, pieces) for quantity, _, pieces in rows]
    told = refund_of(lines, back, paid, [])
    assert 0 <= told["amount"] <= paid
    assert [line["quantity"] for line in told["lines"]] == [pieces for pieces in back if pieces]
    assert refund_of(lines, None, paid, [])["amount"] == paid
