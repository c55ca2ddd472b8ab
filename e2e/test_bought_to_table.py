"""From the shop to the table: what is ticked on the list is cloth at home, and the cutting plan takes it."""

import pytest
from playwright.sync_api import expect

from .cutting_table import begin_layout, plan_of
from .shop import act, ask
from .stocked import stock_phone

LAWN = "Seagrass lawn"


@pytest.fixture
def ground():
    return stock_phone


@pytest.fixture
def list_of(screen):
    """A phone with the scenario's records, its shopping list open."""
    return screen.open("/buy/list")


def at_home(phone):
    return [
        (round(row["width"]), round(row["length"])) for row in ask(phone, "records", "records", "remnant")
    ]


def line_of(screen, name=LAWN):
    return screen.page.locator("[data-line]", has_text=name)


def tick(screen, name=LAWN):
    line_of(screen, name).locator("input[type=checkbox]").tap()
    screen.said(f"{name} is in the bag")
    return line_of(screen, name)


def test_one_tap_brings_cloth_home_and_undo_takes_it_back(list_of, phone):
    line = tick(list_of)
    # worked by hand: 2600 × 0.97 − 50; 1400 × 0.98 − 2 × 10
    expect(line.locator("[data-at-home]")).to_contain_text("At home: 247.2 cm × 135.2 cm")
    assert at_home(phone) == [(1352, 2472)]
    list_of.page.get_by_role("button", name="Undo").tap()
    expect(line.locator("input[type=checkbox]")).not_to_be_checked()
    assert at_home(phone) == []


def test_length_and_price_are_asked_as_paid(list_of, phone):
    line = tick(list_of)
    paid = line.locator("[data-paid]")
    expect(paid.locator("[name=length_to_buy]")).to_have_value("260")
    expect(paid.locator("[name=cost]")).to_have_value("23.14")
    paid.locator("[name=length_to_buy]").fill("300")
    paid.locator("[name=cost]").fill("20")
    paid.get_by_role("button", name="Save").tap()
    # worked by hand: 3000 × 0.97 − 50
    expect(line.locator("[data-at-home]")).to_have_attribute("data-at-home", "2860")
    kept = next(row for row in ask(phone, "records", "records", "list-line") if row["name"] == LAWN)
    assert (kept["length_to_buy"], kept["cost"], kept["bought"]) == (3000, 2000, True)
    list_of.page.get_by_role("button", name="Undo").tap()
    expect(line.locator("[data-at-home]")).to_have_attribute("data-at-home", "2472")
    # ticked by mistake: nothing is at home, and nothing twice once it is ticked again
    line.locator("input[type=checkbox]").tap()
    list_of.said(f"{LAWN} is still to buy")
    assert at_home(phone) == []
    tick(list_of)
    assert at_home(phone) == [(1352, 2472)]


def test_the_plan_cuts_from_it_before_more_is_bought(list_of, phone):
    line = tick(list_of)
    line.locator("[data-cut-from]").tap()
    list_of.wait_for_title("Cutting")
    page = list_of.page
    expect(page.locator("[data-wanted]")).to_have_attribute("data-wanted", "60")
    expect(page.locator("[data-remnant] input")).to_be_checked()
    page.locator("details.more summary").first.tap()
    page.get_by_label("Torn along the yarn, not cut").uncheck()
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    [lying] = [row for row in plan_of(phone)["layout"]["result"]["cloths"] if row["rows"]]
    assert plan_of(phone)["layout"]["cloths"][lying["cloth"]]["remnant"]
    assert sum(len(row["strips"]) for row in lying["rows"]) == 60
    # another length came home meanwhile: it is laid out anew
    list_of.open("/buy/list")
    line.locator("input[type=checkbox]").tap()
    list_of.said(f"{LAWN} is still to buy")
    assert plan_of(phone)["layout"] is None


def test_what_is_no_cloth_is_in_the_bag_alone(list_of, phone):
    line = tick(list_of, "Elastic")
    expect(line.locator("[data-at-home]")).to_have_count(0)
    assert at_home(phone) == []


def test_what_is_ticked_where_buy_opens_stays_to_be_corrected(list_of, phone):
    screen = list_of.start_at("/buy")
    line = tick(screen)
    expect(line.locator("[data-paid]")).to_be_visible()
    screen.start_at("/buy")
    expect(line).to_have_count(0)


def test_the_plan_says_why_it_asks_for_more_than_the_calculator(list_of, phone):
    ids = {row["name"]: row["id"] for row in ask(phone, "records", "records", "cloth")}
    act(phone, "edit", "cloth", ids[LAWN], {"tear": False})
    page = list_of.open("/make/cutting").page
    page.select_option("#cut-size", label="Everyday")
    page.select_option("#cut-cloth", label=LAWN)
    for _ in range(5):
        page.locator("[data-add]").tap()
    expect(page.locator("[data-wanted]")).to_have_attribute("data-wanted", "60")
    page = list_of.open("/buy/plan").page
    expect(page.locator("[data-done=true]")).to_be_visible()
    expect(page.locator("[data-beside='2600']")).to_contain_text(
        "says 2.60 m. What differs here: 2 spare strips."
    )
