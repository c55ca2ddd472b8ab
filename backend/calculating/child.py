"""What runs in a process of its own: a question a line in, its answer a line out.

A question is {"name", "given", "seconds"}; the answer {"result", "notes", "done"},
with a note where it was stopped before all was proven or the steps asked for were used up,
or {"problems"}.
"""

import contextlib
import json
import os
import sys
import time

from ..core import working
from ..core.declaring.errors import Problems

# a slice is long enough to count for little, and short enough to look at the clock between two
SHORTEST, LONGEST = 0.02, 0.08
FIRST_STEPS = 64
# what answers phones goes first
NICE = 10


def main():
    """Answer until nobody asks any more."""
    if hasattr(os, "nice"):
        os.nice(NICE)
    # whoever asked may have been killed meanwhile
    with contextlib.suppress(BrokenPipeError):
        for line in sys.stdin:
            print(json.dumps(_answer(json.loads(line))), flush=True)


def _answer(asked):
    until = time.monotonic() + asked["seconds"]
    try:
        working.begin(asked["name"], asked["given"], tell=False)
        _work_on(until)
        answered = working.work_on(0)
    except Problems as error:
        return {"problems": error.problems}
    if not answered["done"]:
        answered["notes"].append(working.out_of_time(asked["seconds"]))
    return answered


def _work_on(until):
    steps, done = FIRST_STEPS, False
    while not done and time.monotonic() < until:
        began = time.monotonic()
        done = working.work_on(steps, tell=False)["done"]
        took = time.monotonic() - began
        if took < SHORTEST:
            steps *= 2
        elif took > LONGEST and steps > 1:
            steps //= 2


if __name__ == "__main__":
    main()
