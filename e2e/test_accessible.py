"""Every screen for every hand and eye: targets, contrast, large text, keyboard, screen reader."""

import shutil
from functools import partial
from types import SimpleNamespace

import pytest
from playwright.sync_api import expect

from .cuts import make_all_cuts
from .looks import COLOURS, look, out_of_place, violations
from .phone import Phone
from .scenario import SIZES_TYPED
from .shop import act, ask
from .stall import Stall, open_on_the_spot

TARGET = 48  # CSS pixels
LETTERS = 16  # CSS pixels
CONTRAST = 7
SIZES = [(320, 568), (390, 844), (844, 390), (1280, 800)]


def every_screen(screen):
    """Walk through every screen in its states, filled in: yields the name of each."""
    screen.open("/start")
    yield "the first page"
    yield from the_calculators(screen)
    yield from the_plan(screen)
    yield from the_lists(screen)
    yield from the_checklist(screen)
    yield from the_cutting(screen)
    yield from the_remnant(screen)
    yield from the_stall(screen)
    yield from the_count(screen)
    for path in (
        "/sell/goods",
        "/settings",
        "/settings/piece",
        "/settings/business/new",
        "/settings/market/new",
        "/nowhere",
    ):
        screen.start_at(path)
        # a form comes when the core has typed it out, and makes the page longer
        form = "form[data-record] .next-steps" if path.endswith("/new") else "h1"
        screen.page.locator(form).wait_for()
        yield path


def the_stall(screen):
    screen.open("/sell")
    yield "Sell with nothing to sell"
    stall = Stall(SimpleNamespace(screen=screen))
    stall.count(2)
    screen.open("/sell")
    yield "which stall"
    open_on_the_spot(screen)
    tile = screen.page.locator(f'[data-product="{stall.product["Everyday", "Harbour check"]}"]')
    for _ in range(3):
        # by the keyboard: with large text the tiles lie below what is to be paid, until they are scrolled to
        tile.press("Enter")
    expect(screen.page.locator('[data-total="1500"]')).to_be_visible()
    screen.page.locator(".more > summary").press("Enter")
    yield "a basket with an offer"
    screen.page.locator('[data-tendered="2000"]').press("Enter")
    screen.page.locator(".sell-last-sale").wait_for()
    yield "a sale just kept"
    screen.open("/sell/today").page.locator(".to-record").wait_for()
    yield "today's sales"
    screen.page.locator(".to-record").click()
    screen.page.locator("[data-refund]").wait_for()
    yield "a sale"
    yield from the_review(screen)


def the_review(screen):
    page = screen.open("/review").page
    page.locator("[data-box]").wait_for()
    yield "/review"
    page.get_by_role("link", name="The day's report").click()
    page.locator("[data-whole=true]").wait_for()
    page.locator(".review-report > details summary").click()
    yield "a day's report"
    screen.open("/review").page.get_by_role("link", name="Cash-up").click()
    page.locator("[data-coin] input").last.fill("12")
    expect(page.locator("[data-counted]")).not_to_have_attribute("data-counted", "0")
    page.locator("details.more summary").click()
    yield "a cash-up being counted"
    page.locator("[data-all]").click()
    page.locator("[data-difference]").wait_for()
    page.locator(".why summary").click()
    yield "a cash-up that differs"
    page.locator("[data-keep]").click()
    page.locator("main [data-kept]").wait_for()
    yield "a cash-up that is kept"
    screen.open("/review").page.get_by_role("link", name="In or out").click()
    page.fill("#moved-amount", "6")
    page.get_by_role("button", name="Record").click()
    page.locator("[data-moved]").wait_for()
    yield "money in or out"


