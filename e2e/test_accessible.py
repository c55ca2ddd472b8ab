"""Everybody can use it: axe-core, contrast, targets, keyboard, large text, narrow screens."""

import re
import shutil

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from .phone import Phone
from .stocked import stock

SCREENS = [
    "/buy", "/buy/list", "/buy/pieces", "/buy/cloths", "/buy/strip-length", "/buy/elastic-cut-length",
    "/buy/fabric-per-dozen", "/buy/cloth-compare", "/buy/remnant-yield", "/make",
    "/make/safe-cutting-checklist", "/settings", "/no/such-screen",
]  # fmt: skip
RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
    "resultTypes": ["violations"],
}
# elements a person aims at, but links within a sentence (WCAG 2.2, 2.5.8 exempts those)
TOO_SMALL = """(least) => [...document.querySelectorAll('button, summary, select, input, .places a, .ways a, .lines a, .top a')]
  .filter((element) => !element.closest('[hidden], details:not([open]) > :not(summary)'))
  .map((element) => {
    const aim = element.type === 'checkbox' ? element.closest('label, .control') : element.closest('.control') ?? element;
    const box = (element.tagName === 'INPUT' || element.tagName === 'SELECT' ? aim : element).getBoundingClientRect();
    return [element.outerHTML.slice(0, 90), box.width, box.height];
  })
  .filter(([, width, height]) => width > 0 && (height < least - 2.5 || width < least - 2.5))"""
CONTRASTS = """() => {
  const rgb = (text) => text.match(/[\\d.]+/g).slice(0, 3).map(Number);
  const light = (parts) => {
    const [r, g, b] = parts.map((part) => part / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor;
      if (!colour.startsWith('rgba') || !colour.endsWith(', 0)')) return rgb(colour);
    }
    return [255, 255, 255];
  };
  const found = [];
  for (const element of document.querySelectorAll('#app *')) {
    const text = [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
    if (!text || element.closest('svg, [hidden], option') || !element.getClientRects().length) continue;
    const [one, other] = [light(rgb(getComputedStyle(element).color)), light(behind(element))].sort((a, b) => b - a);
    found.push([element.outerHTML.slice(0, 80), (one + 0.05) / (other + 0.05)]);
  }
  return found;
}"""
SPILLED = """() => [...document.querySelectorAll('#app *')]
  .filter((element) => !element.closest('svg, .skip, select') && element.getClientRects().length)
  .filter((element) => element.getBoundingClientRect().right > innerWidth + 1)
  .map((element) => element.outerHTML.slice(0, 90))"""


@pytest.fixture(scope="module")
def stocked(start_chromium, tmp_path_factory, visited):
    """A profile with the scenario's records, for phones to start from."""
    profile = tmp_path_factory.mktemp("stocked") / "profile"
    shutil.copytree(visited[0], profile, symlinks=True)
    phone = Phone(start_chromium, profile, visited[1])
    stock(phone.switch_on(offline=True)).settle()
    phone.switch_off()
    return profile, visited[1]


def phone_on(new_phone, stocked, **like):
    phone = new_phone(stocked[1], stocked[0], **like)
    phone.switch_on(offline=True)
    return phone.screen


def show(screen, path):
    """Open a screen and bring it to its fullest: filled in, with an answer opened."""
    screen.open(path)
    page = screen.page
    if path.startswith("/buy/") and page.locator("form[data-calculator]").count():
        for chip in page.locator(".start-from").all():
            chip.locator("button").first.tap()
        if path.endswith("remnant-yield"):
            screen.fill({"width": "60", "length": "45"})
        if path.endswith("elastic-cut-length"):
            page.get_by_role("button", name="Add a test knot").tap()
        if page.locator(".dock summary").count():
            page.locator(".dock summary").first.tap()
            expect(page.locator(".dock .why-told")).to_be_visible()
    if path.endswith("checklist"):
        screen.fill({"tool": "rotary cutter", "cloth": "lawn"})
        expect(page.locator("[data-must]").first).to_be_visible()
    return page


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_any_screen(new_phone, stocked, scheme):
    screen = phone_on(new_phone, stocked, color_scheme=scheme)
    found = {}
    for path in [*SCREENS, first_signature(screen)]:
        told = violations(show(screen, path))
        if told:
            found[path] = told
    assert found == {}


