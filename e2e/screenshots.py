"""Take the README's pictures again, from the scenario: `python -m e2e.screenshots`."""

import argparse
import sys
import tempfile
from functools import partial
from pathlib import Path

from playwright.sync_api import expect, sync_playwright

from tests.chromium import find_chromium

from .phone import Phone
from .scenario import CLOTHS
from .server import Server
from .shop import act
from .stall import Stall
from .stocked import stock

FOLDER = Path(__file__).parent / "screenshots"


def take(phone, folder, scheme):
    """Take every picture in one colour scheme."""
    screen = stock(phone.switch_on())
    page = screen.page

    def picture(name):
        page.evaluate("scrollTo(0, 0)")
        page.evaluate("document.activeElement.blur()")
        page.screenshot(path=str(folder / f"{name}-{scheme}.png"))

    screen.open("/buy")
    expect(page.locator("[data-list-lines]")).to_contain_text("260 cm")
    picture("list")
    screen.open("/buy/strip-length").chip("Everyday").tap()
    expect(screen.words_of("strip_length")).to_have_text("482 mm")
    picture("strip")
    screen.open("/buy/fabric-per-dozen").chip("Everyday").tap()
    screen.chip("Seagrass lawn").tap()
    screen.fill({"quantity": "60"})
    expect(screen.words_of("cost")).to_contain_text("23.14")
    picture("cloth-to-buy")
    screen.open("/buy/cloth-compare").chip("Everyday").tap()
    screen.fill({"quantity": "60"})
    for name in list(CLOTHS)[:3]:
        screen.chip(name).tap()
    expect(page.locator(".ranking li")).to_have_count(3)
    picture("which-cloth")
    screen.open("/make/safe-cutting-checklist").fill({"tool": "rotary cutter", "cloth": "lawn"})
    page.locator("[data-must]").first.wait_for()
    page.locator(".verdict").evaluate("(element) => element.scrollIntoView()")
    page.screenshot(path=str(folder / f"checklist-{scheme}.png"))
    take_counts(phone, picture)
    phone.switch_off()


def take_counts(phone, picture):
    """Take a stall being counted, what differs, and what is packed for it."""
    stall, page = Stall(phone), phone.screen.page
    stall.count()
    home = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    week_ago = {"day": "2026-01-03", "from": home, "to": stall.place, "quantity": 8}
    for product in stall.product.values():
        found = {"day": week_ago["day"], "place": home, "product": product, "quantity": 30, "reason": "found"}
        act(phone, "state", "set-aside", found)
    phone.screen.open("/count")
    page.locator("[data-which=closing]").tap()
    for number, product in enumerate(stall.product.values()):
        line = page.locator(f'[data-thing="{product}"]')
        line.locator("input").fill(str(10 + number % 3))
        expect(line.locator("[data-kept]")).to_be_visible()
    picture("count")
    page.locator("[data-to-close]").tap()
    page.locator(".differences li").first.wait_for()
    picture("count-close")
    page.locator("[data-close]").tap()
    page.locator("[data-phone]").wait_for()
    act(phone, "stateAll", [["move", {**week_ago, "product": product}] for product in stall.product.values()])
    phone.screen.open("/count/pack")
    for number in range(3):
        page.locator(".tick input").nth(number).check()
    picture("pack")


def main():
    """Run a server, and a phone for each colour scheme."""
    argparse.ArgumentParser(description=__doc__).parse_args()
    chromium = find_chromium()
    if not chromium:
        sys.exit("no Chromium that starts: `python -m tests` gets one, or says how")
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        start = partial(playwright.chromium.launch_persistent_context, executable_path=chromium)
        with Server(Path(made) / "data") as server:
            for scheme in ("light", "dark"):
                phone = Phone(start, Path(made) / scheme, server.address, color_scheme=scheme)
                take(phone, FOLDER, scheme)
                if phone.trouble:
                    sys.exit("\n".join(phone.trouble))
    print(f"Took {len(list(FOLDER.glob('*.png')))} pictures in {FOLDER}")


if __name__ == "__main__":
    main()
