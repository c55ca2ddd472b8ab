"""`boltfair export`: every table as CSV (RFC 4180), and the takings of each day."""

import csv
import json
from pathlib import Path

from .. import store
from ..core.records.checking import KINDS
from ..core.reviewing.spreadsheet import guarded
from ..store import records, takings
from .options import add_business, add_data, business_of, settings_of


def declare(commands):
    """Declare the command."""
    command = commands.add_parser("export", help="write every table, and the takings of each day, as CSV")
    command.add_argument("folder", type=Path, metavar="DIR")
    add_data(command)
    add_business(command)
    command.set_defaults(run=export)


def export(given):
    """Write the files."""
    given.folder.mkdir(parents=True, exist_ok=True)
    with store.opened(settings_of(given)), store.reading() as connection:
        business = business_of(connection, given)
        for kind in KINDS:
            names = ["id", *(["at"] if kind.fact else []), *(field.name for field in kind.fields)]
            rows = ([row[name] for name in names] for row in records.every(connection, business, kind.name))
            write(given.folder / f"{kind.name}.csv", names, rows)
        write(given.folder / "takings.csv", takings.TOLD, takings.by_day(connection, business))
    print(f"{len(KINDS) + 1} files are in {given.folder}")


def write(path, names, rows):
    """Write one CSV file."""
    with path.open("w", encoding="utf-8", newline="") as file:
        lines = csv.writer(file)
        lines.writerow(names)
        lines.writerows([cell(value) for value in row] for row in rows)


def cell(value):
    """Write a value so that a spreadsheet shows it and runs nothing. Example: cell("=1") == "'=1" """
    if isinstance(value, list):
        return json.dumps(value, ensure_ascii=False)
    return guarded(value) if isinstance(value, str) else value
