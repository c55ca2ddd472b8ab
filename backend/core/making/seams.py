"""The seams of a piece, and the thread that they take."""

from ..catalogue import answer_of_facts
from ..planning.strips import strip_of


def seams_of(piece):
    """List the seams of a size, as the calculator of thread takes them: the tube's, and the ring's.

    Takes: the fields of a size's record.
    Source: common practice, no source.
    """
    length, width = strip_of(piece, "mm")
    return [{"name": "side seam", "length": length}, {"name": "end seam", "length": width}]


def thread_in(piece):
    """Tell the needle and the bobbin thread of one piece in mm, as {"needle", "bobbin", "total"}."""
    one = {"colour": "thread", "length": 1000000}
    asked = {"seams": seams_of(piece), "colours": [{"needle": "thread", "quantity": 1}], "spools": [one]}
    return answer_of_facts("thread", asked)["result"]["each"]
