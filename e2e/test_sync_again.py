"""When sync is tried again: at once where somebody looks, within seconds of a signal."""

import pytest

from .shop import act, ask

SYNC = "**/api/v1/sync"
FAIL_OFTEN = """async () => {
  const { syncNow } = await import('/data/sync.js');
  for (let times = 0; times < 9; times += 1) await syncNow();
}"""
# as a tap on a link does: nothing is loaded anew
GO = """(path) => {
  const link = Object.assign(document.createElement('a'), { href: path });
  document.body.append(link);
  link.click();
  link.remove();
}"""
SENT = """async (most) => {
  const { onRecords, waiting } = await import('/data/records.js');
  await new Promise((resolve, reject) => {
    const look = () => waiting().count === 0 && resolve();
    onRecords(look);
    look();
    setTimeout(() => reject(new Error('it still waits')), most);
  });
}"""
# within 15 s; as much again for a machine that is busy. Otherwise it would be minutes
SOON_MS = 30_000


@pytest.fixture
def unheard(paired):
    """A phone with something to send, whose sync has failed so often that it waits for minutes."""
    phone = paired("Imke's phone")
    phone.expected.append("ERR_FAILED")
    phone.context.route(SYNC, lambda route: route.abort())
    phone.box = act(phone, "describeNew", "cash-box", {"name": "Green tin", "usual_float": 4000})
    phone.screen.page.evaluate(FAIL_OFTEN)
    assert ask(phone, "records", "waiting")["count"] == 1
    return phone


@pytest.mark.parametrize("where", ["/settings", "/review", "/review/2026-05-02/cash/{box}"])
def test_it_is_tried_at_once_where_somebody_looks(unheard, where):
    page = unheard.screen.page
    page.evaluate(GO, "/buy")
    unheard.screen.wait_for_title("Buy")
    unheard.context.unroute(SYNC)
    page.evaluate(GO, where.format(box=unheard.box))
    page.evaluate(SENT, SOON_MS)


@pytest.mark.parametrize("target, event", [("window", "online"), ("document", "visibilitychange")])
def test_it_is_tried_within_seconds_of_a_signal_even_if_that_takes_a_while_to_hold(unheard, target, event):
    page = unheard.screen.page
    # the first try after it may still fail
    with page.expect_event("requestfailed"):
        page.evaluate(f"{target}.dispatchEvent(new Event('{event}'))")
    unheard.context.unroute(SYNC)
    page.evaluate(SENT, SOON_MS)


def test_a_request_that_was_sent_without_a_signal_is_not_waited_for(paired):
    phone = paired("Imke's phone")
    phone.expected += ["ERR_FAILED", "ERR_ABORTED"]
    page, held = phone.screen.page, []

    def hold_the_first(route):
        if held:
            route.fallback()
        else:
            held.append(route)

    phone.context.route(SYNC, hold_the_first)
    with page.expect_request(SYNC):
        act(phone, "describeNew", "cash-box", {"name": "Green tin", "usual_float": 4000})
    page.evaluate("dispatchEvent(new Event('online'))")
    page.evaluate(SENT, SOON_MS)


COUNTED_OUT = """async () => {
  const { ownChanges } = await import('/data/store/own-changes.js');
  const { remember } = await import('/data/store/remembered.js');
  const ms = Date.now() + 59_000;
  await remember('clock', { ms, counter: 9999 });
  const { describeNew } = await import('/data/actions.js');
  for (const name of ['Red tin', 'Blue tin']) await describeNew('cash-box', { name });
  return ownChanges().map(({ stamp }) => [Number(stamp.slice(0, 13)) - ms, stamp.slice(13, 19)]);
}"""


def test_after_a_millisecond_that_another_phone_counted_out_comes_the_next(phone):
    page = phone.screen.open("/settings").page
    assert page.evaluate(COUNTED_OUT) == [[1, "-0000-"], [1, "-0001-"]]
