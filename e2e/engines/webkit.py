"""WebKitGTK, the nearest relative of an iPhone's browser that runs here, by its own driver."""

import os
import shutil
import subprocess
from pathlib import Path

from selenium.common.exceptions import TimeoutException

from .page import Page

PACKAGES = "webkit2gtk-driver xvfb"
DRIVER = "WebKitWebDriver"
PATIENCE_S = 120
# this driver tells of no errors: the page notes them from its first question on
NOTED = """async () => {
  if (self.troubles) return self.troubles.splice(0);
  self.troubles = [];
  const note = (text) => self.troubles.push(`${text} (${location.pathname})`);
  const { error } = console;
  console.error = (...told) => { note(told.join(' ')); error(...told); };
  addEventListener('error', (event) => note(event.message));
  addEventListener('unhandledrejection', (event) => event.defaultPrevented || note(event.reason));
  addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
    note(`policy: ${violatedDirective} refused ${blockedURI}`));
  return [];
}"""

SHOWN = """return [
  location.href,
  document.readyState,
  [...document.documentElement.attributes].map(({ name, value }) => `${name}=${value}`).join(' '),
  `controlled: ${navigator.serviceWorker?.controller?.state}`,
  ...(self.troubles || []),
  document.body.innerText,
].join('\\n')"""

TELL = "(answer) => arguments[0]({ answer }), (error) => arguments[0]({ error: `${error}` })"


def find_browser():
    """Find MiniBrowser, which belongs to the driver's package; None where anything is missing."""
    found = next(iter(sorted(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"), reverse=True)), None)
    return found if shutil.which(DRIVER) and shutil.which("Xvfb") else None


class Display:
    """A screen that nobody looks at; a context manager that tells what it is called, and ends it."""

    def __enter__(self):
        command = ["Xvfb", "-displayfd", "1", "-screen", "0", "500x1000x24", "-nolisten", "tcp"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        # the whole line: it ends where its reader is gone too soon
        return f":{self.process.stdout.readline().strip()}"

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait(20)
        self.process.stdout.close()


class WebKit(Page):
    """One window of WebKit on a display of its own; a context manager that ends both.

    Takes: address, of the server. What it keeps ends with it.
    """

    def __init__(self, address):
        super().__init__(address)
        self.display = Display()
        self.driver = None

    def __enter__(self):
        self.driver = start_driver(self.display.__enter__())
        self.driver.set_script_timeout(PATIENCE_S)
        self.driver.set_window_size(390, 844)
        return self

    def __exit__(self, *_):
        self.driver.quit()
        self.display.__exit__()

    def load(self, address):
        self.driver.get(address)
        self.run(NOTED)

    def reload(self):
        self.leave()
        self.driver.refresh()
        self.wait_for("h1")

    def leave(self):
        super().leave()
        self.told += self.run(NOTED)

    def evaluate(self, text):
        try:
            told = self.driver.execute_async_script(f"{text}.then({TELL})")
        except TimeoutException as error:
            # what was waited for does not tell itself: what is shown instead may
            raise AssertionError(f"{text}\nwas not told within {PATIENCE_S} s of\n{self.shown()}") from error
        assert "error" not in told, told["error"]
        return told.get("answer")

    def shown(self):
        """Tell what the page shows, and what became of its service worker."""
        return self.driver.execute_script(SHOWN)

    def tap(self, selector):
        self.wait_for(selector)
        self.driver.find_element("css selector", selector).click()

    def type(self, selector, text):
        self.wait_for(selector)
        self.driver.find_element("css selector", selector).send_keys(text)


def start_driver(display):
    from selenium import webdriver
    from selenium.webdriver.webkitgtk.service import Service

    options = webdriver.WebKitGTKOptions()
    options.binary_location = str(find_browser())
    options.add_argument("--automation")
    service = Service(shutil.which(DRIVER), env={**os.environ, "DISPLAY": display})
    return webdriver.WebKitGTK(options=options, service=service)
