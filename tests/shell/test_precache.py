"""What a phone keeps: complete, hashed, and another version when anything changes."""

import base64
import hashlib
import json

import pytest

from backend.shell.modules import IMPORT_MAP

JOINED = {"/start.js", "/soon.js"}
KEPT = {
    "/", "/start.js", "/manifest.webmanifest", "/styles/base.css", "/icons/mark.svg",
    "/vendor/preact.mjs", "/vendor/core.wasm", "/core.json", "/fixtures.json",
    "/views/home.js", "/views/other.js", "/views/tile.js",
}  # fmt: skip


def revisions(told):
    return {url_of(entry): entry["integrity"] for entry in told["precache"] if entry != url_of(entry)}


def url_of(entry):
    # what is packed is listed by its path alone
    return entry if isinstance(entry, str) else entry["url"]


def test_a_phone_keeps_all_it_needs_and_no_more(visit, told):
    listed = [url_of(entry) for entry in told(visit())["precache"]]
    assert sorted(listed) == sorted(KEPT)


def test_what_no_start_needs_comes_packed_as_it_is_served(visit, told):
    client = visit()
    pack = told(client)["pack"]
    body = client.get(pack["url"]).data
    assert pack["integrity"] == "sha256-" + base64.b64encode(hashlib.sha256(body).digest()).decode()
    packed = [entry for entry in told(client)["precache"] if entry == url_of(entry)]
    assert sorted(packed) == ["/views/home.js", "/views/other.js", "/views/tile.js"]
    assert json.loads(body) == {path: client.get(path).get_data(as_text=True) for path in packed}


def test_the_worker_follows_after_what_it_is_told(visit, front):
    text = visit().get("/sw.js").get_data(as_text=True)
    assert text.partition("\n")[2] == (front / "sw.js").read_text()


def test_every_hash_is_of_what_is_served(real, told):
    precache = [entry for entry in told(real)["precache"] if entry != url_of(entry)]
    assert len(precache) > 15
    for entry in precache:
        body = real.get(entry["url"]).data
        digest = hashlib.sha256(body)
        assert digest.hexdigest()[:20] == real.get(entry["url"]).get_etag()[0]
        assert entry["integrity"] == "sha256-" + base64.b64encode(digest.digest()).decode()


def test_the_real_front_end_is_kept_whole(real, told):
    from backend.app import FRONTEND

    listed = {url_of(entry) for entry in told(real)["precache"]}
    names = json.loads(IMPORT_MAP.search(real.get("/").get_data(as_text=True))[1])["imports"]
    joined = {name for name, path in names.items() if path in JOINED and name.startswith("/")}
    needed = {
        "/" + path.relative_to(FRONTEND).as_posix()
        for suffix in ("html", "js", "mjs", "css", "wasm", "json", "webmanifest", "svg", "png")
        for path in FRONTEND.rglob(f"*.{suffix}")
    }
    # served within the sheet that imports them
    needed = {path for path in needed if not path.startswith(("/styles/parts/", "/styles/places/"))}
    online = {"/sw.js", "/index.html", "/api.html", "/api-page.js", "/styles/api.css"}
    online |= {path for path in needed if path.startswith("/vendor/qr/")}
    online |= {path for path in needed if path.endswith(".png")}
    assert "/app.js" in joined and "/data/sync.js" in joined
    assert listed == needed - online - joined | JOINED | {"/core.json", "/fixtures.json", "/"}


@pytest.mark.parametrize(
    "name, url",
    [
        ("app.js", "/start.js"),
        ("styles/base.css", "/styles/base.css"),
        ("vendor/core.wasm", "/vendor/core.wasm"),
        ("index.html", "/"),
    ],
)
def test_a_changed_file_makes_another_version(visit, told, front, name, url):
    before = told(visit())
    (front / name).write_bytes((front / name).read_bytes() + b"\n")
    after = told(visit())
    assert after["version"] != before["version"]
    # the page and the core carry the version, so they change with anything
    changed = {url for url, revision in revisions(after).items() if revisions(before)[url] != revision}
    assert changed == {url, "/", "/core.json"}


def test_a_new_file_is_kept_and_a_removed_one_is_not(visit, told, front):
    before = told(visit())
    (front / "views/sell.js").write_text("export {};")
    (front / "styles/base.css").unlink()
    after = told(visit())
    assert revisions(after).keys() - revisions(before).keys() == {"/views/sell.js"}
    assert revisions(before).keys() - revisions(after).keys() == {"/styles/base.css"}
    assert after["version"] != before["version"]


def test_a_changed_worker_makes_another_version(visit, told, front):
    before = told(visit())["version"]
    (front / "sw.js").write_text("self.skipWaiting();")
    assert told(visit())["version"] != before


@pytest.mark.parametrize("name", ["api.html", "vendor/vendor.lock", "styles/api.css"])
def test_what_a_phone_does_not_keep_makes_no_other_version(visit, told, front, name):
    before = told(visit())
    (front / name).write_text("changed")
    assert told(visit()) == before


def test_the_same_files_make_the_same_version(visit, told):
    assert told(visit()) == told(visit())
