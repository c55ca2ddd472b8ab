"""Files are served at their own paths, typed, packed, and known again."""

import gzip

import brotli
import pytest

TYPES = {
    "/": "text/html; charset=utf-8",
    "/index.html": "text/html; charset=utf-8",
    "/app.js": "text/javascript; charset=utf-8",
    "/sw.js": "text/javascript; charset=utf-8",
    "/vendor/preact.mjs": "text/javascript; charset=utf-8",
    "/vendor/core.wasm": "application/wasm",
    "/manifest.webmanifest": "application/manifest+json",
    "/core.json": "application/json",
    "/styles/base.css": "text/css; charset=utf-8",
    "/icons/mark.svg": "image/svg+xml",
    "/vendor/LICENSE.txt": "text/plain; charset=utf-8",
}


@pytest.mark.parametrize("path, kind", TYPES.items())
def test_a_file_is_served_with_its_type_and_kept_only_as_long_as_it_is_asked_about(visit, path, kind):
    reply = visit().get(path)
    assert reply.status_code == 200
    assert reply.content_type == kind
    assert reply.headers["Cache-Control"] == "no-cache"
    assert reply.get_etag() == (reply.get_etag()[0], False)
    assert len(reply.get_etag()[0]) == 20


@pytest.mark.parametrize(
    "path",
    ["/vendor/vendor.py", "/vendor/vendor.lock", "/vendor/VENDOR.md", "/views/buy/README.md", "/.hidden",
     "/styles/none.css", "/../pyproject.toml", "/%2e%2e/app.py", "/core/declaring/spec.py"],
)  # fmt: skip
def test_notes_tools_and_what_is_not_there_are_not_served(visit, path):
    assert visit().get(path).status_code == 404


@pytest.mark.parametrize(
    "accepted, packing, unpack",
    [("gzip, deflate, br, zstd", "br", brotli.decompress), ("gzip;q=0, *", "br", brotli.decompress),
     ("gzip, br;q=0", "gzip", gzip.decompress), ("gzip", "gzip", gzip.decompress)],
)  # fmt: skip
def test_a_file_is_packed_in_the_best_way_the_client_takes(visit, front, accepted, packing, unpack):
    client = visit()
    reply = client.get("/app.js", headers={"Accept-Encoding": accepted})
    assert reply.headers["Content-Encoding"] == packing
    assert reply.headers["Vary"] == "Accept-Encoding"
    assert unpack(reply.data) == (front / "app.js").read_bytes()
    assert len(reply.data) == int(reply.headers["Content-Length"]) < len((front / "app.js").read_bytes())


@pytest.mark.parametrize("accepted", [None, "zstd", "identity", "gzip;q=0", "gzip;q=0, br;q=0, *"])
def test_a_file_is_whole_where_the_client_does_not_take_it_packed(visit, front, accepted):
    headers = {"Accept-Encoding": accepted} if accepted else {}
    reply = visit().get("/app.js", headers=headers)
    assert "Content-Encoding" not in reply.headers
    assert reply.headers["Vary"] == "Accept-Encoding"
    assert reply.data == (front / "app.js").read_bytes()


def test_what_packing_would_only_lengthen_is_sent_whole(visit, front):
    reply = visit().get("/manifest.webmanifest", headers={"Accept-Encoding": "gzip"})
    assert "Content-Encoding" not in reply.headers
    assert reply.data == b"{}"


@pytest.mark.parametrize("accepted", ["br", "gzip", "identity"])
def test_an_unchanged_file_is_not_sent_again(visit, accepted):
    client = visit()
    first = client.get("/app.js", headers={"Accept-Encoding": accepted})
    asked = {"Accept-Encoding": accepted, "If-None-Match": first.headers["ETag"]}
    again = client.get("/app.js", headers=asked)
    assert (again.status_code, again.data) == (304, b"")
    assert again.headers["ETag"] == first.headers["ETag"]


def test_packed_and_whole_are_told_apart(visit):
    client = visit()
    tags = {client.get("/app.js", headers={"Accept-Encoding": accepted}).headers["ETag"]
            for accepted in ("identity", "gzip", "br")}  # fmt: skip
    assert len(tags) == 3


def test_a_changed_file_has_another_tag(visit, front):
    before = visit().get("/app.js").headers["ETag"]
    (front / "app.js").write_text("changed")
    assert visit().get("/app.js").headers["ETag"] != before


def test_asking_for_the_head_gives_the_same_headers_and_no_body(visit):
    client = visit()
    head, whole = client.head("/app.js"), client.get("/app.js")
    assert head.data == b""
    assert head.headers["ETag"] == whole.headers["ETag"]
    assert head.headers["Content-Length"] == whole.headers["Content-Length"]


def test_styles_are_served_within_those_that_import_them_in_the_order_told_there(front, visit):
    told = '/* all */\n@import "places/sell.css";\n@import "places/buy.css";\n'
    for path, text in {"parts.css": told, "places/sell.css": "s{}\n", "places/buy.css": "a{}\n"}.items():
        (front / "styles" / path).parent.mkdir(exist_ok=True)
        (front / "styles" / path).write_text(text)
    assert visit().get("/styles/parts.css").text.split() == ["s{}", "a{}"]
    assert visit().get("/styles/places/buy.css").status_code == 404
    (front / "styles/places/sell.css").write_text("t{}\n")
    assert "t{}" in visit().get("/styles/parts.css").text
