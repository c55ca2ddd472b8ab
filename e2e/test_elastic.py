"""Elastic of a plan: from home first, what to buy, where to set the stop; the network is off."""

import pytest
from playwright.sync_api import expect

from .cutting_table import LAWN, furnish, lay_out, plan_of, want
from .shop import act, ask

BRAID = {"name": "Braided, 6 mm", "roll_length": 10000, "price": 790, "knot_takeup": 31, "opened": 2100}
DONE = "[data-buys][data-done=true]"


@pytest.fixture
def table(screen, phone):
    """A phone without a signal that knows sizes, cloths, and an elastic with some left on its roll."""
    furnish(phone)
    act(phone, "describeNew", "elastic", BRAID)
    return screen


def test_what_is_on_the_opened_roll_goes_first_and_the_rest_is_bought_with_one_tap(table, phone):
    want(table, ("Everyday", LAWN, 3))
    table.settle()
    page = table.open("/buy/plan").page
    page.locator(DONE).wait_for()
    # worked by hand: 165 + 31 + 2 × 20 = 236; 8 of 37 come from 2.1 m, 29 from a new roll of 10 m
    expect(page.locator("[data-roll-at-home]")).to_contain_text("1.89 m of a roll of 2.10 m")
    bought = page.locator("[data-rolls]")
    expect(bought).to_contain_text("1 roll of 10 m")
    expect(bought).to_contain_text("7.90")
    page.locator("summary", has_text="Where to set the stop").tap()
    stops = page.locator("[data-stop-at]")
    expect(stops).to_have_count(2)
    expect(stops.nth(0)).to_have_text("Stop at 236 mm: 8 pieces, Everyday")
    expect(stops.nth(1)).to_have_text("Stop at 236 mm: 29 pieces, Everyday")
    page.locator("[data-put]").tap()
    table.wait_for_title("Shopping list")
    lines = {line["name"]: line for line in ask(phone, "records", "records", "list-line")}
    line = lines["Braided, 6 mm: 1 roll of 10 m"]
    assert (line["for_what"], line["cost"]) == ("Everyday", 790)
    # put on again, the line of before comes off
    table.open("/buy/plan")
    page.locator(DONE).wait_for()
    page.locator("[data-put]").tap()
    table.wait_for_title("Shopping list")
    assert len(ask(phone, "records", "records", "list-line")) == len(lines)


def test_the_cutting_tells_where_to_set_the_stop_as_the_core_does(table, phone):
    page = lay_out(table, ("Everyday", LAWN, 1), ("Petite", LAWN, 1))
    told = plan_of(phone)["layout"]["result"]["elastic"]
    wanted = [(row["length"], row["count"]) for pattern in told for row in pattern["cuts"]]
    stops = page.locator("[data-stop-at]")
    expect(stops).to_have_count(len(wanted))
    shown = [
        (float(stop.get_attribute("data-stop-at")), int(stop.get_attribute("data-count")))
        for stop in stops.all()
    ]
    assert shown == wanted
    assert sum(count for _, count in wanted) == 24


def test_a_size_whose_elastic_is_not_known_is_named(table, phone):
    act(phone, "describeNew", "elastic", BRAID | {"name": "Braided, 9 mm"})
    page = lay_out(table, ("Everyday", LAWN, 1))
    expect(page.locator("[data-no-elastic]")).to_contain_text("Which elastic is in Everyday?")
