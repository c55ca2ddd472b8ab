"""`boltfair serve`: run the server."""

import ipaddress
import socket

from ..serving import serve
from .options import add_data, settings_of


def declare(commands):
    """Declare the command."""
    command = commands.add_parser("serve", help="run the server until it is told to stop")
    command.add_argument("--host", type=address, metavar="ADDRESS",
                         help="listen here only (default 127.0.0.1; with --https, everywhere)")  # fmt: skip
    command.add_argument("--port", type=port, default=8080, help="default %(default)s")
    add_data(command)
    command.add_argument("--https", action="store_true",
                         help="for a phone on the same network: with a certificate of its own, and a page "
                         "at the next port that says how to trust it")  # fmt: skip
    command.add_argument("--name", action="append", default=[], metavar="HOST",
                         help="a host name it is reached by, beside its addresses and localhost")  # fmt: skip
    command.add_argument("--behind-proxy", action="store_true",
                         help="believe what one proxy in front says of scheme, host and sender")  # fmt: skip
    command.add_argument(
        "--workers", type=int, default=1, metavar="N", help="processes (default %(default)s)"
    )
    command.set_defaults(run=run)


def run(given):
    """Serve until told to stop."""
    settings = settings_of(given)
    settings.names += tuple(given.name)
    settings.behind_proxy = settings.behind_proxy or given.behind_proxy
    serve(given.host, given.port, settings, given.https, given.workers)


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


def port(text):
    """Read a port that leaves room for another after it."""
    number = int(text)
    if not 1 <= number <= 65534:
        raise ValueError(text)
    return number
