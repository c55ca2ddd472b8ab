"""From an empty phone to the first sale, and to a whole stall: few taps, no dead end, nothing typed lost."""

import re

import pytest
from playwright.sync_api import expect

from .looks import look, violations
from .shop import act, ask
from .stall import a_cloth

FIRST_SALE = 12
WHOLE_STALL = 40
SIZES = {"Petite": "4.50", "Everyday": "6", "Grand": "9"}
CLOTHS = ("Seagrass lawn", "Harbour check", "Fog gauze")


class Hand:
    """What is tapped, and how often; typing is no tap, going to a field is one."""

    def __init__(self, page):
        self.page = page
        self.taps = 0

    def tap(self, target):
        found = self.page.locator(target) if isinstance(target, str) else target
        found.tap()
        self.taps += 1

    def button(self, name):
        self.tap(self.page.get_by_role("button", name=name, exact=True))

    def link(self, name):
        self.tap(self.page.get_by_role("link", name=name, exact=True))

    def type(self, field, text):
        self.tap(field)
        self.page.keyboard.insert_text(text)

    def choose(self, field, label):
        """The list of choices is the platform's own: a tap to open it, one on a line of it."""
        found = self.page.locator(field)
        found.tap()
        found.select_option(label=label)
        self.taps += 2


@pytest.fixture
def page(phone):
    return phone.screen.open("/buy").page


@pytest.fixture
def hand(page):
    return Hand(page)


def names(phone, kind):
    return [
        phone.screen.page.evaluate(
            "async ([kind, record]) => (await import('/data/naming.js')).nameOf(kind, record)", [kind, record]
        )
        for record in ask(phone, "records", "records", kind)
    ]


def test_the_first_sale_from_nothing_takes_few_taps(phone, page, hand):
    hand.link("Sell")
    hand.link("Say what you sell")
    hand.type("#size-0", "Everyday")
    hand.type("[name=price-new-0]", "6")
    hand.type("#cloth-0", "Seagrass lawn")
    hand.tap("[data-add-goods='1']")
    hand.type("#spot-name", "Sandholt Quay")
    hand.button("Open the stall")
    hand.tap("[data-product]")
    hand.tap("[data-pay=cash]:not([data-tendered])")
    expect(page.locator(".sell-last-sale [data-kept]")).to_have_text("on this phone")
    print(f"\nfirst sale from nothing: {hand.taps} taps")
    assert hand.taps <= FIRST_SALE
    [sale] = ask(phone, "facts", "factsOf", "sale")
    assert (sale["amount"], sale["payment"]) == (600, "cash")
    [product] = ask(phone, "records", "records", "product")
    assert (product["price"], product["group"]) == (600, "Everyday")


def test_a_stall_of_three_sizes_and_cloths_with_all_it_needs_takes_few_taps(phone, page, hand):
    hand.link("Sell")
    hand.link("Say what you sell")
    for index, (size, price) in enumerate(SIZES.items()):
        hand.type(f"#size-{index}", size)
        hand.type(f"[name=price-new-{index}]", price)
    for index, cloth in enumerate(CLOTHS):
        hand.type(f"#cloth-{index}", cloth)
    hand.tap("[data-add-goods='9']")
    page.locator("#spot-name").wait_for()
    hand.tap(".top [href='/settings']:not(.back)")
    hand.tap("a[href='/settings/offer/new']")
    hand.type("[name=name]", "Three Everyday for 15")
    hand.button("Everyday")
    hand.type("[name=n]", "3")
    hand.type("[name=price]", "15")
    hand.button("Save")
    phone.screen.wait_for_title("Offers")
    hand.tap(".top [href='/settings']:not(.back)")
    hand.tap("a[href='/settings/place/new']")
    hand.type("[name=name]", "Home shelf")
    hand.button("Save")
    phone.screen.wait_for_title("Places")
    hand.tap(".top [href='/settings']:not(.back)")
    hand.tap("a[href='/settings/cash-box/new']")
    hand.type("[name=name]", "Green tin")
    hand.button("Save")
    phone.screen.wait_for_title("Cash boxes")
    hand.tap(".top [href='/settings']:not(.back)")
    hand.tap("a[href='/settings/market/new']")
    hand.type("[name=name]", "Sandholt Quay")
    hand.choose("[name=place]", "a new place")
    hand.type("[data-new-name] input", "Quay stall")
    hand.button("Add")
    expect(page.locator("[name=place]")).to_contain_text("Quay stall")
    hand.button("Save")
    phone.screen.wait_for_title("Markets")
    hand.link("Sell")
    hand.button("Sandholt Quay")
    expect(page.locator("button[data-product]")).to_have_count(12)
    print(f"\na stall of three sizes × three cloths, offer, places, box, market: {hand.taps} taps")
    assert hand.taps <= WHOLE_STALL
    assert names(phone, "place") == ["Home shelf", "Quay stall"]
    [booking] = ask(phone, "records", "records", "booking")
    [market] = ask(phone, "records", "records", "market")
    assert (booking["market"], booking["place"]) == (market["id"], market["place"])
    [offer] = ask(phone, "records", "records", "offer")
    assert (offer["groups"], offer["n"], offer["price"]) == (["Everyday"], 3, 1500)


