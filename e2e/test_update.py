"""From one version to the next: never between a tap and its record, never two versions at once."""

import shutil

import pytest
from playwright.sync_api import expect

from .looks import violations
from .server import ROOT, Server

STRIP = "backend/core/sizing/strip_length.py"
OLD, NEW = '"Strip",\n', '"Strip to cut",\n'

VERSIONS = """async () => {
  const { coreVersion } = await import('/core/core-client.js');
  const core = await fetch('/core.json');
  return [document.documentElement.dataset.version, await coreVersion, (await core.json()).version];
}"""


class Releases:
    """A copy of the project that is served, and can be released anew."""

    def __init__(self, root, data):
        self.root = root
        for part in ("backend", "frontend"):
            # what was packed before need not be packed again
            shutil.copytree(ROOT / part, root / part, ignore=shutil.ignore_patterns("*.pyc"))
        self.server = Server(data, root)
        self.server.start()

    def release(self):
        """Change the title of a calculator, and start the server again."""
        self.server.stop()
        file = self.root / STRIP
        text = file.read_text(encoding="utf-8")
        assert OLD in text
        file.write_text(text.replace(OLD, NEW), encoding="utf-8")
        self.server.start()


@pytest.fixture
def releases(tmp_path):
    made = Releases(tmp_path / "project", tmp_path / "data")
    yield made
    made.server.stop()


@pytest.fixture
def phone(new_phone, releases):
    """A phone with the old version, a form half filled."""
    made = new_phone(releases.server.address)
    made.switch_on().start_at("/buy/strip-length").wait_until_ready_offline()
    made.screen.fill({"loop": "170", "fullness": ""})
    made.screen.settle()
    return made


def versions(phone, screen):
    """The versions of page, core and files, and of the service worker in charge."""
    found = screen.page.evaluate(VERSIONS)
    return {*found, *(worker.evaluate("BOLTFAIR.version") for worker in phone.context.service_workers)}


def offered(screen):
    return screen.page.locator("[data-update-ready]")


def half_filled(screen, title):
    screen.wait_for_title(title)
    expect(screen.field("loop")).to_have_value("170")
    expect(screen.field("fullness")).to_have_value("")


def test_a_new_version_waits_until_it_is_wanted_and_keeps_what_is_typed(phone, releases):
    screen = phone.screen
    (old,) = versions(phone, screen)
    releases.release()
    screen.reload()
    expect(offered(screen)).to_be_visible()
    assert violations(screen) == []
    # the old one works on, offline too
    releases.server.stop()
    screen.reload()
    half_filled(screen, "Strip")
    screen.fill({"fullness": "2"})
    screen.shows({"strip_length": 170 * 2 + 2 * 10})
    screen.fill({"fullness": ""})
    assert screen.page.evaluate(VERSIONS) == [old] * 3
    # the new one needs no network either
    offered(screen).get_by_role("button", name="Use it now").tap()
    half_filled(screen, "Strip to cut")
    screen.wait_until_ready_offline()
    expect(offered(screen)).to_have_count(0)
    (new,) = set(screen.page.evaluate(VERSIONS))
    assert new != old


def test_all_that_runs_is_of_one_version(phone, releases):
    assert len(versions(phone, phone.screen)) == 1
    releases.release()
    phone.screen.reload()
    offered(phone.screen).get_by_role("button").tap()
    half_filled(phone.screen, "Strip to cut")
    phone.switch_off()
    screen = phone.switch_on().start_at("/buy/strip-length")
    screen.wait_until_ready_offline()
    assert len(versions(phone, screen)) == 1


def test_every_open_tab_moves_over(phone, releases):
    second = phone.another_tab().open("/buy/strip-length")
    releases.release()
    phone.screen.reload()
    expect(offered(second)).to_be_visible()
    offered(second).get_by_role("button").tap()
    for screen in (phone.screen, second):
        half_filled(screen, "Strip to cut")


def test_a_new_version_takes_over_at_the_next_cold_start(phone, releases):
    releases.release()
    phone.screen.reload()
    expect(offered(phone.screen)).to_be_visible()
    phone.switch_off()
    releases.server.stop()
    screen = phone.switch_on(offline=True).start_at("/buy/strip-length")
    half_filled(screen, "Strip to cut")
    expect(offered(screen)).to_have_count(0)
    assert len(set(screen.page.evaluate(VERSIONS))) == 1


def test_a_new_version_is_looked_for_when_the_app_comes_back_into_view(phone, releases):
    releases.release()
    # another tab in front, then back
    phone.context.new_page().bring_to_front()
    phone.screen.page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    expect(offered(phone.screen)).to_be_visible()
    half_filled(phone.screen, "Strip")
