"""From purchases and a batch to what a piece costs, to the cent, and to its price; owners alone see it."""

import pytest
from playwright.sync_api import expect

from .one_batch import COST_EACH, TOTAL, OneBatch, purchases
from .shop import act, ask, exchange


@pytest.fixture
def ground():
    return OneBatch


@pytest.fixture
def batch(phone):
    """A phone that holds what the batch is made from, nothing bought yet."""
    return phone.ground


def cost_shown(screen):
    return screen.page.locator("[data-cost-each]")


def test_a_ticked_line_is_a_purchase_and_undo_makes_it_void(batch, phone, screen):
    batch.buy_cloth()
    assert purchases(phone) == [(2314, batch.line)]
    screen.page.get_by_role("button", name="Undo").tap()
    expect(screen.page.locator(f"#line-{batch.line}")).not_to_be_checked()
    assert purchases(phone) == []
    batch.buy_cloth()
    paid = screen.page.locator("[data-paid]")
    paid.locator("[name=cost]").fill("20")
    # what it said before, it says again
    screen.hush()
    paid.get_by_role("button", name="Save").tap()
    screen.said("Seagrass lawn is in the bag")
    assert purchases(phone) == [(2000, batch.line)]
    screen.hush()
    screen.page.locator(f"#line-{batch.line}").tap()
    screen.said("Seagrass lawn is still to buy")
    assert purchases(phone) == []


def test_a_line_of_thread_brings_its_spools_home(batch, phone, screen):
    line = {"name": "Sea green: 2 spools", "thread": batch.thread, "packs": 2, "cost": 840}
    id = act(phone, "describeNew", "list-line", line)
    screen.open("/buy/list").page.locator(f"#line-{id}").tap()
    screen.said("Sea green: 2 spools is in the bag")
    assert purchases(phone) == [(840, id)]
    assert ask(phone, "records", "recordById", "thread", batch.thread)["spools"] == 2
    screen.page.get_by_role("button", name="Undo").tap()
    expect(screen.page.locator(f"#line-{id}")).not_to_be_checked()
    assert ask(phone, "records", "recordById", "thread", batch.thread)["spools"] == 0


def test_a_purchase_without_a_list_is_recorded_and_made_void(batch, phone, screen):
    page = screen.open("/buy/purchases").page
    page.get_by_role("link", name="Record a purchase").tap()
    page.get_by_role("button", name="Thread", exact=True).tap()
    page.select_option("#purchase-thread", label="Sea green")
    page.fill("#purchase-quantity", "3")
    page.fill("#purchase-amount", "12.60")
    page.get_by_role("button", name="Save").tap()
    screen.said("The purchase is recorded")
    line = page.locator("[data-spent='1260']")
    expect(line).to_contain_text("3 spools")
    line.get_by_role("button", name="Void").tap()
    expect(line).to_have_attribute("data-void", "true")
    assert purchases(phone) == []
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator("[data-spent='1260']:not([data-void])")).to_be_visible()
    assert purchases(phone) == [(1260, None)]


def test_what_is_on_the_list_by_name_alone_can_be_said_to_be_something(batch, phone, screen):
    id = act(phone, "describeNew", "list-line", {"name": "Paper bags", "cost": 300})
    page = screen.open("/buy/list").page
    page.locator(f"#line-{id}").tap()
    page.get_by_role("link", name="Record what was paid").tap()
    screen.wait_for_title("Paper bags")
    page.get_by_role("button", name="Other", exact=True).tap()
    page.select_option("#purchase-supply", label="Bags")
    expect(page.locator("#purchase-amount")).to_have_value("3.00")
    page.fill("#purchase-quantity", "1")
    page.get_by_role("button", name="Save").tap()
    screen.wait_for_title("Shopping list")
    assert purchases(phone) == [(300, id)]


def test_an_expense_of_a_market_is_recorded_and_what_is_typed_stays(batch, phone, screen):
    booking = {"name": "Quay", "days": ["2026-05-02"]}
    act(phone, "describeNew", "booking", booking)
    page = screen.open("/review/expense/new").page
    page.fill("#expense-what", "Parking")
    page.fill("#expense-amount", "4.50")
    expect(page.get_by_role("button", name="Save")).to_be_enabled()
    screen.reload()
    expect(page.locator("#expense-what")).to_have_value("Parking")
    page.select_option("#expense-booking", label="Quay")
    page.get_by_role("button", name="Save").tap()
    screen.wait_for_title("Expenses")
    expect(page.locator("[data-spent='450']")).to_contain_text("Quay")
    act(phone, "describeNew", "overhead", {"name": "Insurance", "amount": 9600, "per": "year"})
    expect(page.get_by_role("link", name="Insurance")).to_be_visible()


def test_a_piece_costs_what_its_purchases_and_its_minutes_do_to_the_cent(batch, screen):
    page = screen.open("/review/costs").page
    expect(page.locator("[data-not-made]")).to_be_visible()
    batch.buy_cloth()
    batch.buy_the_rest()
    batch.make()
    page = screen.open("/review").page
    page.locator('.ways a[href="/review/costs"]').tap()
    expect(page.locator("[data-note=no_wage]")).to_be_visible()
    page.fill("#wage-amount", "15")
    page.get_by_role("button", name="Set").tap()
    expect(cost_shown(screen)).to_have_attribute("data-cost-each", str(COST_EACH))
    expect(page.locator("[data-note]")).to_have_count(0)
    # 654 and 925 by 17.1
    for part, each in (("cloth", "38.25"), ("labour", "54.09")):
        expect(page.locator(f"[data-part-of-cost={part}]")).to_have_attribute("data-each", each)
    total = page.locator(".review-cost > .why summary")
    expect(total).to_contain_text("€1.00")
    total.tap()
    expect(page.locator(".review-cost > .why .why-told")).to_contain_text("€1.0018")
    expect(page.locator(".review-cost > .why .why-told")).to_contain_text(f"€{TOTAL / 100:.2f}")
    expect(page.locator("[data-point='600']")).to_have_attribute("data-left", "499.82")


