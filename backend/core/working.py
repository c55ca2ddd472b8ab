"""A long calculation a little at a time, so that a screen can show how far it is, and stop it.

One is held at a time; beginning another lets it go. Slices never change the
answer, which is that of `catalogue.answer` once all is done.
"""

from .catalogue import calculator_named, told
from .declaring.errors import note, refuse
from .declaring.reading import read

HELD = {}


def begin(name, given, tell=True):
    """Begin a long calculation: the first good answer is there at once.

    Takes: tell, as `work_on` does. Returns: {"result", "notes", "done"}.
    Raises: Problems listing every bad field, or on `name` if it is not a long one.
    """
    calculator = calculator_named(name)
    if calculator.by_steps is None:
        refuse("name", "not_long", name)
    values = read(calculator.inputs, given)
    HELD["calculator"], HELD["left"] = calculator, values["steps"]
    HELD["state"] = calculator.by_steps[0](values)
    return work_on(0, tell)


def work_on(steps, tell=True):
    """Work on for so many steps of what was begun, at most as many as were asked for in all.

    Takes: tell, false to leave the result out: to write a large one takes longer than a slice.
    Returns: {"result", "notes", "done"}; done where all is proven or the steps are used up.
    Raises: Problems if nothing was begun.
    """
    if not HELD:
        refuse("steps", "nothing_begun")
    calculator, state = HELD["calculator"], HELD["state"]
    _, advance, best = calculator.by_steps
    steps = min(steps, HELD["left"])
    HELD["left"] -= steps
    proven = advance(state, steps)
    answered = told(calculator, best(state)) if tell else {"result": None, "notes": []}
    answered["done"] = proven or not HELD["left"]
    return answered


def out_of_time(seconds):
    """Make the note that an answer is the best found in so many seconds, not the last one."""
    return note("steps", "out_of_time", limit=seconds)
