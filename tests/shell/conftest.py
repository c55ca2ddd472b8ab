"""A small front end of a test's own, and clients of it and of the real one."""

import json

import pytest

from backend.app import FRONTEND, create_app

INDEX = """<!doctype html>
<html data-version="{{version}}">
<script type="importmap">
{"imports": {"preact": "/vendor/preact.mjs"}}
</script>
<script type="module" src="/app.js"></script>
<!-- modules -->
</html>
"""
FILES = {
    "index.html": INDEX,
    "sw.js": "self.addEventListener('install', () => {});\n",
    "app.js": "export const greeting = 'hello';\n" * 40 + "show('/views/home.js', '/views/other.js');\n",
    "app.js.map": "{}",
    "api.html": "<!doctype html><title>API</title>",
    "api-page.js": "start();",
    "manifest.webmanifest": "{}",
    "styles/base.css": "body { margin: 0 }\n",
    "icons/mark.svg": "<svg xmlns='http://www.w3.org/2000/svg'/>",
    "views/home.js": "import '/views/tile.js';\n",
    "views/other.js": "export {};\n",
    "views/tile.js": "export {};\n",
    "views/buy/README.md": "notes",
    "vendor/vendor.py": "print()",
    "vendor/vendor.lock": "{}",
    "vendor/VENDOR.md": "notes",
    "vendor/preact.mjs": "export {};\n",
    "vendor/LICENSE.txt": "terms",
    "styles/api.css": "",
    ".hidden": "no",
}


@pytest.fixture
def front(tmp_path):
    """A folder with a small front end, to be changed at will."""
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    (tmp_path / "vendor/core.wasm").write_bytes(b"\0asm" + bytes(4000))
    return tmp_path


@pytest.fixture
def visit(front):
    """Make the app of the folder as it is now, and a client of it."""
    return lambda: create_app(front).test_client()


@pytest.fixture(scope="session")
def real():
    return create_app(FRONTEND).test_client()


@pytest.fixture
def told():
    """Read what a service worker is told: {"version", "precache", "pack"}."""

    def read(client):
        first, _, _ = client.get("/sw.js").get_data(as_text=True).partition("\n")
        prefix = "self.BOLTFAIR = "
        assert first.startswith(prefix) and first.endswith(";")
        return json.loads(first[len(prefix) : -1])

    return read
