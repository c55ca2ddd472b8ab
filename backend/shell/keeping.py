"""What was made of some bytes once, kept beside Python's own compiled files.

Where those may not be written, as by another user's server, it is made at each start anew.
"""

import contextlib
import hashlib
import importlib.util
import os
import tempfile
import time
from pathlib import Path

FOLDER = Path(importlib.util.cache_from_source(__file__)).parent / "packed"
DAYS_UNUSED = 30
DAY_S = 24 * 60 * 60


def made_once(how, source, make, folder=FOLDER):
    """Make bytes of others, or find what was made of them before.

    Takes: how, words for the way it is made, other ones where that changes; source, bytes; make,
    a function of them; folder, where it is kept. What is found is believed only whole.
    """
    file = folder / hashlib.sha256(how.encode() + b"\n" + source).hexdigest()
    with contextlib.suppress(OSError):
        told, found = _parts(file.read_bytes())
        if told == _digest(found):
            os.utime(file)
            return found
    made = make(source)
    with contextlib.suppress(OSError):
        _keep(file, _digest(made) + made)
    return made


def _digest(body):
    return hashlib.sha256(body).digest()


def _parts(kept):
    size = hashlib.sha256().digest_size
    return kept[:size], kept[size:]


def _keep(file, body):
    file.parent.mkdir(parents=True, exist_ok=True)
    for old in file.parent.iterdir():
        if old.stat().st_mtime < time.time() - DAYS_UNUSED * DAY_S:
            old.unlink()
    # whole or not at all, also where several servers keep it at once
    with tempfile.NamedTemporaryFile(dir=file.parent, delete=False) as part:
        part.write(body)
    os.replace(part.name, file)
