"""The first page, and the invented year that a phone makes for itself, with no signal and the server dead."""

import shutil

import pytest
from playwright.sync_api import expect

from .looks import look, out_of_place, violations
from .phone import Phone
from .shop import act, ask
from .test_demo import BROKEN, EMPTY, KINDS, PLACES, QUIET

MAKING_MS = 180_000
OFFER = """() => {
  const event = new Event('beforeinstallprompt', { cancelable: true });
  event.prompt = async () => { window.asked = true; };
  event.userChoice = Promise.resolve({ outcome: 'accepted' });
  dispatchEvent(event);
  return event.defaultPrevented;
}"""
NO_OFFER = "addEventListener('beforeinstallprompt', (event) => event.stopImmediatePropagation())"
STORES = "async () => (await indexedDB.databases()).map(({ name }) => name).sort()"
IPHONE = (
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) "
    "Version/18.5 Mobile/15E148 Safari/604.1"
)
WORDS_OF_PLACES = """() => [...document.querySelectorAll('.places a')].map((place) => {
  const words = document.createRange();
  words.selectNodeContents(place);
  const { left, right } = words.getBoundingClientRect();
  return [left, right];
})"""


# notes what the core is asked for by each page
NOTE = """(() => {
  const post = Worker.prototype.postMessage;
  self.asked = [];
  Worker.prototype.postMessage = function (message) {
    if (message.text) self.asked.push(JSON.parse(message.text).method);
    post.call(this, message);
  };
})()"""


def look_around(screen):
    """Tap the invented year on the first page, and wait until its Sell is there."""
    screen.page.locator("[data-look]").tap()
    expect(screen.page.get_by_role("progressbar")).to_be_visible()
    screen.page.wait_for_url("**/sell", timeout=MAKING_MS)
    screen.wait_for_title("Sell")


@pytest.fixture(scope="module")
def looked(start_chromium, visited, tmp_path_factory):
    """A phone after one visit, its network off and the server dead, that looks at the invented year."""
    profile, address = visited
    place = tmp_path_factory.mktemp("looking") / "profile"
    shutil.copytree(profile, place, symlinks=True)
    phone = Phone(start_chromium, place, address)
    screen = phone.switch_on(offline=True).start_at("/settings")
    act(phone, "describeNew", "place", {"name": "My own shelf", "use": "home"})
    phone.context.add_init_script(NOTE)
    look_around(screen.start_at("/start"))
    phone.asked_at_first = screen.page.evaluate("asked")
    yield phone
    phone.switch_off()
    assert phone.trouble == []


def test_the_apps_own_address_opens_the_first_page_while_nothing_was_opened_yet(phone):
    # the visit was to /buy, and is forgotten here as on a phone that opens the address for the first time
    page = phone.screen.start_at("/buy").page
    page.wait_for_function("() => localStorage.getItem('last-screen') === '/buy'")
    page.evaluate("localStorage.clear()")
    page.goto(phone.address + "/")
    expect(page).to_have_url(f"{phone.address}/start")
    main = page.locator("main")
    # two sentences say what it is
    assert main.locator(".lead").inner_text().count(". ") == 1
    for name in ("Start with my first size", "Pair this phone"):
        expect(main.get_by_role("link", name=name)).to_be_visible()
    expect(main.get_by_role("button", name="Look at an invented year")).to_be_visible()
    # this browser may offer it by itself
    expect(main.locator("[data-install], [data-install-steps]")).to_be_visible()
    main.get_by_role("link", name="Start with my first size").tap()
    phone.screen.wait_for_title("Strip")


def test_installing_is_one_tap_where_the_browser_offers_it(phone):
    page = phone.screen.start_at("/buy").page
    assert page.evaluate(OFFER)
    page.get_by_role("link", name="Boltfair").tap()
    page.get_by_role("button", name="Install Boltfair").tap()
    page.wait_for_function("() => window.asked")
    expect(page.locator("[data-install]")).to_have_count(0)


