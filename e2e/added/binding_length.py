"""binding-length: the strips that bind the edge of a piece, and the cloth they take."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.rounding import ceil, step_up
from .fabric_per_dozen import CLOTH, usable_width

OF_CLOTH = ("bolt_width", "selvedge", "shrink_length", "shrink_width", "squaring",
            "shop_increment", "minimum_cut")  # fmt: skip

INPUTS = [
    Field("width", "length", "Width of the piece to be bound",
          lowest=10, highest=10000, unit="cm", example=1200, group="The edge"),
    Field("length", "length", "Length of the piece to be bound",
          lowest=10, highest=10000, unit="cm", example=900, group="The edge"),
    Field("strip_width", "length", "Width the binding is cut at", 60,
          lowest=10, highest=300, group="The binding"),
    Field("joining", "length", "More than the edge is long, for corners and to join the ends", 250,
          highest=2000, group="The binding"),
] + [by_name(CLOTH)[name] for name in OF_CLOTH]  # fmt: skip

OUTPUTS = [
    Field("length_to_buy", "length", "Ask the shop for this much", unit="cm", label="ask for", asked=True,
          formula="{length_needed} rounded up to {shop_increment}, at least {minimum_cut}"),
    Field("strips", "count", "Strips to cut from selvedge to selvedge",
          formula="({binding_length} − {strip_width}) ÷ ({usable_width} − {strip_width}), rounded up"),
    Field("binding_length", "length", "Binding to make", unit="cm",
          formula="2 × ({width} + {length}) + {joining}"),
    Field("usable_width", "length", "Between the selvedges after washing", unit="cm",
          formula="{bolt_width} × (1 − {shrink_width} ÷ 100) − 2 × {selvedge}"),
    Field("length_needed", "length", "Least length before washing", unit="cm", rounded=ceil,
          formula="({strips} × {strip_width} + {squaring}) ÷ (1 − {shrink_length} ÷ 100)"),
]  # fmt: skip


def work(given):
    """Work out the binding for all four sides, in straight strips joined on the diagonal.

    Each join takes the width of a strip, since the strips cross there at a right angle.
    Returns: lengths in mm, and a note where one strip is enough.
    Raises: Problems on strip_width if a strip is no longer than it is wide.
    Source: geometry.
    """
    across, strip = usable_width(given), given["strip_width"]
    if across <= strip:
        refuse("strip_width", "highest", strip, across, "length")
    binding = 2 * (given["width"] + given["length"]) + given["joining"]
    strips = max(1, ceil((binding - strip) / (across - strip)))
    needed = (strips * strip + given["squaring"]) / (1 - given["shrink_length"] / 100)
    result = {
        "length_to_buy": max(step_up(needed, given["shop_increment"]), given["minimum_cut"]),
        "strips": strips,
        "binding_length": binding,
        "usable_width": across,
        "length_needed": needed,
    }
    return result, [] if strips > 1 else [note("strips", "no_join")]


CALCULATOR = Calculator(
    "binding-length",
    "Binding",
    "Straight binding for the edge of a piece: the strips to cut, and the cloth to buy for them.",
    INPUTS,
    OUTPUTS,
    work,
    main=("length_to_buy", "strips"),
)
