"""The peers: general-purpose libraries fetched by npm, and the server that gives them to a browser."""

import hashlib
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

HERE = Path(__file__).parent / "peers"
LOCK = HERE / "package-lock.json"


class Lacking(Exception):
    """What the peers need is not on this machine."""


def packages():
    """Fetch the peers in the locked versions, once; returns the folder they lie in.

    Raises: Lacking, saying what.
    """
    missing = [tool for tool in ("node", "npm") if not shutil.which(tool)]
    if missing:
        raise Lacking(f"the peers need {' and '.join(missing)}, which this machine lacks")
    cache = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "boltfair-benchmarks"
    folder = cache / hashlib.sha256(LOCK.read_bytes()).hexdigest()[:16]
    if not folder.exists():
        cache.mkdir(parents=True, exist_ok=True)
        _fetch(folder)
    return folder


def _fetch(folder):
    with tempfile.TemporaryDirectory(dir=folder.parent) as unfinished:
        for name in ("package.json", LOCK.name):
            shutil.copy(HERE / name, unfinished)
        command = ["npm", "ci", "--no-audit", "--no-fund", "--loglevel=error"]
        done = subprocess.run(command, cwd=unfinished, capture_output=True, text=True)
        if done.returncode:
            raise Lacking(f"npm could not fetch the peers: {done.stderr.strip()}")
        shutil.copytree(unfinished, folder, symlinks=True)


class PeerServer:
    """PouchDB's own server on a folder on disk; a context manager that ends it.

    Takes: folder, where the packages lie; data, the server's own; a file
    `update.bin` there is what Yjs pulls.
    """

    def __init__(self, folder, data):
        self.folder = folder
        self.data = data
        self.process = None
        self.address = None

    def __enter__(self):
        command = ["node", HERE / "server.js", self.folder, self.data]
        self.process = subprocess.Popen(command, cwd=self.data, stdout=subprocess.PIPE, text=True)
        port = self.process.stdout.readline().strip()
        if not port:
            self.__exit__()
            raise RuntimeError("the peers' server did not start")
        self.address = f"http://127.0.0.1:{port}"
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait(20)
        self.process.stdout.close()
