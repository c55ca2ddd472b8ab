"""The command that runs all tests, and what it spares the run."""

import gc
import re
import subprocess
import sys
from pathlib import Path

from tests.__main__ import keep_what_is_compiled

ROOT = Path(__file__).parent.parent
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


def test_what_a_page_is_waited_for_is_a_function():
    """An expression that was not true is read anew in the page, and its policy refuses that."""
    literal = re.compile(r"wait_for_function\(\s*f?(\"\"\"|\"|')(.*?)\1", re.DOTALL)
    files = sorted((ROOT / "e2e").rglob("*.py")) + sorted((ROOT / "tests").rglob("*.py"))
    waited = [(path, found[2]) for path in files for found in literal.finditer(path.read_text("utf-8"))]
    assert len(waited) > 20
    assert [(path.name, what) for path, what in waited if "=>" not in what] == []
