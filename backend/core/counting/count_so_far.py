"""What a count has seen so far, box by box, and on which phone."""

from ..ordering import in_order, in_text_order
from .fold import once
from .movements import MARK, count_of, key_of, moment_of
from .reading_facts import refuse_other_than_facts


def count_so_far(facts, session, place):
    """List what stands of a count: of each box and product its last line.

    Takes: facts, this count's lines and closes among them, each with the id of
    the `phone` it was stated on, where that is known.
    Returns: {"lines": [{"fact", "at", "phone", "box_label", "product", "size",
    "quantity"}], by box, sizes alone last; "pieces"; "phones": [{"phone",
    "lines", "pieces"}], what stands of each; "closed_at", of the first close or
    None; "late", lines that came after it}.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    refuse_other_than_facts(facts)
    ours = [fact for fact in once(facts) if _is_of(fact, place + MARK + session)]
    lines = [fact for fact in ours if fact["kind"] == "count-line"]
    closes = [moment_of(fact) for fact in ours if fact["kind"] == "count-close"]
    standing = {}
    for fact in lines:
        name = (fact.get("box_label") or "") + MARK + key_of(place, fact)
        if name not in standing or moment_of(standing[name]) < moment_of(fact):
            standing[name] = fact
    rows = [_row(standing[name]) for name in in_text_order(list(standing))]
    return {
        "lines": in_order(rows, lambda row: (row["box_label"], row["size"] or "", row["product"] or "")),
        "pieces": _pieces(rows),
        "phones": _by_phone(rows),
        "closed_at": min(closes)[0] if closes else None,
        "late": len([fact for fact in lines if closes and moment_of(fact) > min(closes)]),
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
