"""From sales and costs to what a market is worth and a year came to, to the cent; owners alone see it."""

import csv
import io
import re

import pytest
from playwright.sync_api import expect

from .booked import DAY, OWN_MINUTES, PARTS, PER_HOUR, Booked, late_in_the_year
from .looks import look
from .shop import act, ask, exchange

YEAR = DAY[:4]
# in how many lines each stands
LINES = """(found) => found.map((one) => {
  const text = document.createRange();
  text.selectNodeContents(one);
  return text.getClientRects().length;
})"""


@pytest.fixture
def booked(phone):
    """A phone with a batch, its costs and a market, nothing sold yet."""
    late_in_the_year(phone)
    return Booked(phone)


def opened(screen, path, there):
    """Open a screen, and wait until it tells of what is recorded."""
    page = screen.open(path).page
    expect(page.locator(there).first).to_be_visible()
    return page


def test_a_booking_opens_to_its_parts_to_the_cent(booked, screen):
    booking = booked.attend()
    page = opened(screen, "/review/markets", "[data-market]")
    market = page.locator(f"[data-market='{booked.market}']")
    market.locator("summary").tap()
    market.locator(f"[data-booking='{booking}'] a").tap()
    for part, money in PARTS.items():
        expect(page.locator(f"[data-part={part}]")).to_have_attribute("data-money", str(money))
    expect(page.locator("[data-own-minutes]")).to_have_attribute("data-own-minutes", str(OWN_MINUTES))
    expect(page.locator("[data-per-hour]")).to_have_attribute("data-per-hour", f"{PER_HOUR:g}")
    # the first sale leaves 5 × (600 × 0.934 − 46.12) = 2571 of the 4550 that the day costs
    at = ask(booked.phone, "facts", "factById", booked.paid_by)["at"]
    expect(page.locator("[data-broke-even-at]")).to_have_attribute("data-broke-even-at", str(at))
    page.get_by_role("link", name="The day's report").tap()
    expect(page.locator(f"[data-report='{DAY}']")).to_be_visible()


def test_one_booking_alone_tells_no_verdict(booked, screen):
    booked.attend()
    page = opened(screen, "/review/markets", "[data-market]")
    market = page.locator(f"[data-market='{booked.market}']")
    expect(market).to_have_attribute("data-verdict", "cannot tell")
    expect(market).to_contain_text(f"€{PER_HOUR / 100:.2f} an hour on that one day")
    expect(market).to_contain_text("Cannot tell yet: one booking alone says nothing of the next.")
    # 4550 ÷ (560 × (0.95 − 0.016 ÷ 3) − 43): mean price and material of the 15, a third paid by card
    expect(market).to_contain_text("10 pieces pay for a booking there")
    expect(market).to_contain_text("The one there was took as much.")
    expect(market).to_contain_text(
        "From one booking, and none elsewhere: what the next one earns cannot be told."
    )


def test_of_few_bookings_it_says_what_it_rests_on_and_what_that_cannot_tell(booked, screen):
    other = booked.new("market", {"name": "Orchard Lane", "fee": 1000, "opens": "09:00", "closes": "13:00"})
    days = [f"{YEAR}-06-{number:02}" for number in (6, 7, 13, 20)]

    def attend(market, day):
        booked.sell(booked.new("booking", {"market": market, "days": [day]}), 20, day=day)

    for market, day, said in (
        (other, days[0], "From one booking, and none elsewhere"),
        (booked.market, days[1], "No market has two yet, so all are taken as alike"),
        (other, days[2], "From two bookings, drawn towards the one elsewhere, as two say little."),
        (other, days[3], "From 3 bookings."),
    ):
        attend(market, day)
        page = opened(screen, "/review/markets", "[data-market]")
        expect(page.locator(f"[data-market='{market}']")).to_contain_text(said)
    expect(page.locator(f"[data-market='{booked.market}']")).to_contain_text(
        "From one booking, drawn towards the 3 elsewhere, as one says little."
    )


