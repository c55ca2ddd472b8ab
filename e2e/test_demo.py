"""The demo's year on a phone: every screen has words and figures, and a piece is sold from it."""

import re

import pytest
from playwright.sync_api import expect

from .shop import Shop, ask, exchange, pair

BROKEN = re.compile(r"\bNaN\b|\bundefined\b|\[object|\bnull\b|\bInfinity\b")
# visible lists of the screen's own that hold nothing, with no paragraph on the screen to say why
EMPTY = """() => [...document.querySelectorAll('main ul, main ol, main dl, main tbody')]
    .filter((list) => list.checkVisibility() && !list.children.length)
    .filter((list) => !list.closest('section, main').querySelector('p'))
    .map((list) => list.outerHTML.slice(0, 120))"""
QUIET = """() => document.querySelector('main').innerText.trim().split(/\\s+/).length > 3
    && !/Working it out|Adding up/.test(document.querySelector('main').innerText)"""
PLACES = ("/buy", "/buy/list", "/buy/pieces", "/buy/cloths", "/buy/plan", "/make", "/make/cutting",
          "/make/remnant", "/make/cuts", "/make/safe-cutting-checklist", "/count", "/count/pack",
          "/count/stock", "/sell", "/sell/today", "/sell/refund", "/review", "/settings",
          "/settings/whats-new")  # fmt: skip
KINDS = ("business", "piece", "cloth", "remnant", "elastic", "thread", "supply", "method", "product",
         "offer", "place", "cash-box", "market", "booking", "person")  # fmt: skip


@pytest.fixture(scope="session")
def demo(server):
    """A business with the demo's year in it."""
    shop = Shop(server)
    shop.console("demo")
    return shop


@pytest.fixture
def demo_phone(demo, new_phone, known):
    """Make phones that hold all of the demo's year: `demo_phone("helper")`."""

    def make(role="owner"):
        phone = new_phone(demo.address, known)
        phone.switch_on().open("/settings")
        pair(phone, demo.code(role), f"A phone of an {role}")
        exchange(phone)
        return phone

    return make


def look(phone, path, by_link=False):
    """Open a screen, and fail on figures that are none, and on lists without words."""
    page = (phone.screen.follow if by_link else phone.screen.open)(path).page
    page.wait_for_function(QUIET)
    phone.screen.settle()
    broken = BROKEN.findall(page.locator("main").inner_text())
    assert not broken, (path, broken)
    assert page.evaluate(EMPTY) == [], path


@pytest.mark.parametrize("role", ["owner", "helper"])
def test_every_screen_of_the_demo_has_words_and_figures(demo_phone, role):
    phone = demo_phone(role)
    day = max(fact["day"] for fact in ask(phone, "facts", "factsOf", "sale"))
    kinds = [*KINDS, *(["overhead"] if role == "owner" else [])]
    one = {kind: ask(phone, "records", "records", kind) for kind in kinds}
    paths = [*PLACES, *(f"/settings/{kind}" for kind in kinds)]
    paths += [f"/settings/{kind}/{found[0]['id']}" for kind, found in one.items() if found]
    market_day = max(fact["day"] for fact in ask(phone, "facts", "factsOf", "cash-count"))
    box = one["cash-box"][0]["id"]
    paths += [f"/review/{day}", f"/review/{market_day}", f"/review/{market_day}/cash/{box}",
              f"/review/{market_day}/moved/{box}"]  # fmt: skip
    if role == "owner":
        sold = max(ask(phone, "facts", "factsOf", "sale"), key=lambda sale: sale["at"])
        paths += ["/review/markets", f"/review/markets/{sold['booking']}", "/review/year"]
    facts = {"count-close": "/count/closed", "sale": "/sell/sale", "cut": "/make/cuts",
             "checklist-signature": "/make/signed"}  # fmt: skip
    paths += [f"{path}/{ask(phone, 'facts', 'factsOf', kind)[0]['id']}" for kind, path in facts.items()]
    # owners open each from a cold start, helpers go from one to the next
    for path in paths:
        look(phone, path, by_link=role == "helper")


def test_a_piece_is_sold_in_the_demo(demo_phone):
    phone = demo_phone()
    page = phone.screen.open("/sell").page
    page.fill("#spot-name", "Sandholt Quay")
    page.get_by_role("button", name="Open the stall").tap()
    tiles = page.locator(".sell-tiles button[data-product]")
    expect(tiles.first).to_be_visible()
    assert tiles.count() >= len(ask(phone, "records", "records", "product"))
    tiles.first.tap()
    page.locator("[data-pay=cash]").first.tap()
    page.locator(".sell-last-sale").wait_for()
    exchange(phone)
    look(phone, "/sell")
    look(phone, "/sell/today")
    look(phone, "/review")
