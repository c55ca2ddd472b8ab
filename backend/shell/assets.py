"""One served file: its bytes, its type and the hash of what it holds."""

import gzip
import hashlib
from functools import cached_property
from pathlib import PurePosixPath

TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}
# notes and tools that lie beside what is served
UNSERVED = {".lock", ".md", ".py", ".pyc"}


class Asset:
    """A file as served; `revision` is a hash of its content."""

    def __init__(self, path, body):
        self.path = path
        self.body = body
        self.type = TYPES.get(PurePosixPath(path).suffix, "application/octet-stream")
        self.revision = content_hash(body)

    @cached_property
    def packed(self):
        """The body in gzip, made when first asked for; None where that saves nothing."""
        packed = gzip.compress(self.body, 9, mtime=0)
        return packed if len(packed) < len(self.body) else None


def content_hash(body):
    """Hash bytes, as 20 hexadecimal digits."""
    return hashlib.sha256(body).hexdigest()[:20]


def read_assets(folder):
    """Read every servable file of a folder, as {path from "/": asset}."""
    assets = {}
    for file in sorted(folder.rglob("*")):
        path = "/" + file.relative_to(folder).as_posix()
        if file.is_file() and file.suffix not in UNSERVED and "/." not in path:
            assets[path] = Asset(path, file.read_bytes())
    return assets
