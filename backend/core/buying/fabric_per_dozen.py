"""fabric-per-dozen: how much of one cloth to buy for so many pieces."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.money import cost_of, each
from ..numbers.rounding import ceil, floor, step_up
from .rows import SAME, fullest, fullest_on_repeat, length_of, pieces_of, row_kind, rows_of, shortest

MOST_COST = 1000000000000  # minor units; whole numbers stay exact on both runtimes
TIGHT_SPARE = 30  # mm: under it a slip of the shop's scissors is a piece lost; common practice
LEAST_REPEAT = 1  # mm: a print repeats in millimetres or not at all

STRIP = [
    Field("strip_length", "length", "Cut length of the strip, round the loop",
          lowest=1, highest=10000, example=482, group="The pieces"),
    Field("strip_width", "length", "Cut width of the strip, round the tube",
          lowest=1, highest=10000, example=110, group="The pieces"),
    Field("quantity", "count", "Pieces wanted", 12, lowest=1, highest=100000, group="The pieces"),
]  # fmt: skip

CLOTH = [
    Field("bolt_width", "length", "Full width as it lies in the shop",
          lowest=10, highest=10000, unit="cm", example=1400, group="The cloth", rounded=floor),
    Field("selvedge", "length", "Woven edge trimmed off, each side", 10,
          highest=500, group="The cloth"),
    Field("shrink_length", "percent", "Length lost in the wash; 0 if you sew it unwashed",
          highest=50, example=3, group="The cloth"),
    Field("shrink_width", "percent", "Width lost in the wash; 0 if you sew it unwashed",
          highest=50, example=2, group="The cloth"),
    Field("squaring", "length", "Lost once per length bought, for two straight ends", 50,
          highest=2000, group="The cloth"),
    Field("direction", "choice", "How the strip's length lies on the cloth", "best",
          choices=("best", "across", "along"), group="The layout"),
    Field("mixed", "flag", "Rows of both directions on one cloth (not with pile, nap or stripes)",
          False, group="The layout"),
    Field("repeat", "length", "Print repeat that each row starts on; 0 for none", 0,
          highest=2000, group="The layout"),
    Field("shop_increment", "length", "Step the shop cuts in", 100,
          lowest=1, highest=10000, unit="cm", group="The shop"),
    Field("minimum_cut", "length", "Least the shop cuts", 0, unit="cm", group="The shop"),
]  # fmt: skip

INPUTS = STRIP + CLOTH + [
    Field("fold", "count", "Plies the cloth is folded in, selvedge to selvedge, to cut the rows",
          1, choices=(1, 2, 4), lowest=1, highest=4, group="The layout"),
    Field("price", "money", "Price for each length sold", None, highest=100000000, group="The shop"),
    Field("price_length", "length", "Length that price is for", 1000,
          lowest=10, highest=100000, unit="m", keeps_number=True, group="The shop"),
]  # fmt: skip

BAND = [
    Field("direction", "choice", "How these strips lie", choices=("across", "along")),
    Field("rows", "count", "Rows of this kind"),
    Field("per_row", "count", "Strips in each"),
    Field("row_height", "length", "Height of each"),
    Field("strip_height", "length", "How high its strips lie: the very last row is no higher"),
]

OUTPUTS = [
    Field("length_to_buy", "length", "Ask the shop for this much", unit="m", label="ask for", asked=True,
          formula="{length_needed} rounded up to {shop_increment}, at least {minimum_cut}"),
    Field("cost", "money", "What it costs", None,
          formula="{length_to_buy} ÷ {price_length} × {price}"),
    Field("cost_each", "money_each", "Cost for each piece ordered", None,
          formula="{cost} ÷ {quantity}"),
    Field("cost_each_if_all_sewn", "money_each", "Cost for each if you sew all it gives", None,
          formula="{cost} ÷ {pieces_from_bought}"),
    Field("pieces_from_bought", "count", "Pieces that what you buy gives",
          formula="the most strips in whole rows of {bought_washed} − {squaring}"),
    Field("length_needed", "length", "Least length before washing", unit="cm", rounded=ceil,
          formula="({washed_length} + {squaring}) ÷ (1 − {shrink_length} ÷ 100)"),
    Field("spare_length", "length", "Left over for a crooked cut", unit="cm", rounded=floor,
          formula="{length_to_buy} − {length_needed}"),
    Field("washed_length", "length", "Height of all rows together, after washing", unit="cm",
          formula="the heights of {rows} rows together, the last as high as its strips"),
    Field("bought_washed", "length", "What you buy, after washing", unit="cm",
          formula="{length_to_buy} × (1 − {shrink_length} ÷ 100)"),
    Field("usable_width", "length", "Between the selvedges after washing", unit="cm", rounded=floor,
          formula="{bolt_width} × (1 − {shrink_width} ÷ 100) − 2 × {selvedge}"),
    Field("direction", "choice", "How the strips lie", choices=("across", "along", "mixed")),
    Field("per_row", "count", "Strips in a row", None,
          formula="{usable_width} ÷ the side of the strip that lies across, rounded down"),
    Field("rows", "count", "Rows to cut", formula="the fewest whole rows for {quantity} pieces"),
    Field("row_reach", "length", "Length of each row cut on the folded cloth", unit="cm",
          formula="{bolt_width} × (1 − {shrink_width} ÷ 100) ÷ {fold}"),
    Field("per_metre", "count", "Pieces in the whole rows that each further metre gives",
          formula="the most strips in whole rows of 1 m × (1 − {shrink_length} ÷ 100)"),
    Field("waste", "percent", "Share of the usable cloth bought that is not in the pieces ordered",
          formula="100 × (1 − {quantity} × {strip_length} × {strip_width} ÷ "
                  "({usable_width} × {length_to_buy} × (1 − {shrink_length} ÷ 100)))"),
    Field("bands", "list", "The rows, kind by kind", fields=BAND),
]  # fmt: skip


def work(given):
    """Work out the length to buy for so many strips of one size.

    Returns: lengths in mm, money in minor units; cost fields are None without
    a price; per_row is None where rows of both directions are mixed.
    Raises: Problems on bolt_width if the strip fits no way that is allowed, on
    price if the cost is beyond all sense, on repeat if it is none but not 0.
    Source: geometry; washing before trimming; dimensional change as in ISO 5077.
    """
    result, used = plan(given)
    kept = 1 - given["shrink_length"] / 100
    strips_area = given["quantity"] * given["strip_length"] * given["strip_width"]
    result["per_metre"] = pieces_of(fullest_on_repeat(used, 1000 * kept))
    bought_area = result["usable_width"] * result["length_to_buy"] * kept
    result["waste"] = max(0.0, 100 * (1 - strips_area / bought_area))
    notes = []
    if result["spare_length"] < TIGHT_SPARE:
        spare, step = result["spare_length"], given["shop_increment"]
        notes.append(note("length_to_buy", "one_increment_more", spare, step, "length"))
    return result, notes


def plan(given):
    """Work out what to buy and what it costs, without the figures that only inform.

    Returns: (the outputs of `work` but per_metre and waste, the kinds of row used).
    Raises: as `work`.
    """
    if 0 < given["repeat"] < LEAST_REPEAT:
        refuse("repeat", "lowest", given["repeat"], LEAST_REPEAT, "length")
    width = usable_width(given)
    bands, used = _bands_for(given, _kinds_allowed(given, width))
    kept = 1 - given["shrink_length"] / 100
    washed = length_of(bands)
    needed, to_buy = _bought(given, bands)
    result = {
        "usable_width": width,
        "direction": "mixed" if len(bands) > 1 else bands[0]["direction"],
        "per_row": None if len(bands) > 1 else bands[0]["per_row"],
        "rows": rows_of(bands),
        "bands": bands,
        "washed_length": washed,
        "length_needed": needed,
        "length_to_buy": to_buy,
        "bought_washed": to_buy * kept,
        "spare_length": max(0.0, to_buy - needed),
        "row_reach": washed_width(given) / given["fold"],
        "pieces_from_bought": _pieces_from(given, bands, used, to_buy),
    }
    result.update(_costs(given, result))
    return result, used


def washed_width(given):
    """Width of the whole cloth after washing, in mm."""
    return given["bolt_width"] * (1 - given["shrink_width"] / 100)


def usable_width(given):
    """Width between the selvedges after washing, in mm.

    Raises: Problems on bolt_width if nothing is left.
    """
    washed = washed_width(given)
    width = washed - 2 * given["selvedge"]
    if width <= 0:
        refuse("bolt_width", "no_cloth_left", given["bolt_width"] - width, None, "length")
    return width


def _kinds_allowed(given, width):
    length, strip_width = given["strip_length"], given["strip_width"]
    wanted = given["direction"]
    kinds = []
    for direction in ("across", "along"):
        if wanted in ("best", direction):
            kind = row_kind(direction, length, strip_width, width, given["repeat"])
            if kind["per_row"]:
                kinds.append(kind)
    if not kinds:
        reach = {"best": min(length, strip_width), "across": length, "along": strip_width}[wanted]
        rule = {"best": "fits_neither", "across": "fits_not_across", "along": "fits_not_along"}
        refuse("bolt_width", rule[wanted], reach - width, width, "length")
    return kinds


def _bands_for(given, kinds):
    # the rows, and the kinds of row that more would be of
    if given["mixed"]:
        return shortest(kinds, given["quantity"]), kinds
    best, least = None, None
    for kind in kinds:
        bands = shortest([kind], given["quantity"])
        _, to_buy = _bought(given, bands)
        # least to buy, then what that gives most pieces; across comes first and stays unless along is better
        measure = (to_buy, -_pieces_from(given, bands, [kind], to_buy))
        shorter = best and length_of(bands) < length_of(best[0]) - SAME
        if best is None or measure < least or measure == least and shorter:
            best, least = (bands, [kind]), measure
    return best


def _bought(given, bands):
    # the length needed, and what the shop cuts for it
    needed = (length_of(bands) + given["squaring"]) / (1 - given["shrink_length"] / 100)
    return needed, max(step_up(needed, given["shop_increment"]), given["minimum_cut"])


def _pieces_from(given, bands, kinds, bought):
    # the rows planned are in it, whatever a float's last bit says
    washed = bought * (1 - given["shrink_length"] / 100) - given["squaring"]
    return max(pieces_of(bands), pieces_of(fullest(kinds, washed)))


def _costs(given, result):
    if given["price"] is None:
        return {"cost": None, "cost_each": None, "cost_each_if_all_sewn": None}
    cost = cost_of(result["length_to_buy"], given["price"], given["price_length"])
    if cost > MOST_COST:
        refuse("price", "cost_too_high", cost, MOST_COST, "money")
    return {
        "cost": cost,
        "cost_each": each(cost, given["quantity"]),
        "cost_each_if_all_sewn": each(cost, result["pieces_from_bought"]),
    }


CALCULATOR = Calculator(
    "fabric-per-dozen",
    "Cloth to buy",
    "How much of one cloth to buy for so many pieces, and what each of them costs.",
    INPUTS,
    OUTPUTS,
    work,
    main=("length_to_buy", "cost", "cost_each"),
)
