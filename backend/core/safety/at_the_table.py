"""What is said beside a cut while it is made, and asked after the last, by the checklist's own items."""

from .safe_cutting_checklist import CAUTION, ITEMS
from .terms import TOOL_GROUPS

PHONE = "-phone"  # how an item is called that says what to do before the phone is touched


def at_the_table(tool):
    """List the musts that hold while a tool is used and after, whatever the cloth and the day.

    Returns: {"before_phone", what to do before touching the phone, None where
    nothing is held that cuts; "musts", the others of the work; "caution", what
    comes before all; "after": [{"id", "text"}], what to tick once all is cut}.
    Example: at_the_table("tearing")["before_phone"] == None
    """
    told = {"before_phone": None, "musts": [], "caution": CAUTION, "after": []}
    for item in ITEMS:
        if not item["must"] or not _always_for(item, tool):
            continue
        if item["when"] == "after":
            told["after"].append({"id": item["id"], "text": item["text"]})
        elif item["when"] == "during" and item["id"].endswith(PHONE):
            told["before_phone"] = item["text"]
        elif item["when"] == "during":
            told["musts"].append(item["text"])
    return told


def _always_for(item, tool):
    tools = TOOL_GROUPS.get(item["tools"], (item["tools"],))
    return tool in tools and item["cloths"] == "any cloth" and item["only"] == "always"
