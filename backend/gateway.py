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


class Limits:
    """How large a body may be.

    Takes: most_bytes, for those whom the app knows; most_bytes_of_strangers, for all others; known_at, the
    path that the app answers with 200 to those whom it knows, and to nobody else.
    """

    def __init__(self, most_bytes, most_bytes_of_strangers, known_at):
        self.most_bytes = most_bytes
        self.most_bytes_of_strangers = most_bytes_of_strangers
        self.known_at = known_at


class Gateway:
    """The app as the server calls it.

    Takes: app, a WSGI application; threads, how many requests it works on at
    once; limits, of bodies; note, called with the environ, status and seconds of
    each reply; at_end, called as the server ends.
    """

    def __init__(self, app, threads, limits, note, at_end):
        self.app = app
        self.note = note
        self.at_end = at_end
        self.limits = limits
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
        if body is None:
            protocol.response_bytes(*await self._in_thread(self._answer_stranger, scope, gone))
            return
        watching = asyncio.ensure_future(_watch(protocol, gone))
        try:
            reply = await self._in_thread(self._answer, _environ(scope, body, gone))
        finally:
            watching.cancel()
        protocol.response_bytes(*reply)

    def _in_thread(self, work, *given):
        return asyncio.get_running_loop().run_in_executor(self.pool, work, *given)

    async def _body(self, scope, protocol):
        # None for one that is larger than a stranger's may be: of that nothing is kept, whatever it says
        told = scope.headers.get("content-length")
        if told is None and "transfer-encoding" not in scope.headers:
            return b""
        promised = int(told) if told is not None and told.isdecimal() else 0
        if promised > self.limits.most_bytes:
            raise _too_large(self.limits.most_bytes)
        parts, size, now = [], 0, asyncio.get_running_loop().time
        few, is_known = self.limits.most_bytes_of_strangers, None
        until = now() + SECONDS_FOR_BODY
        try:
            async with asyncio.timeout(SECONDS_WITHOUT_BYTES) as limit:
                async for part in protocol:
                    size += len(part)
                    if size > self.limits.most_bytes:
                        raise _too_large(self.limits.most_bytes)
                    if is_known is None and max(promised, size) > few:
                        is_known = await self._in_thread(self._is_known, scope)
                    if is_known is False:
                        parts.clear()
                    else:
                        parts.append(part)
                    limit.reschedule(min(until, now() + SECONDS_WITHOUT_BYTES))
        except TimeoutError:
            raise Refused(HTTPStatus.REQUEST_TIMEOUT, "the body did not come in time") from None
        if told is not None and size < int(told):
            raise Refused(HTTPStatus.BAD_REQUEST, "the body ends before it is whole")
        return None if is_known is False else b"".join(parts)

    def _is_known(self, scope):
        # a cookie may be made up: the app is asked, with all that the request says of who sent it
        environ = _environ(scope, b"", threading.Event())
        environ = {name: environ[name] for name in environ if not name.startswith("CONTENT_")}
        asked = {"REQUEST_METHOD": "GET", "PATH_INFO": self.limits.known_at, "QUERY_STRING": ""}
        return self._reply(environ | asked)[0] == HTTPStatus.OK

    def _answer_stranger(self, scope, gone):
        # who is not let in is told so; whoever else would have had the body read is told how large it may be
        environ = _environ(scope, b"", gone) | {"CONTENT_LENGTH": str(self.limits.most_bytes + 1)}
        # of one that comes in chunks no length is believed
        environ.pop("HTTP_TRANSFER_ENCODING", None)
        status, headers, body = self._answer(environ)
        if status == HTTPStatus.REQUEST_ENTITY_TOO_LARGE:
            return _refusal(scope, _too_large(self.limits.most_bytes_of_strangers))
        return status, headers, body

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


def _too_large(most_bytes):
    return Refused(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, f"a body may be at most {most_bytes} bytes")


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