def the_count(screen):
    """After the stall, whose products and places it counts."""
    page = screen.page
    screen.open("/count")
    page.locator(".count-turns button").first.wait_for()
    yield "which count"
    page.locator("[data-which=closing]").click()
    page.locator(".counter input").first.fill("3")
    page.locator("[data-kept]").first.wait_for()
    act(SimpleNamespace(screen=screen), "state", "sale", a_sale(screen))
    page.locator("details summary").first.click()
    page.locator("#box").select_option("\n")
    page.fill("#box-name", "Blue tray")
    yield "naming a box"
    page.get_by_role("button", name="Use it").click()
    page.locator(".counter input").first.fill("2")
    page.locator("[data-kept]").first.wait_for()
    yield "the open count"
    screen.open("/count/close")
    page.locator("[data-meanwhile]").wait_for()
    page.get_by_label("Count again").first.check()
    yield "what differs"
    page.locator("[data-again]").click()
    page.locator(".mode").wait_for()
    yield "counting again"
    screen.open("/count/close")
    page.locator("[data-row]").first.wait_for()
    page.locator("[data-close]").press("Enter")
    page.locator("[data-phone]").wait_for()
    yield "how it came out"
    act(SimpleNamespace(screen=screen), "describeNew", "place", {"name": "Home shelf", "use": "home"})
    screen.open("/count/pack")
    page.locator("summary").press("Enter")
    page.locator(".counter input").first.fill("4")
    page.locator(".counts .tick input").first.check()
    page.locator("[data-move='4']").wait_for()
    yield "the packing list"
    screen.open("/count/stock")
    page.locator(".counts").first.wait_for()
    page.locator("summary").press("Enter")
    yield "what is where"
    page.locator("#stock-at").fill("2026-01-01T12:00")
    page.locator(".lead", has_text="Nothing is known to be here").wait_for()
    yield "what was where"


def a_sale(screen):
    """One piece of what is counted first."""
    product = screen.page.locator("[data-thing]").first.get_attribute("data-thing")
    phone = SimpleNamespace(screen=screen)
    [place] = [place["id"] for place in ask(phone, "records", "records", "place")]
    line = {"product": product, "quantity": 1, "unit_price": 450, "total": 450}
    sale = {"day": ask(phone, "clock", "today"), "place": place, "lines": [line]}
    return {**sale, "amount": 450, "payment": "card"}


def the_calculators(screen):
    screen.open("/buy/strip-length").chip("Grand").click()
    screen.fill({"usable_width": "135.2"})
    expect(screen.page.locator("[data-output=fits] li")).not_to_have_count(0)
    screen.page.locator("[data-output=strip_length] summary").click()
    expect(screen.page.locator(".why-told")).to_be_visible()
    yield "the strip, its fits, and why"
    screen.fill({"loop": "1", "tube_width": "wide"})
    expect(screen.page.locator(".problem")).to_have_count(2)
    yield "what is wrong, beside its field"
    screen.open("/buy/elastic-cut-length").chip("Everyday").click()
    screen.page.get_by_role("button", name="Add a test knot").click()
    expect(screen.page.locator("[data-list=samples] details")).to_be_visible()
    yield "the elastic, and a test knot"
    screen.open("/buy/fabric-per-dozen").chip("Everyday").click()
    screen.chip("Harbour check").click()
    expect(screen.page.locator("[data-output=bands] svg")).to_be_visible()
    yield "the cloth to buy"
    screen.open("/buy/cloth-compare").chip("Everyday").click()
    for cloth in ("Seagrass lawn", "Fog gauze"):
        screen.chip(cloth).click()
    expect(screen.page.locator(".buy-ranking > li")).to_have_count(2)
    screen.page.locator("details.row summary").first.click()
    yield "cloths compared"
    screen.open("/buy/remnant-yield").chip("Everyday").click()
    screen.fill({"width": "60", "length": "100"})
    expect(screen.page.locator("[data-output=placed] svg")).to_be_visible()
    yield "the remnant"


def the_plan(screen):
    page = screen.open("/buy/plan").page
    page.locator("[data-add]").click()
    expect(page.locator("[data-buys]")).to_have_attribute("data-done", "true")
    page.locator(".to-buy summary").first.click()
    page.locator(".to-buy svg").wait_for()
    yield "the plan, and what to buy for it"
    page.locator("[data-compare]").click()
    screen.wait_for_title("Compare cloths")
    page.locator("[data-compared='5']").wait_for()
    yield "cloths compared for the whole plan"
    screen.open("/buy/plan")
    page.locator("[data-put]").click()
    page.get_by_role("link", name="Layout of").first.click()
    page.locator("path.strip").first.wait_for()
    yield "the layout of a line of the list"


def the_lists(screen):
    for path in ("/buy", "/buy/pieces", "/buy/cloths", "/buy/list"):
        screen.open(path)
        expect(screen.page.locator("main li").first).to_be_visible()
        expect(screen.page.locator("main li small:empty")).to_have_count(0)
        yield path
    screen.page.get_by_role("button", name="Take Elastic off the list").click()
    screen.said("Elastic is off the list")
    yield "a notice with undo"


