"""Days with an offer beside days without it: the figures of each, that they differ, and never why."""

import pytest
from playwright.sync_api import expect

from .looks import look, out_of_place, violations
from .one_batch import OneBatch
from .shop import act
from .test_accessible import CONTRAST, TARGET

TERMS = {"fee": 1000, "opens": "09:00", "closes": "14:00"}
DAYS = ["2026-05-09", "2026-05-16", "2026-05-23", "2026-05-30"]
OFFER = {"name": "Three for 15", "groups": ["Everyday"], "n": 3, "price": 1500}


class Offered:
    """Four Saturdays at a market, the first two with the offer; the ids of its records."""

    def __init__(self, phone):
        self.phone = phone
        self.batch = OneBatch(phone)
        self.batch.buy_cloth()
        self.batch.buy_the_rest()
        self.batch.make()
        act(phone, "describeNew", "business", {"name": "Tern & Tansy", "currency": "EUR"})
        self.offer = act(phone, "describeNew", "offer", OFFER)
        self.market = act(phone, "describeNew", "market", {"name": "Sandholt Quay", **TERMS})
        for day, times, single in zip(DAYS, (3, 2, 0, 0), (1, 2, 4, 5), strict=True):
            booking = act(phone, "describeNew", "booking", {"market": self.market, "days": [day]})
            for _ in range(times):
                used = {"offer": self.offer, "times": 1, "saving": 300}
                self.sell(day, booking, 3, 1500, [used])
            for _ in range(single):
                self.sell(day, booking, 1, 600, [])

    def sell(self, day, booking, pieces, amount, offers):
        line = {"product": self.batch.product, "quantity": pieces, "unit_price": 600, "total": amount}
        sale = {"day": day, "booking": booking, "place": self.batch.place, "lines": [line], "offers": offers}
        return act(self.phone, "state", "sale", {**sale, "amount": amount, "payment": "cash"})

    def open_days(self):
        page = self.phone.screen.open("/review/price").page
        # what stands above it is there, and moves it no more
        page.locator("#card_share").wait_for()
        page.locator(f"[data-offer='{self.offer}'] .review-offer-days summary").click()
        page.locator(f"[data-offer='{self.offer}'] details[open]").wait_for()
        page.locator("[data-with]").wait_for()
        return page


@pytest.fixture
def ground():
    return Offered


@pytest.fixture
def offered(phone):
    return phone.ground


def test_days_with_an_offer_stand_beside_days_without_it(offered):
    page = offered.open_days()
    days = page.locator("[data-with]")
    expect(days).to_contain_text("2 days on which it was used, 2 on which it was not, at Sandholt Quay.")
    left = page.locator("[data-measure='contribution an hour']")
    # a piece takes material for 788 ÷ 17.1 = 46.08. With it 5100 − 461 − 1000 and 4200 − 369 − 1000 in five
    # hours; without it 2400 − 184 − 1000 and 3000 − 230 − 1000
    expect(left.locator("td").nth(0)).to_have_text("€6.47")
    expect(left.locator("td").nth(1)).to_have_text("€2.99")
    # the means 647 and 298.6, ±80.8 and ±55.4 each: ν 1, t 12.7
    expect(left).to_have_attribute("data-differs", "false")
    expect(left).to_contain_text("No clear difference")
    sale = page.locator("[data-measure='pieces a sale']")
    # 10 ÷ 4 and 8 ÷ 4; 1 and 1
    expect(sale.locator("td").nth(0)).to_have_text("2.3")
    expect(sale.locator("td").nth(1)).to_have_text("1.0")
    expect(page.locator("[data-measure='group share'] td").first).to_have_text("100")
    expect(days).not_to_contain_text("because")


def test_days_that_differ_are_said_to_and_a_void_sale_is_no_use_of_the_offer(offered):
    for number in range(4, 10):
        day = f"2026-06-{3 * number:02}"
        booking = act(offered.phone, "describeNew", "booking", {"market": offered.market, "days": [day]})
        used = [{"offer": offered.offer, "times": 1, "saving": 300}] if number % 2 else []
        sale = offered.sell(day, booking, 3, 1500 if used else 600, used)
        if number == 9:
            act(offered.phone, "state", "void", {"day": day, "sale": sale, "reason": "rung up twice"})
    page = offered.open_days()
    days = page.locator("[data-with]")
    # the void one leaves nothing sold on its day
    expect(days).to_have_attribute("data-with", "4")
    sale = page.locator("[data-measure='pieces a sale']")
    expect(sale).to_contain_text("more with it")


def test_what_cannot_be_compared_is_said(offered):
    act(offered.phone, "edit", "market", offered.market, {"opens": None, "closes": None})
    page = offered.open_days()
    expect(page.locator("[data-no-hours='4']")).to_contain_text("4 days left out")
    expect(page.locator("[data-with]")).to_contain_text("No day of it can be compared yet.")


@pytest.mark.parametrize("large", [False, True], ids=["usual text", "text twice as large"])
def test_the_days_are_for_every_hand_and_eye(offered, large):
    if large:
        offered.phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    offered.open_days()
    screen = offered.phone.screen
    screen.hush()
    found = look(screen, "outOfPlace") if large else out_of_place(screen, width=320, height=640)
    if not large:
        found += violations(screen) + look(screen, "smallTargets", TARGET)
        found += look(screen, "lowContrast", CONTRAST)
    assert found == []
