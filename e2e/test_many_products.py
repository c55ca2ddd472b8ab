"""Sixty products at the stall: found by size or cloth, sold by touch or keyboard, in any size of words."""

import pytest
from playwright.sync_api import expect

from .looks import OPTIONS, look, run_axe, violations
from .shop import act, ask
from .stall import a_cloth, open_on_the_spot
from .test_sell import HIDDEN, kept, total

SIZES = ("Petite", "Everyday", "Grand", "Slim", "Wide", "Festive")
CLOTHS = (
    "Seagrass lawn", "Harbour check", "Fog gauze", "Rust needlecord", "Tansy print",
    "Slate linen", "Rose voile", "Moss velvet", "Ink poplin", "Chalk stripe",
)  # fmt: skip
MAKE = """async ([sizes, cloths, measures]) => {
  const { keepTogether } = await import('/data/actions.js');
  const { newId } = await import('/data/clock.js');
  const made = (names) => names.map((name) => [name, newId()]);
  const [allSizes, allCloths] = [made(sizes), made(cloths)];
  const products = allSizes.flatMap(([name, size], n) =>
    allCloths.map(([, cloth]) => ['product', { size, cloth, price: 400 + 50 * n, group: name }, newId()]));
  await keepTogether({ described: [
    ...allSizes.map(([name, id]) => ['piece', { name }, id]),
    ...allCloths.map(([name, id]) => ['cloth', { ...measures, name }, id]),
    ...products,
    ['place', { name: 'Quay stall', use: 'stall' }],
    ['cash-box', { name: 'Green tin' }],
  ] });
}"""
MOST_TABS = 8
LARGE = {"standard": 32, "fixed": 32}
# a tile that can be seen and tapped all over
TILES_IN_SIGHT = """() => [...document.querySelectorAll('[data-product]')].filter((tile) => {
    const { left, right, top, bottom } = tile.getBoundingClientRect();
    const at = (x, y) => tile.contains(document.elementFromPoint(x, y));
    return top >= 0 && at((left + right) / 2, top + 3) && at((left + right) / 2, bottom - 3);
}).length"""

IN_SIGHT = """(tile) => {
    const { left, right, bottom } = tile.getBoundingClientRect();
    return tile.contains(document.elementFromPoint((left + right) / 2, bottom - 2));
}"""


def stall_of_many(phone):
    """Open a stall with sixty products, and six sizes alone."""
    phone.screen.open("/sell")
    phone.screen.page.evaluate(MAKE, [SIZES, CLOTHS, a_cloth("")])
    open_on_the_spot(phone.screen)


@pytest.fixture
def ground():
    return stall_of_many


@pytest.fixture
def page(phone):
    """Such a stall, on a phone that can reach nobody."""
    expect(phone.screen.page.locator("[data-product]")).to_have_count(66)
    return phone.screen.page


def tile(page, name):
    return page.locator(f'[data-product][aria-label^="{name},"]')


def shown(page):
    return page.locator("[data-product]").evaluate_all("(tiles) => tiles.map((tile) => tile.dataset.product)")


def enlarge(phone, page):
    phone.devtools().send("Page.setFontSizes", {"fontSizes": LARGE})
    page.wait_for_function("() => getComputedStyle(document.documentElement).fontSize === '32px'")


def test_a_size_and_a_cloth_are_found_by_one_choice_each(page):
    page.select_option("[data-filter=size]", label="Grand")
    expect(page.locator("[data-product]")).to_have_count(11)
    page.select_option("[data-filter=cloth]", label="Fog gauze")
    expect(page.locator("[data-product]")).to_have_count(1)
    tile(page, "Grand Fog gauze").tap()
    total(page, 500)
    page.locator("[data-show-all]").tap()
    expect(page.locator("[data-product]")).to_have_count(66)


def test_the_filter_never_hides_what_is_in_the_basket(page):
    tile(page, "Petite Rose voile").tap()
    total(page, 400)
    page.select_option("[data-filter=size]", label="Grand")
    expect(page.locator("[data-product]")).to_have_count(12)
    expect(tile(page, "Petite Rose voile")).to_be_visible()
    page.locator("[data-pay=card]").tap()
    expect(page.locator("[data-product]")).to_have_count(11)


def test_tiles_by_size_keep_their_order_all_day(phone, page):
    expect(page.locator(".sell-tiles section")).to_have_count(len(SIZES))
    first = shown(page)
    tile(page, "Wide Moss velvet").tap()
    page.locator("[data-pay=card]").tap()
    kept(page)
    phone.screen.open("/sell")
    expect(page.locator("[data-product]")).to_have_count(66)
    assert shown(page) == first
    page.select_option("[data-filter=cloth]", label="Moss velvet")
    few = shown(page)
    assert few == [key for key in first if key in few]


