"""A phone: a browser with a profile on disk, that can be switched off, killed and opened again."""

import os
import signal
from datetime import UTC, datetime

from playwright.sync_api import expect

from .screen import Screen

# what a desktop's browser has round a page and no phone has: the list under its address line alone loads
# two pages at each start, for half a second of a processor. Playwright's own such switch gives way to this
# one, so what of it matters here is here, too
NOT_ON_A_PHONE = ("WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "AimEnabled", "MediaRouter", "HttpsUpgrades")
ARGUMENTS = [
    # a container's root has no sandbox, and nobody else's pages are opened
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    f"--disable-features={','.join(NOT_ON_A_PHONE)}",
]  # fmt: skip


def forenoon_zone():
    """Name the time zone in which it is about ten now, so that no day ends while tests run."""
    ahead = 10 - datetime.now(UTC).hour
    # these names count the hours the other way round
    return f"Etc/GMT{-ahead if ahead >= -12 else -ahead - 24:+d}"


ZONE = forenoon_zone()
LIKE_A_PHONE = {
    "viewport": {"width": 390, "height": 844},
    "has_touch": True,
    "is_mobile": True,
    "locale": "en-GB",
    "timezone_id": ZONE,
}
# long enough for a busy machine; what is there is seen at once
PATIENCE_MS = 120000

expect.set_options(timeout=PATIENCE_MS)

# what the page's policy refuses counts as an error, whichever way the browser tells it
TELL_VIOLATIONS = """
    addEventListener('securitypolicyviolation', (event) =>
      console.error(`policy: ${event.violatedDirective} refused ${event.blockedURI}`));
"""
# a core that answers late, as on a slow phone or a busy machine: what acts before its answer is there is
# found out
SLOW_CORE_MS = int(os.environ.get("SLOW_CORE_MS", "0"))
ANSWER_LATE = f"""
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (...sent) {{
      setTimeout(() => post.apply(this, sent), {SLOW_CORE_MS});
    }};
"""


class Phone:
    """A browser with its profile; `trouble` lists every error its pages told.

    Takes: start, which launches a Chromium on a profile; arguments, for the
    browser beside the usual ones; like, what else it is to be like.
    """

    def __init__(self, start, profile, address, arguments=(), **like):
        self.start = start
        self.arguments = [*ARGUMENTS, *arguments]
        self.profile = profile
        self.address = address
        self.like = {**LIKE_A_PHONE, **like}
        self.trouble = []
        # parts of what the browser tells of faults that the test brings about
        self.expected = []
        self.context = None
        self.process = None
        self.screen = None

    def switch_on(self, offline=False):
        """Start the browser; returns the screen of its first tab."""
        self.context = self.start(self.profile, args=self.arguments, **self.like)
        self.context.set_default_timeout(PATIENCE_MS)
        self.process = process_of(self.context.browser)
        self.context.add_init_script(TELL_VIOLATIONS)
        if SLOW_CORE_MS:
            self.context.add_init_script(ANSWER_LATE)
        self.context.on("console", self._listen)
        self.context.on("weberror", lambda error: self.trouble.append(str(error.error)))
        self.context.set_offline(offline)
        self.screen = Screen(self.context.pages[0], self.address)
        return self.screen

    def _listen(self, message):
        text = f"{message.text} ({message.location.get('url')})"
        if message.type == "error" and not any(part in text for part in self.expected):
            self.trouble.append(text)

    def switch_off(self):
        """Close the browser as a person does: it may finish its writing."""
        if self.context:
            self.context.close()
            self.context = None

    def kill(self):
        """Kill the browser's process at once, as a phone short of memory does."""
        with self.context.expect_event("close"):
            os.kill(self.process, signal.SIGKILL)
        self.context = None

    def another_tab(self):
        """Open a second tab; returns its screen."""
        return Screen(self.context.new_page(), self.address)

    def devtools(self, screen=None):
        """Open a DevTools session with a screen's tab."""
        return self.context.new_cdp_session((screen or self.screen).page)


def process_of(browser):
    """Find the id of a browser's own process; those of its pages end with it."""
    listed = browser.new_browser_cdp_session().send("SystemInfo.getProcessInfo")["processInfo"]
    return next(process["id"] for process in listed if process["type"] == "browser")
