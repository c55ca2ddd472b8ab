"""The command `boltfair`."""

import argparse
import sys

from . import businesses, copies, demo, export, phones, serve

COMMANDS = (serve, businesses, phones, demo, copies, export)


def main(argv=None):
    """Run a command; returns the exit code."""
    # a console that lacks a letter shows another in its place
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
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
    for module in COMMANDS:
        module.declare(commands)
    return parser
