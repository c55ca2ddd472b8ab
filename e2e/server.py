"""The server, started as a person starts it, on a free port."""

import contextlib
import random
import shutil
import socket
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent


class Server:
    """`boltfair serve` as a process of its own; a context manager that ends it.

    Takes: data, its folder; root, the project tree that is run; more, what
    else is said to `serve`.
    """

    def __init__(self, data, root=ROOT, more=()):
        self.data = data
        self.root = root
        self.more = more
        self.port = free_port()
        scheme = "https" if "--https" in more else "http"
        self.address = f"{scheme}://127.0.0.1:{self.port}"
        self.process = None

    def __enter__(self):
        self.start()
        return self

    def __exit__(self, *_):
        self.stop()

    def start(self):
        """Start the process, and return once it says that it answers."""
        of_data = ["--port", str(self.port), "--data", str(self.data), *self.more]
        command = [*command_of(self.root), "serve", *of_data]
        self.process = subprocess.Popen(command, cwd=self.root, stdout=subprocess.PIPE, text=True)
        told = self.process.stdout.readline()
        if self.address not in told:
            self.stop()
            raise RuntimeError(f"{' '.join(command)} did not start: {told or 'it said nothing'}")

    def stop(self):
        """End the process; from then on its address answers nobody."""
        if self.process:
            self.process.terminate()
            self.process.wait(20)
            self.process.stdout.close()
            self.process = None


def command_of(root):
    """Find the console script; in a copy of the tree, the same entry point run from there."""
    script = shutil.which("boltfair", path=Path(sys.executable).parent)
    if script and root == ROOT:
        return [script]
    return [sys.executable, "-c", "import sys; from backend.cli import main; sys.exit(main())"]


def free_port():
    """Find a port that nobody listens on, below those that connections going out take for themselves.

    So it is still free when a server that was killed comes back to it.
    """
    while True:
        port = random.SystemRandom().randrange(10_000, 32_000)
        with contextlib.suppress(OSError), socket.create_server(("127.0.0.1", port)):
            return port
