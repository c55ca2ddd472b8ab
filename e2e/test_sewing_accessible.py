"""What to sew, and the sewing plan in Make, for every hand and eye."""

import pytest

from .sewing_ahead import Ahead, make_plan, open_plan
from .test_accessible import everything_is_reached
from .walked import WALKED, walk

PLANS = "[data-sewing-plans] [data-still]"


def screens(phone, _):
    """Walk through the screens, opened as far as they go: yields the name of each."""
    screen = phone.screen
    screen.open("/review/sew").page.locator("h1").wait_for()
    screen.page.locator("[data-asks], [data-worth]").first.wait_for()
    yield "what to sew, as it opens"
    page = open_plan(phone)
    for summary in page.locator("[data-batches] summary").all():
        summary.press("Enter")
    yield "what to sew"
    page.locator("[name=buy]").uncheck()
    page.locator("[data-why]").first.wait_for()
    yield "what to sew, of what is at home"
    page.locator("[name=buy]").check()
    page.locator("[data-make-plan]:not([disabled])").press("Enter")
    screen.wait_for_title("Make")
    page.locator(PLANS).first.wait_for()
    screen.hush()
    yield "the sewing plan"


@pytest.fixture(scope="module")
def found(start_chromium, visited, tmp_path_factory):
    """What is wrong, by question and screen, from one walk through all; and the same with large text."""
    return walk(start_chromium, visited, tmp_path_factory.mktemp("sewing"), Ahead, screens)


@pytest.mark.parametrize("question", WALKED)
def test_nothing_is_wrong_with_the_screens_of_sewing(found, question):
    assert found[question] == {}


def test_the_keyboard_reaches_all_of_them(phone):
    Ahead(phone)
    # opened anew, the focus is where it begins
    make_plan(phone)
    page = phone.screen.start_at("/review/sew").page
    page.locator("[data-looking=false]").wait_for()
    everything_is_reached(phone.screen)
    phone.screen.start_at("/make").page.locator(PLANS).first.wait_for()
    everything_is_reached(phone.screen)
