"""All tests: `python -m tests`. What follows goes to pytest, as in `python -m tests -m full`."""

import sys

import pytest

from tests.chromium import find_chromium, get_chromium

MISSING = """\
The tests in a browser need Chromium, and none was found or could be installed.
Install one (Debian: apt-get install chromium; elsewhere: python -m playwright install
--with-deps chromium) and run this again. Nothing was tested."""


def main():
    """Make sure of a Chromium, then run pytest over tests/ and e2e/; returns the exit code."""
    if not (find_chromium() or get_chromium()):
        print(MISSING, file=sys.stderr)
        return 1
    return pytest.main(sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
