"""WebKit with data that lasts and processes that may be killed: a window by itself, without its driver."""

import json
import os
import shutil
import signal
import subprocess
from pathlib import Path

from .page import Page
from .webkit import Display

PACKAGES = "python3-gi gir1.2-webkit2-4.1 xvfb"
WINDOW = Path(__file__).with_name("lasting_window.py")
# the system's own Python: it alone has the bindings
PYTHON = "/usr/bin/python3"
KNOWS = "import gi; gi.require_version('WebKit2', '4.1'); from gi.repository import WebKit2"
TAP = "async (selector) => { document.querySelector(selector).click(); }"
TYPE = """async (selector, text) => {
  const field = document.querySelector(selector);
  field.value = text;
  field.dispatchEvent(new Event('input', { bubbles: true }));
}"""


def find_browser():
    """Find a Python that knows WebKit; None where there is none."""
    if not (shutil.which("Xvfb") and os.path.exists(PYTHON)):
        return None
    knows = subprocess.run([PYTHON, "-c", KNOWS], capture_output=True).returncode == 0
    return PYTHON if knows else None


class Lasting(Page):
    """A window of WebKit; a context manager that ends it. Takes: address; folder, for what it keeps."""

    def __init__(self, address, folder):
        super().__init__(address)
        self.folder = folder
        self.display = Display()
        self.window, self.loads = None, 0

    def __enter__(self):
        environment = {**os.environ, "DISPLAY": self.display.__enter__()}
        command = [PYTHON, str(WINDOW), str(self.folder)]
        pipe = subprocess.PIPE
        self.window = subprocess.Popen(
            command, env=environment, stdin=pipe, stdout=pipe, stderr=subprocess.DEVNULL, text=True
        )
        return self

    def __exit__(self, *_):
        self.window.stdin.close()
        self.window.wait(20)
        self.window.stdout.close()
        self.display.__exit__()

    def load(self, address):
        self.loads = self._tell({"load": address})

    def wait_for_load(self):
        """Wait until the page was loaded anew by itself, since it was last loaded."""
        self.loads = self._tell({"loads": self.loads + 1})

    def evaluate(self, text):
        return json.loads(self._tell({"call": f"return JSON.stringify((await {text}) ?? null)"}))

    def _tell(self, command):
        self.window.stdin.write(json.dumps(command) + "\n")
        self.window.stdin.flush()
        reply = json.loads(self.window.stdout.readline())
        assert "failed" not in reply, reply["failed"]
        return reply["told"]

    def tap(self, selector):
        self.wait_for(selector)
        self.run(TAP, selector)

    def type(self, selector, text):
        self.wait_for(selector)
        self.run(TYPE, selector, text)

    def kill_storage(self):
        """Kill the process that has the databases, as a phone short of memory does in the background."""
        found = [pid for pid in children(self.window.pid) if "WebKitNetwork" in name_of(pid)]
        assert found, "WebKit has no process for its databases"
        for pid in found:
            os.kill(pid, signal.SIGKILL)


def children(pid):
    """List the processes that a process started, and those that they started."""
    listed = Path(f"/proc/{pid}/task/{pid}/children").read_text(encoding="utf-8").split()
    return [one for child in map(int, listed) for one in (child, *children(child))]


def name_of(pid):
    return Path(f"/proc/{pid}/comm").read_text(encoding="utf-8")
