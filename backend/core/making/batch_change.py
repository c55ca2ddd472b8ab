"""Changing a batch that is being sewn: what becomes of the laps it has."""

from .batch_standing import batch_pieces, batch_standing


def batch_change(batch, changed, method_steps, laps):
    """Say what a change of a batch leaves of its laps: all of them, at what step each may count.

    Pieces that a step is done with cannot be left out of it: their laps are undone first.
    Takes: batch as it is, changed as it would be, {"lines": [{"quantity"}]}; method_steps, of the
    way it would be sewn; laps, facts of it as `batch_standing` takes them.
    Returns: {"pieces" that it would have, "least" it must have, "enough", "steps": those of the new
    way that laps count at, [{"name", "per", "of", "done", "left"}], "beside": [{"name", "done"}], of
    steps that the new way has not}.
    """
    told = batch_standing(changed, method_steps, laps)
    least = max(1, min(batch_pieces(batch), told["begun"]))
    return {
        "pieces": told["pieces"],
        "least": least,
        "enough": told["pieces"] >= least,
        "steps": [row for row in told["steps"] if row["done"]],
        "beside": told["beside"],
    }
