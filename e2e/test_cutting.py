"""Cutting on the phone, without a signal: from the plan to strips, whatever is killed on the way."""

import re

import pytest
from playwright.sync_api import expect

from backend.core.safety.at_the_table import at_the_table

from .cuts import make_all_cuts, tick_after
from .cutting_table import BASKET, CORD, LAWN, begin_layout, cuts_of, furnish, lay_out, plan_of, sign, want
from .shop import act, ask, exchange
from .test_printing import controls_in_print, printed

CLOSE = 0.02  # drawing units, of 360 across

# each strip drawn, as (its number, turned, x, y, width, height)
DRAWN = r"""(section) => [...section.querySelectorAll('.drawing path.strip')].flatMap((path) =>
  [...path.getAttribute('d').matchAll(/M(\S+) (\S+)h(\S+)v(\S+)h/g)].map((found) =>
    [Number(path.dataset.strip), path.dataset.turned !== undefined, ...found.slice(1).map(Number)]))"""


@pytest.fixture
def ground():
    return furnish


@pytest.fixture
def table(screen):
    """A phone without a signal that knows the sizes, two cloths and a remnant."""
    return screen


def test_from_the_plan_to_strips_that_wait_whatever_is_killed(table, phone):
    page = lay_out(table, ("Everyday", LAWN, 2), ("Grand", CORD, 1))
    cuts = cuts_of(plan_of(phone))
    page.locator("[data-to-cuts]").tap()
    sign(table)
    # every cut in its order, with what the core says; killed in the middle
    for number, cut in enumerate(cuts):
        expect(page.locator("h1")).to_have_text(f"Cut {number + 1} of {len(cuts)}")
        expect(page.locator("[data-setting]")).to_have_attribute(
            "data-setting", str(cut["setting"]).removesuffix(".0")
        )
        expect(page.locator(".caution").first).to_contain_text("lay down the blade before touching the phone")
        if number == len(cuts) // 2:
            table.settle()
            phone.kill()
            page = phone.switch_on(offline=True).open("/make").page
            expect(page.locator("[data-cutting]")).to_have_text(f"Go on with cut {number + 1} of {len(cuts)}")
            page.locator("[data-cutting]").tap()
            expect(page.locator("h1")).to_have_text(f"Cut {number + 1} of {len(cuts)}")
        if number:
            page.locator("[data-back]").tap()
            expect(page.locator("h1")).to_have_text(f"Cut {number} of {len(cuts)}")
            page.locator("[data-next]").tap()
            expect(page.locator("h1")).to_have_text(f"Cut {number + 1} of {len(cuts)}")
        page.locator("[data-next]").tap()
    expect(page.locator("h1")).to_have_text("All cut")
    # what a strip still fits on is ticked already; all but one is not kept this time
    offcuts = page.locator("[data-offcut] input")
    for number in range(offcuts.count()):
        expect(offcuts.nth(number)).to_be_checked()
        if number:
            offcuts.nth(number).uncheck()
    # what comes after the last cut is asked before it is kept
    expect(page.locator("[data-record]")).to_be_disabled()
    tick_after(page)
    # however often it is tapped
    page.locator("[data-record]").dblclick()
    expect(page.locator("[data-waiting]")).to_have_count(2)
    phone.screen.settle()
    waiting = {
        (ask(phone, "records", "recordById", "piece", row["size"])["name"], row["quantity"])
        for row in ask(phone, "cuts", "stripsWaiting")
    }
    assert waiting == {("Everyday", 24), ("Grand", 12)}
    facts = ask(phone, "facts", "factsOf", "cut")
    assert sum(line["quantity"] for fact in facts for line in fact["lines"]) == 36
    # the remnant used is archived, the offcut is one more
    kept = ask(phone, "records", "records", "remnant")
    assert [remnant["name"] == BASKET["name"] for remnant in kept] == [False]
    assert plan_of(phone)["wanted"] == []


def test_the_checklist_is_asked_in_three_parts_and_signed_once(table, phone):
    page = lay_out(table, ("Grand", CORD, 1))
    page.locator("[data-to-cuts]").tap()
    page.locator("[data-to-checklist]").tap()
    table.wait_for_title("Safe cutting and sewing")
    table.fill({"cloth": "cord"})
    before, during, after = [page.locator(f"[data-when={when}]") for when in ("before", "during", "after")]
    # what is not yet to be done is read, and not ticked
    expect(before.locator("[data-must] input").first).to_be_visible()
    assert (during.locator("input").count(), after.locator("input").count()) == (0, 0)
    for must in before.locator("[data-must] input").all():
        must.check()
    table.sign_as("Imke")
    expect(after.locator("[data-must] input").first).to_be_visible()
    [fact] = ask(phone, "facts", "factsOf", "checklist-signature")
    ticked = {row["item"] for row in fact["ticked"]}
    assert "rotary-check" in ticked and not ticked & {"rotary-fingers", "rotary-store"}
    page.get_by_role("link", name="To the cuts").tap()
    expect(page.locator(".caution").first).to_contain_text("fingers")
    make_all_cuts(page)
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "12")
    assert len(ask(phone, "facts", "factsOf", "checklist-signature")) == 1


