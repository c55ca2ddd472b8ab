"""Driving a phone while measuring.js looks on."""

import json
import time
from functools import partial
from pathlib import Path

from e2e.phone import ARGUMENTS
from tests.chromium import find_chromium

HERE = Path(__file__).parent
MEASURING = (HERE / "measuring.js").read_text(encoding="utf-8")
MEASURING_WORKER = (HERE / "measuring_worker.js").read_text(encoding="utf-8")
FIXTURES = HERE.parent.parent / "demo_fixtures"
THROTTLE = 4
# how long a finger is on the glass in a tap: common practice, no source
FINGER_DOWN_S = 0.06
MID_RANGE_PHONE = {
    "viewport": {"width": 360, "height": 740},
    "device_scale_factor": 2,
    "is_mobile": True,
    "has_touch": True,
}

# where to tap an element; what lies under another is brought to the top first
MIDDLE = """async (selector) => {
  const element = document.querySelector(selector);
  const middle = () => {
    const { x, y, width, height } = element.getBoundingClientRect();
    return { x: x + width / 2, y: y + height / 2 };
  };
  const lies = ({ x, y }) => element.contains(document.elementFromPoint(x, y));
  if (!lies(middle())) {
    element.scrollIntoView();
    for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
  }
  if (!lies(middle())) throw new Error(`${selector} cannot be tapped`);
  return middle();
}"""
# as taps would, through the app's own actions: 40 records
KEEP_RECORDS = """async ({ sizes, cloths }) => {
  const { describeNew, state } = await import('/data/actions.js');
  for (const size of sizes) await describeNew('piece', size);
  for (const cloth of cloths) await describeNew('cloth', cloth);
  for (let n = 0; n < 24; n += 1) {
    const [size, cloth] = [sizes[n % sizes.length], cloths[n % cloths.length]];
    await describeNew('list-line', {
      name: cloth.name, for_what: size.name, quantity: 12 + n, length_to_buy: 500 + 100 * n,
      cost: cloth.price, bought: n % 2 === 1,
    });
  }
  for (let n = 1; n <= 8; n += 1) {
    await state('checklist-signature', {
      tool: 'rotary cutter', cloth: 'lawn', person: 'Imke', day: `2026-11-0${n}`, ticked: [], skipped: 'seen',
    });
  }
}"""


def fixture(name):
    """Read one of the demo's files."""
    return json.loads((FIXTURES / name).read_text(encoding="utf-8"))


class PhoneAtWork:
    """A phone whose pages run at 4× throttle and are measured; a context manager.

    Takes: profile, a folder that lasts from one start of the browser to the next.
    """

    def __init__(self, playwright, profile, address):
        self.start = partial(
            playwright.chromium.launch_persistent_context,
            profile,
            executable_path=find_chromium(whole=True),
            args=ARGUMENTS,
            **MID_RANGE_PHONE,
        )
        self.address = address
        self.context = None

    def __enter__(self):
        self.context = self.start()
        return self

    def __exit__(self, *_):
        self.context.close()

    def visit(self, path):
        """Open an address and wait until all is kept for offline; returns the page."""
        page = self.context.pages[0]
        page.goto(self.address + path)
        page.locator("html[data-offline-ready]").wait_for(state="attached")
        return page

    def open(self, path, usable):
        """Open an address in a new tab at 4× throttle, until an element matching `usable` is painted."""
        page = self.context.new_page()
        page.add_init_script(f"{MEASURING}\nbenchmark.watch({json.dumps(usable)});")
        self.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": THROTTLE})
        page.goto(self.address + path, wait_until="commit")
        page.evaluate("benchmark.usable")
        page.evaluate("Promise.all([benchmark.coreUp, benchmark.painted])")
        return page


def told(page):
    """Return what measuring.js has noted."""
    return page.evaluate("benchmark.told()")


def leave_at(playwright, profile, address, path, usable):
    """Open a screen and close the browser there."""
    with PhoneAtWork(playwright, profile, address) as phone:
        page = phone.context.pages[0]
        page.goto(address + path)
        page.locator(usable).first.wait_for(state="attached")
        page.evaluate("import('/data/store/remembered.js').then(({ settled }) => settled())")


def cold_start(playwright, profile, address, path, usable):
    """Start the browser, open one address and end it; returns what was noted."""
    with PhoneAtWork(playwright, profile, address) as phone:
        return told(phone.open(path, usable))


class Finger:
    """Taps a page as a finger does: it comes down on the glass, and goes up a moment later.

    Playwright's own tap has the page hear of every touch first, and each touch wait for that.
    """

    def __init__(self, page):
        self.page = page
        self.session = page.context.new_cdp_session(page)

    def tap(self, selector):
        """Tap the first element that matches."""
        point = self.page.evaluate(MIDDLE, selector)
        self._touch("touchStart", point)
        time.sleep(FINGER_DOWN_S)
        self._touch("touchEnd")

    def _touch(self, event, *points):
        self.session.send("Input.dispatchTouchEvent", {"type": event, "touchPoints": points})


class Timed:
    """Times answers of a page, and the core's part in each."""

    def __init__(self, page, how):
        self.page = page
        self.core = page.workers[0] if page.workers else None
        if self.core:
            self.core.evaluate(MEASURING_WORKER)
        page.evaluate(f"benchmark.{how}()")

    def answer_to(self, ask):
        """Ask, wait for the answer; returns ms to its paint, and the core's own part, both as measured."""
        with self.page.expect_console_message(lambda said: said.text.startswith('{"answered"')) as said:
            ask()
        told = json.loads(said.value.text)["answered"]
        took = self.core.evaluate("self.took") if self.core else []
        own = sum(call["ms"] for call in took if told["asked"] <= call["from"] < told["shown"])
        return told["ms"], own


def strokes(page, field, text, stroke, times):
    """Type a character behind a text and take it away again, in turn; returns (painted, core) of each, ms."""
    control = page.locator(f"[name='{field}']")
    control.fill(text)
    control.press("End")
    timed = Timed(page, "timeTyping")
    keys = (stroke, "Backspace") * (times // 2)
    return [timed.answer_to(partial(page.keyboard.press, key)) for key in keys]
