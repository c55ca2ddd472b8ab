"""The command that runs all tests, and what it spares the run."""

import gc
import subprocess
import sys

from tests.__main__ import keep_what_is_compiled

TELL = "import sys; print(sys.dont_write_bytecode)"


def test_what_is_compiled_is_kept_where_the_environment_would_not(monkeypatch):
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    keep_what_is_compiled()
    assert not sys.dont_write_bytecode
    told = subprocess.run([sys.executable, "-c", TELL], capture_output=True, text=True, check=True)
    assert told.stdout == "False\n"


def test_what_was_collected_is_not_looked_through_for_circles():
    assert gc.get_freeze_count() > 0
