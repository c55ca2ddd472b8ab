"""A business, and phones paired with it as people pair them."""

import contextlib
import io
import json
import time

from playwright.sync_api import expect

from backend import store
from backend.access import businesses
from backend.cli import main
from backend.settings import Settings

ACT = """async ([name, args]) => (await import('/data/actions.js'))[name](...args)"""
ASK = """async ([module, name, args]) => (await import(`/data/${module}.js`))[name](...args)"""
DRAINED = """async (most) => {
  const { syncNow } = await import('/data/sync.js');
  const { waiting } = await import('/data/records.js');
  for (const began = Date.now(); ;) {
    await syncNow();
    if (!waiting().count) return;
    if (Date.now() - began > most) throw new Error(`${waiting().count} changes are still waiting`);
    await new Promise(requestAnimationFrame);
  }
}"""
ANY_TIME_MS = 120_000


# commands that are about one business
ABOUT_ONE = ("demo", "phones", "export", "pair")


class Shop:
    """A business without a phone yet on a server, which others may be on too, and the server's console."""

    def __init__(self, server):
        self.server = server
        self.address = server.address
        with store.opened(Settings(server.data)), store.writing() as connection:
            self.business = businesses.begin(connection, time.time_ns() // 1_000_000)

    def console(self, command, *words):
        """Run a command of the server's console, in this process; returns what it printed."""
        about = ["--business", self.business] if command in ABOUT_ONE else []
        with contextlib.redirect_stdout(io.StringIO()) as told:
            assert main([command, "--data", str(self.server.data), *about, *words]) == 0
        return told.getvalue()

    def code(self, role="owner"):
        """Make a pairing code at the console; returns {"code", "link", "business", ...}."""
        return json.loads(self.console("pair", "--role", role, "--json"))


def pair(phone, made, name, bring=True):
    """Pair a phone by a code, typed on its screen."""
    screen = phone.screen.open("/settings")
    page = screen.page
    page.fill("#pair-code", made["code"])
    page.fill("#pair-name", name)
    if page.locator("#pair-bring").count():
        page.locator("#pair-bring").select_option("bring" if bring else "drop")
    page.get_by_role("button", name="Pair", exact=True).tap()
    screen.said("Paired")
    expect(page.locator("[data-standing=paired]")).to_be_visible()


def act(phone, name, *args):
    """Call one of the phone's actions: describeNew, edit, state ..."""
    return phone.screen.page.evaluate(ACT, [name, list(args)])


def ask(phone, module, name, *args):
    """Ask the phone's data: a function of a module of `frontend/data/`."""
    return phone.screen.page.evaluate(ASK, [module, name, list(args)])


def exchange(*phones):
    """Let phones exchange until none has anything left to send, and all have seen all."""
    for _ in range(2):
        for phone in phones:
            phone.screen.page.evaluate(DRAINED, ANY_TIME_MS)
