"""A phone gets our own scripts and styles line by line, and none of the prose and the margins."""

import pytest

from backend.app import FRONTEND
from backend.shell.scripts import bare

OWN = [
    path
    for path in sorted(FRONTEND.rglob("*"))
    if path.suffix in (".js", ".css") and FRONTEND / "vendor" not in path.parents
]


@pytest.mark.parametrize("path", OWN, ids=lambda path: path.relative_to(FRONTEND).as_posix())
def test_only_comments_and_margins_are_left_out(path):
    before = path.read_text(encoding="utf-8").split("\n")
    after = bare("\n".join(before)).split("\n")
    quotes = 0
    for line, left in zip(before, after, strict=True):
        assert left in (line.lstrip(), "")
        # nothing goes with a comment that stands behind it
        assert left or not line.partition("*/")[2].strip(), line
        # no comment that goes lies in a template
        assert left == line.lstrip() or quotes % 2 == 0, line
        quotes += left.count("`") - left.count("\\`")


def test_a_comment_goes_and_its_lines_stay():
    text = "/* What\n   it is. */\nconst a = 1; // why\n  // and\n  const b = 'x // y';\n"
    assert bare(text) == "\n\nconst a = 1; // why\n\nconst b = 'x // y';\n"


def test_the_prose_is_not_served(real):
    for path in ("/app.js", "/styles/base.css", "/data/store/log.js"):
        lines = real.get(path).get_data(as_text=True).splitlines()
        assert not any(line.lstrip().startswith(("/*", "//")) for line in lines)
