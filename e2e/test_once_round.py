"""Once round on the invented year: what sold says what to sew, buy and cut; sewn, it is packed and sold.

Not one number is typed on the way: each screen has what the one before it decided.
"""

import pytest
from playwright.sync_api import expect

from .cuts import make_all_cuts
from .cutting_table import begin_layout
from .sewing import TOOLS, finish
from .shop import act, ask
from .test_first_page import look_around

# a year is added up for the first time
ADDING_MS = 300000
CUTTING = ("rotary cutter", "tearing")


@pytest.fixture
def maker(phone):
    """A phone without a network that looks at the invented year, whose maker has signed for the day."""
    look_around(phone.screen.open("/start"))
    [imke, *_] = ask(phone, "records", "records", "person")
    day = ask(phone, "clock", "today")
    for tool in (*TOOLS, *CUTTING):
        signed = {"tool": tool, "cloth": "lawn", "person": imke["name"], "day": day}
        act(phone, "state", "checklist-signature", {**signed, "ticked": [], "skipped": ""})
    ask(phone, "store/remembered", "remember", "person", imke["name"])
    ask(phone, "store/remembered", "remember", "batch-person", imke["id"])
    return phone


def named(phone, kind):
    return {record["id"]: record for record in ask(phone, "records", "records", kind)}


def stop(page):
    """Take what is found so far, unless it is proven meanwhile."""
    page.locator("[data-looking]").wait_for()
    page.locator("[data-stop]").evaluate_all("(found) => found.forEach((button) => button.click())")
    expect(page.locator("[data-looking=false]")).to_be_visible()


def decide(phone):
    """Make what to sew the sewing plan; returns {(size, cloth): pieces} of it."""
    page = phone.screen.open("/review").page
    page.get_by_role("link", name="What to sew").tap()
    page.locator("[data-worth]").wait_for(timeout=ADDING_MS)
    page.locator("[data-looking=false]").wait_for()
    page.locator("[data-make-plan]").tap()
    phone.screen.wait_for_title("Make")
    products, planned = named(phone, "product"), {}
    for plan in named(phone, "plan").values():
        for line in plan["lines"]:
            product = products[line["product"]]
            key = (product["size"], product["cloth"])
            planned[key] = planned.get(key, 0) + line["quantity"]
    return planned


def waiting(phone):
    return {(row["size"], row["cloth"]): row["quantity"] for row in ask(phone, "batches", "freeStrips")}


def buy(phone):
    """Put what the plan needs on the list, and tick it in the shop."""
    page = phone.screen.page
    before = set(named(phone, "list-line"))
    page.locator("[data-buys]").wait_for()
    stop(page)
    page.locator("[data-put]").tap()
    phone.screen.wait_for_title("Shopping list")
    lines = {id: line for id, line in named(phone, "list-line").items() if id not in before}
    assert lines
    for id, line in lines.items():
        phone.screen.hush()
        page.locator(f"#line-{id}").tap()
        phone.screen.said(f"{line['name']} is in the bag")
    return lines


def cut(phone):
    """Cut by the plan, as it was made for buying."""
    page = phone.screen.open("/make").page
    page.locator("[data-cutting]").tap()
    phone.screen.wait_for_title("Cutting")
    begin_layout(page)
    stop(page)
    page.locator("[data-to-cuts]").tap()
    page.locator("[data-next]").wait_for()
    make_all_cuts(page)
    page.locator("[data-record]").tap()
    phone.screen.wait_for_title("Make")
    page.locator("[data-waiting]").first.wait_for()


def sew(phone):
    """Sew the first batch of the plan whose strips are cut; returns (its product, its pieces)."""
    page = phone.screen.page
    first = page.locator("[data-still]:has([data-sew])").first
    product = first.get_attribute("data-product")
    pieces = int(first.locator("[data-sew]").get_attribute("data-sew"))
    first.locator("[data-sew]").tap()
    page.locator(f"[data-start='{pieces}']").tap()
    page.locator(".make-clock").first.wait_for()
    finish(phone, page.url.rsplit("/", 1)[1])
    return product, pieces


def lying(phone, product):
    rows = ask(phone, "stock", "stock")
    return {row["place"]: row["quantity"] for row in rows if row["product"] == product}


def pack(phone, product):
    """Make what to bring the packing list, and move it; returns what came of one product."""
    page = phone.screen.open("/review/next").page
    page.locator("[data-pack]:enabled").wait_for(timeout=ADDING_MS)
    page.locator("[data-pack]").tap()
    phone.screen.wait_for_title("Pack")
    page.locator("p[data-planned]").wait_for()
    pieces = int(page.locator(f"[data-thing='{product}']").get_attribute("data-pieces"))
    page.get_by_role("button", name="Tick all").tap()
    move = page.locator("[data-move]:enabled")
    all_pieces = move.get_attribute("data-move")
    move.tap()
    phone.screen.said(f"{all_pieces} pieces moved to Stall")
    return pieces


def sell(phone, product):
    page = phone.screen.open("/sell").page
    page.get_by_role("button", name="Open ").first.tap()
    page.locator(f".sell-tiles button[data-product='{product}']").tap()
    page.locator("[data-pay=cash]").first.tap()
    page.locator(".sell-last-sale").wait_for()


def test_what_sold_says_what_is_sewn_and_what_is_sewn_is_sold(maker):
    planned, before = decide(maker), waiting(maker)
    wanted = {key: max(0, pieces - before.get(key, 0)) for key, pieces in planned.items()}
    page = maker.screen.page
    all_strips = sum(wanted.values())
    expect(page.locator("[data-plan-cutting]")).to_have_attribute("data-plan-cutting", str(all_strips))
    page.locator("[data-plan-cutting]").tap()
    maker.screen.wait_for_title("Plan")
    plan = ask(maker, "cutting", "cutting")["wanted"]
    assert {(row["size"], row["cloth"]): row["quantity"] for row in plan} == {
        key: pieces for key, pieces in wanted.items() if pieces
    }
    buy(maker)
    cut(maker)
    cut_now = {key: pieces - before.get(key, 0) for key, pieces in waiting(maker).items()}
    assert {key: pieces for key, pieces in cut_now.items() if pieces} == {
        key: pieces for key, pieces in wanted.items() if pieces
    }
    # nothing is left to cut for it
    expect(page.locator("[data-plan-cutting]")).to_have_count(0)
    [home, stall] = [place["id"] for place in ask(maker, "records", "records", "place")][:2]
    product, pieces = sew(maker)
    expect(page.locator("[data-sewing-plans]")).to_be_visible()
    made = lying(maker, product)
    begun = [line["begun"] for one in ask(maker, "sewing-plans", "stillToSew")["plans"]
             for line in one["lines"] if line["product"] == product]  # fmt: skip
    assert sum(begun) == pieces
    moved = pack(maker, product)
    packed = lying(maker, product)
    assert packed[home] == made[home] - moved
    assert packed[stall] == made.get(stall, 0) + moved
    sell(maker, product)
    assert lying(maker, product)[stall] == packed[stall] - 1
