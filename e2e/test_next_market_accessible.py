"""The next market for every hand and eye: the box, the guess, and the packing list by its plan."""

import pytest

from .shop import act, ask
from .sold import CHECK, Sold, open_next
from .stall import Stall
from .test_accessible import QUESTIONS, everything_is_reached
from .walked import WALKED, walk


def screens(phone, sold):
    """Walk through the screens, opened as far as they go: yields the name of each."""
    page = open_next(phone)
    check = page.locator(f"[data-bring-of='{sold.stall.product['Everyday', CHECK]}']")
    check.locator("summary").click()
    check.locator(".review-days").wait_for()
    yield "/review/next"
    plan = [{"product": sold.stall.product["Everyday", CHECK], "quantity": 9}]
    ask(phone, "plans", "keepPlan", "pack", sold.booking, plan)
    ask(phone, "packing", "beginPacking", sold.booking)
    page = phone.screen.open("/count/pack").page
    page.locator(f"[data-planned='{sold.booking}']").wait_for()
    ask(phone, "plans", "keepPlan", "pack", sold.booking, [{**plan[0], "quantity": 12}])
    page.locator("[data-plan]").wait_for()
    yield "/count/pack"


@pytest.fixture(scope="module")
def found(start_chromium, visited, tmp_path_factory):
    """What is wrong, by question and screen, from one walk through all; and the same with large text."""
    return walk(start_chromium, visited, tmp_path_factory.mktemp("next"), Sold, screens)


@pytest.mark.parametrize("question", WALKED)
def test_nothing_is_wrong_with_the_screens_of_the_next_market(found, question):
    assert found[question] == {}


def test_all_of_it_is_reached_and_set_by_keyboard(phone):
    sold = Sold(phone)
    page = open_next(phone)
    phone.screen.reload()
    page.locator("#capacity").wait_for()
    everything_is_reached(phone.screen)
    page.locator("#capacity").focus()
    page.keyboard.press("Home")
    page.locator("[data-capacity='1']").wait_for()
    page.keyboard.press("ArrowRight")
    page.locator("[data-capacity='2']").wait_for()
    page.get_by_role("button", name="Make the packing list, 2 pieces").focus()
    page.keyboard.press("Enter")
    phone.screen.wait_for_title("Pack")
    page.locator(f"[data-planned='{sold.booking}']").wait_for()


def test_the_guess_is_right_for_eye_and_hand(phone):
    Stall(phone).count()
    act(phone, "describeNew", "booking", {"name": "Barn fair", "days": ["2099-05-02"]})
    page = phone.screen.open("/review/next").page
    page.fill("#guess", "many")
    page.locator("#guess-problem").wait_for()
    for question, judge in QUESTIONS.items():
        assert judge(phone.screen) == [], question
    page.fill("#guess", "24")
    page.keyboard.press("Enter")
    page.locator("[data-from=guess]").wait_for()
    # from the top of the screen on
    phone.screen.reload()
    page.locator("[data-from=guess]").wait_for()
    everything_is_reached(phone.screen)
