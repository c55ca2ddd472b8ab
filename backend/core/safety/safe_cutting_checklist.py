"""safe-cutting-checklist: what to do before, during and after, and what not at all."""

from ..declaring.errors import note
from ..declaring.spec import Calculator, Field
from . import items_everywhere, items_hand_cutting, items_powered_knife, items_pressing, items_sewing
from .breaks import break_plan
from .limits import HIGHEST, blade_life, most_layers, passes
from .refusals import refusal
from .terms import CLOTHS, TOOL_GROUPS, TOOLS, WHENS, applies, fits

# a tool's own items stand before those for all
ITEMS = (
    items_hand_cutting.ITEMS
    + items_powered_knife.ITEMS
    + items_sewing.ITEMS
    + items_pressing.ITEMS
    + items_everywhere.ITEMS
)

CAUTION = (
    "Local law, the tool maker's instructions and qualified advice come first. "
    "These are the usual cautions, not a safety certificate."
)

BLADE_TIN = "Wrap old blades in card and tape, collect them in a closed tin marked sharp, "
NEEDLE_TIN = "Bent, blunt and broken needles and pins go into a closed tin marked sharp."
DISPOSAL = {
    "rotary cutter": BLADE_TIN + "and hand the tin in as your local waste rules say.",
    "powered knife": BLADE_TIN + "and hand the tin in as your local waste rules say.",
    "shears": "Have shears sharpened; tie old ones shut and wrap them before they go to scrap metal.",
    "snips": "Tape old snips shut and wrap them before they go to scrap metal.",
    "tearing": "Fluff and threads go straight into the bin; tape old snips shut and wrap them.",
    "hand needle": NEEDLE_TIN,
    "sewing machine": NEEDLE_TIN,
    "iron": "Mark an iron with a damaged cord or plate, and have it mended or recycled as electrical waste.",
}

# what the list comes to, for a screen to say first; more is judged by whoever stands at the table
USUAL, FEWER, NOT_SO = "The usual cautions for this work", "Not so many at once", "Not this way"

A_STACK = ("tool", TOOL_GROUPS["all that cuts a stack"])
INPUTS = [
    Field("tool", "choice", "What you work with", choices=TOOLS, group="The work"),
    Field("cloth", "choice", "What you work on: lawn is a fine plain weave, woven a medium one",
          choices=CLOTHS, group="The work"),
    Field("layers", "count", "Plies cut together; a fold counts as two", 1,
          lowest=1, highest=500, label="plies at once", group="The stack", when=A_STACK),
    Field("layer_thickness", "length", "Thickness of one ply", 0.3,
          lowest=0.05, highest=20, label="thickness of one ply", group="The stack", when=A_STACK),
    Field("minutes", "minutes", "How long you mean to work, breaks not counted", 30,
          highest=720, group="The day"),
    Field("helpers", "count", "People working beside you", 0, highest=50, group="The day"),
    Field("children_near", "flag", "A child is in the room", False, group="The day"),
    Field("by_child", "flag", "A child would do the work", False, group="The day"),
    Field("blade_cuts", "count", "Cuts since the blade was new or sharpened", 0,
          highest=1000000, group="The blade", when=("tool", TOOL_GROUPS["every blade"])),
]  # fmt: skip

ITEM = [
    Field("id", "text", "Name of the item, for the record"),
    Field("when", "choice", "When to do it", choices=WHENS),
    Field("text", "text", "What to do", most=200),
    Field("reason", "text", "Why", most=200),
    Field("must", "flag", "Not to be left out"),
    Field(
        "skippable", "flag", "May be left unticked with a word why; never a thing that the work depends on"
    ),
    Field("applies", "text", "When it applies", most=120),
    Field("source", "text", "Whose published advice it follows, in our words"),
]

BREAK = [
    Field("after", "minutes", "Minutes of work done by then"),
    Field("rest", "minutes", "Minutes to rest"),
    Field("do", "text", "What to do in it", most=200),
]

