"""All tests: `python -m tests`. What follows goes to pytest, as in `python -m tests tests/core -k remnant`.

All of them (also `-m full`) run on several processes, the tests of a file on one.
"""

import os
import sys

import pytest

from tests.chromium import find_chromium, get_chromium

MISSING = """\
The tests in a browser need Chromium, and none was found or could be installed.
Install one (Debian: apt-get install chromium; elsewhere: python -m playwright install
--with-deps chromium) and run this again. Nothing was tested."""

WHOLE = ([], ["-m", "full"])
# one more than there are processors, as a browser is waited for; more than a few only wait for each other
WORKERS = min(4, (os.cpu_count() or 1) + 1)
SPREAD = ["-n", str(WORKERS), "--dist", "loadfile"]
# whole flows first, in pyproject.toml's order: they take the longest, and the last file is waited for
SPREAD.append("--no-loadscope-reorder")


def main():
    """Make sure of a Chromium, then run pytest over tests/ and e2e/; returns the exit code."""
    if not (find_chromium() or get_chromium()):
        print(MISSING, file=sys.stderr)
        return 1
    keep_what_is_compiled()
    given = sys.argv[1:]
    return pytest.main(SPREAD + given if given in WHOLE else given)


def keep_what_is_compiled():
    """Let the run's processes read what one of them compiled: there are hundreds, servers above all.

    Where the environment forbids to write it, each would compile everything for itself.
    """
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    sys.dont_write_bytecode = False


if __name__ == "__main__":
    sys.exit(main())
