"""The steps a piece is usually sewn in, where nobody has said another way."""

# Source: common practice, no source; the minutes are a guess, and said to be one
USUAL = (
    ("Sew the tube", "piece", 1.5),
    ("Turn it right side out", "piece", 0.75),
    ("Thread and knot the elastic", "piece", 1.0),
    ("Close the gap", "piece", 1.25),
)
# of a step that nobody ever timed
GUESSED_MINUTES = {"piece": 1.0, "batch": 5.0, "colour": 5.0, "thread": 3.0}
ALLOWANCE = 15.0


def usual_steps():
    """List the usual steps as a method has them.

    Returns: [{"name", "per", "machine", "allowance"}], in the order of the work.
    Source: common practice, no source.
    """
    return [{"name": name, "per": per, "machine": "", "allowance": ALLOWANCE} for name, per, _ in USUAL]


def guessed_minutes(step):
    """Guess the minutes of a step that nobody timed yet: of one piece, or of one time.

    Source: common practice, no source.
    Example: guessed_minutes({"name": "Close the gap", "per": "piece"}) == 1.25
    """
    for name, per, minutes in USUAL:
        if (name, per) == (step["name"], step["per"]):
            return minutes
    return GUESSED_MINUTES.get(step["per"], GUESSED_MINUTES["piece"])