def test_several_bookings_say_whether_to_keep_a_market(booked, screen):
    days = [f"{YEAR}-06-{number:02}" for number in (6, 13, 20, 27)]
    for day, pieces in zip(days, (200, 210, 190, 205), strict=True):
        booked.sell(booked.book(day), pieces, day=day)
    poor = booked.new("market", {"name": "Orchard Lane", "fee": 1000, "opens": "09:00", "closes": "13:00"})
    for day in (f"{YEAR}-06-07", f"{YEAR}-06-14"):
        booking = booked.new("booking", {"market": poor, "days": [day]})
        booked.sell(booking, 3, day=day)
    new = booked.new("market", {"name": "Lantern Barn", "fee": 14500})
    page = opened(screen, "/review/markets", "[data-market]")
    verdicts = [(booked.market, "keep"), (poor, "drop"), (new, "no day")]
    for market, verdict in verdicts:
        expect(page.locator(f"[data-market='{market}']")).to_have_attribute("data-verdict", verdict)
    expect(page.locator("[data-market]")).to_have_count(3)
    # the best first, and last the one that nothing is known of
    shown = page.locator("[data-market]").evaluate_all("(all) => all.map((one) => one.dataset.market)")
    assert shown == [market for market, _ in verdicts]
    expect(page.locator(f"[data-market='{booked.market}']")).to_contain_text("From 4 bookings.")
    expect(page.locator(f"[data-market='{new}']")).to_contain_text("what an hour there earns cannot be told")
    expect(page.locator(f"[data-market='{new}']")).to_contain_text("what a piece left at your other markets")
    expect(page.locator(f"[data-market='{poor}']")).to_contain_text("Drop: it does not pay your €15.00")


def test_what_is_missing_is_said(booked, phone, screen):
    page = opened(screen, "/review/markets", "[data-no-market-over]")
    booking = act(phone, "describeNew", "booking", {"name": "Barn sale", "days": [DAY]})
    booked.sell(booking, 2)
    expect(page.locator("[data-note=hours_not_said]")).to_be_visible()
    expect(page.locator(f"[data-market='{booking}']")).to_contain_text("say when it opens and closes")


def test_a_void_that_comes_later_is_taken_off(booked, phone, screen):
    booking = booked.attend()
    page = opened(screen, f"/review/markets/{booking}", "[data-part=profit]")
    act(phone, "state", "void", {"day": DAY, "sale": booked.paid_by})
    expect(page.locator("[data-part=takings]")).to_have_attribute("data-money", "3600")
    opened(screen, "/review/year", f"[data-row='{DAY[:7]}'][data-takings='3000']")


def test_a_year_adds_up_to_its_bookings(booked, screen):
    booked.attend()
    booked.new("overhead", {"name": "Insurance", "amount": 1200, "per": "year", "from": f"{YEAR}-05-01",
                            "to": f"{YEAR}-05-31"})  # fmt: skip
    page = opened(screen, "/review/year", "[data-year]")
    expect(page.locator("[data-charge=goods]")).to_have_attribute("data-money", str(PARTS["goods"]))
    # fee, share and card; parking and the other costs; a twelfth of the insurance
    for charge, money in (
        ("fees", 3268),
        ("travel", 600),
        ("helpers", 600),
        ("expenses", 550),
        ("overheads", 100),
    ):
        expect(page.locator(f"[data-charge={charge}]")).to_have_attribute("data-money", str(money))
    expect(page.locator("[data-profit]").first).to_have_attribute("data-profit", str(PARTS["profit"] - 100))
    market = page.locator(f"[data-row='{booked.market}']")
    expect(market).to_have_attribute("data-profit", str(PARTS["profit"]))
    month = page.locator(f"[data-row='{DAY[:7]}']")
    month.locator("summary").tap()
    expect(month.get_by_role("link", name=re.compile("Sandholt Quay"))).to_have_attribute(
        "href", re.compile(f"^/review/{DAY}")
    )


