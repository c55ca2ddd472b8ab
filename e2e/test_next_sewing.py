"""What to sew before the next markets: from what is recorded to the sewing plan, to cutting, to a batch."""

import json
import urllib.request

import pytest
from playwright.sync_api import expect

from .screen import HELD
from .sewing import Sewing, finish
from .sewing_ahead import GUESS, Ahead, make_plan, open_plan
from .shop import act, ask, exchange
from .stall import a_cloth

ASKED = """async () => {
  const { sewingAsked, sewingChoices } = await import('/data/next-sewing.js');
  return JSON.stringify((await sewingAsked(sewingChoices(), () => {})).given);
}"""


@pytest.fixture
def ahead(phone):
    """A phone without a network of a maker with two bookings ahead."""
    return Ahead(phone)


def plans_of(phone):
    return {plan["booking"]: plan["lines"] for plan in ask(phone, "records", "records", "plan")}


def cut(phone, ahead, quantity):
    lines = [{"size": ahead.size, "quantity": quantity}]
    fields = {"day": ahead.today, "cloth": ahead.cloth, "length": 1000, "lines": lines}
    return act(phone, "state", "cut", fields)


def test_it_asks_for_what_nobody_knows_and_keeps_what_is_typed(ahead, phone, screen):
    page = screen.open("/review").page
    page.get_by_role("link", name="What to sew").tap()
    expect(page.locator("[data-asks=hours]")).to_be_visible()
    expect(page.locator("[data-asks=guess]")).to_be_visible()
    expect(page.locator("[data-worth]")).to_have_count(0)
    open_plan(phone)
    screen.reload()
    page.locator("[data-looking=false]").wait_for()
    expect(page.locator("[data-asks=hours]")).to_have_count(0)
    expect(page.get_by_label("Pieces at a market", exact=True)).to_have_value(str(GUESS))
    expect(page.locator("main")).to_contain_text("what will be asked for is your guess")
    # a guess is said once: the next market has it, too
    screen.open("/review/next")
    expect(screen.page.locator("[data-from=guess]")).to_be_visible()


def test_hours_are_typed_digit_by_digit_where_they_are_asked_for(ahead, phone, screen):
    page = screen.open("/review/sew").page
    page.get_by_label("Pieces at a market", exact=True).fill(str(GUESS))
    hours = page.get_by_label("Hours at the bench in a week", exact=True)
    hours.tap()
    page.keyboard.type("1")
    page.locator("[data-worth]").wait_for()
    page.keyboard.type("2")
    expect(hours).to_have_value("12")
    expect(hours).to_be_focused()


def test_what_was_found_until_the_screen_was_left_is_there_when_it_is_opened_again(phone):
    phone.context.add_init_script(HELD)
    ahead = Ahead(phone)
    # so many that it takes more than one step to choose among them
    for number in range(9):
        cloth = act(phone, "describeNew", "cloth", a_cloth(f"Lawn {number}"))
        fields = {"size": ahead.size, "cloth": cloth, "price": 450 + 37 * number, "group": f"Group {number}"}
        act(phone, "describeNew", "product", fields)

    def opened(held):
        phone.screen.page.evaluate("(held) => sessionStorage.setItem('held', held)", held)
        return phone.screen.start_at("/review/sew").page.locator("[data-worth]")

    open_plan(phone)
    found = opened("work_on")
    phone.screen.page.get_by_label("Hours at the bench in a week", exact=True).fill("8")
    # of eight hours, and not of six any more, which nothing was left to look for
    expect(phone.screen.page.locator("[data-stop]")).to_be_visible()
    worth = found.get_attribute("data-worth")
    phone.screen.settle()
    # no search is begun, and what it found last time is there
    again = opened("begin")
    expect(again).to_have_attribute("data-worth", worth)
    expect(again).to_have_attribute("data-looking", "true")
    best = opened("nothing")
    expect(best).to_have_attribute("data-looking", "false")
    assert float(best.get_attribute("data-worth")) >= float(worth)


def test_without_a_booking_or_a_product_it_says_what_is_missing(phone, screen):
    screen.open("/review/sew")
    expect(screen.page.locator("[data-missing=product]")).to_be_visible()
    Sewing(phone)
    screen.open("/review/sew")
    expect(screen.page.locator("[data-missing=booking]")).to_be_visible()


