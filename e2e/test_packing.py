"""Packing the car, and looking what is where, with no signal."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import expect

from .phone import ZONE
from .shop import act, ask
from .stall import EACH
from .test_count import CHECK, GRAND, LAWN, counted_stall, page, row, sell

__all__ = ["page"]


def packed_shelf(phone):
    """Count a stall; at home are twenty of each, from which eight went to the stall a week ago."""
    stall = counted_stall(phone)
    day = ask(phone, "clock", "today")
    for product in stall.product.values():
        found = {"day": day, "place": stall.home, "product": product, "quantity": 28, "reason": "found"}
        act(phone, "state", "set-aside", found)
    went = {"day": "2026-01-03", "from": stall.home, "to": stall.place, "quantity": 8}
    act(phone, "state", "move", {**went, "product": stall.product[CHECK]})
    return stall


@pytest.fixture
def ground():
    return packed_shelf


@pytest.fixture
def shelf(phone):
    """Such a shelf, on a phone that can reach nobody."""
    return phone.ground


def at_home(phone, stall):
    rows = ask(phone, "stock", "stock")
    return {row["product"]: row["quantity"] for row in rows if row["place"] == stall.home}


def test_a_packing_list_begins_with_the_last_one_and_moves_with_one_tap(phone, page, shelf):
    phone.screen.open("/count/pack")
    check, lawn = row(phone, shelf.product[CHECK]), row(phone, shelf.product[LAWN])
    expect(check.locator(".counter input")).to_have_value("8")
    expect(check).to_contain_text("20 here")
    check.locator("[type=checkbox]").tap()
    for _ in range(3):
        lawn.get_by_role("button", name="more").tap()
    lawn.locator("[type=checkbox]").tap()
    before = ask(phone, "facts", "factsOf", "move")
    page.get_by_role("button", name="Move 11 pieces to Quay stall").tap()
    phone.screen.said("11 pieces moved to Quay stall")
    made = ask(phone, "facts", "factsOf", "move")[: -len(before)]
    assert {(fact["product"], fact["quantity"]) for fact in made} == {
        (shelf.product[CHECK], 8), (shelf.product[LAWN], 3),
    }  # fmt: skip
    assert (at_home(phone, shelf)[shelf.product[CHECK]], shelf.left()[shelf.product[LAWN]]) == (12, EACH + 3)


def test_a_second_tap_moves_nothing_twice(phone, page, shelf):
    phone.screen.open("/count/pack")
    page.get_by_role("button", name="Tick all").tap()
    before = len(ask(phone, "facts", "factsOf", "move"))
    page.locator('[data-move="8"]').evaluate("(button) => { button.click(); button.click(); }")
    phone.screen.said("8 pieces moved to Quay stall")
    assert len(ask(phone, "facts", "factsOf", "move")) == before + 1
    assert at_home(phone, shelf)[shelf.product[CHECK]] == 12


def test_what_is_ticked_while_others_move_stays_ticked(phone, page, shelf):
    phone.screen.open("/count/pack")
    lawn = row(phone, shelf.product[LAWN])
    lawn.get_by_role("button", name="more").tap()
    row(phone, shelf.product[CHECK]).locator("[type=checkbox]").tap()
    with phone.screen.core_held():
        page.locator('[data-move="8"]').tap()
        lawn.locator("[type=checkbox]").tap()
    phone.screen.said("8 pieces moved to Quay stall")
    expect(page.locator('[data-move="1"]')).to_be_enabled()
    assert at_home(phone, shelf)[shelf.product[CHECK]] == 12


def test_of_two_places_chosen_at_once_both_hold(phone, page, shelf):
    phone.screen.open("/count/pack")
    page.locator("#pack-from").wait_for()
    with phone.screen.core_held():
        page.locator("#pack-from").select_option("Quay stall")
        page.locator("#pack-to").select_option("Home shelf")
    expect(page.locator("#pack-from")).to_have_value(shelf.place)
    expect(page.locator("#pack-to")).to_have_value(shelf.home)
    expect(page.locator("[data-last]")).to_have_attribute("data-last", "")


def test_a_move_is_taken_back_and_is_on_the_list_again(phone, page, shelf):
    phone.screen.open("/count/pack")
    page.get_by_role("button", name="Tick all").tap()
    page.locator('[data-move="8"]').tap()
    page.get_by_role("button", name="Undo").tap()
    phone.screen.said("Moved back, and on the list again")
    expect(page.locator('[data-move="8"]')).to_be_enabled()
    assert at_home(phone, shelf)[shelf.product[CHECK]] == 20


def test_a_packing_list_survives_a_killed_app_and_what_is_not_packed_stays_on_it(phone, page, shelf):
    phone.screen.open("/count/pack")
    row(phone, shelf.product[CHECK]).locator("[type=checkbox]").tap()
    key = row(phone, shelf.product[GRAND])
    key.locator(".counter input").tap()
    page.keyboard.type("5")
    expect(page.locator('[data-move="8"]')).to_be_visible()
    phone.screen.settle()
    phone.kill()
    page = phone.switch_on(offline=True).open("/count/pack").page
    page.locator('[data-move="8"]').tap()
    phone.screen.said("8 pieces moved to Quay stall")
    expect(row(phone, shelf.product[GRAND])).to_have_attribute("data-pieces", "5")
    expect(page.locator('[data-move="0"]')).to_be_disabled()


def test_a_place_is_not_packed_for_itself(phone, page, shelf):
    phone.screen.open("/count/pack")
    page.locator("#pack-to").select_option("Home shelf")
    expect(page.get_by_role("alert")).to_contain_text("one place")
    page.locator("#pack-from").select_option("Quay stall")
    expect(page.locator("[data-last]")).to_have_attribute("data-last", "")


# what is where


@pytest.mark.parametrize("ground", [counted_stall])
def test_stock_is_told_as_it_is_and_as_it_was(phone, page):
    stall = phone.ground
    page.clock.install()
    sell(phone, stall, CHECK, EACH + 1)
    sell(phone, stall, "Petite", 2)
    phone.screen.open("/count/stock")
    check = row(phone, stall.product[CHECK])
    expect(check).to_have_attribute("data-quantity", "-1")
    expect(check).to_contain_text("1 more went out than were here")
    expect(row(phone, stall.size["Petite"])).to_contain_text("2 with the cloth not named")
    expect(page.get_by_role("heading", name="Petite")).to_contain_text(f"{2 * EACH - 2} pieces")


@pytest.fixture
def at_ten(page):
    """The phone's clock set to ten, before anything is kept: by the clock of the run, which goes on past
    eleven in a long one, the count of the stall would come after the sales of the day.
    """
    ten = datetime(2026, 11, 28, 10, tzinfo=ZoneInfo(ZONE))
    page.clock.install(time=ten)
    return ten


@pytest.mark.parametrize("ground", [None])
def test_a_past_time_shows_what_was_there_then(phone, page, at_ten):
    stall = counted_stall(phone)
    day = ask(phone, "clock", "today")
    for minutes, what in ((65, CHECK), (80, LAWN)):
        page.clock.set_system_time(at_ten + timedelta(minutes=minutes))
        sell(phone, stall, what, 3)
    phone.screen.open("/count/stock")
    expect(row(phone, stall.product[LAWN])).to_have_attribute("data-quantity", str(EACH - 3))
    page.fill("#stock-at", f"{day}T11:10")
    expect(row(phone, stall.product[LAWN])).to_have_attribute("data-quantity", str(EACH))
    expect(row(phone, stall.product[CHECK])).to_have_attribute("data-quantity", str(EACH - 3))
    page.fill("#stock-at", f"{day}T11:01")
    expect(row(phone, stall.product[CHECK])).to_have_attribute("data-quantity", str(EACH))
    page.get_by_role("button", name="Now").tap()
    expect(row(phone, stall.product[LAWN])).to_have_attribute("data-quantity", str(EACH - 3))


def test_pieces_leave_without_money_from_any_place(phone, page, shelf):
    phone.screen.open("/count/stock")
    page.locator("#stock-place").select_option("Home shelf")
    page.locator("summary").tap()
    page.locator("#aside-product").select_option("Everyday Harbour check")
    page.locator("#aside-reason").select_option("Lost")
    page.locator("[data-set-aside]").get_by_role("button", name="more").tap()
    page.locator("[data-set-aside]").get_by_role("button", name="Record").tap()
    phone.screen.said("2 × Everyday Harbour check: lost")
    expect(row(phone, shelf.product[CHECK])).to_have_attribute("data-quantity", "18")
