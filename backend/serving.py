"""Run the app on granian, and say where it is."""

import contextlib
import gc
import http.client
import ipaddress
import multiprocessing
import os
import signal
import socket
import ssl
import threading
import time

from granian import Granian
from granian.constants import Interfaces

from . import store
from .access import businesses, codes
from .access.showing import code_in_words
from .app import create_app
from .shell import certificates, trust
from .store import devices

# a slow phone holds one while it sends; idle ones end
THREADS = 64
# a worker told to stop ends what it is at; one that does not end is killed, which loses nothing committed
SECONDS_TO_STOP = 10
# a port whose worker is only starting holds a question; it is asked again
SECONDS_TO_ANSWER = 5
# a push of 1,500 changes makes some thirty thousand objects, none of them in a circle
OBJECTS_BETWEEN_COLLECTIONS = 100_000


def serve(host, port, settings, https, workers=1):
    """Run the server until it is told to stop.

    Takes: host, an IP address or None for the usual one.
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
    proxied = settings.behind_proxy and settings.names
    settings.address = f"https://{settings.names[0]}" if proxied else address.rstrip("/")
    told += first_code(settings)
    # the workers read their settings from there
    os.environ.update(settings.to_environment())
    server = Granian(
        "backend.serving:create_worker_app",
        factory=True,
        interface=Interfaces.WSGI,
        address=host,
        port=port,
        workers=workers,
        blocking_threads=THREADS,
        workers_kill_timeout=SECONDS_TO_STOP,
        log_level="error",
        **options,
    )
    # the worker must not be forked from a process that has threads already
    multiprocessing.set_start_method("spawn", force=True)
    server.on_startup(lambda: tell_once_up(https, shown, port, "\n".join(told)))
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


def create_worker_app():
    """Make the app in the worker process, which ends when its parent is gone, even killed."""

    def end_with_parent():
        multiprocessing.parent_process().join()
        os.kill(os.getpid(), signal.SIGTERM)

    threading.Thread(target=end_with_parent, daemon=True).start()
    app = create_app()
    # what is there from the start stays: looking it through for circles took a fifth of a push
    gc.freeze()
    gc.set_threshold(OBJECTS_BETWEEN_COLLECTIONS)
    return app


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
