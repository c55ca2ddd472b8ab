"""From the server to the app: requests come whole, in time and not too large, or are refused.

The server tells of requests as RSGI does, without holding a thread for one that is
still coming; the app is WSGI (PEP 3333) and has a thread for each that has come.
"""

import asyncio
import io
import json
import logging
import os
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from http import HTTPStatus
from urllib.parse import quote

# a phone on a poor line sends 1 MiB in the second of them; nothing at all for the first is no line
SECONDS_WITHOUT_BYTES, SECONDS_FOR_BODY = 15, 90
# set once the client has gone: what works long for it may stop
GONE = "boltfair.gone"

logger = logging.getLogger(__name__)


class Refused(Exception):
    """A request that does not come to the app; `status` says why."""

    def __init__(self, status, detail):
        super().__init__(detail)
        self.status = status
        self.detail = detail


class Gateway:
    """The app as the server calls it.

    Takes: app, a WSGI application; threads, how many requests it works on at
    once; most_bytes, the largest body; note, called with the environ, status and
    seconds of each reply; at_end, called as the server ends.
    """

    def __init__(self, app, threads, most_bytes, note, at_end):
        self.app = app
        self.note = note
        self.at_end = at_end
        self.most_bytes = most_bytes
        self.pool = ThreadPoolExecutor(threads, thread_name_prefix="request")

    def __rsgi_del__(self, loop):
        """End the worker: what is being worked on is ended first.

        Nothing is left to tidy, and the server's own threads, which may still come
        back to Python, would stumble over an interpreter that is being taken down.
        """
        self.at_end()
        self.pool.shutdown()
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(0)

    async def __rsgi__(self, scope, protocol):
        """Answer one request."""
        gone = threading.Event()
        try:
            body = await self._body(scope, protocol)
        except Refused as refused:
            protocol.response_bytes(*_refusal(scope, refused))
            return
        watching = asyncio.ensure_future(_watch(protocol, gone))
        try:
            reply = await asyncio.get_running_loop().run_in_executor(
                self.pool, self._answer, _environ(scope, body, gone)
            )
        finally:
            watching.cancel()
        protocol.response_bytes(*reply)

    async def _body(self, scope, protocol):
        told = scope.headers.get("content-length")
        if told is None and "transfer-encoding" not in scope.headers:
            return b""
        if told is not None and told.isdecimal() and int(told) > self.most_bytes:
            raise self._too_large()
        parts, size, now = [], 0, asyncio.get_running_loop().time
        until = now() + SECONDS_FOR_BODY
        try:
            async with asyncio.timeout(SECONDS_WITHOUT_BYTES) as limit:
                async for part in protocol:
                    parts.append(part)
                    size += len(part)
                    if size > self.most_bytes:
                        raise self._too_large()
                    limit.reschedule(min(until, now() + SECONDS_WITHOUT_BYTES))
        except TimeoutError:
            raise Refused(HTTPStatus.REQUEST_TIMEOUT, "the body did not come in time") from None
        if told is not None and size < int(told):
            raise Refused(HTTPStatus.BAD_REQUEST, "the body ends before it is whole")
        return b"".join(parts)

    def _too_large(self):
        detail = f"a body may be at most {self.most_bytes} bytes"
        return Refused(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, detail)

    def _answer(self, environ):
        began = time.monotonic()
        reply = self._reply(environ)
        self.note(environ, int(reply[0]), time.monotonic() - began)
        return reply

    def _reply(self, environ):
        # (status, headers, body); what the app does not catch is no reason to answer nothing
        begun = []
        try:
            parts = self.app(environ, lambda status, headers, _=None: begun.append((status, headers)))
            try:
                body = b"".join(parts)
            finally:
                if hasattr(parts, "close"):
                    parts.close()
        except Exception:
            logger.exception("a request failed")
            return HTTPStatus.INTERNAL_SERVER_ERROR, [("content-type", "text/plain")], b"internal error\n"
        status, headers = begun[-1]
        return int(status.split(" ", 1)[0]), [(name.lower(), value) for name, value in headers], body


async def _watch(protocol, gone):
    await protocol.client_disconnect()
    gone.set()


def _refusal(scope, refused):
    told = {
        "type": "about:blank", "title": refused.status.phrase, "status": refused.status.value,
        "detail": refused.detail, "instance": quote(scope.path),
    }  # fmt: skip
    # what is still coming of it is not read
    headers = [("content-type", "application/problem+json"), ("connection", "close")]
    return refused.status.value, headers, json.dumps(told).encode()


def _environ(scope, body, gone):
    host, _, port = scope.server.rpartition(":")
    environ = {
        "REQUEST_METHOD": scope.method,
        "SCRIPT_NAME": "",
        # as PEP 3333 has it: bytes as Latin-1
        "PATH_INFO": scope.path.encode().decode("latin-1"),
        "QUERY_STRING": scope.query_string,
        "SERVER_NAME": host.strip("[]"),
        "SERVER_PORT": port,
        "SERVER_PROTOCOL": "HTTP/" + scope.http_version,
        "REMOTE_ADDR": scope.client.rpartition(":")[0].strip("[]"),
        "wsgi.version": (1, 0),
        "wsgi.url_scheme": scope.scheme,
        "wsgi.input": io.BytesIO(body),
        "wsgi.errors": sys.stderr,
        "wsgi.multithread": True,
        "wsgi.multiprocess": True,
        "wsgi.run_once": False,
        "wsgi.input_terminated": True,
        GONE: gone,
    }
    if scope.authority:
        environ["HTTP_HOST"] = scope.authority
    for name, value in scope.headers.items():
        key = name.upper().replace("-", "_")
        if key not in ("CONTENT_TYPE", "CONTENT_LENGTH"):
            key = "HTTP_" + key
        # the same header again is one list (RFC 9110, section 5.3), but cookies (RFC 9113, section 8.2.3)
        between = "; " if key == "HTTP_COOKIE" else ","
        environ[key] = environ[key] + between + value if key in environ and key != "HTTP_HOST" else value
    return environ
