"""What a basket at the stall comes to: the basket's total and the ways to pay it, in one answer."""

import pytest

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems
from backend.core.selling.cash_ways import cash_ways
from backend.core.selling.pricing import price

EVERYDAY = {"product": "everyday", "group": "Everyday", "unit_price": 600, "quantity": 3}
GRAND = {"product": "grand", "group": "Grand", "unit_price": 900, "quantity": 1}


def an_offer(n):
    return {"name": f"{n} Everyday", "groups": ["Everyday"], "n": n, "price": 500 * n}


def basket(*lines, offers=(), off=0):
    return {"lines": list(lines), "offers": list(offers), "basket_off": off}


def test_a_basket_comes_to_its_total_and_the_ways_to_pay_it():
    given = basket(EVERYDAY, GRAND, offers=[an_offer(3)], off=50)
    told = price(given, [], 5, [1000, 500, 100])
    total = answer("basket-total", given)["result"]
    assert {name: told[name] for name in total} == total
    # worked by hand: three for 15.00, one for 9.00, less 0.50
    assert told["total"] == 2350 and not told["full"] and told["back"] == 0
    assert told["cash"] == cash_ways(2350, 5, [1000, 500, 100])


def test_offers_that_cannot_be_used_together_stop_no_sale():
    told = price(basket(EVERYDAY, offers=[an_offer(n) for n in (2, 3, 4, 5)]), [], 1, [])
    assert told["full"] and (told["total"], told["uses"]) == (1800, [])


@pytest.mark.parametrize("lacking", [{"price": None}, {"n": None, "price": None}, {"percent": 10}])
def test_an_offer_that_does_not_say_what_it_gives_is_not_used_and_the_others_are(lacking):
    told = price(basket(EVERYDAY, offers=[{**an_offer(2), **lacking}, an_offer(3)]), [], 1, [])
    assert (told["incomplete"], told["full"], told["total"]) == ([0], False, 1500)
    assert [(use["offer"], use["saving"]) for use in told["uses"]] == [(1, 300)]


def test_what_comes_back_is_worth_its_full_price():
    assert price(basket(GRAND, offers=[an_offer(3)]), [EVERYDAY], 1, [])["back"] == 1800


def test_the_difference_of_a_swap_is_paid_and_its_lines_come_to_it():
    told = price(basket(GRAND, EVERYDAY), [dict(EVERYDAY, quantity=1)], 1, [])
    assert (told["back"], told["due"], told["cash"]["due"]) == (600, 2100, 2100)
    assert [line["total"] for line in told["lines"]] == [700, 1400]
    assert told["returned"] == [0]


def test_the_difference_of_a_swap_is_given_back_for_what_came_back():
    told = price(basket(dict(EVERYDAY, quantity=1)), [GRAND], 5, [])
    assert (told["total"], told["back"], told["due"], told["cash"]["due"]) == (600, 900, -300, 300)
    assert [line["total"] for line in told["lines"]] == [0]
    assert told["returned"] == [300]


def test_an_even_swap_is_for_no_money():
    told = price(basket(EVERYDAY), [EVERYDAY], 1, [])
    assert (told["due"], told["lines"][0]["total"], told["returned"]) == (0, 0, [0])


def test_a_basket_that_is_bad_without_its_offers_is_refused():
    with pytest.raises(Problems) as bad:
        price(basket({**GRAND, "quantity": 201}, offers=[an_offer(3)]), [], 1, [])
    assert [problem["field"] for problem in bad.value.problems] == ["lines.0.quantity"]
