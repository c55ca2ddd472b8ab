"""The command `boltfair`."""

import argparse
import ipaddress
import socket
import sys
from pathlib import Path

from .serving import serve

DATA = Path.home() / "boltfair-data"


def main(argv=None):
    """Run a command; returns the exit code."""
    arguments = make_parser().parse_args(argv)
    try:
        arguments.run(arguments)
    except OSError as error:
        print(f"boltfair: {error}", file=sys.stderr)
        return 1
    return 0


def make_parser():
    """Declare the commands and their options."""
    parser = argparse.ArgumentParser(prog="boltfair", description="Buy, make, count, sell and review.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    command = commands.add_parser("serve", help="run the server until it is told to stop")
    command.add_argument("--host", type=address, metavar="ADDRESS",
                         help="listen here only (default 127.0.0.1; with --https, everywhere)")  # fmt: skip
    command.add_argument("--port", type=port, default=8080, help="default %(default)s")
    command.add_argument("--data", type=Path, default=DATA, metavar="DIR",
                         help="the folder for all that is kept (default %(default)s)")  # fmt: skip
    command.add_argument("--https", action="store_true",
                         help="for a phone on the same network: with a certificate of its own, and a page "
                         "at the next port that says how to trust it")  # fmt: skip
    command.set_defaults(run=lambda given: serve(given.host, given.port, given.data, given.https))
    return parser


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
