"""A copy of everything in one file, and everything put back from it: all of it, or nothing."""

import contextlib
import json
import os
import uuid
import zipfile
import zlib
from pathlib import PurePosixPath

from ..core.declaring.errors import Problems
from ..store import copies, log, reading, writing
from .changes import hash_of
from .rebuild import rebuild

FORMAT = "boltfair copy 1"
ABOUT = "about.json"
# of the data folder, beside the database; what else lies there is somebody else's
FOLDERS = ("certificates",)
FILES = "files/"


class NotACopy(OSError):
    """The file is not one that `write` made."""


class NotEmpty(OSError):
    """There is something here that would be lost."""


def write(path, data):
    """Write a copy, of one moment, while others go on writing.

    Takes: path, the file, replaced as a whole; data, the data folder.
    """
    partial = path.with_name(path.name + ".part")
    try:
        # it holds what lets phones in
        with os.fdopen(os.open(partial, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as packed, reading() as connection:
                _write(packed, connection, data)
            file.flush()
            os.fsync(file.fileno())
        partial.replace(path)
    except BaseException:
        partial.unlink(missing_ok=True)
        raise


def _write(packed, connection, data):
    packed.writestr(ABOUT, json.dumps({"format": FORMAT}))
    for name in copies.COPIED:
        with packed.open(f"{name}.jsonl", "w", force_zip64=True) as lines:
            for row in copies.rows_of(connection, name):
                lines.write(json.dumps(row, ensure_ascii=False).encode() + b"\n")
    for folder in FOLDERS:
        for found in sorted((data / folder).rglob("*")):
            if found.is_file() and not found.name.endswith(".part"):
                packed.write(found, FILES + found.relative_to(data).as_posix())


def restore(path, data, replace=False):
    """Put everything back from a copy, in a new life: every phone starts over.

    All of it is looked at before anything is changed.
    Takes: replace, true to lose what is here now. Raises: NotACopy, NotEmpty.
    """
    try:
        with zipfile.ZipFile(path) as packed:
            _check(packed, path)
            _restore(packed, data, replace)
    except (zipfile.BadZipFile, zlib.error, KeyError, ValueError, Problems, *copies.NotTaken) as error:
        raise NotACopy(f"{path} is not a copy that can be read: {_reason(error)}") from error


def _reason(error):
    return str(error.args[0]) if error.args else type(error).__name__


def _check(packed, path):
    if json.loads(packed.read(ABOUT))["format"] != FORMAT:
        raise NotACopy(f"{path} is a copy of another version")
    damaged = packed.testzip()
    if damaged:
        raise ValueError(f"{damaged} in it is damaged")
    names = packed.namelist()
    known = {ABOUT, *(f"{name}.jsonl" for name in copies.COPIED)}
    strange = [name for name in names if name not in known and not _is_file_of_ours(name)]
    if strange or len(set(names)) < len(names) or not known <= set(names):
        raise ValueError("it does not hold what a copy holds")
    _check_rows(packed)


def _is_file_of_ours(name):
    parts = PurePosixPath(name.removeprefix(FILES)).parts
    plain = name.startswith(FILES) and "\\" not in name and ".." not in parts and ":" not in name
    return plain and len(parts) > 1 and parts[0] in FOLDERS


def _check_rows(packed):
    last = {}
    for number, row in _rows(packed, "log_head"):
        if row["business"] in last:
            raise ValueError(f"log_head.jsonl, line {number}: a business twice")
        last[row["business"]] = row["last_seq"]
    through = dict.fromkeys(last, 0)
    for number, row in _rows(packed, "change"):
        business = row["business"]
        if row["seq"] != through.get(business, -2) + 1:
            raise ValueError(f"change.jsonl, line {number}: a change of the log is missing before it")
        if hash_of(row).hex() != row["hash"]:
            raise ValueError(f"change.jsonl, line {number}: it is not what was taken")
        through[business] = row["seq"]
    if through != last:
        raise ValueError("change.jsonl: the end of a log is missing")
    for number, row in _rows(packed, "device"):
        if row["business"] not in last:
            raise ValueError(f"device.jsonl, line {number}: a phone of no business here")


def _rows(packed, name):
    with packed.open(f"{name}.jsonl") as lines:
        for number, line in enumerate(lines, 1):
            row = json.loads(line)
            if not copies.is_row(name, row):
                raise ValueError(f"{name}.jsonl, line {number}: it is no row of that table")
            yield number, row


def _restore(packed, data, replace):
    files = [(data / name.removeprefix(FILES), name) for name in packed.namelist() if name.startswith(FILES)]
    # beside their places first: the disk may be full
    beside = []
    try:
        for target, name in files:
            beside.append((_put_beside(target, packed.read(name)), target))
        with writing() as connection:
            _put_rows(packed, connection, replace)
        for partial, target in beside:
            partial.replace(target)
    finally:
        for partial, _ in beside:
            with contextlib.suppress(OSError):
                partial.unlink(missing_ok=True)


def _put_rows(packed, connection, replace):
    if log.businesses(connection) and not replace:
        raise NotEmpty("there is something here already: --replace to lose it")
    copies.empty(connection)
    for name in copies.COPIED:
        copies.put_rows(connection, name, (row for _, row in _rows(packed, name)))
    for business in log.businesses(connection):
        log.renew(connection, business, str(uuid.uuid4()))
        rebuild(connection, business)


def _put_beside(target, body):
    target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    partial = target.with_name(target.name + ".part")
    with os.fdopen(os.open(partial, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(body)
        file.flush()
        os.fsync(file.fileno())
    return partial