@pytest.mark.parametrize("file", ["takings", "purchases", "expenses", "stock", "figures"])
def test_the_files_of_a_year_say_the_same(booked, screen, file):
    booked.attend()
    page = opened(screen, "/review/year", f"[data-row='{DAY[:7]}']")
    with page.expect_download() as told:
        page.locator(f"[data-file={file}]").tap()
    text = told.value.path().read_bytes().decode()
    assert text.endswith("\r\n")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert {row["currency"] for row in rows} == {"EUR"}
    if file == "takings":
        [row] = rows
        assert (row["day"], row["market"], row["sales"], row["pieces"]) == (
            DAY,
            "Sandholt Quay Saturday",
            "3",
            "15",
        )
        assert (row["taken"], row["by_card"], row["given_back"], row["takings"]) == (
            "90.00",
            "30.00",
            "6.00",
            "84.00",
        )
    if file == "purchases":
        assert {(row["what"], row["paid"], row["tax"]) for row in rows} == {
            ("Braided", "7.90", "0.00"),
            ("Sea green", "4.20", "0.00"),
            ("Bags", "4.00", "1.00"),
            ("Seagrass lawn", "23.14", "0.00"),
        }
    if file == "expenses":
        assert [(row["what"], row["market"], row["paid"]) for row in rows] == [
            ("Parking", "Sandholt Quay Saturday", "4.50")
        ]
    if file == "stock":
        # 17 good ones, of which 15 went and one came back: 3 × 788.68 ÷ 17.1
        assert [(row["place"], row["pieces"], row["cost_each"], row["value"]) for row in rows] == [
            ("Home shelf", "3", "0.4612", "1.38")
        ]
    if file == "figures":
        whole = rows[-1]
        assert (whole["part"], whole["takings"], whole["profit"]) == ("year", "84.00", "27.36")


def test_a_helpers_phone_shows_none_of_it(paired):
    owner = paired("Imke's phone")
    booking = Booked(owner).attend()
    opened(owner.screen, f"/review/markets/{booking}", "[data-part=profit]")
    helper = paired("Joss's phone", role="helper")
    exchange(owner, helper)
    page = helper.screen.open("/review").page
    expect(page.get_by_role("link", name="The day's report")).to_be_visible()
    expect(page.get_by_role("link", name="Markets")).to_have_count(0)
    for path in ("/review/markets", f"/review/markets/{booking}", "/review/year"):
        helper.screen.open(path).wait_for_title("No such screen")


def test_what_came_by_sync_is_summed_up_too(paired):
    owner = paired("Imke's phone")
    booked = Booked(owner)
    booking = booked.attend()
    other = paired("Joss's phone", role="owner")
    exchange(owner, other)
    page = opened(other.screen, f"/review/markets/{booking}", "[data-part=profit]")
    expect(page.locator("[data-part=profit]")).to_have_attribute("data-money", str(PARTS["profit"]))
    # one more sale there, and a void: the same on both
    booked.sell(booking, 10)
    act(owner, "state", "void", {"day": DAY, "sale": booked.paid_by})
    exchange(owner, other)
    expect(page.locator("[data-part=takings]")).to_have_attribute("data-money", str(9000 + 6000 - 5400))
    opened(owner.screen, f"/review/markets/{booking}", "[data-part=takings][data-money='9600']")


def test_the_figures_of_a_year_are_whole_in_large_text(booked, phone):
    booking = booked.book()
    line = {"product": booked.batch.product, "quantity": 1, "unit_price": 3225850, "total": 3225850}
    sale = {"booking": booking, "place": booked.batch.place, "lines": [line], "amount": 3225850}
    booked.state("sale", {**sale, "payment": "cash"})
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 32}})
    page = opened(phone.screen, "/review/year", "[data-takings]")
    assert set(page.locator(".facts .number").evaluate_all(LINES)) == {1}
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 640})
        assert look(phone.screen, "outOfPlace") == []
