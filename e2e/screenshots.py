"""Take the README's pictures again, from the scenario: `python -m e2e.screenshots`."""

import argparse
import json
import sys
import tempfile
import zlib
from datetime import datetime
from functools import partial
from pathlib import Path
from random import Random

from playwright.sync_api import expect, sync_playwright

from tests.chromium import find_chromium

from .phone import Phone
from .scenario import CLOTHS
from .server import Server
from .sewing import TOOLS, begin, end, open_batch, start_batch
from .shop import act, ask
from .stall import PRICES, Stall, open_on_the_spot
from .stocked import stock

FOLDER = Path(__file__).parent / "screenshots"
DAY = "2026-05-02"
ELASTIC = {"name": "Braided, 6 mm", "roll_length": 50000, "price": 790, "knot_takeup": 31}
REMNANT = {"name": "Lawn, blue basket", "width": 900, "length": 700, "use_first": True}


def take(phone, folder, scheme):
    """Take every picture in one colour scheme."""
    screen = stock(phone.switch_on())
    page = screen.page

    def picture(name):
        page.evaluate("scrollTo(0, 0)")
        page.evaluate("document.activeElement.blur()")
        page.screenshot(path=str(folder / f"{name}-{scheme}.png"))

    screen.open("/buy")
    expect(page.locator("[data-list-lines]")).to_contain_text("2.60 m")
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
    expect(page.locator(".buy-ranking li")).to_have_count(3)
    picture("which-cloth")
    screen.open("/make/safe-cutting-checklist").fill({"tool": "rotary cutter", "cloth": "lawn"})
    page.locator("[data-must]").first.wait_for()
    page.locator(".verdict").evaluate("(element) => element.scrollIntoView()")
    page.screenshot(path=str(folder / f"checklist-{scheme}.png"))
    take_cutting(phone, folder, scheme, picture)
    take_remnant(phone, picture)
    stall = take_counts(phone, picture)
    take_day(phone, stall, picture)
    take_sale(phone, stall, picture)
    take_invented(phone, picture)
    phone.switch_off()


def take_cutting(phone, folder, scheme, picture):
    """Take a plan, the layouts of its remnant and its bolt, and a cut."""
    page = phone.screen.open("/make/cutting").page
    lawn = page.locator("#cut-cloth option", has_text="Seagrass lawn").get_attribute("value")
    act(phone, "describeNew", "remnant", {**REMNANT, "cloth": lawn})
    page.select_option("#cut-cloth", lawn)
    for size, dozens in (("Everyday", 2), ("Petite", 1), ("Grand", 1)):
        page.select_option("#cut-size", label=size)
        for _ in range(dozens):
            page.locator("[data-add]").tap()
    page.locator(".more > summary").tap()
    page.locator(f"[name=tear-{lawn}]").uncheck()
    page.locator(".more > summary").tap()
    picture("cutting-plan")
    page.locator("[data-lay-out]").tap()
    page.locator("[data-looking=false]").wait_for()
    picture("layout")
    for name, laid in zip(
        ("layout-remnant", "layout-bolt"), page.locator(".make-laid .drawing").all(), strict=True
    ):
        laid.screenshot(path=str(folder / f"{name}-{scheme}.png"))
    signed = {"tool": "rotary cutter", "cloth": "lawn", "person": "Imke", "day": today(), "ticked": []}
    act(phone, "state", "checklist-signature", {**signed, "skipped": ""})
    ask(phone, "store/remembered", "remember", "person", "Imke")
    page.locator("[data-to-cuts]").tap()
    page.locator("[data-next]").tap()
    page.locator("[data-back]").wait_for()
    picture("cut")


def take_remnant(phone, picture):
    """Take what a remnant could give, and a cut of it; then take its prices and elastic away again."""
    sizes = {record["name"]: record["id"] for record in ask(phone, "records", "records", "piece")}
    priced = [
        act(phone, "describeNew", "product", {"size": sizes[name], "price": price, "group": name})
        for name, price in PRICES.items()
    ]
    elastic = act(phone, "describeNew", "elastic", ELASTIC)
    page = phone.screen.open("/make/remnant").page
    # all that fit, whatever the plan still wants
    page.select_option("#mix-many", "fit")
    page.locator("[data-worth='7897'][data-looking=false]").wait_for()
    picture("remnant")
    page.locator("[data-cut]").tap()
    for _ in range(2):
        page.locator("[data-next]").tap()
    page.locator("[data-back]").wait_for()
    picture("remnant-cut")
    for kind, ids in (("product", priced), ("elastic", [elastic])):
        for id in ids:
            act(phone, "putAway", kind, id)


def today():
    return datetime.now().date().isoformat()


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
    page.locator(".count-differences li").first.wait_for()
    picture("count-close")
    page.locator("[data-close]").tap()
    page.locator("[data-phone]").wait_for()
    act(phone, "stateAll", [["move", {**week_ago, "product": product}] for product in stall.product.values()])
    phone.screen.open("/count/pack")
    for number in range(3):
        page.locator(".tick input").nth(number).check()
    picture("pack")
    return stall


