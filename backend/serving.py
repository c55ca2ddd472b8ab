"""Run the app on granian, and say where it is."""

import contextlib
import http.client
import ipaddress
import multiprocessing
import os
import socket
import ssl
import tempfile
import threading
import time

from granian import Granian
from granian.constants import Interfaces
from granian.http import HTTP1Settings

from . import observing, store
from .access import businesses, codes
from .access.showing import code_in_words
from .calculating import slots
from .shell import certificates, trust
from .store import devices

# a worker told to stop ends what it is at; one that does not end is killed, which loses nothing committed
SECONDS_TO_STOP = 10
# a port whose worker is only starting holds a question; it is asked again
SECONDS_TO_ANSWER = 5
# what is read ahead of a connection, which a body that never ends holds; headers are less
READ_BYTES = 64 * 1024
NOT_SECURE = (
    "Phones cannot use it there: their browsers keep records and pair by https only.",
    "Start it with --https, or with --behind-proxy where a proxy in front has a certificate.",
)


def serve(host, port, settings, https, workers=1, about=()):
    """Run the server until it is told to stop.

    Takes: host, an IP address or None for the usual one; about, lines to be told beside its address.
    Raises: OSError, with words for the person who started it.
    """
    host = host or ("0.0.0.0" if https else "127.0.0.1")
    shown = reached_at(host)
    address = url("https" if https else "http", shown, port)
    told, options = [f"Boltfair is at {address} (stop with Ctrl+C)"], {}
    refuse_taken(host, port)
    if https:
        made = certificates.prepare(settings.data, shown)
        trust.start(trust.create_trust_app(made, address), host, port + 1)
        told.append(f"A new phone first goes to {url('http', shown, port + 1)}")
        told.append(f"and compares this SHA-256 fingerprint: {made.fingerprint()}")
        options = {"ssl_cert": made.server, "ssl_key": made.server_key}
    elif not (settings.behind_proxy or ipaddress.ip_address(shown).is_loopback):
        told += NOT_SECURE
    proxied = settings.behind_proxy and settings.names
    settings.address = f"https://{settings.names[0]}" if proxied else address.rstrip("/")
    told += [*about, *first_code(settings)]
    # the workers read their settings from there
    os.environ.update(settings.to_environment())
    server = Granian(
        "backend.worker:create_worker_app",
        factory=True,
        interface=Interfaces.RSGI,
        websockets=False,
        address=host,
        port=port,
        workers=workers,
        workers_kill_timeout=SECONDS_TO_STOP,
        respawn_failed_workers=True,
        log_level="error",
        http1_settings=HTTP1Settings(max_buffer_size=READ_BYTES),
        **options,
    )
    # the worker must not be forked from a process that has threads already
    multiprocessing.set_start_method("spawn", force=True)
    server.on_startup(lambda: tell_once_up(https, shown, port, "\n".join(told)))
    with tempfile.TemporaryDirectory(prefix="boltfair-") as shared:
        # what the workers share: places for long calculations, and counts
        os.environ[slots.VARIABLE] = os.environ[observing.TOGETHER] = shared
        server.serve()


def first_code(settings):
    """Make the tables; while there is one business without a phone, tell a code for its first owner."""
    with store.opened(settings), store.writing() as connection:
        now = time.time_ns() // 1_000_000
        known = [one.id for one in businesses.all_of(connection)] or [businesses.begin(connection, now)]
        if len(known) > 1 or devices.of_business(connection, known[0]):
            return []
        code = codes.make(connection, known[0], "owner", None, now)
    return ["The first owner's phone:", code_in_words(code, codes.link(settings.address, code))]


def reached_at(host):
    """Find the address at which a server listening at `host` is reached."""
    if ipaddress.ip_address(host).is_unspecified:
        return certificates.local_address() or "127.0.0.1"
    return host


def url(scheme, host, port):
    """Write an address; IPv6 in brackets (RFC 3986)."""
    return f"{scheme}://{f'[{host}]' if ':' in host else host}:{port}/"


def refuse_taken(host, port):
    """Raise OSError if something listens there: granian would share the port with it."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    socket.create_server((host, port), family=family).close()


def tell_once_up(https, host, port, text):
    """Print a text as soon as the server answers, without holding it up."""

    def wait_and_tell():
        while not answers(https, host, port):
            time.sleep(0.05)
        print(text, flush=True)

    threading.Thread(target=wait_and_tell, daemon=True).start()


def answers(https, host, port):
    """Say whether a worker answers: the port alone is open before one does."""
    connection = http.client.HTTPConnection(host, port, timeout=SECONDS_TO_ANSWER)
    if https:
        connection = http.client.HTTPSConnection(
            host, port, timeout=SECONDS_TO_ANSWER, context=trusting_anyone()
        )
    with contextlib.suppress(OSError, http.client.HTTPException), contextlib.closing(connection):
        connection.request("GET", "/healthz")
        connection.getresponse().close()
        return True
    return False


def trusting_anyone():
    """Make a TLS context for asking oneself whether one is up: nothing is told or believed by it."""
    context = ssl.create_default_context()
    context.check_hostname = False
    context.verify_mode = ssl.CERT_NONE
    return context
