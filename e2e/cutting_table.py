"""What a person does at the cutting table: plans, signs the checklist, cuts."""

import json

from playwright.sync_api import expect

from .scenario import CLOTHS, SIZES
from .shop import act

LAWN, CORD = "Seagrass lawn", "Rust needlecord"
BASKET = {"name": "Lawn, blue basket", "width": 900, "length": 700, "use_first": True}
PLAN = "import('/data/cutting.js').then(({ cutting }) => JSON.stringify(cutting()))"


def furnish(phone):
    phone.screen.open("/make")
    for size in SIZES.values():
        act(phone, "describeNew", "piece", size)
    lawn, _ = [act(phone, "describeNew", "cloth", CLOTHS[name] | {"tear": False}) for name in (LAWN, CORD)]
    act(phone, "describeNew", "remnant", BASKET | {"cloth": lawn})


def want(screen, *wanted):
    """Put (size, cloth, dozens) into the plan, by touch."""
    page = screen.open("/make/cutting").page
    for size, cloth, dozens in wanted:
        page.select_option("#cut-size", label=size)
        page.select_option("#cut-cloth", label=cloth)
        for _ in range(dozens):
            page.locator("[data-add]").tap()
    return page


def lay_out(screen, *wanted):
    page = want(screen, *wanted)
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    return page


def begin_layout(page):
    """Tap for the layout, once the core has answered how the cloths lie."""
    page.locator("details.more .fields").first.wait_for(state="attached")
    page.locator("[data-lay-out]").tap()


def sign(screen, tool="rotary cutter", cloth="lawn"):
    """Sign the checklist that comes before the first cut, and come back to the cuts."""
    page = screen.page
    page.locator("[data-to-checklist]").tap()
    screen.wait_for_title("Safe cutting and sewing")
    expect(screen.field("tool")).to_have_value(tool)
    screen.fill({"cloth": cloth})
    page.locator("[data-must]").first.wait_for()
    for must in page.locator("[data-must] input").all():
        must.check()
    screen.sign_as("Imke")
    page.get_by_role("link", name="To the cuts").tap()
    page.locator("[data-next]").wait_for()


def plan_of(phone):
    # too deep to be handed over as it is
    return json.loads(phone.screen.page.evaluate(PLAN))


def cuts_of(plan):
    return [cut for cloth in plan["layout"]["result"]["cloths"] for cut in cloth["cuts"]]