def test_the_caution_beside_a_cut_is_that_of_its_tool(table, phone):
    page = lay_out(table, ("Grand", CORD, 1))
    page.locator("[data-to-cuts]").tap()
    page.select_option("#cut-tool", "powered knife")
    sign(table, "powered knife", "cord")
    told = at_the_table("powered knife")
    assert told["before_phone"].startswith("Switch off") and len(told["musts"]) > 2
    said = [told["before_phone"], *told["musts"], told["caution"]]
    expect(page.locator(".caution").first).to_have_text(" ".join(said))


def test_a_spoilt_strip_is_not_recorded(table, phone):
    page = lay_out(table, ("Grand", CORD, 1))
    page.locator("[data-to-cuts]").tap()
    sign(table)
    make_all_cuts(page)
    page = table.open("/make").page
    expect(page.locator("[data-cutting]")).to_have_text("Record what was cut")
    page.locator("[data-cutting]").tap()
    page.get_by_role("button", name=f"One Grand, {CORD} less").tap()
    page.locator("[data-record]").tap()
    expect(page.locator("[data-waiting]")).to_have_attribute("data-waiting", "11")


def test_the_drawing_shows_each_strip_where_the_core_laid_it(table, phone):
    page = lay_out(table, ("Everyday", LAWN, 2), ("Petite", LAWN, 1), ("Grand", CORD, 1))
    laid = [cloth for cloth in plan_of(phone)["layout"]["result"]["cloths"] if cloth["rows"]]
    sections = page.locator("section.make-laid")
    expect(sections).to_have_count(len(laid))
    for section, cloth in zip(sections.all(), laid, strict=True):
        check_drawn(section, cloth)
        expect(section.locator("ol.cuts li")).to_have_count(len(cloth["cuts"]))


def check_drawn(section, cloth):
    # a better one may be there before it is drawn
    expect(section).to_have_attribute("data-latest", "true")
    sheet = section.locator(".drawing rect.cloth")
    scale = float(sheet.get_attribute("height")) / cloth["usable_width"]
    length = cloth["usable_length"] or cloth["used_length"]
    assert float(sheet.get_attribute("width")) == pytest.approx(length * scale, abs=CLOSE)
    wanted = []
    for strip in (strip for row in cloth["rows"] for strip in row["strips"]):
        across, along = strip["length"], strip["width"]
        if strip["turned"]:
            across, along = along, across
        sides = [side * scale for side in (strip["y"], strip["x"], along, across)]
        wanted.append([strip["strip"], strip["turned"], *sides])
    drawn = section.evaluate(DRAWN)
    assert len(drawn) == len(wanted)
    for one, other in zip(sorted(drawn), sorted(wanted), strict=True):
        assert one[:2] == other[:2] and one[2:] == pytest.approx(other[2:], abs=CLOSE)


def test_what_no_cloth_is_left_for_is_said(table):
    page = want(table, ("Everyday", LAWN, 4))
    page.locator("details.more summary").tap()
    page.get_by_label("Also from the bolt").uncheck()
    begin_layout(page)
    expect(page.locator("[data-unplaced]")).to_have_text(re.compile(r"No cloth is left for \d+ × Everyday\."))


def test_a_plan_too_large_is_refused_with_its_limit_and_stays(table):
    page = want(table, ("Everyday", LAWN, 1))
    page.locator("[data-wanted] input").fill("2001")
    begin_layout(page)
    expect(page.locator("[role=alert]")).to_contain_text("at most 2000")
    page.get_by_role("link", name="Change the plan").tap()
    expect(page.locator("[data-wanted]")).to_have_attribute("data-wanted", "2001")


def test_a_remnant_can_be_left_out(table, phone):
    page = want(table, ("Everyday", LAWN, 1))
    page.get_by_label(re.compile("blue basket")).uncheck()
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    assert [row["remnant"] for row in plan_of(phone)["layout"]["cloths"]] == [None]


