"""The thread that open batches and a plan take, colour by colour, and the spools to buy for it."""

from ..declaring.errors import Problems
from ..records.recorded import Recorded
from .batches_there import open_batches
from .seams import thread_in
from .thread import at_home, spools_for


def thread_of_plan(records, wanted, choices):
    """Work out what is to be sewn takes of each thread, what is at home, and what to buy.

    An open batch takes what it has in needle and bobbin; what is planned beside takes the thread that
    is chosen for its cloth, else that of the last batch with that cloth.
    Takes: records, {kind: {id: fields}} of batches, sizes and threads; wanted, [{"size", "cloth",
    "quantity"}] that is planned; choices, {cloth: thread}.
    Returns: {"threads": [{"thread", "pieces", "length", "from_home", "at_home", "spools", "cost"}],
    those that are needed first, cost None without a price; "cloths": [{"cloth", "thread", "pieces"}],
    the planned cloths and what they are sewn with, None where nobody said}. Lengths are mm.
    """
    recorded = Recorded([], records)
    needed, order = {}, []
    for _, batch in open_batches(recorded):
        for line in batch["lines"]:
            _add(recorded, needed, order, line, batch["needle"], batch["bobbin"])
    cloths = _cloths(recorded, wanted, choices)
    for line in wanted:
        thread = [row["thread"] for row in cloths if row["cloth"] == line["cloth"]][0]
        _add(recorded, needed, order, line, thread, None)
    others = [id for id in recorded.ids("thread") if id not in order]
    rows = [_told(recorded, id, needed.get(id)) for id in order + others]
    return {"threads": [row for row in rows if row], "cloths": cloths}


def _add(recorded, needed, order, line, needle, bobbin):
    piece = recorded.record("piece", line["size"])
    if needle is None or piece is None:
        return
    try:
        each = thread_in(piece)
    except Problems:
        return
    for thread, length in ((needle, each["needle"]), (bobbin or needle, each["bobbin"])):
        if thread not in needed:
            needed[thread] = {"length": 0.0, "pieces": 0}
            order.append(thread)
        needed[thread]["length"] += length * line["quantity"]
    for thread in [needle] + ([bobbin] if bobbin and bobbin != needle else []):
        needed[thread]["pieces"] += line["quantity"]


def _cloths(recorded, wanted, chosen):
    # each planned cloth once, in the order of the plan
    told = []
    for line in wanted:
        row = [row for row in told if row["cloth"] == line["cloth"]]
        if row:
            row[0]["pieces"] += line["quantity"]
            continue
        thread = thread_for(recorded, line["cloth"], chosen)
        told.append({"cloth": line["cloth"], "thread": thread, "pieces": line["quantity"]})
    return told


def thread_for(recorded, cloth, chosen):
    """Tell the thread that a cloth is sewn with: as chosen, else as in its last batch; None for neither.

    Takes: chosen, {cloth: thread}.
    """
    thread = chosen.get(cloth)
    if isinstance(thread, str) and recorded.record("thread", thread):
        return thread

    def is_sewn_so(batch):
        return batch["needle"] and [line for line in batch["lines"] if line["cloth"] == cloth]

    batch = recorded.last("batch", is_sewn_so)
    return batch["needle"] if batch else None


def _told(recorded, id, needed):
    record = recorded.record("thread", id)
    if record is None or (record["archived"] and not needed):
        return None
    needed = needed or {"length": 0.0, "pieces": 0}
    row = {"colour": id, "length": record["length"], "price": record["price"]}
    spools = [{"at_home": held} for held in _at_home(record)]
    for spool in spools:
        spool.update(row)
    bought = spools_for(id, needed["length"], spools)
    told = {name: bought[name] for name in ("length", "from_home", "spools", "cost")}
    told.update({"thread": id, "pieces": needed["pieces"], "at_home": at_home(id, spools)})
    return told


def _at_home(record):
    # whole spools, and the opened one by its weight where that is known, else by its length
    weighed = {name: record[name] for name in ("grams", "empty", "tex")}
    known = None not in [weighed[name] for name in ("grams", "empty", "tex")]
    opened = weighed if known and weighed["grams"] >= weighed["empty"] else record["opened"]
    return [record["spools"] * record["length"], opened]
