"""Every kind of reply tells the browser what the page may do."""

import base64
import hashlib
import re

import pytest

KINDS = {
    "page": ("GET", "/", 200),
    "screen": ("GET", "/buy/strip-length", 200),
    "script": ("GET", "/app.js", 200),
    "worker": ("GET", "/sw.js", 200),
    "core": ("GET", "/core.json", 200),
    "API page": ("GET", "/api.html", 200),
    "API": ("GET", "/api/v1/calculators", 200),
    "document": ("GET", "/api/v1/openapi.json", 200),
    # this one has no database
    "health": ("GET", "/healthz", 503),
    "options": ("OPTIONS", "/", 200),
    "not found": ("GET", "/none.js", 404),
    "not allowed": ("POST", "/", 405),
    "wrong type": ("POST", "/api/v1/calculators/strip-length", 415),
}


@pytest.mark.parametrize("method, path, status", KINDS.values(), ids=KINDS)
def test_every_kind_of_reply_is_closed_to_what_it_does_not_need(real, method, path, status):
    reply = real.open(path, method=method)
    assert reply.status_code == status
    policy = reply.headers["Content-Security-Policy"]
    parts = dict(part.partition(" ")[::2] for part in policy.split("; "))
    scripts = parts.pop("script-src")
    assert re.fullmatch(r"'self' 'wasm-unsafe-eval'( 'sha256-[A-Za-z0-9+/]{43}='){3}", scripts)
    assert parts == {
        "default-src": "'none'",
        "style-src": "'self'",
        "img-src": "'self' data:",
        "connect-src": "'self'",
        "worker-src": "'self'",
        "manifest-src": "'self'",
        "font-src": "'self'",
        "base-uri": "'none'",
        "form-action": "'self'",
        "frame-ancestors": "'none'",
    }
    assert reply.headers["X-Content-Type-Options"] == "nosniff"
    assert reply.headers["Referrer-Policy"] == "no-referrer"
    assert reply.headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert reply.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    features = reply.headers["Permissions-Policy"].split(", ")
    assert {"geolocation=()", "microphone=()", "payment=()"} <= set(features)
    own = [feature for feature in features if not feature.endswith("=()")]
    assert own == ["camera=(self)", "screen-wake-lock=(self)"]
    assert reply.headers["Cache-Control"] in ("no-cache", "no-store")


def test_an_unchanged_file_keeps_its_headers(real):
    tag = real.get("/app.js").headers["ETag"]
    reply = real.get("/app.js", headers={"If-None-Match": tag})
    assert reply.status_code == 304
    assert "Content-Security-Policy" in reply.headers


def test_only_the_inline_scripts_of_the_page_are_allowed(real):
    page = real.get("/").get_data(as_text=True)
    # a block of data runs nothing and needs no leave
    inline = re.findall(r"<script(?![^>]*(?:\bsrc=|json))[^>]*>(.*?)</script>", page, re.DOTALL)
    assert len(inline) == 3
    policy = real.get("/").headers["Content-Security-Policy"]
    for text in inline:
        digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in policy


def test_a_changed_import_map_changes_the_policy(visit, front):
    before = visit().get("/").headers["Content-Security-Policy"]
    index = front / "index.html"
    index.write_text(index.read_text().replace("/vendor/preact.mjs", "/vendor/other.mjs"))
    assert visit().get("/").headers["Content-Security-Policy"] != before


def test_a_page_without_an_import_map_allows_no_inline_script(visit, front):
    (front / "index.html").write_text("<!doctype html>")
    assert "script-src 'self' 'wasm-unsafe-eval';" in visit().get("/").headers["Content-Security-Policy"]