OUTPUTS = [
    Field("verdict", "text", "What it comes to, in words; never a clearance", most=120),
    Field("allowed", "flag", "False where the usual advice is not to do it this way; true clears nothing"),
    Field("reason", "text", "Why not", None, most=200),
    Field("use_instead", "text", "What to do instead", None, most=200),
    Field("instead_tool", "choice", "The tool whose checklist that is", None, choices=TOOLS),
    Field("caution", "text", "What comes before this list", most=300),
    Field("items", "list", "What to do, in order; none where it may not be done", fields=ITEM, most=80),
    Field("most_layers", "count", "Usual most plies at once; the tool maker's manual comes first", None,
          label="usual most plies"),
    Field("layers_ok", "flag", "Your plies are no more than that", None, label="within the usual plies"),
    Field("passes", "count", "Passes your plies take", None,
          formula="{layers} ÷ {most_layers}, rounded up"),
    Field("breaks", "list", "When to rest", fields=BREAK),
    Field("change_blade", "flag", "Change or sharpen the blade first"),
    Field("cuts_left", "count", "Cuts before the blade is due", None),
    Field("disposal", "text", "Where worn-out things go", most=300),
]  # fmt: skip


def work(given):
    """Choose the checklist for a tool, a cloth and the day.

    Returns: verdict; allowed, with reason and use_instead where it is not, and then no
    items; items in order, musts first in each part; usual layers and passes;
    breaks; the blade's remaining cuts; disposal; caution.
    Source: beside each item and limit.
    """
    result = {
        "verdict": NOT_SO,
        "allowed": False,
        "instead_tool": None,
        "caution": CAUTION,
        "items": [],
        "most_layers": None,
        "layers_ok": None,
        "passes": None,
        "breaks": [],
        "change_blade": False,
        "cuts_left": None,
        "disposal": DISPOSAL[given["tool"]],
    }
    refused = refusal(given)
    if refused:
        result["reason"], result["use_instead"], result["instead_tool"] = refused
        return result, []
    result.update({"allowed": True, "reason": None, "use_instead": None})
    notes = _measure_lay(given, result) + _measure_blade(given, result)
    result["verdict"] = FEWER if result["layers_ok"] is False else USUAL
    result["breaks"] = break_plan(given["tool"], given["minutes"])
    given = dict(given)
    given["change_blade"] = result["change_blade"]
    result["items"] = _chosen(given)
    return result, notes


def _measure_lay(given, result):
    layers, thickness = given["layers"], given["layer_thickness"]
    most = most_layers(given["tool"], given["cloth"], thickness)
    if most is None:
        return []
    result["most_layers"] = most
    result["layers_ok"] = layers <= most
    result["passes"] = passes(layers, most)
    if not most:
        return [note("layer_thickness", "layer_too_thick", thickness, HIGHEST[given["tool"]], "length")]
    if not result["layers_ok"]:
        return [note("layers", "too_many_layers", result["passes"], most, "count")]
    return []


def _measure_blade(given, result):
    life, made = blade_life(given["tool"], given["cloth"]), given["blade_cuts"]
    if life is None:
        return []
    result["cuts_left"] = max(0, life - made)
    result["change_blade"] = made >= life
    return [note("blade_cuts", "blade_due", made, life, "count")] if made >= life else []


def _chosen(given):
    fitting = [item for item in ITEMS if fits(item, given)]
    return [
        _told(item)
        for when in WHENS
        for must in (True, False)
        for item in fitting
        if item["when"] == when and item["must"] == must
    ]


def _told(item):
    told = {field.name: item.get(field.name) for field in ITEM}
    told["applies"] = applies(item)
    return told


CALCULATOR = Calculator(
    "safe-cutting-checklist",
    "Safe cutting and sewing",
    "The usual cautions before, during and after work with blades, needles and irons, and what not to do.",
    INPUTS,
    OUTPUTS,
    work,
    main=("allowed",),
)
