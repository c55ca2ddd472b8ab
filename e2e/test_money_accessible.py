"""The screens of money, of thread and of times, for every hand and eye; and the cost sheet on one page."""

import pytest

from .one_batch import DAY, OneBatch
from .shop import act
from .test_accessible import everything_is_reached
from .test_printing import controls_in_print, printed
from .walked import WALKED, walk

POINTS = [{"price": 500}, {"price": 700}]
OFFER = {"name": "Three Everyday for 15", "groups": ["Everyday"], "n": 3, "price": 1500}


def fill_books(phone):
    """Make a batch, and all that its figures are compared with."""
    batch = OneBatch(phone)
    batch.buy_cloth()
    batch.buy_the_rest()
    batch.make()
    act(phone, "state", "wage-set", {"day": DAY, "wage": 1500, "from": DAY})
    business = {"name": "Tern & Tansy", "currency": "EUR", "points": POINTS, "tax_percent": 19}
    act(phone, "describeNew", "business", business)
    act(phone, "describeNew", "offer", OFFER)
    act(phone, "describeNew", "market", {"name": "Sandholt Quay Saturday", "fee": 2800})
    act(phone, "describeNew", "overhead", {"name": "Insurance", "amount": 9600, "per": "year"})
    act(phone, "state", "expense", {"day": DAY, "what": "Parking", "amount": 450})
    batch.bags_line = act(phone, "describeNew", "list-line", {"name": "Paper bags", "cost": 300})
    return batch


def screens(phone, batch):
    """Walk through the screens, opened as far as they go: yields the name of each."""
    screen = phone.screen
    # ticked as in the shop: its link is there until she leaves
    screen.open("/buy/list").page.locator(f"#line-{batch.bags_line}").check()
    screen.page.get_by_role("link", name="Record what was paid").wait_for()
    screen.hush()
    yield "/buy/list"
    screen.page.locator(f"#line-{batch.bags_line}").uncheck()
    screen.said("Paper bags is still to buy")
    for path, there in (
        ("/review", ".ways a"),
        ("/buy/purchases", "[data-spent]"),
        ("/buy/purchase/new", "form[data-record] .next-steps"),
        ("/review/expenses", "[data-spent]"),
        ("/review/expense/new", "form[data-record] .next-steps"),
        ("/review/price", "[data-market]"),
        ("/make/times", "[data-observed]"),
    ):
        screen.open(path).page.locator(there).first.wait_for()
        yield path
    screen.open("/review/costs").page.locator("[data-part-of-cost]").first.wait_for()
    for summary in screen.page.locator(".why summary").all():
        summary.click()
    screen.page.locator("[data-wage]").wait_for()
    yield "/review/costs"
    screen.open("/make/thread").page.locator("[data-thread] summary").click()
    screen.page.locator("[data-weigh] input").first.wait_for()
    yield "/make/thread"


@pytest.fixture(scope="module")
def found(start_chromium, visited, tmp_path_factory):
    """What is wrong, by question and screen, from one walk through all; and the same with large text."""
    return walk(start_chromium, visited, tmp_path_factory.mktemp("money"), fill_books, screens)


@pytest.mark.parametrize("question", WALKED)
def test_nothing_is_wrong_with_the_screens_of_money(found, question):
    assert found[question] == {}


@pytest.mark.parametrize("path", ["/review/costs", "/review/price", "/buy/purchases", "/make/thread"])
def test_the_keyboard_reaches_all_of_them(phone, path):
    fill_books(phone)
    screen = phone.screen.start_at(path)
    there = "main :is(.why summary, tr button, [data-spent] button, [data-thread] summary)"
    screen.page.locator(there).first.wait_for()
    everything_is_reached(screen)


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_a_cost_sheet_prints_on_one_page(phone, tmp_path, format):
    fill_books(phone)
    page = phone.screen.open("/review/costs").page
    page.locator("[data-part-of-cost]").first.wait_for()
    for summary in page.locator(".why summary").all():
        summary.click()
    assert printed(phone.screen, tmp_path, format)[0] == 1
    assert controls_in_print(page) == []
    page.emulate_media(media="print")
    shown = page.locator("main").inner_text()
    assert "Everyday Seagrass lawn" in shown
    assert "9 in 12 min (disturbed)" in shown