def test_an_iphone_is_told_the_steps(new_phone, visited):
    profile, address = visited
    phone = new_phone(address, profile, user_agent=IPHONE)
    screen = phone.switch_on(offline=True)
    # the browser beneath makes an offer that an iPhone's does not
    phone.context.add_init_script(NO_OFFER)
    screen.start_at("/start")
    expect(screen.page.locator("[data-install-steps]")).to_contain_text("tap Share, then Add to Home Screen")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_first_page_is_for_every_hand_and_eye(new_phone, visited, scheme):
    profile, address = visited
    phone = new_phone(address, profile, color_scheme=scheme)
    screen = phone.switch_on(offline=True).start_at("/start")
    assert violations(screen) == []
    assert look(screen, "smallTargets", 48) == []
    assert look(screen, "lowContrast", 7) == []
    for width, height in ((320, 568), (320, 640), (390, 844), (844, 390), (1280, 800)):
        assert out_of_place(screen, width, height) == []
    screen.page.evaluate("document.documentElement.style.fontSize = '200%'")
    for width, height in ((320, 640), (390, 844)):
        assert out_of_place(screen, width, height) == []


def test_making_the_year_can_be_cancelled_and_leaves_nothing(phone):
    page = phone.screen.start_at("/start").page
    page.locator("[data-look]").tap()
    page.wait_for_function("() => document.querySelector('progress')?.value > 0")
    page.get_by_role("button", name="Cancel").tap()
    expect(page.locator("[data-look]")).to_be_visible()
    assert page.evaluate(STORES) == ["boltfair"]
    expect(page.locator("[data-invented]")).to_have_count(0)


def test_its_first_page_waits_for_nothing_that_was_known_before_it(looked):
    assert "describe" not in looked.asked_at_first


def test_every_place_of_the_invented_year_has_words_and_figures_and_the_mark(looked):
    screen, page = looked.screen, looked.screen.page
    one = {kind: ask(looked, "records", "records", kind) for kind in KINDS}
    assert min(len(found) for found in one.values()) > 0
    sold = max(fact["day"] for fact in ask(looked, "facts", "factsOf", "cash-count"))
    box = one["cash-box"][0]["id"]
    paths = [
        *PLACES,
        *(f"/settings/{kind}" for kind in KINDS),
        f"/review/{sold}",
        f"/review/{sold}/cash/{box}",
    ]
    closed = ask(looked, "facts", "factsOf", "count-close")[0]["id"]
    sale = ask(looked, "facts", "factsOf", "sale")[0]["id"]
    for path in [*paths, f"/count/closed/{closed}", f"/sell/sale/{sale}", "/start"]:
        screen.follow(path)
        page.wait_for_function(QUIET)
        screen.settle()
        broken = BROKEN.findall(page.locator("main").inner_text())
        assert not broken, (path, broken)
        assert page.evaluate(EMPTY) == [], path
        expect(page.locator("[data-invented]")).to_be_in_viewport()


def test_the_mark_is_for_every_hand_and_eye(looked):
    screen = looked.screen.start_at("/start")
    assert violations(screen) == []
    assert look(screen, "smallTargets", 48) == []
    assert look(screen, "lowContrast", 7) == []
    for width, height in ((320, 568), (844, 390), (1280, 800)):
        assert out_of_place(screen, width, height) == []
    screen.page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert out_of_place(screen, 320, 640) == []


def test_its_tables_are_read_in_large_text(looked):
    day = max(fact["day"] for fact in ask(looked, "facts", "factsOf", "cash-count"))
    sizes = looked.devtools()
    sizes.send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 32}})
    for path in ("/review/price", "/review/costs", f"/review/{day}"):
        looked.screen.start_at(path).page.locator(".review-figures").first.wait_for()
        assert look(looked.screen, "outOfPlace") == []
        assert look(looked.screen, "brokenWords", "table *") == []
    sizes.send("Page.setFontSizes", {"fontSizes": {"standard": 16, "fixed": 13}})


def test_a_market_is_held_today_and_a_piece_is_sold_with_four_taps(looked):
    page = looked.screen.start_at("/sell").page
    page.get_by_role("button", name="Open ").first.tap()
    tiles = page.locator(".sell-tiles button[data-product]")
    expect(tiles.first).to_be_visible()
    assert tiles.count() >= 15
    # so many left are told in one line
    page.locator(".sell-tile small").first.wait_for()
    heights = "(all) => all.map((left) => left.getBoundingClientRect().height)"
    assert max(page.locator(".sell-tile small").evaluate_all(heights)) < 20
    tiles.first.tap()
    page.locator("[data-pay=cash]").first.tap()
    page.locator(".sell-last-sale").wait_for()