def test_only_ticked_cells_become_products_and_one_tap_takes_all_back(phone, page):
    phone.screen.start_at("/sell/goods")
    for index, (size, price) in enumerate(SIZES.items()):
        page.fill(f"#size-{index}", size)
        page.fill(f"[name=price-new-{index}]", price)
    page.fill("#cloth-0", CLOTHS[0])
    page.fill("#cloth-1", CLOTHS[1])
    page.get_by_role("group", name="Grand").get_by_role("button", name=CLOTHS[1]).tap()
    page.locator("[data-add-goods='5']").tap()
    phone.screen.said("5 products added")
    assert sorted(names(phone, "product")) == [
        "Everyday Harbour check", "Everyday Seagrass lawn", "Grand Seagrass lawn",
        "Petite Harbour check", "Petite Seagrass lawn",
    ]  # fmt: skip
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    phone.screen.said("Taken back")
    for kind in ("piece", "cloth", "product"):
        assert ask(phone, "records", "records", kind) == []
    # what was typed is there again
    phone.screen.start_at("/sell/goods")
    expect(page.locator("#size-2")).to_have_value("Grand")
    expect(page.locator("[data-add-goods='5']")).to_be_visible()


def test_a_size_and_a_cloth_that_are_there_are_not_typed_again(phone, page):
    size = act(phone, "describeNew", "piece", {"name": "Everyday"})
    cloth = act(phone, "describeNew", "cloth", a_cloth("Fog gauze"))
    first = {"size": size, "cloth": cloth, "price": 600, "group": "Everyday"}
    act(phone, "describeNew", "product", first)
    phone.screen.open("/sell/goods")
    page.fill("#cloth-0", "Harbour check")
    expect(page.locator("[data-cell=sold]")).to_have_count(1)
    page.locator("[data-add-goods='1']").tap()
    phone.screen.said("1 product added")
    [_, added] = ask(phone, "records", "records", "product")
    assert (added["size"], added["price"], added["group"]) == (size, 600, "Everyday")


def test_what_is_still_missing_is_said_beside_it(phone, page):
    phone.screen.open("/sell/goods")
    page.fill("#size-0", "Everyday")
    page.locator("[data-add-goods='1']").tap()
    expect(page.locator(".problem")).to_have_text("What does one cost?")
    page.fill("[name=price-new-0]", "six")
    expect(page.locator(".problem")).to_have_text("must be a number")
    page.fill("[name=price-new-0]", "6")
    expect(page.locator(".problem")).to_have_count(0)
    page.fill("#size-1", "everyday")
    page.fill("[name=price-new-1]", "7")
    expect(page.locator(".problem")).to_have_text("everyday is there already")
    phone.screen.reload()
    expect(page.locator("#size-1")).to_have_value("everyday")
    assert ask(phone, "records", "records", "product") == []