def test_other_questions_get_through_and_stop_keeps_the_best_so_far(table, phone):
    # seven remnants and every size keep the search busy
    lawn = ask(phone, "records", "records", "cloth")[0]["id"]
    for number in range(7):
        rest = {
            "name": f"Rest {number}",
            "cloth": lawn,
            "width": 531 + 67 * number,
            "length": 413 + 41 * number,
        }
        act(phone, "describeNew", "remnant", rest)
    page = want(table, ("Everyday", LAWN, 6), ("Petite", LAWN, 5), ("Grand", LAWN, 4))
    begin_layout(page)
    page.locator("[data-gap]").wait_for()
    asked = table.ask_core("convert", {"text": "10", "unit": "cm", "to": "mm"})
    assert asked["answer"] == "100"
    # the search may end by itself meanwhile
    page.locator("[data-stop]").evaluate_all("(found) => found.forEach((stop) => stop.click())")
    expect(page.locator("[data-looking=false]")).to_be_visible()
    result = plan_of(phone)["layout"]["result"]
    strips = sum(len(row["strips"]) for cloth in result["cloths"] for row in cloth["rows"])
    assert strips == 180 and result["unplaced"] == []
    # what was kept is there again, and is not looked for anew
    table.reload()
    expect(page.locator("[data-looking=false]")).to_be_visible()
    assert plan_of(phone)["layout"]["result"] == result


def test_low_strips_are_stacked_where_less_is_to_be_bought(table, phone):
    page = lay_out(table, ("Petite", CORD, 1), ("Grand", CORD, 2))
    rows_only = plan_of(phone)["layout"]["result"]
    page = table.open("/make/cutting").page
    page.get_by_label("Stack low strips in a higher row").check()
    begin_layout(page)
    expect(page.locator("[data-looking=false]")).to_be_visible()
    stacked = plan_of(phone)["layout"]["result"]
    assert stacked["length_to_buy"] < rows_only["length_to_buy"]
    check_drawn(page.locator("section.make-laid"), stacked["cloths"][0])
    expect(page.locator("ol.cuts li")).to_have_count(len(stacked["cloths"][0]["cuts"]))
    words = [row.inner_text() for row in page.locator("ol.cuts li").all()]
    told = [
        text for text, cut in zip(words, stacked["cloths"][0]["cuts"], strict=True) if cut["what"] == "stack"
    ]
    assert told
    assert all(re.match(r"Cut (Petite|Grand) off each stack that holds it: ruler at ", text) for text in told)
    # Buy plans the same
    page = table.open("/buy/plan").page
    expect(page.locator("[data-buys][data-done=true]")).to_be_visible()
    expect(page.get_by_label("Stack low strips in a higher row")).to_be_checked()


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_the_layout_prints_a_page_a_cloth(table, phone, tmp_path, format):
    page = lay_out(table, ("Everyday", LAWN, 4), ("Petite", LAWN, 2), ("Grand", CORD, 2))
    cloths = len([cloth for cloth in plan_of(phone)["layout"]["result"]["cloths"] if cloth["rows"]])
    assert cloths >= 2
    expect(page.locator("section.make-laid")).to_have_count(cloths)
    pages, file = printed(table, tmp_path, format)
    assert pages == cloths
    assert file.stat().st_size > 2000
    assert controls_in_print(page) == []


def test_strips_and_remnants_are_seen_on_the_other_phone(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    furnish(imke)
    exchange(imke, joss)
    # the helper cuts, without a signal
    joss.expected.append("ERR_INTERNET_DISCONNECTED")
    joss.context.set_offline(True)
    page = lay_out(joss.screen, ("Everyday", LAWN, 1))
    page.locator("[data-to-cuts]").tap()
    sign(joss.screen)
    make_all_cuts(page)
    for offcut in page.locator("[data-offcut] input").all():
        offcut.uncheck()
    page.locator("[data-record]").tap()
    page.locator("[data-waiting]").wait_for()
    joss.context.set_offline(False)
    exchange(joss, imke)
    assert [row["quantity"] for row in ask(imke, "cuts", "stripsWaiting")] == [12]
    assert ask(imke, "records", "records", "remnant") == []
    imke.screen.open("/make")
    expect(imke.screen.page.locator("[data-waiting]")).to_have_attribute("data-waiting", "12")


@pytest.mark.parametrize("ground", [None])
def test_a_list_for_sewing_asks_for_no_stack_and_no_blade(screen):
    screen.open("/make/safe-cutting-checklist").fill({"tool": "shears"})
    expect(screen.field("layers")).to_be_visible()
    expect(screen.field("blade_cuts")).to_be_visible()
    screen.fill({"tool": "sewing machine", "cloth": "woven"})
    expect(screen.field("layers")).to_have_count(0)
    expect(screen.field("blade_cuts")).to_have_count(0)
    expect(screen.page.locator("legend")).to_have_text(["The work", "The day"])
    screen.page.locator("[data-must]").first.wait_for()
