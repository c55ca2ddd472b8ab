"""What becomes of remnants where cuts never happened."""

from .standing import standing


def cuts_taken_back(cuts, cut_voids, taken_back):
    """Say which remnants are there again, and which offcuts are not.

    A remnant stays used up while another cut of it stands; an offcut that was
    cut since stays as it is.
    Takes: cuts, [{"id", "remnant", "offcuts": [remnant]}]; cut_voids, [{"cut"}], of
    cuts that were taken back before; taken_back, the ids of those that are now.
    Returns: {"come_back": [remnant], "put_away": [remnant]}, in the order of the cuts.
    """
    used = {cut["remnant"]: True for cut in standing(cuts, cut_voids, taken_back)}
    told = {"come_back": [], "put_away": []}
    for cut in [one for one in cuts if one["id"] in taken_back]:
        for name, remnants in (("come_back", [cut["remnant"]]), ("put_away", cut["offcuts"])):
            told[name] += [id for id in remnants if id and id not in used and id not in told[name]]
    return told
