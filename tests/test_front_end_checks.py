"""What checks the front end: its versions, where it comes from, and that the boundaries are among it."""

import json
import re

import pytest

from backend.app import FRONTEND

CHECKS = FRONTEND.parent / ".ci"
LOCK = (CHECKS / "package-lock.json").read_text(encoding="utf-8")
WANTED = json.loads((CHECKS / "package.json").read_text(encoding="utf-8"))["devDependencies"]
BOUNDARIES = [
    "core/core-client.js", "core/core-worker.js",
    "data/changes.js", "data/clock.js", "data/exchange.js", "data/sync.js",
    *(f"data/store/{path.name}" for path in sorted((FRONTEND / "data/store").glob("*.js"))),
]  # fmt: skip


@pytest.mark.parametrize("path", BOUNDARIES)
def test_types_are_checked_at_a_boundary(path):
    assert (FRONTEND / path).read_text(encoding="utf-8").startswith("// @ts-check\n")


def test_every_version_is_pinned_and_hashed():
    locked = json.loads(LOCK)["packages"]
    assert {name: locked[f"node_modules/{name}"]["version"] for name in WANTED} == WANTED
    assert [name for name, one in locked.items() if name and not one["integrity"].startswith("sha512-")] == []


def test_the_lock_names_no_host():
    assert re.findall(r"https?://[^\"]*\.tgz", LOCK) == []


def test_types_are_of_the_vendored_version():
    vendored = json.loads((FRONTEND / "vendor/vendor.lock").read_text(encoding="utf-8"))
    versions = {item["name"]: item["version"] for item in vendored["packages"]}
    assert WANTED["idb"] == versions["idb"]
    assert {name for name in WANTED if name in versions} == {"idb"}
