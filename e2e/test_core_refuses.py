"""A question that the core refuses: the screen says so in the answer's place, and asks again at a tap."""

import pytest
from playwright.sync_api import expect

from .sewing_ahead import Ahead

# what is sent to the core is spoilt while the page's session says which method
SPOIL = """
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (sent, ...more) {
      const spoilt = sessionStorage.getItem('spoilt');
      const text = spoilt && sent.text?.replace(`"method":"${spoilt}"`, '"method":"nothing"');
      post.call(this, text ? { ...sent, text } : sent, ...more);
    };
"""
SCREENS = (
    ("/review/markets", "markets_told", "[data-no-market-over]"),
    ("/review/year", "year_told", "[data-year]"),
    ("/review/next", "next_market", "[data-guess]"),
    ("/review/sew", "next_sewing", "[data-asks=hours]"),
    ("/review/costs", "cost_of_goods", "[data-not-made]"),
    ("/review/price", "prices_of_goods", "[data-not-made]"),
)


@pytest.fixture
def phone(phone):
    """A phone of a maker with two bookings ahead, whose questions can be spoilt."""
    phone.context.add_init_script(SPOIL)
    Ahead(phone)
    return phone


def test_a_refused_question_is_told_in_the_answers_place_and_asked_again(phone):
    for path, method, answered in SCREENS:
        phone.screen.page.evaluate("(method) => sessionStorage.setItem('spoilt', method)", method)
        page = phone.screen.start_at(path).page
        refused = page.locator("[data-refused]")
        expect(refused.get_by_role("alert")).to_contain_text("What you recorded is safe")
        expect(page.get_by_text("Adding up")).to_have_count(0)
        page.evaluate("() => sessionStorage.removeItem('spoilt')")
        refused.get_by_role("button", name="Try again").tap()
        expect(page.locator(answered).first).to_be_visible()
        expect(refused).to_have_count(0)
