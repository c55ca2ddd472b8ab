"""How a total is likely to be paid in cash: exact first, then notes of one kind, with the change."""

from hypothesis import given
from hypothesis import strategies as some

from backend.core.selling.cash_ways import MOST_WAYS, cash_ways

EURO = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000]


def tendered(due, *more):
    return [way["tendered"] for way in cash_ways(due, *more)["ways"]]


def test_what_people_hand_over_comes_after_the_exact_amount():
    # common practice, no source: fifteen is paid with a twenty or a fifty
    assert tendered(1500, 1, EURO) == [1500, 2000, 5000]
    assert tendered(600, 1, EURO) == [600, 1000, 2000, 5000]
    assert tendered(2700, 1, EURO) == [2700, 3000, 4000, 5000]


def test_the_change_is_told_in_notes_and_coins():
    exact, twenty, fifty = cash_ways(1500, 1, EURO)["ways"]
    assert (exact["change"], exact["pieces"]) == (0, [])
    assert (twenty["change"], twenty["pieces"]) == (500, [{"value": 500, "count": 1}])
    assert fifty["pieces"] == [
        {"value": 2000, "count": 1},
        {"value": 1000, "count": 1},
        {"value": 500, "count": 1},
    ]


def test_cash_is_rounded_to_the_smallest_coin_first():
    # rounding to 5 as budget.canada.ca, 2012
    assert cash_ways(492, 5, [])["due"] == 490
    assert tendered(492, 5, [])[0] == 490


MONEY = some.integers(0, 10**6)


@given(MONEY, some.sampled_from([1, 5, 10]), some.lists(some.integers(1, 10**5), max_size=12, unique=True))
def test_each_way_pays_what_is_due_and_its_pieces_are_the_change(due, rounding, values):
    told = cash_ways(due, rounding, values)
    assert abs(told["due"] - due) * 2 <= rounding and told["due"] % rounding == 0
    amounts = [way["tendered"] for way in told["ways"]]
    assert amounts == sorted(set(amounts)) and amounts[0] == told["due"] and len(amounts) <= MOST_WAYS
    for way in told["ways"]:
        assert way["change"] == way["tendered"] - told["due"]
        if way["pieces"]:
            assert sum(piece["value"] * piece["count"] for piece in way["pieces"]) == way["change"]
