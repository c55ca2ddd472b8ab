"""The places at the bottom cover nothing for good: what scrolls beneath them is still a target."""

import pytest

from .looks import run_axe, sized
from .stall import Stall

ENDS_ABOVE = """() => {
  scrollTo(0, document.scrollingElement.scrollHeight);
  const places = document.querySelector('.places').getBoundingClientRect();
  return document.querySelector('main').getBoundingClientRect().bottom <= places.top + 1;
}"""
TARGET_SIZE = {"runOnly": {"type": "rule", "values": ["target-size"]}}


# a row of Settings is 60 px tall: one of these heights leaves a part of a row above the places
@pytest.mark.parametrize("height", [806, 824, 842])
def test_a_row_of_settings_that_lies_partly_beneath_the_places_is_no_small_target(phone, height):
    Stall(phone)
    page = phone.screen.open("/settings").page
    page.locator(".ways a").last.wait_for()
    with sized(phone.screen, 412, height):
        found = run_axe(page, TARGET_SIZE)
    assert [node["html"] for rule in found for node in rule["nodes"]] == []


def test_the_end_of_a_page_lies_above_the_places(phone):
    page = phone.screen.open("/settings").page
    page.locator(".ways a").last.wait_for()
    # some of it comes late
    page.wait_for_function(ENDS_ABOVE)
