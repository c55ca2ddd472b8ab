"""`boltfair serve`: run the server."""

import ipaddress
import socket
import tempfile
import time
from datetime import date

from .options import add_data, settings_of

MOST_WORKERS = 64
# another than the usual: what a browser keeps of one port is not seen from another
PORT, DEMO_PORT = 8080, 8090
DEMO = (
    "This is a year of Tern & Tansy, an invented maker, up to a market today. It has a folder of its own:",
    "nothing of yours is shown or changed. Stop it with Ctrl+C, and it is gone, with all that was tried.",
)


def declare(commands):
    """Declare the command."""
    command = commands.add_parser("serve", help="run the server until it is told to stop")
    command.add_argument("--host", type=address, metavar="ADDRESS",
                         help="listen here only (default 127.0.0.1; with --https, everywhere)")  # fmt: skip
    command.add_argument("--port", type=port, help=f"default {PORT}; with --demo, {DEMO_PORT}")
    command.add_argument("--demo", action="store_true",
                         help="show an invented maker's year, from a folder of its own")  # fmt: skip
    add_data(command)
    command.add_argument("--https", action="store_true",
                         help="for a phone on the same network: with a certificate of its own, and a page "
                         "at the next port that says how to trust it")  # fmt: skip
    command.add_argument("--name", action="append", default=[], metavar="HOST",
                         help="a host name it is reached by, beside its addresses and localhost")  # fmt: skip
    command.add_argument("--behind-proxy", action="store_true",
                         help="believe what one proxy in front says of scheme, host and sender")  # fmt: skip
    command.add_argument(
        "--workers", type=workers, default=1, metavar="N", help="processes (default %(default)s)"
    )
    command.add_argument("--log", metavar="FILE",
                         help="write a line for each request: when, method, route, status, milliseconds, "
                         "phone; - for standard error")  # fmt: skip
    command.set_defaults(run=run)


def run(given):
    """Serve until told to stop."""
    # a worker loads this command, too, and would wait for what only its parent runs
    from ..serving import serve

    settings = settings_of(given)
    settings.names += tuple(given.name)
    settings.behind_proxy = settings.behind_proxy or given.behind_proxy
    settings.log = given.log or settings.log
    if given.demo:
        serve_demo(given, settings, serve)
    else:
        serve(given.host, given.port or PORT, settings, given.https, given.workers)


def serve_demo(given, usual, serve):
    """Serve a year of the invented maker, made anew at each start.

    Takes: usual, the settings of a server that is none: its data stay untouched; serve, as of serving.
    Raises: OSError where a folder is named.
    """
    from .. import store
    from ..access import businesses
    from ..demo import load
    from ..settings import Settings

    if given.data:
        raise OSError("--demo has a folder of its own: leave --data out")
    with tempfile.TemporaryDirectory(prefix="boltfair-demo-") as folder:
        settings = Settings(folder, None, usual.names, usual.behind_proxy, usual.log, demo=True)
        with store.opened(settings), store.writing() as connection:
            load(connection, businesses.begin(connection, time.time_ns() // 1_000_000), date.today())
        serve(given.host, given.port or DEMO_PORT, settings, given.https, given.workers, DEMO)


def address(text):
    """Read an IP address, or a name of this machine as one."""
    try:
        return str(ipaddress.ip_address(text))
    except ValueError:
        pass
    try:
        return socket.gethostbyname(text)
    except OSError as error:
        raise ValueError(text) from error


def workers(text):
    """Read how many processes answer."""
    number = int(text)
    if not 1 <= number <= MOST_WORKERS:
        raise ValueError(text)
    return number


def port(text):
    """Read a port that leaves room for another after it."""
    number = int(text)
    if not 1 <= number <= 65534:
        raise ValueError(text)
    return number
