"""The front end as one whole: its files, its version, and what a phone keeps."""

import base64
import hashlib
import json
import re

from .assets import Asset, content_hash, read_assets

INDEX = "/index.html"
WORKER = "/sw.js"
CORE = "/core.json"
VERSION_MARK = "{{version}}"
IMPORT_MAP = re.compile(r'<script type="importmap">(.*?)</script>', re.DOTALL)

# served, but of no use without the network
ONLINE_ONLY = re.compile(r"/api\.html|/api-page\.\w+|/vendor/swagger-ui/.*|.*\.map|.*/LICENSE\.txt")


class Site:
    """Every served file by path, and the hashes of the scripts written into the page."""

    def __init__(self, version, assets, inline_hashes):
        self.version = version
        self.assets = assets
        self.inline_hashes = inline_hashes


def make_site(frontend, core):
    """Read the front end and the core's sources and give them one version.

    Takes: frontend and core, the folders. The version is a hash of all that
    runs on the phone; the page, the core and the service worker carry it.
    """
    assets = read_assets(frontend)
    sources = read_core(core)
    kept = [path for path in assets if path != WORKER and not ONLINE_ONLY.fullmatch(path)]
    version = version_of([assets[path] for path in [*kept, WORKER]], sources)
    index = assets[INDEX].body.decode().replace(VERSION_MARK, version)
    assets[INDEX] = Asset(INDEX, index.encode())
    assets[CORE] = Asset(CORE, json.dumps({"version": version, "files": sources}).encode())
    told = json.dumps({"version": version, "precache": precache([assets[path] for path in [*kept, CORE]])})
    assets[WORKER] = Asset(WORKER, f"self.BOLTFAIR = {told};\n".encode() + assets[WORKER].body)
    return Site(version, assets, [integrity(text.encode()) for text in IMPORT_MAP.findall(index)])


def read_core(core):
    """Read the core's Python files, as {path from its parent folder: text}."""
    return {
        f"{core.name}/{file.relative_to(core).as_posix()}": file.read_text(encoding="utf-8")
        for file in sorted(core.rglob("*.py"))
    }


def version_of(assets, sources):
    """Hash what the phone gets, before the version is written into it."""
    parts = [[asset.path, asset.revision] for asset in assets]
    return content_hash(json.dumps([parts, sources]).encode())[:12]


def precache(assets):
    """List files for the service worker to keep.

    The integrity makes an install fail, and the old version stay whole, where
    the server was updated halfway through it.
    """
    return [
        {"url": asset.path, "revision": asset.revision, "integrity": integrity(asset.body)}
        for asset in sorted(assets, key=lambda asset: asset.path)
    ]


def integrity(body):
    """Hash bytes in the form that browsers compare them by."""
    return "sha256-" + base64.b64encode(hashlib.sha256(body).digest()).decode()
