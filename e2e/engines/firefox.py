"""Firefox as the system has it, driven by Playwright."""

import shutil

from .page import Page

PACKAGES = "firefox-esr"
NAMES = ("firefox-esr", "firefox")
PATIENCE_MS = 120000
LIKE_A_PHONE = {"viewport": {"width": 390, "height": 844}, "locale": "en-GB"}


def find_browser():
    """Find a Firefox; None where there is none."""
    return next(filter(None, map(shutil.which, NAMES)), None)


class Firefox(Page):
    """One window of Firefox on a profile of its own; a context manager that ends it.

    Takes: address, of the server; playwright; folder, for its profile.
    """

    def __init__(self, address, playwright, folder):
        super().__init__(address)
        self.playwright = playwright
        self.folder = folder

    def __enter__(self):
        self.context = self.playwright.firefox.launch_persistent_context(
            self.folder / "profile", channel="moz-firefox", executable_path=find_browser(), **LIKE_A_PHONE
        )
        self.context.set_default_timeout(PATIENCE_MS)
        self.context.on("console", self._listen)
        self.context.on("weberror", lambda error: self.told.append(str(error.error)))
        self.page = self.context.pages[0]
        return self

    def __exit__(self, *_):
        self.context.close()

    def _listen(self, message):
        if message.type == "error":
            self.told.append(message.text)

    def load(self, address):
        self.page.goto(address)

    def reload(self):
        self.leave()
        self.page.reload()
        self.wait_for("h1")

    def evaluate(self, text):
        return self.page.evaluate(text)

    def tap(self, selector):
        self.wait_for(selector)
        self.page.locator(selector).first.click()

    def type(self, selector, text):
        self.wait_for(selector)
        self.page.locator(selector).first.press_sequentially(text)