def test_a_new_size_and_cloth_are_named_where_they_are_chosen(phone, page):
    phone.screen.open("/settings/product/new")
    page.fill("[name=name]", "Sunday best")
    page.select_option("[name=size]", label="a new size")
    page.fill("[data-new-name=piece] input", "Grand")
    page.keyboard.press("Enter")
    expect(page.locator("[name=size] option:checked")).to_have_text("Grand")
    expect(page.locator("[name=group]")).to_have_value("Grand")
    page.select_option("[name=cloth]", label="a new cloth")
    page.fill("[data-new-name=cloth] input", "Fog gauze")
    page.get_by_role("button", name="Add", exact=True).tap()
    expect(page.locator("[name=cloth] option:checked")).to_have_text("Fog gauze")
    page.fill("[name=price]", "9")
    page.get_by_role("button", name="Save").tap()
    phone.screen.wait_for_title("Products")
    [product] = ask(phone, "records", "records", "product")
    assert (product["name"], product["price"], product["group"]) == ("Sunday best", 900, "Grand")
    # another of that size begins with its price and group
    phone.screen.open("/settings/product/new")
    page.select_option("[name=size]", label="Grand")
    expect(page.locator("[name=price]")).to_have_value("9.00")


def test_what_needs_more_than_a_name_is_gone_to_and_come_back_from(phone, page):
    phone.screen.open("/settings/piece/new")
    page.fill("[name=name]", "Grand")
    page.select_option("[name=elastic]", label="a new elastic")
    phone.screen.wait_for_title("An elastic")
    page.fill("[name=name]", "Braided")
    page.fill("[name=roll_length]", "50")
    page.get_by_role("button", name="Save").tap()
    phone.screen.wait_for_title("A size")
    expect(page.locator("[name=name]")).to_have_value("Grand")
    expect(page.locator("[name=elastic] option:checked")).to_have_text("Braided")


# on a slow phone there is time to type before the core has said what a new form begins with
WHAT_THE_TITLE_COMES_WITH = """title => new Promise((resolve) => {
  new MutationObserver((_, watch) => {
    if (document.querySelector('h1')?.textContent !== title) return;
    watch.disconnect();
    const inputs = [...document.querySelectorAll('form[data-record] input')];
    resolve(inputs.map((input) => input.value).filter(Boolean));
  }).observe(document, { subtree: true, childList: true, characterData: true });
})"""


def test_a_form_gone_to_shows_nothing_of_the_one_left(phone, page):
    phone.screen.open("/settings/piece/new")
    page.fill("[name=name]", "Grand")
    page.evaluate(f"self.shown = ({WHAT_THE_TITLE_COMES_WITH})('An elastic'); 0")
    page.select_option("[name=elastic]", label="a new elastic")
    assert page.evaluate("self.shown") == []


@pytest.mark.parametrize(
    "path, button, lands",
    [
        ("/sell", "Say what you sell", "What you sell"),
        ("/count", "Add a place", "A place"),
        ("/count/stock", "Add a place", "A place"),
        ("/count/pack", "Add a place", "A place"),
    ],
)
def test_where_nothing_is_yet_a_button_goes_there_and_comes_back(phone, page, path, button, lands):
    screen = phone.screen.open(path)
    title = page.locator("h1").text_content()
    expect(page.locator("[data-missing]")).to_contain_text(re.compile(r"\w+ \w+"))
    page.get_by_role("link", name=button).tap()
    screen.wait_for_title(lands)
    page.locator(".back").tap()
    screen.wait_for_title(title)


def test_a_saved_record_comes_back_to_where_it_was_missing(phone, page):
    screen = phone.screen.open("/count/stock")
    page.get_by_role("link", name="Add a place").tap()
    page.fill("[name=name]", "Home shelf")
    page.get_by_role("button", name="Save").tap()
    screen.wait_for_title("Stock by place")


