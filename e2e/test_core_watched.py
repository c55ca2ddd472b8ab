"""The phone's core is watched: one that answers no more is started again, a slow one is waited for."""

import pytest
from playwright.sync_api import expect

from .shop import ask

# what is sent to the core is lost while the page says so
LOSE = """
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (...sent) {
      if (!self.silent) post.apply(this, sent);
    };
"""
ASK_IN_VAIN = """async () => {
  const { call } = await import('/core/core-client.js');
  self.silent = true;
  self.told = call('read_money', { text: '4.50', currency: 'EUR' }).then(JSON.stringify, String);
}"""


@pytest.fixture
def phone(new_phone, server):
    """A phone with a clock that the test sets forward."""
    made = new_phone(server.address)
    made.switch_on().page.clock.install()
    return made


def test_a_line_on_which_the_core_takes_a_minute_is_waited_for(phone):
    held = []
    phone.context.route("**/core.json", lambda route: held.append(route))
    page = phone.screen.page
    with page.expect_request("**/core.json"):
        page.goto(f"{phone.address}/buy")
    page.clock.fast_forward("01:00")
    expect(page.get_by_role("alert")).to_have_count(0)
    for route in held:
        route.continue_()
    held.clear()
    expect(page.get_by_role("heading", name="Buy")).to_be_visible()


def test_a_core_that_answers_no_more_is_started_again(phone):
    phone.context.add_init_script(LOSE)
    page = phone.screen.start_at("/buy").page
    page.evaluate(ASK_IN_VAIN)
    page.clock.fast_forward("00:59")
    page.evaluate("() => { self.silent = false; }")
    page.clock.fast_forward("00:02")
    assert "hung and was started again" in page.evaluate("() => self.told")
    assert ask(phone, "calculating", "readMoney", "4.50")["amount"] == 450