def hold(page, found, kind="touch"):
    """Hold a tile down until it is asked how many."""
    found.scroll_into_view_if_needed()
    down = {"bubbles": True, "pointerType": kind, "button": 0, "isPrimary": True}
    found.dispatch_event("pointerdown", down)
    page.locator("[data-how-many]").wait_for()
    found.dispatch_event("pointerup", down)
    found.dispatch_event("click", {"bubbles": True, "detail": 1})


def test_a_tile_held_down_asks_how_many_and_a_number_is_one_tap(phone, page):
    hold(page, tile(page, "Grand Fog gauze"))
    page.locator("[data-add='6']").tap()
    total(page, 6 * 500)
    expect(page.locator("[data-pieces]")).to_have_text("6 pieces")
    page.locator("[data-pay=card]").tap()
    kept(page)
    [sale] = ask(phone, "facts", "factsOf", "sale")
    assert [line["quantity"] for line in sale["lines"]] == [6]


def test_a_number_is_typed_for_a_tile_held_down_or_it_is_left(page):
    hold(page, tile(page, "Grand Fog gauze"))
    page.get_by_role("button", name="Cancel").tap()
    expect(page.locator("[data-how-many]")).to_have_count(0)
    expect(page.locator("[data-pieces]")).to_have_count(0)
    hold(page, tile(page, "Grand Fog gauze"))
    page.fill("#how-many", "14")
    page.get_by_role("button", name="Add", exact=True).tap()
    total(page, 14 * 500)


def test_the_menu_of_a_tile_asks_how_many_too(page):
    found = tile(page, "Grand Fog gauze")
    found.click(button="right")
    page.locator("[data-add='3']").tap()
    total(page, 3 * 500)
    found.press("Enter")
    total(page, 4 * 500)


def test_what_is_noted_piece_by_piece_is_noted_however_long_it_is_held(phone, page):
    page.locator("details.more").evaluate("(more) => { more.open = true; }")
    page.locator("[data-mode-of=spoilt]").tap()
    found = tile(page, "Grand Fog gauze")
    found.click(delay=700)
    phone.screen.said("Grand Fog gauze: one set aside as spoilt")
    expect(page.locator("[data-how-many]")).to_have_count(0)


def test_a_short_tap_is_one_piece(page):
    for pieces in (1, 2):
        tile(page, "Grand Fog gauze").tap()
        total(page, pieces * 500)


def test_a_number_typed_on_a_tile_is_how_many_go_into_the_basket(page):
    found = tile(page, "Grand Fog gauze")
    found.focus()
    page.keyboard.press("1")
    expect(page.locator("#how-many")).to_be_focused()
    page.keyboard.type("2")
    page.keyboard.press("Enter")
    total(page, 12 * 500)
    expect(found).to_be_focused()
    page.keyboard.press("3")
    page.keyboard.press("Escape")
    expect(found).to_be_focused()
    total(page, 12 * 500)


def eight_lines(page):
    page.select_option("[data-filter=size]", label="Grand")
    for cloth in CLOTHS[:8]:
        tile(page, f"Grand {cloth}").press("Enter")
    expect(page.locator("[data-pieces]")).to_have_text("8 pieces")
    page.locator("[data-show-all]").click()
    expect(page.locator("[data-show-all]")).to_have_count(0)


def test_the_keyboard_goes_from_a_tile_to_paid_in_few_tabs(phone, page):
    eight_lines(page)
    found = tile(page, "Grand Fog gauze")
    found.press("Enter")
    total(page, 9 * 500)
    order = []
    for way in ("cash", "card", "other"):
        found.focus()
        pay = page.locator(f"[data-pay={way}]:not([data-tendered])")
        tabs = 0
        while not pay.evaluate("(pay) => pay === document.activeElement"):
            page.keyboard.press("Tab")
            tabs += 1
            focused = look(phone.screen, "focused")
            assert focused["ringed"] and not focused["covered"], focused
            order.append(page.evaluate("document.activeElement.getBoundingClientRect().top"))
            assert tabs <= MOST_TABS, order
        print(f"\nfrom a tile to {way}, eight lines, sixty products: {tabs} tabs")
    page.keyboard.press("Enter")
    kept(page)
    # and the next sale begins where this one did
    expect(found).to_be_focused()


