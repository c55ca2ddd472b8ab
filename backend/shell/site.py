"""The front end as one whole: its files, its version, and what a phone keeps."""

import base64
import hashlib
import json
import re

from ..fixtures import read_all
from .assets import Asset, content_hash, read_assets
from .core_sources import read_core
from .joining import join
from .modules import IMPORT_MAP, NAMED, import_map, modules_of, resolved

INDEX = "/index.html"
WORKER = "/sw.js"
CORE = "/core.json"
PACK = "/pack.json"
FIXTURES = "/fixtures.json"
# what a start loads, and what it wants as soon as the first paint is over
START = "/start.js"
SOON = "/soon.js"
VERSION_MARK = "{{version}}"
MODULES_MARK = "<!-- modules -->"
STYLES_IMPORTED = re.compile(r'^@import "([^"]+)";$', re.MULTILINE)
INLINE = re.compile(r'<script(?: type="importmap")?>(.*?)</script>', re.DOTALL)

# served, but of no use without the network; icons as pictures are for the moment of installing
ONLINE_ONLY = re.compile(
    r"/api\.html|/api-page\.\w+|/styles/api\.css|/vendor/qr/.*|.*\.map|.*/LICENSE\.txt|/icons/.*\.png"
)


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
    Modules that every start loads are joined. The others come to the service
    worker packed into one file: together they take two thirds of what each
    takes by itself.
    """
    assets, joined, later = with_modules_joined(with_styles_joined(read_assets(frontend)))
    sources = read_core(core)
    assets[FIXTURES] = Asset(FIXTURES, json.dumps(read_all(), separators=(",", ":")).encode())
    served_only = {WORKER, *joined}
    kept = [path for path in assets if path not in served_only and not ONLINE_ONLY.fullmatch(path)]
    version = version_of([assets[path] for path in [*kept, WORKER]], sources)
    index = assets[INDEX].body.decode().replace(VERSION_MARK, version)
    assets[INDEX] = Asset(INDEX, index.encode())
    assets[CORE] = Asset(CORE, json.dumps({"version": version, "files": sources}).encode())
    packed = sorted(set(later).union(*later.values()) - set(joined.values()))
    assets[PACK] = Asset(PACK, json.dumps({path: assets[path].body.decode() for path in packed}).encode())
    # the page by the app's own address, so that a browser can open it without waking the service worker
    listed = [assets[path] for path in [*kept, CORE] if path != INDEX] + [Asset("/", index.encode())]
    told = json.dumps({"version": version, "precache": precache(listed, packed), "pack": entry(assets[PACK])})
    assets[WORKER] = Asset(WORKER, f"self.BOLTFAIR = {told};\n".encode() + assets[WORKER].body)
    return Site(version, assets, [integrity(text.encode()) for text in INLINE.findall(index)])


def with_styles_joined(assets):
    """Put style sheets into the one that imports them: each file by itself would cost a start some ms.

    Takes and returns: {path: asset}; what is put into another is served no more.
    """
    sheets = {path: asset.body.decode() for path, asset in assets.items() if path.endswith(".css")}
    inside = {
        resolved(name, path, {}) for path, text in sheets.items() for name in STYLES_IMPORTED.findall(text)
    }
    joined = {
        path: STYLES_IMPORTED.sub(lambda found, path=path: sheets[resolved(found[1], path, {})], text)
        for path, text in sheets.items()
    }
    whole = assets | {path: Asset(path, text.encode()) for path, text in joined.items()}
    return {path: asset for path, asset in whole.items() if path not in inside}


def with_modules_joined(assets):
    """Join the modules of a start into one, and those that it wants right after it into another.

    Their own files are served as before, and the page does without them.
    Takes: {path: asset}, the page among them.
    Returns: (that with the joined modules, and with the page that loads them; {path: path of the joined one
    that has it}; {module whose path is written somewhere: the further ones it needs}).
    Raises: CannotJoin.
    """
    page = assets[INDEX].body.decode()
    first, soon, later = modules_of(page, assets)
    known = import_map(page)
    bodies = {path: assets[path].body.decode() for path in first + soon}
    joined, made = {}, {}
    for target, paths in [(START, first), (SOON, soon)]:
        if paths:
            made[target] = join(paths, bodies, known, joined)
            joined = joined | dict.fromkeys(paths, target)
    later = {
        path: list(dict.fromkeys(joined.get(one, one) for one in needed))
        for path, needed in later.items()
        if path not in joined
    }
    names = {name: joined.get(path, path) for name, path in known.items()} | joined
    page = IMPORT_MAP.sub(lambda found: found[0].replace(found[1], json.dumps({"imports": names})), page)
    page = NAMED.sub(lambda found: found[0].replace(found[1], joined[found[1]]), page)
    made[INDEX] = page.replace(MODULES_MARK, preloads([START] if first else [], later))
    return assets | {path: Asset(path, text.encode()) for path, text in made.items()}, joined, later


def version_of(assets, sources):
    """Hash what the phone gets, before the version is written into it."""
    parts = [[asset.path, asset.revision] for asset in assets]
    return content_hash(json.dumps([parts, sources]).encode())[:12]


def preloads(first, later):
    """Write what lets a browser load modules at once, not one import after the other."""
    links = [f'<link rel="modulepreload" href="{path}">' for path in first]
    links.append(f'<script type="application/json" id="modules">{json.dumps(later)}</script>')
    return "\n  ".join(links)


def precache(assets, packed):
    """List files for the service worker to keep; those that are packed by their paths alone.

    The integrity makes an install fail, and the old version stay whole, where
    the server was updated halfway through it. What is packed has the pack's.
    """
    assets = sorted(assets, key=lambda asset: asset.path)
    return [asset.path if asset.path in packed else entry(asset) for asset in assets]


def entry(asset):
    """Name a file together with a hash of what it holds."""
    return {"url": asset.path, "integrity": integrity(asset.body)}


def integrity(body):
    """Hash bytes in the form that browsers compare them by."""
    return "sha256-" + base64.b64encode(hashlib.sha256(body).digest()).decode()
