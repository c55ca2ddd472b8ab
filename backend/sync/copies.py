"""A copy of everything in one file, and everything put back from it."""

import json
import os
import uuid
import zipfile

from ..store import copies, log, reading, writing
from .rebuild import rebuild

FORMAT = "boltfair copy 1"
ABOUT = "about.json"
# kept by the database itself, or written anew at each start
NOT_COPIED = ("boltfair.db", "boltfair.db-wal", "boltfair.db-shm", "address")


class NotACopy(OSError):
    """The file is not one that `write` made."""


class NotEmpty(OSError):
    """There is something here that would be lost."""


def write(path, data):
    """Write a copy, of one moment, while others go on writing.

    Takes: path, the file, replaced as a whole; data, the data folder.
    """
    partial = path.with_name(path.name + ".part")
    # it holds what lets phones in
    with os.fdopen(os.open(partial, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed, reading() as connection:
            packed.writestr(ABOUT, json.dumps({"format": FORMAT}))
            for name in copies.COPIED:
                with packed.open(f"{name}.jsonl", "w", force_zip64=True) as lines:
                    for row in copies.rows_of(connection, name):
                        lines.write(json.dumps(row, ensure_ascii=False).encode() + b"\n")
            for inside in _files(data):
                packed.write(data / inside, f"files/{inside}")
        file.flush()
        os.fsync(file.fileno())
    partial.replace(path)


def _files(data):
    return [
        found.relative_to(data).as_posix()
        for found in sorted(data.rglob("*"))
        if found.is_file() and found.name not in NOT_COPIED
    ]


def restore(path, data, replace=False):
    """Put everything back from a copy, in a new life: every phone starts over.

    Takes: replace, true to lose what is here now. Raises: NotACopy, NotEmpty.
    """
    try:
        with zipfile.ZipFile(path) as packed:
            if json.loads(packed.read(ABOUT))["format"] != FORMAT:
                raise NotACopy(f"{path} is a copy of another version")
            _restore(packed, data, replace)
    except (zipfile.BadZipFile, KeyError, ValueError) as error:
        raise NotACopy(f"{path} is not a copy that can be read") from error


def _restore(packed, data, replace):
    with writing() as connection:
        if log.businesses(connection) and not replace:
            raise NotEmpty("there is something here already: --replace to lose it")
        copies.empty(connection)
        for name in copies.COPIED:
            with packed.open(f"{name}.jsonl") as lines:
                copies.put_rows(connection, name, map(json.loads, lines))
        for business in log.businesses(connection):
            log.renew(connection, business, str(uuid.uuid4()))
            rebuild(connection, business)
    for name in packed.namelist():
        if name.startswith("files/"):
            _put_file(data, name.removeprefix("files/"), packed.read(name))


def _put_file(data, inside, body):
    target = (data / inside).resolve()
    if not target.is_relative_to(data.resolve()):
        raise NotACopy(f"{inside} would be put outside the data folder")
    target.parent.mkdir(parents=True, exist_ok=True)
    with os.fdopen(os.open(target, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(body)
