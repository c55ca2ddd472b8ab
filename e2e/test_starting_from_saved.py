"""Starting a form from a saved size or cloth: her numbers, in their own units, and nobody else's."""

import pytest
from playwright.sync_api import expect

from .scenario import CLOTHS_TYPED, SIZES_TYPED, cloth_given, size_given

STRIP = {"strip_length": 482, "strip_width": 110}
STRIP_TYPED = {"strip_length": "482", "strip_width": "110"}


@pytest.fixture
def fabric(screen):
    """The form of the cloth to buy, with a strip in it."""
    screen.open("/buy/fabric-per-dozen")
    screen.fill(STRIP_TYPED)
    return screen


@pytest.mark.parametrize("path", ["/buy/pieces", "/buy/cloths"])
def test_with_nothing_saved_the_first_is_worked_out(screen, path):
    page = screen.open(path).page
    expect(page.get_by_role("link", name="Work out the first")).to_be_visible()


def test_a_cloth_saved_without_a_price_does_not_take_the_last_ones(fabric):
    cloth = dict(CLOTHS_TYPED["Seagrass lawn"])
    fabric.fill({**cloth, "price": ""})
    fabric.save("cloth", "Seagrass lawn")
    fabric.fill({"price": "99"})
    fabric.chip("Seagrass lawn").tap()
    fabric.answers("fabric-per-dozen", {**STRIP, **cloth_given("Seagrass lawn"), "price": None})


def test_a_cloth_taken_twice_into_a_comparison_keeps_each_row_in_its_own_units(fabric):
    fabric.fill(CLOTHS_TYPED["Seagrass lawn"])
    fabric.save("cloth", "Seagrass lawn")
    fabric.open("/buy/cloth-compare")
    fabric.chip("Seagrass lawn").tap()
    expect(fabric.page.locator("details.row summary").first).to_have_text("Seagrass lawn")
    fabric.page.get_by_role("button", name="Add a cloth").tap()
    fabric.unit_of("cloths.1.shop_increment").select_option("yd")
    gauze = {"name": "gauze", "bolt_width": "132", "shrink_length": "6", "shrink_width": "4",
             "shop_increment": "1/8", "price": "10.20"}  # fmt: skip
    fabric.fill({**STRIP_TYPED, **{f"cloths.1.{name}": text for name, text in gauze.items()}})
    values = {"name": "gauze", "bolt_width": 1320, "shrink_length": 6, "shrink_width": 4,
              "shop_increment": 114.3, "price": 1020, "price_length": 1000}  # fmt: skip
    lawn = {"name": "Seagrass lawn", **cloth_given("Seagrass lawn")}
    fabric.page.locator("details.row summary").first.tap()
    fabric.fill({"cloths.0.price": "9.90"})
    fabric.answers("cloth-compare", {**STRIP, "cloths": [{**lawn, "price": 990}, values]})
    fabric.chip("Seagrass lawn").tap()
    fabric.answers("cloth-compare", {**STRIP, "cloths": [lawn, values]})
    expect(fabric.page.locator("details.row")).to_have_count(2)


def test_two_cloths_without_a_name_are_compared_as_two(fabric):
    for price in ("8.90", "9.90"):
        fabric.fill({**CLOTHS_TYPED["Seagrass lawn"], "price": price})
        fabric.step("cloth-compare").tap()
        fabric.wait_for_title("Which cloth")
        fabric.open("/buy/fabric-per-dozen")
    cloth = cloth_given("Seagrass lawn")
    cloths = [{"name": "cloth 1", **cloth, "price": 890}, {"name": "cloth 2", **cloth, "price": 990}]
    fabric.open("/buy/cloth-compare").answers("cloth-compare", {**STRIP, "cloths": cloths})


def test_what_was_typed_last_with_a_size_comes_back_in_its_unit(screen):
    screen.open("/buy/strip-length")
    for size in ("Everyday", "Grand"):
        screen.fill(SIZES_TYPED[size])
        screen.save("piece", size)
    screen.unit_of("usable_width").select_option("in")
    screen.fill({"usable_width": "53 1/4"})
    screen.answers("strip-length", {**size_given("Grand"), "usable_width": 1352.55})
    screen.chip("Everyday").tap()
    expect(screen.page.locator(".chip[aria-pressed=true]")).to_have_text("Everyday")
    screen.unit_of("usable_width").select_option("mm")
    screen.fill({"usable_width": "1300"})
    screen.answers("strip-length", {**size_given("Everyday"), "usable_width": 1300})
    screen.chip("Grand").tap()
    screen.answers("strip-length", {**size_given("Grand"), "usable_width": 1352.55})
    expect(screen.field("usable_width")).to_have_attribute("data-unit", "in")
    expect(screen.field("usable_width")).to_have_value("53 1/4")