def the_checklist(screen):
    screen.open("/make")
    yield "/make"
    screen.page.locator(".lines a").first.click()
    screen.wait_for_title("Signed checklist")
    yield "a signed checklist"
    screen.open("/make/safe-cutting-checklist").fill({"tool": "rotary cutter", "cloth": "gauze"})
    expect(screen.page.locator("[data-item]").first).to_be_visible()
    yield "the checklist"
    screen.fill({"tool": "tearing"})
    expect(screen.page.get_by_role("alert")).to_be_visible()
    yield "the checklist refused"


def the_cutting(screen):
    page = screen.open("/make/cutting").page
    # what the plan still holds is of a cloth that is torn
    page.locator("[data-wanted]").first.wait_for()
    for left in reversed(range(page.locator("[data-wanted]").count())):
        page.locator("[data-wanted] input").first.fill("0")
        expect(page.locator("[data-wanted]")).to_have_count(left)
    page.select_option("#cut-size", label="Grand")
    page.select_option("#cut-cloth", label="Rust needlecord")
    page.locator("[data-add]").click()
    for way in page.locator("details.more > summary").all():
        way.click()
    yield "what is to be cut"
    page.locator("[data-lay-out]").click()
    page.locator("[data-looking=false]").wait_for()
    page.locator("path.strip").first.wait_for()
    yield "the layout"
    page.locator("[data-to-cuts]").click()
    page.locator("[data-to-checklist]").wait_for()
    yield "before the first cut"
    page.locator("[data-to-checklist]").click()
    screen.wait_for_title("Safe cutting and sewing")
    screen.fill({"cloth": "cord"})
    page.locator("[data-must]").first.wait_for()
    page.fill("[data-sign] [name=skipped]", "Joss holds the ruler")
    page.fill("[data-sign] [name=person]", "Imke")
    page.locator("[data-sign] button").click()
    page.get_by_role("link", name="To the cuts").click()
    page.locator("[data-next]").wait_for()
    screen.hush()
    yield "one cut"
    make_all_cuts(page)
    yield "all is cut"
    page.locator("[data-record]").click()
    page.locator("[data-waiting]").first.wait_for()
    yield "strips that wait for a batch"
    screen.open("/make/cuts").page.locator("main li a").first.wait_for()
    yield "/make/cuts"
    page.locator("main li a").first.click()
    page.locator("[data-take-back]").wait_for()
    yield "a cut that was made"


def the_remnant(screen):
    phone = SimpleNamespace(screen=screen)
    page = screen.open("/make/remnant").page
    page.get_by_role("link", name="Measure a remnant").wait_for()
    yield "no remnant is saved"
    cloths = {record["name"]: record["id"] for record in ask(phone, "records", "records", "cloth")}
    rest = {"name": "Velvet, under the table", "width": 900, "length": 700}
    act(phone, "describeNew", "remnant", {**rest, "cloth": cloths["Rust needlecord"]})
    page = screen.open("/make/remnant").page
    page.locator("[data-looking=false]").wait_for()
    page.locator(".make-laid summary").click()
    page.select_option("#mix-measure", "money")
    page.select_option("#mix-many", "typed")
    page.locator("[name=worth]").nth(1).fill("6")
    page.locator("[name=worth]").first.fill("x")
    page.locator("[data-size] .problem").wait_for()
    page.locator("[data-measure=money][data-looking=false]").wait_for()
    yield "what a remnant could give"
    page.locator("[data-cut]").click()
    page.locator("[data-setting], [data-to-checklist]").first.wait_for()
    yield "a cut of a remnant"


def dark_colours(screen):
    """What the dark theme may have otherwise than the bright one: how things stand out, and nothing else."""
    screen.page.emulate_media(color_scheme="dark")
    assert screen.page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches")
    told = violations(screen, COLOURS)
    screen.page.emulate_media(color_scheme="light")
    return told


QUESTIONS = {
    "axe": violations,
    "dark": dark_colours,
    "contrast": lambda screen: look(screen, "lowContrast", CONTRAST),
    "targets": lambda screen: look(screen, "smallTargets", TARGET),
    "letters": lambda screen: look(screen, "smallLetters", LETTERS),
    "fields": lambda screen: look(screen, "unevenFields"),
    **{size: partial(out_of_place, width=size[0], height=size[1]) for size in SIZES},
}


