"""Cuts that stand: those that nobody said never happened."""


def standing(cuts, cut_voids, taken_back=()):
    """Leave out the cuts that never happened; in the order of the cuts.

    Takes: cut_voids, [{"cut"}], of cuts that may not be here yet; taken_back,
    the ids of cuts that are taken back just now.
    Example: standing([{"id": "a"}, {"id": "b"}], [{"cut": "a"}]) == [{"id": "b"}]
    """
    never = {void["cut"]: True for void in cut_voids}
    never.update({id: True for id in taken_back})
    return [cut for cut in cuts if cut["id"] not in never]
