"""The declared fields of remnant-best-mix."""

from ...declaring.spec import Field
from ...numbers.rounding import floor
from ..placed import PLACED

MOST_PIECES = 2000
STEPS = 12000000
MOST_STEPS = 24000000

SIZE = [
    Field("name", "text", "The size", None, most=60, example="Everyday"),
    Field("length", "length", "Cut length of the strip, round the loop",
          lowest=1, highest=10000, example=482),
    Field("width", "length", "Cut width of the strip, round the tube",
          lowest=1, highest=10000, example=110),
    Field("value", "number", "What one is worth, to a millionth: its price, its area, or 1 to count strips",
          highest=1000000000, example=600),
    Field("quantity", "count", "Strips wanted at most; as many as fit where left out",
          None, highest=100000, example=12),
]  # fmt: skip

INPUTS = [
    Field("width", "length", "Width of the remnant as it can be cut now",
          lowest=1, highest=10000, unit="cm", example=900, group="The remnant", rounded=floor),
    Field("length", "length", "Length of the remnant as it can be cut now",
          lowest=1, highest=100000, unit="cm", example=700, group="The remnant", rounded=floor),
    Field("sizes", "list", "Sizes that may be cut", fields=SIZE, most=60, fewest=1),
    Field("rotate", "flag", "Strips may lie along the cloth too, else their length lies across it", True),
    Field("stages", "choice", "Times the cuts change direction: cuts right through, cross cuts, "
          "then cuts of what those leave", "any", choices=("2", "3", "any"),
          choice_words=("cuts right through, then cross cuts", "once more", "as often as it pays")),
    Field("steps", "count", "Steps of calculation after which the best found is given",
          STEPS, lowest=1, highest=MOST_STEPS),
]  # fmt: skip

MIXED = [Field("size", "count", "Its row in the list of sizes, from 0")] + PLACED

OUTPUTS = [
    Field("value", "number", "What the strips are worth together"),
    Field("bound", "number", "Proven: no layout is worth more"),
    Field("gap", "percent", "What a better layout could add at most",
          formula="100 × ({bound} − {value}) ÷ {value}", highest=None),
    Field("optimal", "flag", "No layout is worth more than this one"),
    Field("pieces", "count", "Strips it gives"),
    Field("first_cuts", "choice", "Which cuts come first", choices=("across", "along")),
    Field("waste", "percent", "Share of the remnant that is left over"),
    Field("placed", "list", "Where each strip lies", fields=MIXED, most=MOST_PIECES, drawn=True),
    Field("steps_used", "count", "Steps of calculation taken", highest=None),
]  # fmt: skip
