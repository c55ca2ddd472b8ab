"""The declared fields of cutting-layout."""

from ...declaring.spec import Field
from ...numbers.rounding import floor
from ..placed import PLACED

MOST_PIECES = 2000
MOST_ROWS = 2000

CLOTH = [
    Field("name", "text", "What the cloth is called", most=60, example="Seagrass lawn"),
    Field("width", "length", "Full width", lowest=10, highest=10000, unit="cm", example=1400, rounded=floor),
    Field("length", "length", "Length of a remnant; none said for a bolt", None,
          lowest=10, highest=100000, unit="cm", rounded=floor),
    Field("selvedge", "length", "Woven edge to trim off, each side", 0, highest=500),
    Field("shrink_length", "percent", "Length still to lose in the wash", 0, highest=50),
    Field("shrink_width", "percent", "Width still to lose in the wash", 0, highest=50),
    Field("squaring", "length", "Still to lose for two straight ends", 0, highest=2000),
    Field("nap", "flag", "Pile, nap or stripes: strips of one size lie one way", False),
    Field("stretch", "choice", "Where the cloth gives most: the strip's length lies that way", "none",
          choices=("none", "across", "along")),
    Field("repeat", "length", "Print repeat that each row starts on; 0 for none", 0, highest=2000),
    Field("use_first", "flag", "Use this remnant up before others", False),
    Field("fold", "count", "Plies the cloth is folded in, selvedge to selvedge, to cut the rows",
          1, choices=(1, 2, 4), lowest=1, highest=4),
    Field("layers", "count", "Most rows to stack for cross cuts", 1, lowest=1, highest=40),
    Field("tear", "flag", "Torn along the yarn, single ply, instead of cut", False),
    Field("shop_increment", "length", "Step the shop cuts in", 100, lowest=1, highest=10000, unit="cm"),
    Field("minimum_cut", "length", "Least the shop cuts", 0, unit="cm"),
    Field("price", "money", "Price for each length sold", None, highest=100000000),
    Field("price_length", "length", "Length that price is for", 1000,
          lowest=10, highest=100000, unit="m", keeps_number=True),
]  # fmt: skip

STRIP = [
    Field("name", "text", "What the strip is called", most=60, example="Everyday"),
    Field("length", "length", "Cut length, round the loop", lowest=1, highest=10000, example=482),
    Field("width", "length", "Cut width, round the tube", lowest=1, highest=10000, example=110),
    Field("quantity", "count", "Strips wanted", lowest=1, highest=MOST_PIECES, example=24),
    Field("direction", "choice", "How the strip's length lies on the cloth", "best",
          choices=("best", "across", "along")),
    Field("cloths", "list", "Names of the cloths it may be cut from; none said for any", None, most=12,
          item=Field("name", "text", "A cloth's name", most=60)),
]  # fmt: skip

INPUTS = [
    Field("cloths", "list", "Bolts to buy from and remnants there are", fields=CLOTH,
          fewest=1, most=12, group="The cloths"),
    Field("strips", "list", "What is to be cut", fields=STRIP, fewest=1, most=12, group="The strips"),
    Field("stages", "count", "Rows right across, then cross cuts; with 3, low strips over each other too, "
          "where less is to be bought so", 2, choices=(2, 3), lowest=2, highest=3, group="The layout"),
    Field("tear_loss", "length", "What tearing frays of each edge", 5, highest=100, group="The layout"),
    Field("steps", "count", "How long to look for a better layout, and for its proof", 300000,
          highest=450000, group="The search"),
]  # fmt: skip

STRIP_LAID = [
    Field("name", "text", "The strip"),
    Field("strip", "count", "Its number among the strips given, from 0"),
] + PLACED
ROW = [
    Field("y", "length", "Where the row begins"),
    Field("height", "length", "Its height"),
    Field("strips", "list", "The strips in it", fields=STRIP_LAID, most=MOST_PIECES, drawn=True),
]
CUT = [
    Field(
        "what",
        "choice",
        "Cut rows, cross-cut rows, cut a stack into strips, or trim strips",
        choices=("row", "cross", "stack", "trim"),
    ),
    Field("setting", "length", "Set the ruler to this"),
    Field("times", "count", "Cuts at this setting in a pass"),
    Field(
        "rows", "list", "The rows it is about, from 0", item=Field("row", "count", "A row"), most=MOST_ROWS
    ),
    Field("strip", "count", "The strip that is cut off, from 0", None),
    Field("layers", "count", "Plies to cut at once"),
    Field("passes", "count", "Passes"),
    Field("last_layers", "count", "Plies in the last pass"),
]
OFFCUT = [
    Field("x", "length", "Across the cloth"),
    Field("y", "length", "Along the cloth"),
    Field("width", "length", "Its width, across the cloth"),
    Field("length", "length", "Its length, along the cloth"),
]
LAID = [
    Field("name", "text", "The cloth"),
    Field("cloth", "count", "Its number among the cloths given, from 0"),
    Field("usable_width", "length", "Width that can be cut", unit="cm"),
    Field("usable_length", "length", "Length that can be cut, of a remnant", None, unit="cm"),
    Field("used_length", "length", "Length that its rows take", unit="cm"),
    Field("length_needed", "length", "Of a bolt, the length before washing and squaring", None, unit="cm"),
    Field("length_to_buy", "length", "Of a bolt, what to ask the shop for", None, unit="m", asked=True),
    Field("rows", "list", "The rows from the first straight end", fields=ROW, most=MOST_ROWS, drawn=True),
    Field("cuts", "list", "The cuts in their order", fields=CUT, most=MOST_ROWS, drawn=True),
    Field("offcuts", "list", "What is left and large enough for some strip", fields=OFFCUT,
          most=MOST_ROWS, drawn=True),
]  # fmt: skip
MISSING = [
    Field("name", "text", "The strip"),
    Field("strip", "count", "Its number, from 0"),
    Field("quantity", "count", "Strips there is no cloth for"),
]

OUTPUTS = [
    Field("length_to_buy", "length", "Ask the shop for this much, of all bolts", unit="m", asked=True),
    Field("cost", "money", "What it costs", None),
    Field("bolt_length", "length", "Least length before washing, of all bolts", unit="cm"),
    Field("bound", "length", "No layout of these cuts needs less", unit="cm"),
    Field("cost_bound", "money_each", "Nor costs less, before the shop rounds up", None),
    Field("gap", "percent", "How far the bound is below what was found"),
    Field("gap_to_buy", "percent", "How far below what is bought it can be at most, as the shop cuts it"),
    Field("optimal", "flag", "Proven: no layout takes less"),
    Field("optimal_to_buy", "flag", "Proven: of no layout less must be bought or paid, as the shop cuts it"),
    Field("waste", "percent", "Share of the cloth used that is in no strip"),
    Field("settings", "count", "How often the ruler is set"),
    Field("cloths", "list", "Each cloth with its rows and cuts", fields=LAID, most=12, drawn=True),
    Field("unplaced", "list", "Strips that no cloth is left for", fields=MISSING, most=12),
    Field("steps_used", "count", "Steps that the search took"),
]
