"""What happens to cloth before it is stock: cut, sewn in batches, looked at, and the time it takes."""

from ..declaring.errors import problem
from ..declaring.spec import NEEDED, Field
from .kinds import DAY, MOST_LINES, MOST_PIECES, VERDICTS, WORK, Kind, Moves, link, quantity, words

# a tray is not a day's work
MOST_LAPS = 200
LONGEST_LAP_MS = 24 * 3600 * 1000
STRIPS = [
    link("size", "The size they are for", NEEDED),
    quantity("Strips"),
]
OFFCUT = link("remnant", "The remnant", NEEDED)
LAP = [
    Field("pieces", "count", "Pieces of the tray; 1 for a step that is not done for each piece",
          lowest=1, highest=MOST_PIECES),
    Field("took_ms", "count", "How long it took, in thousandths of a second, pauses left out",
          lowest=1, highest=LONGEST_LAP_MS),
    Field("disturbed", "flag", "Something came between", False),
]  # fmt: skip
FINISHED = [
    link("product", "The product", NEEDED),
    Field("made", "count", "Pieces sewn", highest=MOST_PIECES),
    Field("good", "count", "Of them, those that can be sold", highest=MOST_PIECES),
]
FAULT = [
    Field("fault", "text", "What was wrong", most=60),
    quantity("Pieces with it"),
]


def _no_better_than_made(fields):
    problems = []
    for index, line in enumerate(fields["lines"]):
        if line["good"] > line["made"]:
            path = "lines." + str(index) + ".good"
            problems.append(problem(path, "good_above_made", line["good"], line["made"], "count"))
    return problems


FACTS_OF_MAKING = [
    Kind("cut", True, "Strips cut from one cloth", [
        DAY,
        link("cloth", "The cloth", NEEDED),
        link("remnant", "The remnant it was; none for cloth off the bolt"),
        Field("length", "length", "Length of it that the rows took", unit="cm"),
        Field("lines", "list", "The strips, by size", fields=STRIPS, most=MOST_LINES, fewest=1),
        Field("offcuts", "list", "What was left of it and saved", [], item=OFFCUT, most=MOST_LINES),
    ], helper="write"),
    Kind("cut-void", True, "A cut that is void", [
        DAY,
        link("cut", "The cut", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="cut"),
    Kind("batch-step", True, "Laps of a step of a batch: one for each tray", [
        DAY,
        link("batch", "The batch", NEEDED),
        Field("step", "text", "The step, as its method names it", most=60),
        link("person", "Who did it"),
        Field("laps", "list", "Its laps, in the order of the work", fields=LAP, most=MOST_LAPS, fewest=1),
    ], helper="write"),
    Kind("batch-step-void", True, "Laps that are void", [
        DAY,
        link("batch_step", "The laps", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="batch_step"),
    Kind("batch-result", True, "What came of a batch", [
        DAY,
        link("batch", "The batch", NEEDED),
        link("place", "Where the good pieces are now", NEEDED),
        Field("lines", "list", "What was made, by product", fields=FINISHED, most=MOST_LINES, fewest=1),
    ], helper="write", also=_no_better_than_made,
        moves=(Moves("lines", into="place", pieces="good"),), claims="made"),
    Kind("batch-void", True, "A batch's result that is void", [
        DAY,
        link("result", "The result", NEEDED),
        words("reason", "Why"),
    ], helper="write", voids="result"),
    Kind("sample-result", True, "What was found in a sample of a batch", [
        DAY,
        link("batch", "The batch", NEEDED),
        Field("sample", "count", "Pieces looked at", lowest=1, highest=MOST_PIECES),
        Field("accept", "count", "Bad pieces in it with which it is still accepted", highest=MOST_PIECES),
        Field("limit", "percent", "The share of bad pieces that was asked about", None),
        Field("found", "list", "What was wrong", [], fields=FAULT, most=MOST_LINES),
        Field("verdict", "choice", "What it came to", choices=VERDICTS),
    ], helper="write"),
    Kind("work-time", True, "Time somebody worked, beside the laps of a batch", [
        DAY,
        link("person", "Who"),
        Field("what", "choice", "At what", choices=WORK),
        Field("minutes", "minutes", "How long", lowest=1, highest=1440),
        link("booking", "The market it was for"),
        link("batch", "The batch it was for"),
    ], helper="write", claims="minutes"),
]  # fmt: skip
