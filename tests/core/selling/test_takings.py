"""Running takings: sales that stand, and money given back."""

from backend.core.selling.takings import takings


def sale(name, amount, payment="cash", quantity=1):
    lines = [{"product": "Everyday", "quantity": quantity}]
    return {"kind": "sale", "id": name, "lines": lines, "amount": amount, "payment": payment}


def test_sales_and_refunds_add_up_by_payment_and_voided_sales_do_not():
    refund = {"kind": "refund", "id": "r", "lines": [{"quantity": 1}], "amount": 450, "payment": "cash"}
    facts = [sale("a", 600), sale("b", 1500, "card", 3), sale("c", 900), refund, {"kind": "move", "id": "m"}]
    told = takings(facts, {"c": True})
    # worked by hand: 6.00 + 15.00 − 4.50
    assert (told["sales"], told["pieces"], told["refunds"]) == (2, 4, 1)
    assert (told["taken"], told["given_back"], told["amount"]) == (2100, 450, 1650)
    assert [(part["payment"], part["amount"]) for part in told["payments"]] == [("cash", 150), ("card", 1500)]


def test_of_nothing_there_are_no_takings():
    assert takings([], {})["amount"] == 0
    assert takings([], {})["payments"] == []
