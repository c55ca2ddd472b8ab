"""Plans: what an owner decided to sew or to pack, one of each use and booking, read by helpers."""

from .shop import act, ask, exchange
from .test_two_phones import a_stall

DAYS = {"days": ["2026-12-05"]}


def keep(phone, use, booking, *lines):
    return ask(phone, "plans", "keepPlan", use, booking, list(lines))


def planned(phone, use, booking):
    """Tell what a plan says: {product: (pieces, batches)}; None where there is none."""
    plan = ask(phone, "plans", "planOf", use, booking)
    return plan and {line["product"]: (line["quantity"], line["batches"]) for line in plan["lines"]}


def test_two_owners_phones_mean_the_same_plan_and_a_helper_reads_it(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    other = paired("Imke's tablet")
    _, product = a_stall(imke)
    booking = act(imke, "describeNew", "booking", DAYS)
    exchange(imke, joss, other)
    # neither has heard of the other's
    first = keep(imke, "pack", booking, {"product": product, "quantity": 24})
    assert keep(other, "pack", booking, {"product": product, "quantity": 18}) == first
    sewing = keep(imke, "sew", None, {"product": product, "quantity": 36, "batches": 3})
    assert sewing != first
    exchange(imke, other, joss, imke)
    for phone in (imke, other, joss):
        assert planned(phone, "pack", booking) == {product: (18, None)}
        assert planned(phone, "sew", None) == {product: (36, 3)}
        assert planned(phone, "sew", booking) is None
    assert len(ask(joss, "records", "records", "plan")) == 2


def test_a_plan_without_a_line_is_archived_and_comes_back(paired):
    imke = paired("Imke's phone")
    _, product = a_stall(imke)
    assert keep(imke, "sew", None) is None
    plan = keep(imke, "sew", None, {"product": product, "quantity": 12})
    keep(imke, "sew", None)
    assert planned(imke, "sew", None) is None
    assert keep(imke, "sew", None, {"product": product, "quantity": 6}) == plan
    assert planned(imke, "sew", None) == {product: (6, None)}


def test_a_plan_is_called_after_its_use_and_its_booking(phone):
    phone.screen.open("/settings")
    booking = act(phone, "describeNew", "booking", {"name": "Winter fair", **DAYS})
    _, product = a_stall(phone)
    keep(phone, "pack", booking, {"product": product, "quantity": 24})
    keep(phone, "sew", None, {"product": product, "quantity": 24})
    plans = ask(phone, "records", "records", "plan")
    names = {ask(phone, "naming", "nameOf", "plan", plan) for plan in plans}
    assert names == {"Packing plan, Winter fair", "Sewing plan"}
