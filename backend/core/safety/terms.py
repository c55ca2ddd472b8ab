"""The words the checklist is made of: tools, cloths, conditions, sources, items.

An item names the group of tools, the group of cloths and the condition it is
for by the very words a person reads under it, so that they cannot disagree.
"""

TOOLS = (
    "rotary cutter",
    "shears",
    "powered knife",
    "tearing",
    "snips",
    "sewing machine",
    "hand needle",
    "iron",
)
# lawn is a fine plain weave, woven a medium one such as a check
CLOTHS = ("lawn", "woven", "gauze", "cord", "pile", "knit", "stretch", "bias")
WHENS = ("before", "during", "after")

BLADES = ("rotary cutter", "shears", "powered knife", "snips")

# with what strips are cut off
CUTTING_TOOLS = ("rotary cutter", "shears", "powered knife", "tearing")

TOOL_GROUPS = {
    "every tool": TOOLS,
    "every blade": BLADES,
    "hand-held blades": ("rotary cutter", "shears", "snips"),
    "rotary cutter and shears": ("rotary cutter", "shears"),
    "rotary cutter and powered knife": ("rotary cutter", "powered knife"),
    "all that a socket feeds": ("powered knife", "sewing machine", "iron"),
    "all needles": ("sewing machine", "hand needle"),
    "all that cuts a stack": ("rotary cutter", "shears", "powered knife"),
}

CLOTH_GROUPS = {
    "any cloth": CLOTHS,
    "cloth that sheds (gauze, cord, pile)": ("gauze", "cord", "pile"),
    "cloth that stretches (knit, stretch)": ("knit", "stretch"),
    "thick cloth (cord, pile)": ("cord", "pile"),
    "thin cloth (lawn, gauze)": ("lawn", "gauze"),
    "cloth that may melt (pile, stretch)": ("pile", "stretch"),
}

LONG = 50  # minutes of work without a break

CONDITIONS = {
    "always": lambda given: True,
    "when a child is near": lambda given: given["children_near"] or given["by_child"],
    "when a child does the work": lambda given: given["by_child"],
    "when helpers are there": lambda given: given["helpers"] > 0,
    "when you work alone": lambda given: given["helpers"] == 0,
    "with more than one ply": lambda given: given["layers"] > 1,
    "when the work is long": lambda given: given["minutes"] > LONG,
    "when the blade is due": lambda given: given["change_blade"],
}

# whose published advice an item follows, in our own words; read at
# ccohs.ca/oshanswers/safety_haz/sharp_blades.html,
# ccohs.ca/teach_tools/phys_hazards/powered.html,
# hse.gov.uk/textiles/machinery/cutting.htm and sewing-machines.htm,
# hse.gov.uk/contact/faqs/vdubreaks.htm, patient.info/health/dealing-with-bleeding,
# kent.fire-uk.org/a-z/first-aid-burns-and-scalds-0,
# and HSE's words on residual current devices, as quoted by others
YOUTH = "youth sewing-contest safety guide"
CCOHS = "CCOHS, working safely with sharp blades"
CCOHS_POWERED = "CCOHS, powered hand tools"
HSE_CUTTING = "HSE, fabric-cutting machinery"
HSE_SEWING = "HSE, sewing machines"
HSE_BREAKS = "HSE, breaks in screen work, by analogy"
FIRST_AID = "first-aid advice on bleeding (St John Ambulance)"
HSE_RCD = "HSE, portable electrical equipment and residual current devices"
BURNS = "first-aid advice on burns (Kent Fire and Rescue Service)"
PRACTICE = "common practice, no source"


def item(id, when, must, text, reason, tools, cloths="any cloth", only="always", source=PRACTICE,
         skippable=True):  # fmt: skip
    """Declare one item of the checklist.

    Takes: tools, a key of TOOL_GROUPS or one tool; cloths, a key of
    CLOTH_GROUPS or one cloth; only, a key of CONDITIONS; skippable, whether it
    may be left unticked with a word why.
    """
    return {
        "id": id,
        "when": when,
        "must": must,
        "text": text,
        "reason": reason,
        "tools": tools,
        "cloths": cloths,
        "only": only,
        "source": source,
        "skippable": skippable,
    }


def fits(item, given):
    """Say whether an item is for this tool, this cloth and these conditions."""
    return (
        given["tool"] in TOOL_GROUPS.get(item["tools"], (item["tools"],))
        and given["cloth"] in CLOTH_GROUPS.get(item["cloths"], (item["cloths"],))
        and CONDITIONS[item["only"]](given)
    )


def applies(item):
    """Say in words when an item applies: "rotary cutter, bias", for instance."""
    parts = [item["tools"]]
    if item["cloths"] != "any cloth":
        parts.append(item["cloths"])
    if item["only"] != "always":
        parts.append(item["only"])
    return ", ".join(parts)