def take_day(phone, stall, picture):
    """Take the report of a market day, and its cash box being counted and differing."""
    booked = {"name": "Sandholt Quay Saturday", "days": [DAY], "place": stall.place}
    booking = act(phone, "describeNew", "booking", booked)
    made = list(facts_of(DAY, booking, stall))
    ask(phone, "copies", "takeIn", json.dumps({"format": "boltfair-copy", "schema": 1, "changes": made}))
    page = phone.screen.open(f"/review/{DAY}").page
    page.locator("[data-whole=true]").wait_for()
    picture("day-report")
    phone.screen.open(f"/review/{DAY}/cash/{stall.box}?booking={booking}")
    for value, pieces in ((5000, 1), (2000, 8), (1000, 7), (500, 9), (200, 21), (100, 14), (50, 12)):
        page.locator(f'[data-coin="{value}"] input').fill(str(pieces))
    expect(page.locator('[data-coin="50"] > :last-child')).to_have_text("€6.00")
    picture("cash-up")
    page.locator("[data-all]").tap()
    page.locator("[data-difference]").wait_for()
    picture("cash-up-differs")


def take_sale(phone, stall, picture):
    """Take the open stall with a basket of three, an offer used."""
    open_on_the_spot(phone.screen)
    page = phone.screen.page
    for what in (("Everyday", "Harbour check"), ("Everyday", "Seagrass lawn"), ("Everyday", "Seagrass lawn")):
        page.locator(f'[data-product="{stall.product[what]}"]').tap()
    page.locator('[data-total="1500"]').wait_for()
    picture("sell")


def take_invented(phone, picture):
    """Take what needs a year of work behind it: a batch, what a piece costs, what to bring and to sew."""
    page = phone.screen.open("/start").page
    page.get_by_role("button", name="Look at an invented year").tap()
    page.locator("[data-invented]").wait_for()
    signed = {
        "cloth": "lawn",
        "person": "Imke",
        "day": ask(phone, "clock", "today"),
        "ticked": [],
        "skipped": "",
    }
    for tool in TOOLS:
        act(phone, "state", "checklist-signature", {**signed, "tool": tool})
    ask(phone, "store/remembered", "remember", "person", "Imke")
    page = open_batch(phone, start_batch(phone))
    begin(page)
    end(page)
    picture("batch")
    page = phone.screen.open("/review/costs").page
    page.locator("[data-part]").first.wait_for()
    picture("costs")
    page = phone.screen.open("/review/price").page
    page.locator("[data-point]").first.wait_for()
    picture("prices")
    for path, there in (
        ("markets", "[data-verdict] [data-broke-even-at]"),
        ("next", "[data-pack]"),
        ("sew", "[data-looking=false]"),
        ("year", "[data-row]"),
    ):
        phone.screen.open(f"/review/{path}").page.locator(there).first.wait_for()
        picture(path)


def facts_of(day, booking, stall):
    """Make the sales of a day, its float and its lunch, as a copy holds them."""
    random = Random(day)
    where = {"day": day, "booking": booking}
    tin = where | {"box": stall.box}
    yield copied(day, 8.7, "cash-count", tin | {"moment": "float", "amount": 4000})
    yield copied(
        day, 12.6, "cash-movement", tin | {"direction": "taken out", "amount": 650, "reason": "lunch"}
    )
    for hour in sorted(min(9 + random.betavariate(2, 2.4) * 6, 14.9) for _ in range(58)):
        (size, cloth), pieces = random.choice(list(stall.product)), random.choice((1, 1, 1, 2, 3))
        price, offered = PRICES[size], size == "Everyday" and pieces == 3
        total = 1500 if offered else price * pieces
        line = {
            "product": stall.product[size, cloth],
            "quantity": pieces,
            "unit_price": price,
            "total": total,
        }
        offers = [{"offer": stall.offer, "times": 1, "saving": 300}] if offered else []
        sale = tin | {"place": stall.place, "lines": [line], "offers": offers, "amount": total}
        yield copied(day, hour, "sale", sale | {"payment": random.choice(("cash", "cash", "card"))})


def copied(day, hour, kind, fields):
    """Write a fact as a copy holds it; the hour is Berlin's in summer."""
    at = int((datetime.fromisoformat(f"{day}T00:00+02:00").timestamp() + hour * 3600) * 1000)
    id = f"{at:012x}"[:8] + "-" + f"{at:012x}"[8:] + "-7000-8000-" + f"{zlib.crc32(kind.encode()):012x}"
    return {"id": id, "kind": kind, "fields": fields, "at": at, "stamp": f"{at:013}-0000-{id}", "schema": 1}


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
                phone = Phone(
                    start,
                    Path(made) / scheme,
                    server.address,
                    color_scheme=scheme,
                    timezone_id="Europe/Berlin",
                )
                take(phone, FOLDER, scheme)
                if phone.trouble:
                    sys.exit("\n".join(phone.trouble))
    print(f"Took {len(list(FOLDER.glob('*.png')))} pictures in {FOLDER}")


if __name__ == "__main__":
    main()
