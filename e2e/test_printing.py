"""What prints: one page, black on white, without the controls."""

import re

import pytest

from .shop import act
from .stall import Stall, a_cloth
from .stocked import stock_phone


@pytest.fixture
def ground():
    return stock_phone


@pytest.fixture
def stocked_screen(screen):
    return screen


def printed(screen, tmp_path, format="A4"):
    """Print a screen; returns (pages, file)."""
    file = tmp_path / "printed.pdf"
    screen.page.pdf(path=str(file), format=format, print_background=True)
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", file.read_bytes())), file


def controls_in_print(page):
    page.emulate_media(media="print")
    shown = page.evaluate("""() => [
      ...document.querySelectorAll('button, nav, .top, .dock, input[type=text], select'),
    ].filter((element) => element.getClientRects().length)
      .map((element) => element.outerHTML.slice(0, 80))""")
    page.emulate_media(media="null", color_scheme="null")
    return shown


def colours_in_print(page):
    page.emulate_media(media="print", color_scheme="dark")
    found = page.evaluate("""() => [...new Set([...document.querySelectorAll('main *')]
      .filter((element) => element.getClientRects().length)
      .map((element) => getComputedStyle(element).color))]""")
    paper = page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    page.emulate_media(media="null", color_scheme="null")
    return found, paper


@pytest.mark.parametrize("format", ["A4", "Letter"])
def test_the_shopping_list_prints_on_one_page(stocked_screen, tmp_path, format):
    stocked_screen.open("/buy/list")
    pages, file = printed(stocked_screen, tmp_path, format)
    assert pages == 1
    assert file.stat().st_size > 2000
    assert controls_in_print(stocked_screen.page) == []


def test_a_list_with_layouts_prints_on_one_page_and_a_layout_on_one(stocked_screen, tmp_path):
    page = stocked_screen.open("/buy/plan").page
    page.locator("[data-add]").tap()
    page.locator("[data-put]").tap()
    stocked_screen.wait_for_title("Shopping list")
    page.get_by_role("link", name="Layout of").wait_for()
    assert printed(stocked_screen, tmp_path)[0] == 1
    assert controls_in_print(page) == []
    page.get_by_role("link", name="Layout of").tap()
    page.locator("path.strip").first.wait_for()
    assert printed(stocked_screen, tmp_path)[0] == 1
    assert controls_in_print(page) == []


def test_a_checklist_and_a_signed_one_print_on_one_page(stocked_screen, tmp_path):
    stocked_screen.open("/make")
    signed = stocked_screen.page.locator("main .lines a").first.get_attribute("href")
    stocked_screen.open(signed)
    assert printed(stocked_screen, tmp_path)[0] == 1
    assert controls_in_print(stocked_screen.page) == []
    stocked_screen.open("/make/safe-cutting-checklist").fill({"tool": "rotary cutter", "cloth": "lawn"})
    stocked_screen.page.locator("[data-must]").first.wait_for()
    assert printed(stocked_screen, tmp_path)[0] == 1
    assert controls_in_print(stocked_screen.page) == []


@pytest.mark.parametrize("ground", [None])
def test_a_packing_list_prints_on_one_page(screen, phone, tmp_path):
    stall = Stall(phone)
    home = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    # as long as a maker's whole range
    cloths = [act(phone, "describeNew", "cloth", a_cloth(f"Cloth {number}")) for number in range(12)]
    price = {"price": 600, "group": "Everyday"}
    products = [
        act(phone, "describeNew", "product", {"size": stall.size["Everyday"], "cloth": cloth, **price})
        for cloth in cloths
    ]
    went = {"day": "2026-01-03", "from": home, "to": stall.place, "quantity": 8}
    for product in [*products, *stall.product.values()]:
        act(phone, "state", "move", {**went, "product": product})
    screen.open("/count/pack")
    screen.page.get_by_role("button", name="Tick all").wait_for()
    assert printed(screen, tmp_path)[0] == 1
    assert controls_in_print(screen.page) == []
    screen.page.emulate_media(media="print")
    shown = screen.page.locator("main").inner_text()
    assert "From Home shelf to Quay stall" in shown
    assert "Cloth 11" in shown and "144 pieces" in shown
    screen.page.emulate_media(media="null")


def test_print_is_black_on_white_in_the_dark_theme_too(stocked_screen):
    stocked_screen.open("/buy/list")
    colours, paper = colours_in_print(stocked_screen.page)
    assert paper == "rgb(255, 255, 255)"
    assert set(colours) <= {"rgb(0, 0, 0)", "rgb(34, 34, 34)"}
