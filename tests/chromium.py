"""Find the Chromium that the tests in a browser run, or get one."""

import os
import shutil
import subprocess
import sys

# the engine without a desktop's window round it: it starts in a fraction of the time
ENGINE = ("chromium-headless-shell",)
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
APT = ["apt-get", "install", "--yes", "--no-install-recommends", "chromium"]
PLAYWRIGHT = [sys.executable, "-m", "playwright"]
TELL_PATH = """
from playwright.sync_api import sync_playwright
with sync_playwright() as playwright:
    print(playwright.chromium.executable_path)
"""


def find_chromium(whole=False):
    """Find a Chromium that starts: the system's, then Playwright's own; its path or None.

    Takes: whole, whether it is to be all of the browser that people use; else its engine alone will do.
    """
    names = NAMES if whole else ENGINE + NAMES
    return next((path for path in _candidates(names) if path and _starts(path)), None)


def get_chromium():
    """Install a Chromium with Playwright, else with apt; its path or None."""
    for command in _ways_to_get():
        print("No Chromium found. Trying:", " ".join(command), flush=True)
        # one that fails is told by its own words, and the next is tried
        subprocess.run(command, stdin=subprocess.DEVNULL)
        found = find_chromium()
        if found:
            return found
    return None


def _ways_to_get():
    yield [*PLAYWRIGHT, "install", "chromium"]
    if shutil.which("apt-get") and _may_install():
        sudo = [] if os.geteuid() == 0 else ["sudo", "-n"]
        yield [*sudo, "apt-get", "update"]
        yield [*sudo, *APT]
        # Ubuntu has Chromium as a snap only, and Playwright's lacks libraries on a bare machine
        yield [*sudo, *PLAYWRIGHT, "install-deps", "chromium"]


def _may_install():
    if os.geteuid() == 0:
        return True
    asked = ["sudo", "-n", "true"]
    return bool(shutil.which("sudo")) and subprocess.run(asked, capture_output=True).returncode == 0


def _candidates(names):
    for name in names:
        yield shutil.which(name)
    # asked in a process of its own: Playwright does not start twice in one
    yield subprocess.run([sys.executable, "-c", TELL_PATH], capture_output=True, text=True).stdout.strip()


def _starts(path):
    if not os.path.exists(path) or _is_snap(path):
        return False
    try:
        return subprocess.run([path, "--version"], capture_output=True, timeout=60).returncode == 0
    except (OSError, subprocess.TimeoutExpired):
        return False


def _is_snap(path):
    # a snap sees neither the folders tests make nor the pipe they speak through
    if os.path.realpath(path).startswith(("/snap/", "/usr/bin/snap")):
        return True
    with open(path, "rb") as file:
        start = file.read(4096)
    return start.startswith(b"#!") and b"/snap/" in start
