"""What a hand, an eye, a large text or a screen reader finds wrong with a screen."""

from contextlib import contextmanager
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe

LOOKS = Path(__file__).with_name("looks.js").read_text(encoding="utf-8").rstrip(";\n")
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# what holds is not told node by node, which takes longer than to find it
BROKEN = {"resultTypes": ["violations"]}
OPTIONS = {**BROKEN, "runOnly": {"type": "tag", "values": TAGS}}
# the rules whose finding a colour decides
COLOURS = {**BROKEN, "runOnly": {"type": "rule", "values": ["color-contrast", "link-in-text-block"]}}


def look(screen, what, *limits):
    """Ask one of the questions of looks.js."""
    return screen.page.evaluate(f"(limits) => ({LOOKS}).{what}(...limits)", list(limits))


@contextmanager
def sized(screen, width, height):
    """Give the screen another size for a while."""
    usual = screen.page.viewport_size
    screen.page.set_viewport_size({"width": width, "height": height})
    yield
    screen.page.set_viewport_size(usual)


def run_axe(page, options):
    """Let axe-core judge a page as it is, once it has it; returns the violations as axe tells them."""
    # reading it takes as long as judging by it
    if not page.evaluate("'axe' in self"):
        page.evaluate(Axe().axe_script)
    return page.evaluate("(options) => axe.run(options)", options)["violations"]


def violations(screen, options=OPTIONS):
    """Let axe-core judge the screen; one line for each thing it finds.

    The phone is made taller than its screen for that: what sticks to the bottom
    covers nothing then, and a target has its own size, not what a scroll
    position happens to leave of it. Twice as tall, as words that the core still
    writes may make the screen longer meanwhile.
    """
    height = screen.page.evaluate("document.scrollingElement.scrollHeight")
    with sized(screen, screen.page.viewport_size["width"], 2 * height):
        found = run_axe(screen.page, options)
    return [
        f"{rule['id']}: {node['html'][:120]} ({node['failureSummary']})"
        for rule in found
        for node in rule["nodes"]
    ]


def out_of_place(screen, width, height):
    """Find what the screen loses at a size: all that is cut off, or beside the page."""
    with sized(screen, width, height):
        return look(screen, "outOfPlace")