def test_arrows_go_from_tile_to_tile_and_from_line_to_line(page):
    first, second = shown(page)[:2]
    at = "(key) => document.activeElement.dataset.product === key"
    page.locator(f'[data-product="{first}"]').focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function(at, arg=second)
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowDown")
    left = "document.activeElement.getBoundingClientRect().left"
    below = page.evaluate(left)
    page.keyboard.press("ArrowUp")
    page.wait_for_function(at, arg=first)
    assert page.evaluate(left) == below
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Home")
    page.wait_for_function(at, arg=first)
    # at an end the page does not glide away from under the focus
    page.evaluate("document.addEventListener('keydown', (e) => { window.isKept = e.defaultPrevented; })")
    for end, way in (("End", "ArrowDown"), ("Home", "ArrowUp")):
        page.keyboard.press(end)
        page.keyboard.press(way)
        assert page.evaluate("window.isKept"), way
    page.wait_for_function(at, arg=first)
    for key in (first, second):
        page.locator(f'[data-product="{key}"]').press("Enter")
    quantities = page.locator(".sell-basket input")
    expect(quantities).to_have_count(2)
    quantities.first.focus()
    page.keyboard.press("ArrowDown")
    expect(quantities.last).to_be_focused()
    page.keyboard.type("4")
    expect(page.locator("[data-pieces]")).to_have_text("5 pieces")


def test_what_the_arrows_come_to_is_never_under_a_bar(phone, page):
    eight_lines(page)
    page.locator("[data-product]").last.focus()
    for way in ("ArrowUp", "ArrowDown"):
        for _ in range(30):
            page.keyboard.press(way)
            focused = look(phone.screen, "focused")
            assert focused["ringed"] and not focused["covered"], (way, focused)


@pytest.mark.parametrize(
    "width, height, text", [(320, 640, 16), (844, 390, 16), (390, 844, 32), (320, 640, 32)]
)
def test_with_eight_lines_all_is_in_sight_and_nothing_clipped(phone, page, width, height, text):
    eight_lines(page)
    page.set_viewport_size({"width": width, "height": height})
    if text == 32:
        enlarge(phone, page)
    hidden = page.evaluate(HIDDEN)
    assert [words for words in hidden if "change" not in words] == []
    assert look(phone.screen, "outOfPlace") == []
    assert look(phone.screen, "smallTargets", 48) == []
    assert violations(phone.screen) == []


def test_axe_finds_nothing_where_bars_stick(phone, page):
    """As it is seen: bars over tiles, at the top and in the middle of the list."""
    eight_lines(page)
    for scrolled in (0, 600):
        page.evaluate("(top) => scrollTo(0, top)", scrolled)
        found = run_axe(page, OPTIONS)
        # a tile half under a bar is scrolled to
        assert [rule["id"] for rule in found if rule["id"] != "target-size"] == []


def test_large_words_leave_a_row_of_tiles_beside_a_basket_of_two(phone, page):
    enlarge(phone, page)
    page.wait_for_function(f"() => ({TILES_IN_SIGHT})() >= 0")
    tile(page, "Grand Fog gauze").tap()
    total(page, 500)
    assert page.evaluate(TILES_IN_SIGHT) >= 1
    tile(page, "Grand Fog gauze").tap()
    total(page, 1000)
    assert page.evaluate(TILES_IN_SIGHT) >= 1
    assert [words for words in page.evaluate(HIDDEN) if "change" not in words] == []
    # nor does what is said of a tap cover what is to be paid
    page.locator("[data-pieces]").tap()
    page.locator("[data-empty]").tap()
    tile(page, "Grand Fog gauze").press("Enter")
    total(page, 500)
    expect(page.locator(".notice")).to_be_visible()
    assert [words for words in page.evaluate(HIDDEN) if "change" not in words] == []
    # discounts and lines are a tap away
    page.locator("[data-pieces]").tap()
    expect(page.locator("[data-discount]")).to_be_in_viewport()


def test_the_tapped_tile_stays_in_sight_as_the_till_grows(page):
    last = page.locator("[data-product]").last
    last.scroll_into_view_if_needed()
    last.tap()
    page.locator("[data-pieces]").wait_for()
    assert last.evaluate(IN_SIGHT)


def test_the_tapped_tile_stays_in_sight_though_its_price_comes_late(phone, page):
    last = page.locator("[data-product]").last
    last.scroll_into_view_if_needed()
    with phone.screen.core_held():
        last.tap()
        page.locator("[data-total='']").wait_for()
    total(page, 600)
    assert last.evaluate(IN_SIGHT)


@pytest.mark.parametrize("ground", [None])
def test_a_stall_of_few_has_no_filter(phone):
    screen = phone.screen.open("/sell")
    size = act(phone, "describeNew", "piece", {"name": "Grand"})
    act(phone, "describeNew", "product", {"size": size, "price": 900, "group": "Grand"})
    open_on_the_spot(screen)
    expect(screen.page.locator("[data-product]")).to_have_count(1)
    expect(screen.page.locator("[data-filter]")).to_have_count(0)
