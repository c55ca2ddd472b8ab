"""What a person does on a screen and sees there, by touch or by keyboard."""

import re
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import TimeoutError as TimeoutExpired
from playwright.sync_api import expect

from backend.core.catalogue import answer

NOT_SHOWN = Path(__file__).with_name("shown.js").read_text(encoding="utf-8").rstrip(";\n")
MOST_TABS = 150
# the page that asks for it has the store open, so that nothing is loaded for it
SETTLED = """() => document.getElementById('modules') &&
    import('/data/store/remembered.js').then(({ settled }) => settled()).then(() => null)"""
# the app's own title is there once it has started
IN_APP = "() => Boolean(document.getElementById('modules') && document.querySelector('h1'))"
GO = """(path) => {
  const link = document.body.appendChild(Object.assign(document.createElement('a'), { href: path }));
  link.click();
  link.remove();
}"""

HOLD_CORE = """async () => {
  (await import('/core/core-client.js')).foresee([]);
  const { postMessage } = Worker.prototype;
  const held = [];
  Worker.prototype.postMessage = function (...sent) { held.push([this, sent]); };
  self.letGo = () => {
    Worker.prototype.postMessage = postMessage;
    held.forEach(([worker, sent]) => worker.postMessage(...sent));
  };
}"""
# what is asked of the core never reaches it while the page's session names the method
HELD = """
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (sent, ...more) {
      const held = sessionStorage.getItem('held');
      if (!held || !sent.text?.includes(`"method":"${held}"`)) post.call(this, sent, ...more);
    };
"""
# notes what the core is asked, ahead or at once, and what of it is answered
LISTEN = """() => {
  self.asked = [];
  const post = coreWorker.postMessage.bind(coreWorker);
  coreWorker.postMessage = (message) => {
    const { id, ahead } = message;
    for (const text of ahead ?? [message.text]) {
      asked.push({ id, ahead: Boolean(ahead), ...JSON.parse(text) });
    }
    post(message);
  };
  const answeredTo = new Set();
  coreWorker.addEventListener('message', ({ data }) => answeredTo.add(data.id));
  // what is foreseen takes the place of what was before
  self.foreseen = (method) => {
    const latest = asked.findLast(({ ahead }) => ahead)?.id;
    if (!answeredTo.has(latest)) return [];
    return asked.filter(({ id, method: what }) => id === latest && what === method);
  };
  self.atOnce = (method) => asked.filter(({ ahead, method: what }) => !ahead && what === method);
}"""


