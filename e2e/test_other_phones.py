"""What iPhones, pages inside other apps and old browsers need, as far as Chromium can stand in for them."""

import pytest
from playwright.sync_api import expect

from .shop import act, ask
from .stall import Stall, open_on_the_spot

PAGE_OF_IPHONE = "Object.defineProperty(Navigator.prototype, 'standalone', { get: () => false });"
WITHOUT_WORKERS = "delete Navigator.prototype.serviceWorker;"
TOO_OLD = "delete self.CompressionStream;"
NEVER_GRANTED = """
    self.asked = 0;
    StorageManager.prototype.persisted = async () => false;
    StorageManager.prototype.persist = async () => { self.asked += 1; return false; };
"""
LISTENERS = """
    self.touches = [];
    const { addEventListener: listen } = EventTarget.prototype;
    self.addEventListener = function (kind, listener, how) {
      if (kind === 'touchstart') self.touches.push(how?.passive);
      return listen.call(this ?? self, kind, listener, how);
    };
"""
KEYBOARD = """(tall) => {
  Object.defineProperty(visualViewport, 'height', { configurable: true, get: () => innerHeight - tall });
  visualViewport.dispatchEvent(new Event('resize'));
}"""
SAY = """async (text) => (await import('/views/parts/notice.js')).say(text)"""
BOX = """(element) => {
  const { left, right, top, bottom } = element.getBoundingClientRect();
  return { left, right, top, bottom };
}"""
ABOVE = "(selector, { top }) => document.querySelector(selector).getBoundingClientRect().bottom <= top + 1"
WORDS_HELD = """
    const { postMessage } = Worker.prototype;
    Worker.prototype.postMessage = function (message) {
      if (message.text?.includes('lengths_in_words')) return;
      postMessage.call(this, message);
    };
"""


@pytest.fixture
def selling(phone):
    """A phone at an open stall, with a piece in the basket."""
    stall = Stall(phone)
    open_on_the_spot(phone.screen)
    phone.screen.page.locator("[data-product]").first.tap()
    phone.screen.page.locator("[data-pay=card]").wait_for()
    return stall


def box(page, selector):
    return page.locator(selector).first.evaluate(BOX)


def test_a_page_of_an_iphone_says_home_screen_first_and_spends_no_code(shop, new_phone):
    made = shop.code()
    phone = new_phone(shop.address)
    screen = phone.switch_on()
    phone.context.add_init_script(PAGE_OF_IPHONE)
    screen.page.goto(made["link"])
    first = screen.page.locator("[data-home-screen-first]")
    expect(first).to_contain_text(made["code"])
    expect(screen.page.locator("[data-pair]")).to_have_count(0)
    first.get_by_role("button").tap()
    expect(screen.page.locator("#pair-code")).to_have_value(made["code"])


def test_a_notch_covers_nothing_on_a_phone_that_lies_on_its_side(phone, selling):
    page = phone.screen.page
    page.set_viewport_size({"width": 844, "height": 390})
    insets = {"left": 59, "right": 59, "top": 0, "bottom": 21}
    phone.devtools().send("Emulation.setSafeAreaInsetsOverride", {"insets": insets})
    for selector in (".brand", ".sell-tile", ".sell-tile:nth-child(2)", ".places a"):
        assert box(page, selector)["left"] >= 59, selector
    for selector in (".top .quiet", "[data-pay=cash]", ".places a:last-child"):
        assert box(page, selector)["right"] <= 844 - 59, selector


def test_the_dock_and_the_notice_stand_above_a_keyboard_that_lies_on_the_page(phone, selling):
    page = phone.screen.page
    page.evaluate(SAY, "Kept")
    expect(page.locator(".notice")).to_be_visible()
    page.evaluate(KEYBOARD, 336)
    page.wait_for_function(f"() => ({ABOVE})('.notice', {{ top: innerHeight - 336 }})")
    page.wait_for_function(
        f"() => ({ABOVE})('.dock', document.querySelector('.notice').getBoundingClientRect())"
    )
    page.evaluate(KEYBOARD, 0)
    page.wait_for_function(f"() => !({ABOVE})('.notice', {{ top: innerHeight - 336 }})")


def test_touches_are_listened_to_so_that_an_iphone_shows_what_is_pressed(phone):
    phone.context.add_init_script(LISTENERS)
    phone.screen.start_at("/buy").page.wait_for_function("() => touches.includes(true)")


def test_a_notice_of_many_lines_covers_nothing_of_the_dock(phone, selling):
    page = phone.screen.page
    page.evaluate(SAY, "What was recorded here is said in many words, " * 5)
    expect(page.locator(".notice")).to_contain_text("many words")
    page.wait_for_function("() => document.querySelector('.notice').offsetHeight > 90")
    page.wait_for_function(
        f"() => ({ABOVE})('.dock', document.querySelector('.notice').getBoundingClientRect())"
    )


def test_it_is_said_whether_the_app_opens_without_a_signal(server, new_phone):
    phone = new_phone(server.address)
    words = phone.switch_on().start_at("/settings").page.locator("[data-without-signal]")
    expect(words).to_have_text("yes")
    phone.context.add_init_script(WITHOUT_WORKERS)
    phone.screen.start_at("/settings")
    expect(words).to_contain_text("no: this browser cannot")


def test_storage_that_stays_is_asked_for_again_on_another_day(phone):
    phone.context.add_init_script(NEVER_GRANTED)
    phone.screen.start_at("/settings")
    for asked in (1, 1):
        act(phone, "describeNew", "cash-box", {"name": "Green tin"})
        assert phone.screen.page.evaluate("asked") == asked
    ask(phone, "store/remembered", "remember", "asked-to-persist", "2026-01-01 false")
    act(phone, "describeNew", "cash-box", {"name": "Red tin"})
    phone.screen.page.wait_for_function("() => asked === 2")


def test_a_browser_that_is_too_old_is_told_so(server, new_phone):
    phone = new_phone(server.address)
    phone.switch_on()
    phone.context.add_init_script(TOO_OLD)
    phone.screen.page.goto(server.address)
    expect(phone.screen.page.locator("h1")).to_have_text("This browser is too old for Boltfair")
    expect(phone.screen.page.locator("main")).to_contain_text("iOS 16.4")
    # nothing of the app began
    assert all("undefined" in line for line in phone.trouble)
    phone.trouble.clear()


def test_lengths_that_the_core_has_not_written_yet_are_an_ellipsis(stocked_phone):
    phone = stocked_phone()
    phone.context.add_init_script(WORDS_HELD)
    lines = phone.screen.start_at("/buy/list").page.locator("[data-list-lines]")
    expect(lines).to_contain_text("…")
    expect(lines).not_to_contain_text("undefined")


def test_the_service_worker_starts_without_a_warning(server, new_phone):
    phone = new_phone(server.address)
    phone.switch_on()
    told = []
    phone.context.on(
        "serviceworker", lambda worker: worker.on("console", lambda message: told.append(message.text))
    )
    phone.screen.start_at("/buy").wait_until_ready_offline()
    assert phone.context.service_workers
    assert told == []
