"""Fetch the vendored files again, or check that they are the ones locked.

`python frontend/vendor/vendor.py` packs each package below with npm, takes the
listed files and rewrites vendor.lock and VENDOR.md; `--check` needs nothing
but this folder. To bump a package, change its version here and run it.
"""

import argparse
import hashlib
import json
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
LOCK = "vendor.lock"
TABLE = "VENDOR.md"
OWN = {"vendor.py", LOCK, TABLE}


def package(name, version, licence, folder, files, licence_file="LICENSE"):
    """Say what is taken: files is {our name: name in the package}."""
    taken = {f"{folder}/{ours}": theirs for ours, theirs in files.items()}
    if licence_file:
        taken[f"{folder}/LICENSE.txt"] = licence_file
    return {"name": name, "version": version, "licence": licence, "files": taken}


def same(*names, folder=""):
    """Take files under their own names."""
    return {name: folder + name for name in names}


PACKAGES = [
    package("@micropython/micropython-webassembly-pyscript", "1.27.0", "MIT", "micropython",
            same("micropython.mjs", "micropython.wasm"), licence_file=None),
    package("preact", "11.2.0", "MIT", "preact",
            {"preact.mjs": "dist/preact.mjs", "hooks.mjs": "hooks/dist/hooks.mjs"}),
    package("htm", "3.1.1", "Apache-2.0", "htm",
            {"htm.mjs": "dist/htm.mjs", "preact.mjs": "preact/index.mjs"}),
    package("preact-iso", "2.12.2", "MIT", "preact-iso", same("router.js", folder="src/")),
    package("idb", "8.0.4", "ISC", "idb", same("index.js", folder="build/")),
    package("uuid", "14.0.3", "MIT", "uuid",
            same("v7.js", "rng.js", "stringify.js", "validate.js", "regex.js", folder="dist/"),
            licence_file="LICENSE.md"),
    package("qr", "0.7.0", "MIT", "qr", same("decode.js", "index.js"), licence_file="LICENSE-MIT"),
    *(package(f"workbox-{part}", "7.4.1", "MIT", "workbox",
              same(f"workbox-{part}.prod.js", folder="build/"))
      for part in ("core", "precaching", "routing", "strategies")),
]  # fmt: skip

# its package ships no licence file: this one is kept by hand, from its repository
KEPT = ["micropython/LICENSE.txt"]


def main():
    """Run the command; the exit code is 1 where a check finds something."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--check", action="store_true", help="only compare the files with vendor.lock")
    if not parser.parse_args().check:
        refresh(HERE)
    found = differences(HERE)
    print("\n".join(found) or "all vendored files are as locked")
    return 1 if found else 0


def refresh(folder):
    """Fetch every package and write its files, the lock and the table."""
    for item in PACKAGES:
        fetch(item, folder)
    lock = locked(folder)
    (folder / LOCK).write_text(json.dumps(lock, indent=2) + "\n")
    (folder / TABLE).write_text(table(lock))


def fetch(item, folder):
    """Pack one package with npm and write the files taken from it."""
    with tempfile.TemporaryDirectory() as place:
        wanted = f"{item['name']}@{item['version']}"
        subprocess.run(["npm", "pack", wanted, "--silent", "--pack-destination", place], check=True,
                       stdout=subprocess.DEVNULL)  # fmt: skip
        [packed] = Path(place).iterdir()
        with tarfile.open(packed) as archive:
            for ours, theirs in item["files"].items():
                target = folder / ours
                target.parent.mkdir(exist_ok=True)
                target.write_bytes(archive.extractfile(f"package/{theirs}").read())


def locked(folder):
    """Describe the packages and the SHA-256 of every file there now."""
    packages = [
        {
            "name": item["name"],
            "version": item["version"],
            "licence": item["licence"],
            "files": {ours: sha256(folder / ours) for ours in item["files"]},
        }
        for item in PACKAGES
    ]
    return {"packages": packages, "kept": {name: sha256(folder / name) for name in KEPT}}


def sha256(path):
    """Hash a file, as hexadecimal digits."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def table(lock):
    """Write the table people read from the lock."""
    rows = [
        f"| {item['name']} | {item['version']} | {item['licence']} | {', '.join(item['files'])} |"
        for item in lock["packages"]
    ]
    return "\n".join([
        "# Vendored files",
        "",
        "Other people's work, unchanged, served by this app so that no page asks another host. Written by",
        "`vendor.py`, which fetches them again; `vendor.py --check` compares them with `vendor.lock`.",
        "",
        "| package | version | licence | files |",
        "|---|---|---|---|",
        *rows,
        "",
        f"Kept by hand, since the package has none: {', '.join(lock['kept'])}.",
        "",
    ])  # fmt: skip


def differences(folder):
    """Compare the folder with its lock; returns a line for each difference."""
    lock = json.loads((folder / LOCK).read_text())
    expected = dict(lock["kept"])
    for item in lock["packages"]:
        expected.update(item["files"])
    present = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    present = {name for name in present - OWN if "__pycache__" not in name}
    found = [f"missing: {name}" for name in sorted(expected.keys() - present)]
    found += [f"not in the lock: {name}" for name in sorted(present - expected.keys())]
    for name in sorted(present & expected.keys()):
        if sha256(folder / name) != expected[name]:
            found.append(f"changed: {name}")
    declared = {(item["name"], item["version"]) for item in PACKAGES}
    if declared != {(item["name"], item["version"]) for item in lock["packages"]}:
        found.append("vendor.py and vendor.lock name different packages")
    if (folder / TABLE).read_text() != table(lock):
        found.append(f"changed: {TABLE}")
    return found


if __name__ == "__main__":
    sys.exit(main())