def test_batches_fit_the_minutes_and_each_says_why(ahead, phone):
    page = open_plan(phone)
    for booking in (ahead.quay, ahead.fair):
        told = page.locator(f"[data-booking='{booking}']")
        assert float(told.get_attribute("data-bench")) > 0
        batches = told.locator("[data-batches]")
        expect(batches).to_have_attribute("data-batches", "2")
        batches.locator("summary").tap()
        expect(batches.locator(".why-told")).to_contain_text(f"about {GUESS} will be asked for")
        expect(batches.locator(".why-told")).to_contain_text("a guess: some of its steps were never timed")
        expect(told).to_contain_text("Sea green")
    taken = [float(row.get_attribute("data-sewing")) for row in page.locator("[data-booking]").all()]
    assert sum(taken) <= float(page.locator("[data-booking]").last.get_attribute("data-bench"))


def test_the_plan_is_the_one_that_programs_get(ahead, phone, server):
    page = open_plan(phone)
    given = json.loads(page.evaluate(ASKED))
    request = urllib.request.Request(
        f"{server.address}/api/v1/calculators/make-next",
        json.dumps(given).encode(),
        {"Content-Type": "application/json", "Origin": server.address},
    )
    with urllib.request.urlopen(request) as reply:
        result = json.load(reply)["result"]
    shown = page.locator("[data-worth]")
    assert float(shown.get_attribute("data-worth")) == pytest.approx(result["worth"], rel=1e-9)
    rows = [int(row.get_attribute("data-batches")) for row in page.locator("[data-batches]").all()]
    assert rows == [row["batches"] for row in result["plan"]]


def test_only_what_is_at_home_is_sewn_where_nothing_can_be_bought(ahead, phone):
    page = open_plan(phone)
    page.locator("[name=buy]").uncheck()
    expect(page.locator("[data-why='too little cloth']")).to_be_visible()
    expect(page.locator("[data-make-plan]")).to_be_disabled()
    rest = {"name": "Rest", "cloth": ahead.cloth, "width": 1300, "length": 3000}
    act(phone, "describeNew", "remnant", rest)
    expect(page.locator("[data-why]")).to_have_count(0)
    expect(page.locator("[data-batches]").first).to_be_visible()


def test_one_tap_makes_the_sewing_plan_and_one_more_the_cutting(ahead, phone, screen):
    page = make_plan(phone)
    plans = plans_of(phone)
    assert set(plans) == {ahead.quay, ahead.fair}
    pieces = sum(line["quantity"] for lines in plans.values() for line in lines)
    assert all(line["quantity"] == 24 * line["batches"] for lines in plans.values() for line in lines)
    cutting = page.locator("[data-plan-cutting]")
    expect(cutting).to_have_attribute("data-plan-cutting", str(pieces))
    cutting.tap()
    screen.wait_for_title("Plan")
    expect(page.locator("[data-wanted]")).to_have_attribute("data-wanted", str(pieces))
    # decided anew, it is the same plan
    make_plan(phone)
    assert plans_of(phone) == plans


def test_for_a_moment_it_can_be_undone_and_the_plans_are_as_they_were(ahead, phone, screen):
    before = [{"product": ahead.product, "quantity": 7, "batches": 1}]
    ask(phone, "plans", "keepPlan", "sew", ahead.quay, before)
    page = make_plan(phone)
    assert plans_of(phone)[ahead.quay] != before and ahead.fair in plans_of(phone)
    page.get_by_role("button", name="Undo").tap()
    screen.said("Undone: the sewing plan is as it was")
    # the first screen of Make tells what the plan says now
    expect(page.locator("[data-still]")).to_have_count(1)
    expect(page.locator("[data-still]")).to_have_attribute("data-still", "7")
    assert plans_of(phone) == {ahead.quay: before}