def ask_on_every_screen(screen, questions):
    """Ask questions on every screen: {question: {screen: what is wrong}}, only where something is."""
    found = {question: {} for question in questions}
    walked = []
    for name in every_screen(screen):
        walked.append(name)
        for question, judge in questions.items():
            wrong = judge(screen)
            if wrong:
                found[question][name] = wrong
    assert len(walked) > 15
    return found


@pytest.fixture(scope="module")
def found(start_chromium, stocked, tmp_path_factory):
    """What is wrong, by question and screen, from one walk through all."""
    profile, address = stocked
    place = tmp_path_factory.mktemp("bright") / "profile"
    shutil.copytree(profile, place, symlinks=True)
    phone = Phone(start_chromium, place, address, color_scheme="light")
    told = ask_on_every_screen(phone.switch_on(offline=True), QUESTIONS)
    phone.switch_off()
    assert phone.trouble == []
    return told


def test_axe_finds_nothing_in_the_bright_theme(found):
    assert found["axe"] == {}


def test_axe_finds_no_colour_wrong_in_the_dark_theme(found):
    assert found["dark"] == {}


def test_axe_finds_nothing_before_anything_is_kept(screen):
    for path in ("/buy", "/buy/list", "/buy/cloths", "/make"):
        assert violations(screen.open(path)) == []


def test_text_stands_out_in_the_bright_theme(found):
    assert found["contrast"] == {}


def test_whatever_is_tapped_is_large_enough(found):
    assert found["targets"] == {}


def test_no_phone_zooms_into_what_is_typed_in(found):
    assert found["letters"] == {}


@pytest.mark.parametrize("size", SIZES, ids=["small", "usual", "on its side", "wide"])
def test_nothing_is_cut_off_or_beside_the_page(found, size):
    assert found[size] == {}


def test_text_twice_as_large_loses_nothing(stocked_phone):
    phone = stocked_phone()
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    screen = phone.screen.open("/buy")
    assert screen.page.evaluate("getComputedStyle(document.documentElement).fontSize") == "32px"
    told = ask_on_every_screen(screen, {"large": lambda screen: look(screen, "outOfPlace")})
    assert told == {"large": {}}


@pytest.mark.parametrize(
    "path",
    [
        "/buy",
        "/buy/strip-length",
        "/buy/cloth-compare",
        "/buy/list",
        "/buy/plan",
        "/make/safe-cutting-checklist",
        "/make/cutting",
        "/make/remnant",
        "/settings",
    ],
)
def test_the_keyboard_reaches_everything_and_shows_where_it_is(stocked_phone, path):
    screen = stocked_phone().screen.open(path)
    screen.page.locator("main :is(a, button, select)").first.wait_for()
    everything_is_reached(screen)


def everything_is_reached(screen):
    """Tab through the screen: all there is to reach is reached, uncovered and with a ring."""
    wanted = look(screen, "reachable")
    reached = []
    for _ in range(len(wanted) + 5):
        screen.page.keyboard.press("Tab")
        focused = look(screen, "focused")
        if focused["name"].startswith("body"):
            break
        assert focused["ringed"] and not focused["covered"], focused
        reached.append(focused["name"])
    assert [name for name in wanted if name not in reached] == []


def test_the_first_tab_leads_past_the_top_line(screen):
    screen.open("/buy").page.keyboard.press("Tab")
    expect(screen.page.locator(".skip")).to_be_focused()
    screen.page.keyboard.press("Enter")
    expect(screen.page.locator("main")).to_be_focused()


def test_the_focus_goes_along_to_a_new_screen_and_its_title_is_told(screen):
    screen.open("/buy")
    screen.tab_to(screen.page.locator("a[href='/buy/elastic-cut-length']"))
    screen.page.keyboard.press("Enter")
    screen.wait_for_title("Elastic")
    expect(screen.page.locator("main")).to_be_focused()
    expect(screen.page).to_have_title("Elastic · Boltfair")


def test_what_is_kept_is_told_to_screen_readers(screen):
    screen.open("/buy/strip-length").fill(SIZES_TYPED["Grand"])
    status = screen.page.get_by_role("status")
    screen.save("piece", "Grand")
    expect(status).to_contain_text("Grand is saved on this phone")


def test_the_main_action_is_in_reach_without_scrolling(stocked_phone):
    phone = stocked_phone()
    for path in ("/buy/strip-length", "/buy/fabric-per-dozen"):
        step = phone.screen.open(path).page.locator(".dock [data-step]").first
        expect(step).to_be_in_viewport(ratio=1)