def test_nothing_of_it_is_sent_and_nothing_is_mixed_in(looked, tmp_path):
    page = looked.screen.start_at("/settings").page
    expect(page.locator("#phones")).to_have_count(0)
    expect(page.get_by_role("button", name="Take a copy in")).to_have_count(0)
    copy = '{"format": "boltfair-copy", "schema": 1, "changes": []}'
    for module, name, args in (("pairing", "pair", ["A", "b", True]), ("copies", "takeIn", [copy])):
        refused = page.evaluate(
            """async ([module, name, args]) => {
              try { await (await import(`/data/${module}.js`))[name](...args); return 'done'; }
              catch (error) { return error.message; }
            }""",
            [module, name, args],
        )
        assert "Leave the invented year first" in refused
    asked = []
    page.on("request", lambda request: asked.append(request.url))
    page.evaluate("async () => (await import('/data/sync.js')).syncNow()")
    assert [url for url in asked if "/api/" in url] == []


def test_it_is_there_after_the_phone_was_off_and_left_with_one_tap(looked):
    looked.switch_off()
    screen = looked.switch_on(offline=True)
    page = screen.start_at("/count/stock").page
    page.locator("[data-invented]").get_by_role("button", name="Leave").tap()
    page.wait_for_url("**/start")
    expect(page.locator("[data-look]")).to_be_visible()
    expect(page.locator("[data-invented]")).to_have_count(0)
    # her own records are as they were, and of the year nothing is left
    assert [place["name"] for place in ask(looked, "records", "records", "place")] == ["My own shelf"]
    assert ask(looked, "records", "waiting")["count"] == 1
    page.wait_for_function(f"async () => String(await ({STORES})()) === 'boltfair'")
    screen.start_at("/sell")
    assert ask(looked, "facts", "factsOf", "sale") == []


def test_one_that_was_left_is_left_even_if_that_was_not_written_down(looked):
    screen = looked.screen.start_at("/review")
    screen.page.evaluate("localStorage.setItem('invented-year', 'yes')")
    screen.start_at("/review")
    # it may take itself for the year at first, and then loads anew
    screen.page.wait_for_function("() => !localStorage.getItem('invented-year')")
    screen.wait_for_title("Review")
    expect(screen.page.locator("[data-invented]")).to_have_count(0)
    assert [place["name"] for place in ask(looked, "records", "records", "place")] == ["My own shelf"]
    screen.page.wait_for_function(f"async () => String(await ({STORES})()) === 'boltfair'")


def test_leaving_in_one_window_leaves_in_all(looked):
    look_around(looked.screen.start_at("/start"))
    other = looked.another_tab().open("/review")
    expect(other.page.locator("[data-invented]")).to_be_visible()
    looked.screen.page.locator("[data-invented]").get_by_role("button", name="Leave").tap()
    looked.screen.page.wait_for_url("**/start")
    expect(other.page.locator("[data-invented]")).to_have_count(0)
    assert ask(looked, "records", "records", "market") == []
    other.page.close()


def test_a_pairing_link_leaves_the_year_and_opens_on_pairing(looked):
    screen = looked.screen
    look_around(screen.start_at("/start"))
    screen.page.goto("about:blank")
    screen.page.goto(f"{looked.address}/settings#pair=ABCDEFGH12")
    expect(screen.page.locator("#pair-code")).to_have_value("ABCDEFGH12")
    expect(screen.page.locator("[data-invented]")).to_have_count(0)
    expect(screen.page.locator("#pair-name")).not_to_have_value("")
    expect(screen.page.get_by_role("button", name="Pair", exact=True)).to_be_in_viewport()


def test_the_places_stand_apart_in_large_text(phone):
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 32}})
    page = phone.screen.start_at("/buy").page
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 640})
        words = page.evaluate(WORDS_OF_PLACES)
        assert all(after[0] - before[1] > 8 for before, after in zip(words, words[1:], strict=False)), words
        assert words[0][0] > 4 and words[-1][1] < width - 4, words
        assert look(phone.screen, "outOfPlace") == []
