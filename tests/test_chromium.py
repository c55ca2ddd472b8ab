"""Finding a Chromium, on machines that have one, a broken one or none."""

import os
import subprocess
import sys

import pytest

from tests.chromium import find_chromium

STARTS = "#!/bin/sh\nexit 0\n"
BROKEN = "#!/bin/sh\nexit 127\n"
SNAP = "#!/bin/sh\nif test -x /snap/bin/chromium; then exit 0; fi\n"
# the discard port: nothing answers, so that no test downloads a browser
NOWHERE = "http://127.0.0.1:9"


@pytest.fixture
def machine(tmp_path, monkeypatch):
    """A machine with only the programs put into it, and no browser of Playwright's."""
    programs = tmp_path / "bin"
    programs.mkdir()
    monkeypatch.setenv("PATH", str(programs))
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path / "browsers"))

    def put(name, text):
        program = programs / name
        program.write_text(text)
        program.chmod(0o755)
        return str(program)

    return put


def test_the_systems_chromium_is_found(machine):
    assert find_chromium() is None
    path = machine("chromium-browser", STARTS)
    assert find_chromium() == path


def test_the_engine_alone_will_do_where_not_the_whole_browser_is_asked_for(machine):
    whole = machine("chromium", STARTS)
    engine = machine("chromium-headless-shell", STARTS)
    assert find_chromium() == engine
    assert find_chromium(whole=True) == whole


def test_one_that_does_not_start_is_passed_over(machine):
    machine("chromium", BROKEN)
    path = machine("google-chrome", STARTS)
    assert find_chromium() == path


def test_a_snap_is_passed_over_since_it_sees_no_folder_of_a_test(machine):
    machine("chromium-browser", SNAP)
    assert find_chromium() is None


def test_without_any_the_test_command_says_what_is_missing_and_how_to_get_it(machine):
    environment = {**os.environ, "PLAYWRIGHT_DOWNLOAD_HOST": NOWHERE}
    ran = subprocess.run([sys.executable, "-m", "tests"], env=environment, capture_output=True, text=True)
    assert ran.returncode == 1
    assert "need Chromium" in ran.stderr and "apt-get install chromium" in ran.stderr
    assert "passed" not in ran.stdout
