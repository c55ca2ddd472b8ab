"""From the shop to the table, on every kind of screen: axe, 320 wide, text twice as large."""

import pytest
from playwright.sync_api import expect

from .cuts import make_all_cuts
from .cutting_table import CORD, furnish, lay_out, sign
from .looks import look, out_of_place, violations
from .shop import act

CLOTH_LINE = {"name": CORD, "for_what": "Grand", "quantity": 24, "length_to_buy": 1100, "cost": 1500}


def screens(table, phone):
    """Each screen that was made or changed for it, as far as it goes."""
    page = table.open("/buy/list").page
    page.locator("[data-line] input[type=checkbox]").first.tap()
    page.locator("[data-paid]").wait_for()
    table.hush()
    yield "cloth brought home"
    table.open("/buy/fabric-per-dozen")
    page.locator("[data-needed]").wait_for()
    yield "what is still needed"
    lay_out(table, ("Grand", CORD, 1))
    yield "the layout"
    page.locator("[data-to-cuts]").tap()
    sign(table)
    make_all_cuts(page)
    table.hush()
    yield "what comes after the last cut"
    table.open("/make/safe-cutting-checklist")
    page.locator("[data-when=after] input").first.wait_for()
    yield "the checklist, signed"
    for day in ("2025-03-01", "2025-12-06"):
        act(phone, "describeNew", "booking", {"name": "Quay", "days": [day]})
    table.open("/settings/booking")
    page.locator("[data-group]").nth(1).wait_for()
    yield "bookings by month"


@pytest.mark.parametrize("large", [False, True], ids=["usual text", "text twice as large"])
def test_nothing_is_lost_from_the_shop_to_the_table(phone, large):
    if large:
        phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    table = phone.screen
    furnish(phone)
    act(phone, "describeNew", "list-line", CLOTH_LINE)
    for name in screens(table, phone):
        wrong = look(table, "outOfPlace") if large else out_of_place(table, width=320, height=640)
        assert wrong == [], name
        if not large:
            assert violations(table) == [], name
    expect(table.page.locator("h1")).to_have_text("Bookings")
