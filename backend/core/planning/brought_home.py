"""What cloth that was just bought is, once it is at home and can be cut."""

from ..cutting.layout.cloths import Cloth
from ..declaring.errors import Problems
from ..declaring.spec import by_name
from ..records.checking import kind_named
from .strips import bolt_of, whole_records


def brought_home(fields, length):
    """Turn a length of cloth off the bolt into a remnant: washed, its selvedges off, its ends square.

    Takes: fields of the cloth's record; length in mm, as the shop cut it.
    Returns: {"width", "length"} in mm, as a layout on so much of the bolt has them;
    None where the cloth is not measured, or nothing of it can be cut.
    Source: washing before trimming; dimensional change as in ISO 5077.
    Example: brought_home({"name": "Lawn"}, 2600) == None
    """
    try:
        bought = whole_records("cloth", {"bought": fields}, "cloths", ["bought"])["bought"]
        bolt = Cloth(bolt_of(bought), 0.0)
    except Problems:
        return None
    sides = {"width": bolt.width, "length": bolt.usable_length(length)}
    known = by_name(kind_named("remnant").fields)
    if [name for name in sides if not known[name].lowest <= sides[name] <= known[name].highest]:
        return None
    return sides