def test_each_figure_opens_to_its_purchase_its_cut_and_its_laps(batch, phone, screen):
    batch.buy_cloth()
    batch.make()
    page = screen.open("/review/costs").page
    page.locator("[data-part-of-cost=labour] summary").tap()
    laps = page.locator("[data-part-of-cost=labour]")
    expect(laps).to_contain_text("Batch 126")
    expect(laps).to_contain_text("9 in 5 min, 9 in 12 min (disturbed)")
    # what was never bought is said, and costs nothing
    expect(page.locator("[data-note=never_bought]")).to_have_count(3)
    page.locator("[data-part-of-cost=thread] summary").tap()
    expect(page.locator("[data-part-of-cost=thread]")).to_contain_text("No purchase of it yet")
    page.locator("[data-part-of-cost=cloth] summary").tap()
    cloth = page.locator("[data-part-of-cost=cloth]")
    expect(cloth.get_by_role("link", name="Cut 2 May 2026: 18 pieces, €6.54")).to_have_attribute(
        "href", f"/make/cuts/{batch.cut}"
    )
    # however many came after it
    act(phone, "stateAll", [["purchase", {"day": day, "thread": batch.thread, "quantity": 1, "amount": 420}]
                            for day in ["2099-01-01"] * 30])  # fmt: skip
    cloth.get_by_role("link", name="Bought").tap()
    screen.wait_for_title("Purchases")
    expect(page.locator("[data-spent='2314']")).to_be_in_viewport()


def test_prices_stand_side_by_side_and_an_offer_tells_what_it_needs(batch, phone, screen):
    batch.buy_cloth()
    batch.buy_the_rest()
    batch.make()
    act(phone, "state", "wage-set", {"day": "2026-05-01", "wage": 1500, "from": "2026-05-01"})
    points = [{"price": 500}, {"price": 700}]
    business = {"name": "Tern & Tansy", "currency": "EUR", "points": points, "per_km": 30}
    act(phone, "describeNew", "business", business)
    offer = {"name": "Three for 15", "groups": ["Everyday"], "n": 3, "price": 1500}
    offer = act(phone, "describeNew", "offer", offer)
    market = act(phone, "describeNew", "market", {"name": "Sandholt Quay", "fee": 2800, "distance_km": 12})
    page = screen.open("/review/price").page
    for price, left in ((500, 399.82), (600, 499.82), (700, 599.82)):
        expect(page.locator(f"[data-point='{price}']")).to_have_attribute("data-left", str(left))
    # 60 × 17 × (600 − 788 ÷ 17.1) ÷ 37
    expect(page.locator("[data-point='600']")).to_have_attribute("data-hour", "15270")
    # each leaves 600 − 46, in the offer 100 less: 100 ÷ 454
    lift = page.locator(f"[data-offer='{offer}']")
    expect(lift).to_contain_text("It pays once 22 % more are sold: 18 % of those sold in it")
    # (2800 + 12 × 2 × 30) ÷ 554
    pays = page.locator(f"[data-market='{market}']")
    expect(pays).to_have_attribute("data-pieces", "7")
    expect(pays).to_contain_text("fee €28.00, travel €7.20")
    page.get_by_role("button", name="Ask €7.00").tap()
    screen.said("€7.00 is asked from today")
    assert ask(phone, "records", "recordById", "product", batch.product)["price"] == 700
    expect(page.locator("[data-point='700']")).to_contain_text("asked now")
    page.get_by_role("button", name="Undo").tap()
    expect(page.locator("[data-point='600']")).to_contain_text("asked now")
    assert ask(phone, "records", "recordById", "product", batch.product)["price"] == 600


SCREENS_OF_MONEY = ("/review/costs", "/review/price", "/review/expenses", "/review/expense/new",
                    "/buy/purchases", "/buy/purchase/new", "/settings/overhead")  # fmt: skip


def test_a_helpers_phone_shows_none_of_it(paired):
    owner = paired("Imke's phone")
    batch = OneBatch(owner)
    batch.buy_cloth()
    batch.buy_the_rest()
    batch.make()
    act(owner, "state", "wage-set", {"day": "2026-05-01", "wage": 1500, "from": "2026-05-01"})
    line = act(owner, "describeNew", "list-line", {"name": "Sea green", "thread": batch.thread, "packs": 1})
    helper = paired("Joss's phone", role="helper")
    exchange(owner, helper)
    screen = helper.screen
    page = screen.open("/review").page
    expect(page.get_by_role("link", name="Costs")).to_have_count(0)
    for path in SCREENS_OF_MONEY:
        screen.open(path).wait_for_title("No such screen")
    for kind in ("purchase", "wage-set", "expense"):
        assert ask(helper, "facts", "factsOf", kind) == []
    # the list is the owner's: what is ticked on it becomes a purchase, and says nothing of money here
    page = screen.open("/buy/list").page
    expect(page.get_by_role("link", name="Purchases")).to_have_count(0)
    expect(page.locator(f"#line-{line}")).to_be_disabled()
    assert "23.14" not in page.locator("main").inner_text()
    owner.screen.open("/buy/list").page.locator(f"#line-{line}").tap()
    owner.screen.said("Sea green is in the bag")
    exchange(owner, helper)
    assert purchases(helper) == []
    assert len(purchases(owner)) == 4
