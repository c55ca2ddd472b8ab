"""What is not done at all, why, and what to do instead."""

from .terms import BLADES

RULER_CUT = "a rotary cutter on a mat, along a ruler, or shears"

# Cloths that do not tear along the grain: common practice, no source.
# cloth -> (reason, what to use instead, the tool whose checklist that is)
DO_NOT_TEAR = {
    "knit": ("Knit is made of loops: it runs and curls, with no straight yarn for a tear to follow.",
             "Use " + RULER_CUT + ".", "rotary cutter"),
    "pile": ("Pile cloth tears off the line and sheds its pile along the edge.",
             "Use shears or a rotary cutter, one ply, from the back.", "shears"),
    "cord": ("Cord tears off the line, from rib to rib, and frays its pile out.",
             "Use " + RULER_CUT + ".", "rotary cutter"),
    "gauze": ("Gauze is too loose to tear: the yarns slide, and the edge is pulled out of shape.",
              "Use " + RULER_CUT + ", with weights along the line.", "rotary cutter"),
    "stretch": ("Stretch cloth gives and springs back instead of tearing.",
                "Use " + RULER_CUT + ", the cloth lying relaxed.", "rotary cutter"),
    "bias": ("A tear follows the yarn; a bias strip lies across it.",
             "Use " + RULER_CUT + ".", "rotary cutter"),
}  # fmt: skip

ADULT_CUTS = "An adult cuts. A child can sort, count and stack strips once the blade is put away."
ADULT_PRESSES = "An adult presses. A child can fold seams open by finger, and sort the cold pieces."
WAIT = "Wait until no child is near."


def refusal(given):
    """Find why this is not to be done; None if it may be.

    Returns: (reason, use_instead, instead_tool); the tool is None where it is
    not another tool but another person who should do it.
    Source: common practice, no source.
    """
    tool = given["tool"]
    if given["by_child"] and tool in BLADES:
        return ("A child does not use a blade.", ADULT_CUTS, None)
    if given["by_child"] and tool == "iron":
        return ("A child does not use a hot iron.", ADULT_PRESSES, None)
    if given["children_near"] and tool == "powered knife":
        return ("A powered knife is not run while a child is near.", WAIT, None)
    refused = DO_NOT_TEAR.get(given["cloth"]) if tool == "tearing" else None
    if refused and given["by_child"]:
        return (refused[0], ADULT_CUTS, None)
    if refused and given["children_near"]:
        # no blade is put into anybody's hand beside a child
        return (refused[0], WAIT, None)
    return refused
