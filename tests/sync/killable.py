"""The real server, as a process that can be killed."""

import contextlib
import http.client
import json
import os
import socket
import subprocess
import sys

from e2e.server import Server

SECONDS = 60


class Killable(Server):
    """A server process that can be killed, and started again on the same data."""

    def __init__(self, settings):
        super().__init__(settings.data)
        self.settings = settings

    def start(self):
        """Start the process on the database of the settings."""
        os.environ.pop("DATABASE_URL", None)
        if self.settings.database_url:
            os.environ["DATABASE_URL"] = self.settings.database_url
        try:
            super().start()
        finally:
            os.environ.pop("DATABASE_URL", None)

    def kill(self):
        """End the process with SIGKILL, and wait until all of it is gone."""
        self.process.kill()
        self.process.communicate(timeout=60)
        self.process = None

    def pair(self):
        """Pair a phone by the console's code: returns its reply and its cookie."""
        command = [sys.executable, "-c", "import sys; from backend.cli import main; sys.exit(main())"]
        environment = os.environ | self.settings.to_environment()
        told = subprocess.run([*command, "pair", "--json"], env=environment, capture_output=True, check=True)
        return self.pair_by(json.loads(told.stdout)["code"])

    def pair_by(self, code):
        """Pair a phone by a code: returns its reply and its cookie."""
        status, told, cookie = self.ask("/devices", {"code": code, "name": "x"})
        assert status == 200
        return told, cookie

    def ask(self, path, given, cookie=None):
        """Post JSON: returns (status, reply, cookie)."""
        status, text, cookie = self.post(path, json.dumps(given).encode(), cookie)
        return status, json.loads(text), cookie

    def post(self, path, body, cookie=None):
        """Post bytes: returns (status, bytes, cookie). Raises: OSError, HTTPException."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=SECONDS)
        with contextlib.closing(connection):
            connection.request("POST", f"/api/v1{path}", body, self._headers(cookie))
            # closed even where the server is killed halfway through its reply
            with connection.getresponse() as reply:
                cookie = (reply.headers["Set-Cookie"] or "").partition(";")[0]
                return reply.status, reply.read(), cookie

    def post_part(self, path, body, cookie, length):
        """Post the first bytes of a body that says it is longer, and hang up."""
        head = "".join(f"{name}: {value}\r\n" for name, value in self._headers(cookie).items())
        start = f"POST /api/v1{path} HTTP/1.1\r\nHost: 127.0.0.1:{self.port}\r\n"
        with socket.create_connection(("127.0.0.1", self.port), SECONDS) as connection:
            text = f"{start}{head}Content-Length: {len(body)}\r\n\r\n"
            connection.sendall(text.encode() + body[:length])

    def _headers(self, cookie):
        return {"Content-Type": "application/json", "Origin": self.address, "Cookie": cookie or ""}
