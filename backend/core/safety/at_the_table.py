"""What is said beside a cut while it is made, by the checklist's own items."""

from .safe_cutting_checklist import CAUTION, ITEMS
from .terms import TOOL_GROUPS

PHONE = "-phone"  # how an item is called that says what to do before the phone is touched


def at_the_table(tool):
    """List the musts that hold while a tool is used, whatever the cloth and the day.

    Returns: {"before_phone", what to do before touching the phone, None where
    nothing is held that cuts; "musts", the others; "caution", what comes before all}.
    Example: at_the_table("tearing")["before_phone"] == None
    """
    musts, before_phone = [], None
    for item in ITEMS:
        if item["when"] == "during" and item["must"] and _always_for(item, tool):
            if item["id"].endswith(PHONE):
                before_phone = item["text"]
            else:
                musts.append(item["text"])
    return {"before_phone": before_phone, "musts": musts, "caution": CAUTION}


def _always_for(item, tool):
    tools = TOOL_GROUPS.get(item["tools"], (item["tools"],))
    return tool in tools and item["cloths"] == "any cloth" and item["only"] == "always"