class Screen:
    """One tab of a phone."""

    def __init__(self, page, address):
        self.page = page
        self.address = address

    def open(self, path):
        """Go to an address: by a link where the app is open, else as if it had been typed."""
        if self.page.evaluate(IN_APP):
            self.hush()
            return self.follow(path)
        return self.start_at(path)

    def start_at(self, path):
        """Load the app at an address as if it had been typed, once what was tapped before is written."""
        self.settle()
        self.page.goto(self.address + path)
        self.wait_for_title()
        return self

    def follow(self, path):
        """Go to an address as by a link to it."""
        # by one that leads nowhere, as two addresses may be one screen with other contents
        self.page.evaluate(GO, "/nowhere")
        self.wait_for_title("No such screen")
        title = self.page.query_selector("main h1")
        self.page.evaluate(GO, path)
        self.page.wait_for_function("(title) => !title.isConnected", arg=title)
        self.wait_for_title()
        return self

    def reload(self):
        """Load the screen anew, once what was tapped before is written."""
        self.settle()
        self.page.reload()
        self.wait_for_title()

    def wait_for_title(self, title=re.compile(".")):
        expect(self.page.locator("h1")).to_have_text(title)

    def wait_until_ready_offline(self):
        """Wait until all that is needed without a network is stored."""
        expect(self.page.locator("html[data-offline-ready]")).to_be_attached()

    def field(self, path):
        return self.page.locator(f'form[data-calculator] [name="{path}"]')

    def unit_of(self, path):
        return self.page.locator(f'[data-unit-of="{path}"]')

    def problem_at(self, path):
        """Find what is said to be wrong with a field, beside it."""
        field = self.page.locator(f'[name="{path}"]')
        return self.page.locator("form[data-calculator] .field", has=field).locator(".problem")

    def words_of(self, output):
        """Find the words in which an output is shown."""
        return self.page.locator(f'[data-output="{output}"] .number').first

    def step(self, to):
        """Find the button that leads to the next step."""
        return self.page.locator(f'[data-step="{to}"]')

    def chip(self, name):
        """Find a saved size or cloth that a form can start from."""
        return self.page.locator(".chip", has_text=name)

    def save(self, kind, name):
        """Save what is in the form under a name, and wait until it is said to be kept."""
        self.hush()
        self.page.fill(f"#save-{kind}", name)
        self.page.locator(f'[data-save="{kind}"] button').tap()
        self.said(f"{name} is saved on this phone")

    def choose(self, setting, value):
        """Choose currency or measure in Settings, and wait until that is said to be kept."""
        self.page.select_option(f"#{setting}", value)
        self.said("Saved on this phone")

    def sign_as(self, person):
        """Sign the checklist, and wait until it is said to be kept."""
        self.page.fill("[data-sign] [name=person]", person)
        self.page.locator("[data-sign] button").tap()
        self.said("Signed, saved on this phone")

    def fill(self, typed):
        """Put texts, choices and ticks into fields, the quickest way there is."""
        for path, value in typed.items():
            put_into(self.field(path), value)

    def touch_in(self, typed):
        """Fill fields by touch: a tap on each, then what the phone's keyboard sends."""
        for path, value in typed.items():
            field = self.field(path)
            if isinstance(value, bool):
                if field.is_checked() != value:
                    field.tap()
            elif is_select(field):
                # the list of choices is the platform's own, outside the page
                field.tap()
                field.select_option(value)
            else:
                field.tap()
                field.select_text()
                self.page.keyboard.insert_text(value)

    def key_in(self, typed):
        """Fill fields by keyboard alone: tab to each, then type."""
        for path, value in typed.items():
            field = self.tab_to(self.field(path))
            if isinstance(value, bool):
                if field.is_checked() != value:
                    self.page.keyboard.press("Space")
            elif is_select(field):
                self.page.keyboard.type(value)
            else:
                self.page.keyboard.press("ControlOrMeta+a")
                self.page.keyboard.type(value)

    def tab_to(self, target):
        """Press Tab until a locator's element has the focus."""
        for _ in range(MOST_TABS):
            if target.evaluate("(element) => element === document.activeElement"):
                return target
            self.page.keyboard.press("Tab")
        raise AssertionError(f"{MOST_TABS} tabs do not reach {target}")

    def answers(self, calculator, given):
        """Wait until every output shows, to the last digit, what the core answers here.

        Takes: given, the input in base units. Returns: the core's {result, notes}.
        """
        told = answer(calculator, given)
        self.shows(told["result"])
        rules = sorted(note["rule"] for note in told["notes"])
        notes = self.page.locator("[data-note]")
        expect(notes).to_have_count(len(rules))
        found = sorted(note.get_attribute("data-note") for note in notes.all())
        assert found == rules
        return told

    def shows(self, outputs):
        """Wait until outputs hold these values exactly; absent ones are None."""
        try:
            self.page.wait_for_function(f"(wanted) => !({NOT_SHOWN})(wanted).length", arg=outputs)
        except TimeoutExpired:
            shown = self.page.evaluate(NOT_SHOWN, outputs)
            wrong = [f"{name}: shown {texts}, wanted {outputs[name]!r}" for name, texts in shown]
            raise AssertionError("\n".join(wrong)) from None

    def said(self, text):
        """Wait until the line at the bottom says this."""
        expect(self.page.locator(".notice span")).to_have_text(text)

    def hush(self):
        """Close the line at the bottom, so that the next thing it says is a new one."""
        close = self.page.locator(".notice").get_by_role("button", name="Close")
        # it may close by itself meanwhile
        close.evaluate_all("(found) => found.forEach((close) => close.click())")

    def settle(self):
        """Wait until every write begun so far has ended; at once where no app is open."""
        self.page.evaluate(SETTLED)

    def ask_core(self, method, args):
        """Ask the core on the phone: what its bridge answers."""
        ask = "async ([method, args]) => (await import('/core/core-client.js')).call(method, args)"
        return self.page.evaluate(ask, [method, args])

    def listen_to_core(self):
        """Note in the page from now on what the core is asked: `foreseen(method)`, `atOnce(method)`."""
        self.page.evaluate(LISTEN)

    @contextmanager
    def core_held(self):
        """Hold back all that is asked of the core, as on a phone that is busy; nothing is foreseen."""
        self.page.evaluate(HOLD_CORE)
        yield
        self.page.evaluate("self.letGo()")


def put_into(field, value):
    if isinstance(value, bool):
        field.set_checked(value)
    elif is_select(field):
        field.select_option(value)
    else:
        field.fill(value)


def is_select(field):
    return field.evaluate("(element) => element.tagName") == "SELECT"
