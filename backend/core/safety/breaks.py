"""The break plan: short, early, with another kind of movement."""

from .terms import LONG

FIRST_REST, LATER_REST = 5, 10  # minutes

# how each tool is left, before anything else
LEAVE = {
    "rotary cutter": "Close the blade and lay it down.",
    "shears": "Close the shears and lay them down.",
    "powered knife": "Switch off, unplug or take the battery out, and wait until the blade stands still.",
    "tearing": "Put the strip down, the snips closed.",
    "snips": "Close the snips and lay them down.",
    "sewing machine": "Foot off the pedal, power off.",
    "hand needle": "Put the needle in its cushion.",
    "iron": "Set the iron on its rest and switch it off.",
}

STANDING = (
    "Open and shake out your hands, roll your shoulders, walk a few steps.",
    "Sit down, drink something, look out of the window.",
    "Lean back, stretch fingers and forearms, then do a job that needs no grip.",
)
SEATED = (
    "Stand up, open your hands, roll your shoulders, look far away.",
    "Walk about, drink something, let your arms hang.",
    "Stretch back and forearms, then do a job on your feet.",
)


SEATED_AT = ("sewing machine", "hand needle")


def break_plan(tool, minutes):
    """Plan the breaks of so many minutes of work.

    Returns: a list of {after, rest, do}, after in minutes of work done.
    Source: 5 to 10 minutes after 50 to 60, before tiredness comes, with other
    movements (HSE guidance for screen work, by analogy); a longer rest from
    the second on is common practice, no source.
    """
    moves = SEATED if tool in SEATED_AT else STANDING
    breaks = []
    while (len(breaks) + 1) * LONG < minutes:
        count = len(breaks)
        breaks.append({
            "after": float((count + 1) * LONG),
            "rest": float(LATER_REST if count else FIRST_REST),
            "do": LEAVE[tool] + " " + moves[count % len(moves)],
        })  # fmt: skip
    return breaks
