"""The vendored files are the ones locked, and a stray or changed one is found."""

import importlib.util
import shutil
import subprocess
import sys

import pytest

from backend.app import FRONTEND

VENDOR = FRONTEND / "vendor"
spec = importlib.util.spec_from_file_location("vendor", VENDOR / "vendor.py")
vendor = importlib.util.module_from_spec(spec)
spec.loader.exec_module(vendor)


@pytest.fixture
def copy(tmp_path):
    return shutil.copytree(VENDOR, tmp_path / "vendor")


def test_the_vendored_files_are_as_locked():
    done = subprocess.run(
        [sys.executable, str(VENDOR / "vendor.py"), "--check"], capture_output=True, text=True, timeout=60
    )
    assert (done.returncode, done.stdout) == (0, "all vendored files are as locked\n")


def test_a_changed_a_missing_and_a_stray_file_are_found(copy):
    (copy / "htm/htm.mjs").write_text("changed")
    (copy / "uuid/v7.js").unlink()
    (copy / "uuid/v4.js").write_text("stray")
    (copy / "VENDOR.md").write_text("stale")
    assert vendor.differences(copy) == [
        "missing: uuid/v7.js",
        "not in the lock: uuid/v4.js",
        "changed: htm/htm.mjs",
        "changed: VENDOR.md",
    ]


def test_a_version_bumped_without_fetching_is_found(copy, monkeypatch):
    bumped = [{**item, "version": "0"} for item in vendor.PACKAGES]
    monkeypatch.setattr(vendor, "PACKAGES", bumped)
    assert "vendor.py and vendor.lock name different packages" in vendor.differences(copy)


def test_every_package_has_its_licence_beside_it():
    for folder in {name.split("/")[0] for item in vendor.PACKAGES for name in item["files"]}:
        assert (
            "Permission" in (text := (VENDOR / folder / "LICENSE.txt").read_text())
            or "Licensed under" in text
        )
