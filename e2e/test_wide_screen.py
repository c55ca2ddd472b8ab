"""A wide screen shows beside each other what is to be compared; a narrow one, one after the other."""

import pytest
from playwright.sync_api import expect

from .cutting_table import CORD, furnish, lay_out
from .looks import look

WIDE, NARROW = {"width": 1000, "height": 700}, {"width": 390, "height": 844}


def beside(one, other):
    """Whether one stands left of the other and not above it."""
    left, right = one.bounding_box(), other.bounding_box()
    return left["x"] + left["width"] <= right["x"] and right["y"] < left["y"] + left["height"]


@pytest.fixture
def table(screen, phone):
    furnish(phone)
    return screen


def test_what_is_to_be_compared_stands_beside_each_other(table):
    page = lay_out(table, ("Grand", CORD, 2))
    pairs = [
        ("/make/cutting/layout", ".make-laid .drawing", ".make-laid > ol"),
        ("/make/cutting", "[data-wanted]", ".make-laid-out svg"),
        ("/buy/plan", "[data-wanted]", "[data-buys]"),
        ("/buy/strip-length", "form[data-calculator]", ".drawing-place"),
    ]
    for path, left, right in pairs:
        for size in (WIDE, NARROW):
            page.set_viewport_size(size)
            table.open(path)
            expect(page.locator(left).first).to_be_visible()
            if size is WIDE or path != "/make/cutting":
                page.locator(right).first.wait_for()
                found = beside(page.locator(left).first, page.locator(right).first)
                assert found == (size is WIDE), (path, size)
            else:
                expect(page.locator(right)).not_to_be_visible()
            assert look(table, "outOfPlace") == []
