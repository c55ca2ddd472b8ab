"""Asking a process of its own for a long calculation, waiting for it, and ending it."""

import json
import os
import queue
import subprocess
import sys
import threading
from pathlib import Path

from ..core.declaring.errors import Problems
from . import slots

ROOT = Path(__file__).parent.parent.parent
# how often is looked whether somebody still waits
SECONDS_BETWEEN_LOOKS = 0.1
# to begin, and to write the answer, beside the time that a calculation has
SECONDS_BESIDE = 5


class Busy(Exception):
    """As many long calculations as may be are at work."""


class Gone(Exception):
    """Nobody waits for the answer any more."""


class TookTooLong(Exception):
    """Not even a first answer came in the time there is."""


def answer(name, given, seconds, gone=None):
    """Ask a long calculator, for so many seconds at most.

    Takes: given, its input as read; gone, an event that is set when nobody waits any more.
    Returns: {"result", "notes", "done"}: the best so far where it is not done.
    Raises: Problems listing every bad field; Busy, Gone, TookTooLong.
    """
    slot = slots.take()
    if slot is None:
        raise Busy
    with slot:
        process = _take_idle() or Process()
        try:
            told = process.ask({"name": name, "given": given, "seconds": seconds}, seconds, gone)
        except BaseException:
            process.end()
            raise
        _idle.append(process)
    if "problems" in told:
        raise Problems(told["problems"])
    return told


def end_all():
    """End every process, whatever it is at: the server ends."""
    for process in list(_all):
        process.end()


_all, _idle = set(), []


def _take_idle():
    while _idle:
        process = _idle.pop()
        if process.is_alive():
            return process
        process.end()
    return None


class Process:
    """A process that answers one question after the other; it ends when its asker does."""

    def __init__(self):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "backend.calculating.child"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            # as the asker was started, maybe from a copy of the tree
            env=os.environ | {"PYTHONPATH": os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])},
        )
        _all.add(self)
        self.lines = queue.SimpleQueue()
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self):
        for line in self.process.stdout:
            self.lines.put(line)
        self.lines.put(None)

    def is_alive(self):
        """Say whether it can be asked."""
        return self.process.poll() is None

    def ask(self, question, seconds, gone):
        """Ask, and wait. Raises: Gone, TookTooLong; RuntimeError where the process has ended."""
        self.process.stdin.write(json.dumps(question) + "\n")
        self.process.stdin.flush()
        for _ in range(int((seconds + SECONDS_BESIDE) / SECONDS_BETWEEN_LOOKS)):
            try:
                line = self.lines.get(timeout=SECONDS_BETWEEN_LOOKS)
            except queue.Empty:
                if gone is not None and gone.is_set():
                    raise Gone from None
                continue
            if line is None:
                raise RuntimeError("a process at a long calculation has ended")
            return json.loads(line)
        raise TookTooLong

    def end(self):
        """End it, whatever it is at."""
        _all.discard(self)
        self.process.kill()
        self.process.wait()
        self.process.stdin.close()
        # its reader ends with the pipe, and closes nothing that is read
        self.process.stdout.close()
