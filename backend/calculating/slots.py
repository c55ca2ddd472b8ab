"""How many long calculations may be at work at once: a locked file each, over all processes of a server.

A lock ends with the process that holds it, however that ends.
"""

import atexit
import os
import shutil
import tempfile
from functools import cache
from pathlib import Path

try:
    import fcntl
except ImportError:
    fcntl = None
    import msvcrt

# names the folder that the workers of a server share
VARIABLE = "BOLTFAIR_SLOTS"


def most_at_once():
    """Say how many may be at work at once: half the processors, at least one."""
    return max(1, (os.cpu_count() or 1) // 2)


def take():
    """Take a slot: an open file, given back when it is closed; None where all are taken."""
    folder = Path(os.environ.get(VARIABLE) or _own_folder())
    for number in range(most_at_once()):
        file = (folder / f"slot-{number}").open("wb")
        if _lock(file):
            return file
        file.close()
    return None


@cache
def _own_folder():
    # where no server shares one among its workers
    folder = tempfile.mkdtemp(prefix="boltfair-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def _lock(file):
    try:
        if fcntl:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    except OSError:
        return False
    return True
