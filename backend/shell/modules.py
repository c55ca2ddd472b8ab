"""The scripts a page loads, found by following their imports: at its start, and when a call wants more."""

import json
import posixpath
import re
from collections import Counter
from functools import lru_cache

IMPORTED = re.compile(r"""\b(?:(?:import|export)\b[^;'"()]*?\bfrom|import)\s*["']([^"'\n]+)["']""")
# wanted by the shell itself, as soon as the first paint is over
WANTED_SOON = re.compile(r"""\bimport\(\s*["'](\.[^"'\n]+)["']""")
# a path in quotes that is not imported at once; that of a folder stands for each module in it
WANTED_LATER = re.compile(r"""["'](/[\w/.-]+(?:\.js|/))["']""")
NAMED = re.compile(r'<script type="module"[^>]* src="([^"]+)"')
IMPORT_MAP = re.compile(r'<script type="importmap">(.*?)</script>', re.DOTALL)


def modules_of(page, assets):
    """List the modules that a page loads, in the order they are met.

    Takes: page, its HTML; assets, {path: asset}.
    Returns: (at its start, right after it, {module whose path is written
    somewhere: the further ones it needs}). What most of those need counts as
    of the start.
    """
    known = import_map(page)
    first = _reached(NAMED.findall(page), assets, known)
    wanted = [path for importer in first for path in _named_in(importer, WANTED_SOON, assets, known)]
    soon = [path for path in _reached(wanted, assets, known) if path not in first]
    later = {}
    for importer in first:
        for module in _wanted_later(importer, assets):
            if module not in first:
                found = _reached([module], assets, known)
                later[module] = [path for path in found if path not in first and path != module]
    common = _needed_by_most(later)
    for module, needed in later.items():
        later[module] = [path for path in needed if path not in common]
    return first + common, [path for path in soon if path not in common], later


def import_map(page):
    """Read what names a page's modules may import, {name: path}."""
    found = IMPORT_MAP.search(page)
    return json.loads(found[1])["imports"] if found else {}


def needed_by(path, body, known):
    """List the paths of what a module imports at once."""
    return [resolved(name, path, known) for name in IMPORTED.findall(body)]


def resolved(name, importer, known):
    """Find the path of a module by the name that an importer has for it."""
    return known.get(name) or posixpath.normpath(posixpath.join(posixpath.dirname(importer), name))


def _needed_by_most(later):
    count = Counter(path for needed in later.values() for path in needed)
    return [path for path, times in count.items() if times > len(later) / 2]


def _wanted_later(importer, assets):
    named = WANTED_LATER.findall(assets[importer].body.decode())
    return [path for name in named for path in assets if name in (path, posixpath.dirname(path) + "/")]


def _reached(paths, assets, known):
    found, waiting = {}, list(paths)
    while waiting:
        path = waiting.pop(0)
        if path in assets and path not in found:
            found[path] = True
            waiting += _named_in(path, IMPORTED, assets, known)
    return list(found)


def _named_in(importer, pattern, assets, known):
    return [resolved(name, importer, known) for name in _found(pattern, assets[importer].body)]


# a module is met by many ways
@lru_cache(maxsize=1024)
def _found(pattern, body):
    return pattern.findall(body.decode())
