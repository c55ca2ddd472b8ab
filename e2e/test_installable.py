"""Installing it: the manifest, what the browser says of it, and storage that stays."""

import re
import struct
from urllib.parse import urljoin

import pytest
from playwright.sync_api import expect

from .phone import Phone
from .server import Server

COUNT_ASKING = """
    window.asked = 0;
    const { persist } = StorageManager.prototype;
    StorageManager.prototype.persist = function () {
      window.asked += 1;
      return persist.call(this);
    };
"""


KEPT = """async () => {
  const [name] = (await caches.keys()).filter((name) => name.startsWith('boltfair'));
  const cache = await caches.open(name);
  const requests = await cache.keys();
  return Promise.all(requests.map(async ({ url }) => {
    const reply = await cache.match(url);
    return [url, reply.headers.get('content-type'), await reply.text()];
  }));
}"""


@pytest.fixture
def visiting(new_phone, server):
    """A phone on its first visit."""
    phone = new_phone(server.address)
    phone.switch_on()
    return phone


@pytest.fixture
def fetch(visiting, server):
    """Fetch a path: its body, after a look at its status."""

    def get(path):
        reply = visiting.context.request.get(urljoin(server.address, path))
        assert reply.ok, path
        return reply

    return get


def size_of_png(body):
    """Read width and height of a PNG from its first chunk (ISO/IEC 15948, 11.2.2)."""
    assert body[:8] == b"\x89PNG\r\n\x1a\n"
    return struct.unpack(">II", body[16:24])


def test_the_browser_finds_nothing_that_hinders_installing(visiting):
    visiting.screen.start_at("/buy").wait_until_ready_offline()
    devtools = visiting.devtools()
    assert devtools.send("Page.getAppManifest")["errors"] == []
    assert devtools.send("Page.getInstallabilityErrors")["installabilityErrors"] == []


def test_the_manifest_says_all_that_an_installed_app_needs(fetch):
    reply = fetch("/manifest.webmanifest")
    assert reply.headers["content-type"] == "application/manifest+json"
    manifest = reply.json()
    assert manifest["name"] == manifest["short_name"] == "Boltfair"
    assert manifest["display"] == "standalone"
    assert manifest["start_url"].startswith(manifest["scope"])
    assert all(re.fullmatch("#[0-9a-f]{6}", manifest[name]) for name in ("background_color", "theme_color"))
    assert {"id", "description", "lang", "icons"} <= manifest.keys()


def test_each_icon_is_there_in_the_size_it_says(fetch):
    icons = fetch("/manifest.webmanifest").json()["icons"]
    pictures = [icon for icon in icons if icon["type"] == "image/png"]
    for icon in pictures:
        width, height = size_of_png(fetch(icon["src"]).body())
        assert icon["sizes"] == f"{width}x{height}"
    assert {"192x192", "512x512"} <= {icon["sizes"] for icon in pictures if icon["purpose"] == "any"}
    assert "512x512" in {icon["sizes"] for icon in pictures if icon["purpose"] == "maskable"}
    for icon in icons:
        assert fetch(icon["src"]).headers["content-type"] == icon["type"]


def test_a_home_screen_icon_is_named_for_phones_that_read_no_manifest(visiting, fetch):
    visiting.screen.start_at("/buy")
    icon = visiting.screen.page.locator("link[rel=apple-touch-icon]").get_attribute("href")
    assert size_of_png(fetch(icon).body()) >= (180, 180)


def test_storage_that_stays_is_asked_for_once_there_is_something_to_lose(visiting):
    visiting.context.add_init_script(COUNT_ASKING)
    screen = visiting.screen.start_at("/buy/strip-length")
    screen.wait_until_ready_offline()
    screen.fill({"loop": "170"})
    screen.answers("strip-length", {"loop": 170})
    assert screen.page.evaluate("asked") == 0
    screen.save("piece", "Odd")
    screen.page.wait_for_function("() => asked === 1")
    screen.fill({"loop": "171"})
    screen.save("piece", "Odder")
    screen.settle()
    assert screen.page.evaluate("asked") == 1


def test_it_says_whether_storage_that_stays_was_granted(visiting):
    screen = visiting.screen.start_at("/settings")
    granted = screen.page.evaluate("navigator.storage.persisted()")
    words = "Granted" if granted else "Not granted"
    expect(screen.page.locator("#kept")).to_contain_text(words)


def test_every_file_is_kept_as_it_is_served(visiting, fetch):
    visiting.screen.start_at("/buy").wait_until_ready_offline()
    kept = visiting.screen.page.evaluate(KEPT)
    assert len(kept) > 100
    for url, type, text in kept:
        reply = fetch(url)
        assert type == reply.headers["content-type"], url
        assert text == reply.body().decode(errors="replace"), url


def test_a_screen_that_is_not_kept_yet_says_so_and_opens_once_there_is_a_signal(new_phone, server):
    # a phone on which nothing is kept stands for a first visit on which the signal goes
    phone = new_phone(server.address, service_workers="block")
    phone.expected.append("ERR_INTERNET_DISCONNECTED")
    page = phone.switch_on().start_at("/count").page
    phone.context.set_offline(True)
    page.locator("nav.places a", has_text="Make").tap()
    expect(page.locator("main h1")).to_have_text("This screen is not on the phone yet")
    page.get_by_role("button", name="Try again").tap()
    expect(page.locator("main h1")).to_have_text("This screen is not on the phone yet")
    phone.context.set_offline(False)
    expect(page.locator("main h1")).to_have_text("Make")


def test_a_script_that_a_page_can_load_no_more_comes_with_the_page_anew(new_phone, server):
    # as browsers do that remember which script could not be loaded
    phone = new_phone(server.address, service_workers="block")
    phone.expected.append("ERR_FAILED")
    page = phone.switch_on().start_at("/count").page
    anew = []
    page.on("request", lambda request: request.is_navigation_request() and anew.append(request.url))

    def refuse(route):
        loads = route.request.resource_type == "script" and not anew
        route.abort() if loads else route.continue_()

    page.route("**/views/make/home.js", refuse)
    page.locator("nav.places a", has_text="Make").tap()
    expect(page.locator("main h1")).to_have_text("This screen is not on the phone yet")
    page.get_by_role("button", name="Try again").tap()
    expect(page.locator("main h1")).to_have_text("Make")
    assert anew == [f"{server.address}/make"]


def test_a_phone_that_does_not_trust_the_computer_works_and_says_why_it_needs_a_signal(new_phone, tmp_path):
    with Server(tmp_path / "data", more=["--https", "--host", "127.0.0.1"]) as server:
        # as if she had gone on after the browser's warning
        phone = new_phone(server.address, ignore_https_errors=True)
        phone.expected.append("SSL certificate error")
        page = phone.switch_on().start_at("/settings").page
        expect(page.locator("[data-without-signal='not trusted']")).to_contain_text("does not trust")
        page.locator("nav.places a", has_text="Buy").tap()
        expect(page.locator("main h1")).to_have_text("Buy")


def test_an_address_that_is_not_secure_says_what_to_start(server, start_chromium, tmp_path):
    # what a name of the network is to a browser, where this machine itself is trusted
    address = f"http://maker.home.arpa:{server.port}"
    reached = ["--host-resolver-rules=MAP maker.home.arpa 127.0.0.1"]
    phone = Phone(start_chromium, tmp_path / "profile", address, reached)
    page = phone.switch_on().start_at("/settings").page
    expect(page.locator("[data-not-secure]")).to_contain_text("boltfair serve --https")
    expect(page.locator("nav.places")).to_have_count(0)
    phone.switch_off()
