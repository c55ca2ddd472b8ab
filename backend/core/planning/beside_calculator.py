"""Why a plan asks for another length of a cloth than the calculator of cloth to buy does."""

from ..catalogue import answer
from ..cutting.layout.fields import CLOTH, MOST_PIECES
from ..declaring.errors import Problems
from ..declaring.reading import read
from ..declaring.spec import Field

LAID = [
    Field("length", "length", "Its cut length", lowest=1, highest=10000),
    Field("width", "length", "Its cut width", lowest=1, highest=10000),
    Field("quantity", "count", "Strips planned", lowest=1, highest=MOST_PIECES),
    Field("spare", "count", "Strips more, for what goes wrong", highest=MOST_PIECES),
    Field("elsewhere", "count", "Of all of them, those cut from other cloth", highest=MOST_PIECES),
]
GIVEN = [
    Field("cloth", "object", "The bolt, as buy-list has it"),
    Field("strips", "list", "What is cut from it", fields=LAID, fewest=1, most=12),
    Field("length_to_buy", "length", "What the plan asks for", highest=10000000000),
]
SHARED = ("selvedge", "shrink_length", "shrink_width", "squaring", "repeat", "shop_increment", "minimum_cut")


def beside_calculator(given):
    """Compare what a plan buys of a cloth with what fabric-per-dozen says for each size alone.

    Takes: given, as GIVEN.
    Returns: {"alone", mm for all sizes one by one; "spare" and "elsewhere", strips
    that only the plan counts; "sizes", how many share the cloth; "torn", whether
    edges fray; "printed", whether each row, the last one too, takes whole repeats};
    None where both say the same, or the calculator has no answer.
    Raises: Problems where `given` is not as GIVEN.
    """
    given = read(GIVEN, given)
    cloth = read(CLOTH, given["cloth"])
    try:
        alone = 0.0
        for strip in given["strips"]:
            alone += answer("fabric-per-dozen", _asked(cloth, strip))["result"]["length_to_buy"]
    except Problems:
        return None
    if alone == given["length_to_buy"]:
        return None
    told = {"alone": alone, "sizes": len(given["strips"]), "spare": 0, "elsewhere": 0}
    told.update({"torn": cloth["tear"], "printed": cloth["repeat"] > 0})
    for strip in given["strips"]:
        told["spare"] += strip["spare"]
        told["elsewhere"] += strip["elsewhere"]
    return told


def _asked(cloth, strip):
    asked = {name: cloth[name] for name in SHARED}
    asked.update({
        "strip_length": strip["length"],
        "strip_width": strip["width"],
        "quantity": strip["quantity"],
        "bolt_width": cloth["width"],
        "mixed": not cloth["nap"],
    })  # fmt: skip
    return asked
