"""What the sewing plans still want: pieces of no batch yet, and the strips that nobody has cut for them."""

from ..numbers.ordering import in_order
from ..records.recorded import Recorded
from .batches_there import standing_batches
from .thread_of_plan import thread_for
from .waiting import strips_of

SEW = "sew"


def still_to_sew(records, waiting, choices, day):
    """Tell what each sewing plan still wants, the booking that comes first before the others.

    A batch counts for the plan of the booking on whose first day it is needed, open or finished. Strips
    go to the plans in their order.
    Takes: records, {kind: {id: fields}} of plans, bookings, products and batches; waiting, [{"cloth", "size",
    "quantity"}], strips that wait and are in no open batch, as `free_strips` tells; choices, {cloth: thread}
    as the thread of a plan is chosen; day, today: plans of bookings that are over pass by.
    Returns: {"plans": [{"plan", "booking", "needed": the booking's first day, "lines": [{"product", "size",
    "cloth", "thread", "quantity", "begun", "left", "batch": pieces of the next one, "strips": those of it
    that are cut}]}], "wanted": [{"size", "cloth", "quantity"}], strips still to cut}.
    Example: still_to_sew({}, [], {}, "2026-05-01") == {"plans": [], "wanted": []}
    """
    recorded = Recorded([], records)
    batches = standing_batches(recorded)
    free = {(row["cloth"], row["size"]): row["quantity"] for row in waiting}
    plans, wanted = [], {}
    for id, plan, booking in _plans(recorded, day):
        needed = booking["days"][0]
        begun = pieces_in([batch for batch in batches if batch["needed"] == needed])
        lines = []
        for line in plan["lines"]:
            told = _line(recorded, line, begun, free, wanted)
            if told:
                told["thread"] = thread_for(recorded, told["cloth"], choices)
                lines.append(told)
        plans.append({"plan": id, "booking": plan["booking"], "needed": needed, "lines": lines})
    strips = [{"size": size, "cloth": cloth, "quantity": wanted[(size, cloth)]} for size, cloth in wanted]
    return {"plans": plans, "wanted": in_order(strips, lambda row: (row["cloth"], row["size"]))}


def sewing_plans(records, made, day):
    """Say what the sewing plan of each booking is, once so much more is to be sewn.

    A plan says all that is sewn for its booking: what is begun for it of the same goods stays in it.
    Takes: records, as `still_to_sew` takes them; made, [{"booking", "product", "quantity", "batches"}]; day,
    today.
    Returns: [{"booking", "lines": [{"product", "quantity", "batches"}]}] of each booking that is not over and
    has a plan or gets one, and is here; no lines where nothing is left to sew for it.
    """
    recorded = Recorded([], records)
    batches = standing_batches(recorded)
    bookings = [row["booking"] for row in made] + [plan["booking"] for _, plan, _ in _plans(recorded, day)]
    told = []
    for number, id in enumerate(bookings):
        booking = recorded.record("booking", id)
        if booking is None or id in bookings[:number]:
            continue
        needed = booking["days"][0]
        ours = [batch for batch in batches if batch["needed"] == needed]
        lines = [_planned(recorded, row, ours) for row in made if row["booking"] == id]
        told.append({"booking": id, "lines": lines})
    return told


def _planned(recorded, row, batches):
    strips = _strips_of(recorded, row["product"])
    quantity, count = row["quantity"], row["batches"]
    for batch in batches:
        lines = [line for line in batch["lines"] if (line["cloth"], line["size"]) in strips]
        count += 1 if lines else 0
        for line in lines:
            quantity += line["quantity"]
    return {"product": row["product"], "quantity": quantity, "batches": count}


def _strips_of(recorded, product):
    return strips_of(product, None, {product: recorded.record("product", product)})


def pieces_in(batches):
    """Count the pieces of batches by what they are of: {(size, cloth): pieces}.

    Example: pieces_in([]) == {}
    """
    told = {}
    for batch in batches:
        for line in batch["lines"]:
            key = (line["size"], line["cloth"])
            told[key] = told.get(key, 0) + line["quantity"]
    return told


def _plans(recorded, day):
    told = []
    for id in recorded.ids("plan"):
        plan = recorded.record("plan", id)
        booking = recorded.record("booking", plan["booking"])
        if plan["use"] == SEW and not plan["archived"] and booking and max(booking["days"]) >= day:
            told.append((id, plan, booking))
    return in_order(told, lambda row: (row[2]["days"][0], row[0]))


def _line(recorded, line, begun, free, wanted):
    # free strips and pieces that are begun are taken from as they are used
    strips = _strips_of(recorded, line["product"])
    if not strips:
        return None
    cloth, size = strips[0]
    had = min(line["quantity"], begun.get((size, cloth), 0))
    begun[(size, cloth)] = begun.get((size, cloth), 0) - had
    left = line["quantity"] - had
    cut = min(left, free.get((cloth, size), 0))
    free[(cloth, size)] = free.get((cloth, size), 0) - cut
    if left > cut:
        wanted[(size, cloth)] = wanted.get((size, cloth), 0) + left - cut
    each = -(-line["quantity"] // (line["batches"] or 1))
    return {
        "product": line["product"],
        "size": size,
        "cloth": cloth,
        "quantity": line["quantity"],
        "begun": had,
        "left": left,
        "batch": min(left, each),
        "strips": min(cut, left, each),
    }