def test_a_batch_is_begun_from_the_plan_and_what_is_left_goes_down(ahead, phone, screen):
    page = make_plan(phone)
    [line] = plans_of(phone)[ahead.quay]
    cut(phone, ahead, 24)
    page.locator("[data-sew='24']").tap()
    screen.wait_for_title("Start a batch")
    expect(page.locator("#batch-needed")).to_have_value(ahead.day(5))
    expect(page.locator("#batch-needle")).to_have_value(ahead.thread)
    page.locator("[data-start='24']").tap()
    page.locator("[data-unsigned], .make-clock").first.wait_for()
    batch = page.url.rsplit("/", 1)[1]
    made = ask(phone, "records", "recordById", "batch", batch)
    assert [row["quantity"] for row in made["lines"]] == [24]
    page = screen.open("/make").page
    first = page.locator("[data-sewing-plans] h3", has_text="Quay").locator("xpath=following-sibling::*[1]")
    expect(first.locator("[data-still]")).to_have_attribute("data-still", str(line["quantity"] - 24))
    finish(phone, batch)
    # finished, it is still what was begun for that booking
    ask_again = ask(phone, "sewing-plans", "stillToSew")["plans"][0]["lines"]
    assert [row["begun"] for row in ask_again] == [24]


def test_material_never_bought_is_said_beside_what_a_piece_brings(ahead, phone):
    page = open_plan(phone)
    batches = page.locator("[data-batches]").first
    batches.locator("summary").tap()
    expect(batches).to_contain_text("what its material costs is not known before a batch of it is finished")
    [batch] = ask(phone, "records", "records", "batch")
    made = [{"product": ahead.product, "made": 24, "good": 24}]
    result = {"day": ahead.today, "batch": batch["id"], "place": ahead.home, "lines": made}
    act(phone, "state", "batch-result", result)
    said = "No purchase of Seagrass lawn, Braided, 6 mm and Sea green is recorded"
    expect(page.locator("[data-unbought]")).to_contain_text(said)
    # in the other screen, too
    page = phone.screen.open("/review/next").page
    expect(page.locator("[data-unbought]")).to_contain_text(said)
    row = page.locator(f"[data-bring-of='{ahead.product}']")
    row.locator("summary").tap()
    expect(row.locator("[data-unbought-of='3']")).to_contain_text("That is too high")
    row.get_by_role("link", name="Record a purchase").tap()
    phone.screen.wait_for_title("A purchase")
    bought = {"day": ahead.today, "cloth": ahead.cloth, "length": 2600, "amount": 2314}
    act(phone, "state", "purchase", bought)
    page = open_plan(phone)
    expect(page.locator("[data-unbought='2']")).to_contain_text("No purchase of Braided, 6 mm and Sea green")
    batches = page.locator("[data-batches]").first
    batches.locator("summary").tap()
    expect(batches.locator("[data-unbought-of='2']")).to_be_visible()


def test_a_batch_to_start_is_filled_from_the_plan(ahead, phone, screen):
    make_plan(phone)
    cut(phone, ahead, 30)
    page = screen.open("/make/batches/new").page
    page.locator("[data-from-plan='24']").first.tap()
    expect(page.locator("[data-start]")).to_have_attribute("data-start", "24")
    expect(page.locator("#batch-needed")).to_have_value(ahead.day(5))


def test_a_helper_sees_the_sewing_plan_and_none_of_the_money(paired):
    owner = paired("Imke's phone")
    ahead = Ahead(owner)
    make_plan(owner)
    helper = paired("Joss's phone", role="helper")
    exchange(owner, helper)
    page = helper.screen.open("/make").page
    plan = page.locator("[data-sewing-plans]")
    expect(plan.locator("[data-still]").first).to_be_visible()
    expect(plan).to_contain_text("Everyday Seagrass lawn")
    assert "€" not in plan.inner_text()
    assert plans_of(helper) == plans_of(owner)
    helper.screen.open("/review/sew").wait_for_title("No such screen")
    expect(helper.screen.open("/review").page.get_by_role("link", name="What to sew")).to_have_count(0)
    # by it a helper begins a batch
    cut(helper, ahead, 24)
    page = helper.screen.open("/make").page
    page.locator("[data-sew='24']").first.tap()
    page.locator("[data-start='24']").tap()
    page.locator("[data-unsigned], .make-clock").first.wait_for()
    exchange(helper, owner)
    told = ask(owner, "sewing-plans", "stillToSew")["plans"][0]["lines"]
    assert [row["begun"] for row in told] == [24]
