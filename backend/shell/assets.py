"""One served file: its bytes, its type and the hash of what it holds."""

import gzip
import hashlib
import threading
from pathlib import PurePosixPath

import brotli

from .keeping import made_once
from .scripts import bare

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
# how a file may be packed, best first: it is packed once, and read on many slow lines
PACKINGS = {
    "br": (f"brotli {brotli.version} 11", lambda body: brotli.compress(body, quality=11)),
    "gzip": ("gzip 9", lambda body: gzip.compress(body, 9, mtime=0)),
}
# notes and tools that lie beside what is served
WITH_PROSE = {".css", ".js"}
UNSERVED = {".lock", ".md", ".py", ".pyc", ".ts"}


class Asset:
    """A file as served; `revision` is a hash of its content."""

    def __init__(self, path, body):
        self.path = path
        self.body = body
        self.type = TYPES.get(PurePosixPath(path).suffix, "application/octet-stream")
        self.revision = content_hash(body)
        self._packed = {}
        self._packing = threading.Lock()

    def packed(self, accepts):
        """Pack the body in the best way that is accepted, once; who asks meanwhile waits for it.

        Takes: accepts, a function of the packing's name.
        Returns: (name, bytes), or (None, the body) where packing saves nothing.
        """
        name = next(filter(accepts, PACKINGS), None)
        with self._packing:
            if name and name not in self._packed:
                how, pack = PACKINGS[name]
                self._packed[name] = made_once(how, self.body, pack)
        if name and len(self._packed[name]) < len(self.body):
            return name, self._packed[name]
        return None, self.body


def _body(path, file):
    ours = not path.startswith("/vendor/") and file.suffix in WITH_PROSE
    return bare(file.read_text(encoding="utf-8")).encode() if ours else file.read_bytes()


def content_hash(body):
    """Hash bytes, as 20 hexadecimal digits."""
    return hashlib.sha256(body).hexdigest()[:20]


def read_assets(folder):
    """Read every servable file of a folder, as {path from "/": asset}."""
    assets = {}
    for file in sorted(folder.rglob("*")):
        path = "/" + file.relative_to(folder).as_posix()
        if file.is_file() and file.suffix not in UNSERVED and "/." not in path:
            assets[path] = Asset(path, _body(path, file))
    return assets
