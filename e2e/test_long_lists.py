"""Long lists come in groups, the newest first, with the way to add another above them."""

import pytest
from playwright.sync_api import expect

from .looks import look
from .shop import act, ask
from .stall import a_cloth, opened_stall

ADD = "main a.button.main"


def titles(page):
    return [group.get_attribute("data-group") for group in page.locator("[data-group]").all()]


def above(one, other):
    return one.bounding_box()["y"] < other.bounding_box()["y"]


def test_bookings_come_by_month_the_coming_first(screen, phone):
    screen.open("/settings")
    for day in ("2025-03-01", "2025-03-22", "2025-12-06", "2199-01-01"):
        act(phone, "describeNew", "booking", {"name": f"Quay {day}", "days": [day]})
    page = screen.open("/settings/booking").page
    assert titles(page) == ["Coming", "December 2025", "March 2025"]
    assert above(page.locator(ADD), page.locator("[data-group]").first)
    expect(page.locator("[data-group=Coming] li")).to_have_count(1)
    march = page.locator("[data-group='March 2025']")
    expect(march.locator("li")).to_have_count(0)
    march.locator("summary").tap()
    expect(march.locator("a.to-record")).to_have_text(["Quay 2025-03-22", "Quay 2025-03-01"])


def test_products_come_by_size(screen, phone):
    screen.open("/settings")
    sizes = {
        name: act(phone, "describeNew", "piece", {"name": name, "loop": 165, "tube_width": 45})
        for name in ("Petite", "Grand")
    }
    for size, name in (("Grand", "first"), ("Petite", "only"), ("Grand", "last")):
        act(phone, "describeNew", "product", {"name": name, "size": sizes[size], "price": 600, "group": size})
    page = screen.open("/settings/product").page
    assert titles(page) == ["Petite", "Grand"]
    page.locator("[data-group=Grand] summary").tap()
    expect(page.locator("[data-group=Grand] a.to-record")).to_have_text(["last", "first"])
    assert above(page.locator(ADD), page.locator("[data-group]").first)


def test_checklists_and_counts_come_by_month(screen, phone):
    screen.open("/make")
    signed = {"tool": "shears", "cloth": "woven", "person": "Imke", "ticked": []}
    place = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    act(phone, "describeNew", "product", {"name": "Ties", "size": place, "price": 600, "group": "G"})
    for day in ("2025-03-01", "2025-03-22", "2025-12-06"):
        act(phone, "state", "checklist-signature", {**signed, "day": day})
        close = {"day": day, "session": place, "place": place, "scope": "all"}
        act(phone, "state", "count-close", close)
    assert len(ask(phone, "facts", "factsOf", "count-close")) == 3
    for path in ("/make", "/count"):
        page = screen.open(path).page
        if path == "/count":
            page.get_by_text("Earlier counts").tap()
        expect(page.locator("[data-group]")).to_have_count(2)
        # as they were kept: the latest first
        assert titles(page) == ["December 2025", "March 2025"]


def test_what_was_bought_before_is_folded_under_what_is_to_buy(screen, phone):
    screen.open("/buy/list")
    for name in ("thread, rust", "needles"):
        act(phone, "describeNew", "list-line", {"name": name, "bought": name == "needles"})
    page = screen.open("/buy/list").page
    expect(page.locator("[data-line] strong")).to_have_text(["thread, rust"])
    page.locator("[data-line] input[type=checkbox]").tap()
    screen.said("thread, rust is in the bag")
    # what is ticked stays where it was tapped
    expect(page.locator("[data-line] strong")).to_have_text(["thread, rust"])
    page.locator("[data-group] summary").tap()
    expect(page.locator("[data-group] [data-line] strong")).to_have_text(["needles"])


LONG_WORD = "Donaudampfschifffahrtsgesellschaftskapitaensmuetzenstoff"


@pytest.mark.parametrize("phone_width", [320, 390])
def test_a_name_of_one_long_word_stays_on_the_page(phone, phone_width):
    stall = opened_stall(phone)
    screen, page = phone.screen, phone.screen.page
    cloth = act(phone, "describeNew", "cloth", a_cloth(LONG_WORD))
    product = {"size": stall.size["Petite"], "cloth": cloth, "price": 450, "group": "Petite"}
    product = act(phone, "describeNew", "product", product)
    found = {"place": stall.place, "product": product, "quantity": 3, "reason": "found"}
    act(phone, "state", "set-aside", {**found, "day": ask(phone, "clock", "today")})
    act(phone, "describeNew", "list-line", {"name": LONG_WORD})
    page.set_viewport_size({"width": phone_width, "height": 844})
    for path in ("/buy", "/buy/list", "/buy/cloths", "/buy/fabric-per-dozen", "/settings", "/settings/cloth",
                 f"/settings/cloth/{cloth}", "/settings/product", "/count/stock",
                 "/sell/goods"):  # fmt: skip
        screen.open(path)
        expect(page.locator("main")).to_contain_text(LONG_WORD)
        assert look(screen, "outOfPlace") == [], (path, look(screen, "outOfPlace"))
    page = screen.open("/sell").page
    page.locator(f"[data-product='{product}']").tap()
    page.locator("[data-pay=cash]:enabled").first.wait_for()
    assert look(screen, "outOfPlace") == []