def test_an_empty_list_says_why_there_would_be_any(phone, page):
    for kind in ("piece", "cloth", "remnant", "elastic", "product", "offer", "place", "cash-box", "market",
                 "booking", "person"):  # fmt: skip
        phone.screen.open(f"/settings/{kind}")
        expect(page.locator("[data-missing]")).to_contain_text(re.compile(r"None yet\. \w.*\w\."))
        expect(page.locator("main a.button").first).to_be_visible()


def test_an_address_does_not_lead_out_of_the_app(phone, page):
    phone.screen.open("/settings/place/new?back=//elsewhere.example/")
    expect(page.locator(".back")).to_have_attribute("href", "/settings")


def test_a_cloth_without_its_width_is_measured_before_it_is_planned(phone, page):
    act(phone, "describeNew", "piece", {"name": "Everyday"})
    act(phone, "describeNew", "cloth", {"name": "Fog gauze"})
    screen = phone.screen.open("/buy/plan")
    expect(page.locator("[data-unmeasured]")).to_contain_text("bolt width, shrink length, shrink width")
    expect(page.locator("[data-add]")).to_be_disabled()
    page.locator("[data-unmeasured] a").tap()
    for name, text in (("bolt_width", "132"), ("shrink_length", "6"), ("shrink_width", "4")):
        page.fill(f"[name={name}]", text)
    page.get_by_role("button", name="Save").tap()
    screen.wait_for_title("Plan")
    page.locator("[data-add]").tap()
    expect(page.locator("[data-buys]")).to_have_attribute("data-done", "true")


def test_what_was_chosen_for_the_plan_is_chosen_still_once_its_cloth_is_measured(phone, page):
    act(phone, "describeNew", "piece", {"name": "Everyday"})
    grand = act(phone, "describeNew", "piece", {"name": "Grand"})
    act(phone, "describeNew", "cloth", a_cloth("Seagrass lawn"))
    gauze = act(phone, "describeNew", "cloth", {"name": "Fog gauze"})
    screen = phone.screen.open("/buy/plan")
    page.select_option("#cut-size", grand)
    page.select_option("#cut-cloth", gauze)
    # what is missing is a sentence, and the link another
    expect(page.locator("[data-unmeasured]")).to_contain_text("shrink width. Say it")
    page.locator("[data-unmeasured] a").tap()
    for name, text in (("bolt_width", "132"), ("shrink_length", "6"), ("shrink_width", "4")):
        page.fill(f"[name={name}]", text)
    page.get_by_role("button", name="Save").tap()
    screen.wait_for_title("Plan")
    expect(page.locator("#cut-size")).to_have_value(grand)
    expect(page.locator("#cut-cloth")).to_have_value(gauze)


def test_a_remnant_and_an_elastic_are_put_in_on_the_way_and_lead_back(phone, page):
    act(phone, "describeNew", "piece", {"name": "Everyday"})
    act(phone, "describeNew", "cloth", a_cloth("Seagrass lawn"))
    for path, link in (
        ("/make/remnant", "Measure a remnant"),
        ("/make/cutting", "Measure a remnant"),
        ("/buy/plan", "Put in yours"),
    ):
        phone.screen.open(path)
        if path == "/buy/plan":
            page.locator("[data-add]").tap()
        page.get_by_role("link", name=link, exact=True).tap()
        expect(page.locator(".back")).to_have_attribute("href", path)


@pytest.mark.parametrize("text", [16, 32])
def test_the_grid_of_sizes_and_cloths_is_for_every_hand_and_eye(phone, page, text):
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": text, "fixed": text}})
    screen = phone.screen.open("/sell/goods")
    for index, (size, price) in enumerate(SIZES.items()):
        page.fill(f"#size-{index}", size)
        page.fill(f"[name=price-new-{index}]", price)
    for index, cloth in enumerate(CLOTHS):
        page.fill(f"#cloth-{index}", cloth)
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 640})
        assert look(screen, "outOfPlace") == []
        assert look(screen, "smallTargets", 48) == []
        assert violations(screen) == []