def test_axe_finds_nothing_while_something_is_said(new_phone, stocked):
    screen = phone_on(new_phone, stocked)
    screen.open("/buy/list")
    screen.page.get_by_role("button", name="Take Elastic off the list").tap()
    screen.said("Elastic is off the list")
    assert violations(screen.page) == []


def violations(page):
    """Run axe-core on the whole page at once: what scrolls beneath the dock is not covered by it."""
    page.set_viewport_size({"width": 390, "height": page.evaluate("document.documentElement.scrollHeight")})
    told = Axe().run(page, options=RULES).response["violations"]
    page.set_viewport_size({"width": 390, "height": 844})
    return [(rule["id"], [node["html"][:120] for node in rule["nodes"]]) for rule in told]


def first_signature(screen):
    screen.open("/make")
    link = screen.page.locator(".lines a").first
    return link.get_attribute("href")


def test_text_has_a_contrast_of_seven_in_the_bright_theme(new_phone, stocked):
    screen = phone_on(new_phone, stocked, color_scheme="light")
    for path in SCREENS:
        page = show(screen, path)
        contrasts = page.evaluate(CONTRASTS)
        assert len(contrasts) > 3
        assert [(text, ratio) for text, ratio in contrasts if ratio < 7] == []


def test_everything_to_tap_is_48_pixels_or_more(new_phone, stocked):
    screen = phone_on(new_phone, stocked)
    small = {path: show(screen, path).evaluate(TOO_SMALL, 48) for path in SCREENS}
    assert {path: found for path, found in small.items() if found} == {}


@pytest.mark.parametrize(
    ("viewport", "text"),
    [((320, 640), 100), ((390, 844), 200), ((844, 390), 100), ((1280, 800), 100)],
    ids=["320 wide", "200 % text", "on its side", "wide"],
)
def test_nothing_is_cut_off(new_phone, stocked, viewport, text):
    size = {"width": viewport[0], "height": viewport[1]}
    screen = phone_on(new_phone, stocked, viewport=size)
    spilled = {}
    for path in SCREENS:
        page = show(screen, path)
        # what the browser's own text size does to pages that measure in rem
        page.evaluate("(percent) => { document.documentElement.style.fontSize = `${percent}%`; }", text)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
        found = page.evaluate(SPILLED)
        if found:
            spilled[path] = found
    assert spilled == {}


def test_the_keyboard_reaches_everything_in_order_and_shows_where_it_is(new_phone, stocked):
    screen = phone_on(new_phone, stocked)
    page = show(screen, "/buy/fabric-per-dozen")
    wanted = page.evaluate(
        "[...document.querySelectorAll('a[href], button:not(:disabled), input, select, summary')]"
        ".filter((element) => element.getClientRects().length).length"
    )
    page.evaluate("document.activeElement.blur(); scrollTo(0, 0)")
    reached = set()
    for _ in range(wanted + 5):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
        place, shown = page.evaluate("""() => {
          const element = document.activeElement;
          const ring = [element, element.closest('.control')].filter(Boolean)
            .some((part) => getComputedStyle(part).outlineStyle !== 'none' && parseFloat(getComputedStyle(part).outlineWidth) >= 2);
          return [[...document.querySelectorAll('*')].indexOf(element), ring];
        }""")
        assert shown, page.evaluate("document.activeElement.outerHTML")
        reached.add(place)
    assert len(reached) >= wanted


def test_the_focus_and_the_title_move_to_a_new_screen(new_phone, stocked):
    screen = phone_on(new_phone, stocked)
    screen.open("/buy")
    link = screen.tab_to(screen.page.get_by_role("link", name=re.compile("^Strip")))
    link.press("Enter")
    screen.wait_for_title("Strip")
    expect(screen.page.locator("main")).to_be_focused()
    expect(screen.page).to_have_title("Strip · Boltfair")
