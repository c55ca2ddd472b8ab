"""The screens of markets and of the year, for every hand and eye; and each on one printed page."""

import pytest
from playwright.sync_api import expect

from .booked import DAY, Booked, late_in_the_year
from .test_accessible import everything_is_reached
from .test_printing import colours_in_print, controls_in_print, printed
from .walked import WALKED, walk


def fill(phone):
    """Attend a booking, and have others beside it, so that every part of the screens is there."""
    late_in_the_year(phone)
    booked = Booked(phone)
    booked.first = booked.attend()
    for number in (13, 20, 27):
        day = f"{DAY[:4]}-06-{number}"
        booked.sell(booked.book(day), 6 + number // 10, day=day)
    booked.new("market", {"name": "Lantern Barn Winter Fair", "fee": 14500})
    untimed = booked.new("booking", {"name": "Barn sale", "days": [f"{DAY[:4]}-03-07"]})
    booked.sell(untimed, 2, day=f"{DAY[:4]}-03-07")
    booked.new("overhead", {"name": "Insurance", "amount": 9600, "per": "year"})
    return booked


def screens(phone, booked):
    """Walk through the screens, opened as far as they go: yields the name of each."""
    screen = phone.screen
    page = screen.open("/review/markets").page
    expect(page.locator("[data-market]")).to_have_count(3)
    expect(page.locator("[data-broke-even-at]")).to_have_count(2)
    for summary in page.locator(".review-market summary").all():
        summary.click()
    yield "/review/markets"
    screen.open(f"/review/markets/{booked.first}")
    expect(page.locator("[data-part=profit]")).to_be_visible()
    yield "/review/markets/:booking"
    screen.open("/review/year")
    expect(page.locator(f"[data-row='{DAY[:7]}']")).to_be_visible()
    expect(page.locator("[data-note]")).to_have_count(0)
    for summary in page.locator("[data-row] summary").all():
        summary.click()
    yield "/review/year"


@pytest.fixture(scope="module")
def found(start_chromium, visited, tmp_path_factory):
    """What is wrong, by question and screen, from one walk through all; and the same with large text."""
    return walk(start_chromium, visited, tmp_path_factory.mktemp("results"), fill, screens)


@pytest.mark.parametrize("question", WALKED)
def test_nothing_is_wrong_with_the_screens_of_results(found, question):
    assert found[question] == {}


def test_the_keyboard_reaches_all_of_them(phone):
    booked = fill(phone)
    for path, there in (
        ("/review/markets", "[data-broke-even-at]"),
        (f"/review/markets/{booked.first}", "[data-part=profit]"),
        ("/review/year", f"[data-row='{DAY[:7]}'] summary"),
    ):
        page = phone.screen.start_at(path).page
        expect(page.locator(there).last).to_be_visible()
        everything_is_reached(phone.screen)


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_each_prints_on_one_page_without_controls(phone, tmp_path, format):
    booked = fill(phone)
    for name in screens(phone, booked):
        assert printed(phone.screen, tmp_path, format)[0] == 1, name
        assert controls_in_print(phone.screen.page) == [], name
        colours, paper = colours_in_print(phone.screen.page)
        assert paper == "rgb(255, 255, 255)"
        assert set(colours) <= {"rgb(0, 0, 0)", "rgb(34, 34, 34)"}, name
    shown = phone.screen.page.locator("main").inner_text()
    assert "How it is worked out" in shown and "Left out" in shown


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_a_year_of_many_markets_prints_on_one_page(phone, tmp_path, format):
    booked = fill(phone)
    for month in range(1, 11):
        day = f"{DAY[:4]}-{month:02}-20"
        green = booked.new("booking", {"name": f"Green of the old mill {month}", "days": [day]})
        booked.sell(green, 1, day=day)
    page = phone.screen.open("/review/year").page
    expect(page.locator("[data-row^='Green']")).to_have_count(10)
    assert page.locator(f"[data-row^='{DAY[:4]}-']").count() == 12
    assert printed(phone.screen, tmp_path, format)[0] == 1


def test_what_is_drawn_is_said_beside_it(phone):
    booked = fill(phone)
    page = phone.screen.open("/review/markets").page
    market = page.locator(f"[data-market='{booked.market}']")
    expect(market).to_have_attribute("data-verdict", "drop")
    expect(market).to_contain_text("8 times in 10")
    expect(page.locator("[data-wanted]")).to_have_text("€15.00")
    # nobody needs to see the drawings
    assert page.locator("main svg:not([aria-hidden=true])").count() == 0
