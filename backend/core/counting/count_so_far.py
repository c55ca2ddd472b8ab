"""What a count has seen so far, box by box, and on which phone."""

from ..numbers.ordering import in_order, in_text_order
from ..records.reader import once, readable
from ..records.uses import STOCK
from .keys import MARK, count_of, key_of, moment_of
from .sessions import Session


def count_so_far(facts, session, place):
    """List what stands of a count: of each box and product its last line.

    Takes: facts, this count's lines and closes among them, each with the id of
    the `phone` it was stated on, where that is known.
    Returns: {"lines": [{"fact", "at", "phone", "box_label", "product", "size",
    "quantity"}], by box, sizes alone last; "pieces"; "phones": [{"phone",
    "lines", "pieces"}], what stands of each; "closed_at", from when on
    no close said otherwise, or None; "late", lines that came after the first close; "differing",
    closes that said otherwise than the one that stands}. Facts that cannot be read are set aside.
    """
    ours = [fact for fact in once(readable(facts, STOCK)) if _is_of(fact, place + MARK + session)]
    lines = [fact for fact in ours if fact["kind"] == "count-line"]
    count, standing = Session(), {}
    for fact in ours:
        if fact["kind"] == "count-close":
            count.add_close(fact)
    for fact in lines:
        count.add_line(key_of(place, fact), fact)
        name = (fact.get("box_label") or "") + MARK + key_of(place, fact)
        if name not in standing or moment_of(standing[name]) < moment_of(fact):
            standing[name] = fact
    count.settle()
    rows = [_row(standing[name]) for name in in_text_order(list(standing))]
    return {
        "lines": in_order(rows, lambda row: (row["box_label"], row["size"] or "", row["product"] or "")),
        "pieces": _pieces(rows),
        "phones": _by_phone(rows),
        "closed_at": count.closed[0] if count.closes else None,
        "late": len([fact for fact in lines if count.closes and moment_of(fact) > count.first_close()]),
        "differing": len(count.differing()),
    }


def _is_of(fact, count):
    return fact["kind"] in ("count-line", "count-close") and count_of(fact) == count


def _row(fact):
    return {
        "fact": fact.get("id") or "",
        "at": fact["at"],
        "phone": fact.get("phone") or "",
        "box_label": fact.get("box_label") or "",
        "product": fact.get("product"),
        "size": fact.get("size"),
        "quantity": int(fact["quantity"]),
    }


def _by_phone(rows):
    phones = {}
    for row in rows:
        phones.setdefault(row["phone"], []).append(row)
    return [
        {"phone": phone, "lines": len(phones[phone]), "pieces": _pieces(phones[phone])}
        for phone in in_text_order(list(phones))
    ]


def _pieces(rows):
    pieces = 0
    for row in rows:
        pieces += row["quantity"]
    return pieces
