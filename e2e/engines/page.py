"""What a test asks of a page, whichever engine shows it."""

import json
from pathlib import Path

UNTIL = (Path(__file__).parent.parent / "until.js").read_text(encoding="utf-8")
CALL = """(async () => {
  %s
  return await (%s)(...%s);
})()"""
ASK = """async (module, name, args) => (await import(`/data/${module}.js`))[name](...args)"""
SEEN = """async (selector) => {
  const shown = (element) => element.getClientRects().length && !element.disabled;
  await until(() => [...document.querySelectorAll(selector)].some(shown));
}"""
# what is still loading or being written when a page is left would tell of an error
AT_REST = """async () => {
  if (!document.getElementById('modules')) return;
  await until(() => document.documentElement.hasAttribute('data-offline-ready'));
  await Promise.all(['/views/parts/update-offer.js', '/data/ahead.js'].map((module) => import(module)));
  await (await import('/views/screens.js')).loadScreensBeside(location.pathname);
  await (await import('/data/store/remembered.js')).settled();
}"""
SAID = """async (text) => {
  await until(() => document.querySelector('.notice span')?.textContent.includes(text));
}"""


class Page:
    """One page of a browser on an address of ours; engines say how it is driven.

    `expected` are parts of errors that the test brings about.
    """

    def __init__(self, address):
        self.address = address
        self.expected = []
        self.told = []

    def open(self, path):
        """Go to an address as if it had been typed, once what was tapped before is written."""
        self.leave()
        self.load(self.address + path)
        self.wait_for("h1")
        return self

    def run(self, script, *given):
        """Run an async function in the page: what it resolves to, by way of JSON."""
        return self.evaluate(CALL % (UNTIL, script, json.dumps(given)))

    def ask(self, module, name, *given):
        """Ask the phone's data: a function of a module of `frontend/data/`."""
        return self.run(ASK, module, name, list(given))

    def wait_for(self, selector):
        """Wait until something that matches is shown and may be tapped."""
        self.run(SEEN, selector)

    def said(self, text):
        """Wait until the line at the bottom says this."""
        self.run(SAID, text)

    def leave(self):
        """Wait until nothing is loaded or written any more."""
        self.run(AT_REST)

    def trouble(self):
        """List the errors that pages told of."""
        self.leave()
        return [line for line in self.told if not any(part in line for part in self.expected)]
