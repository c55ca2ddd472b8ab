"""What the pieces made took of elastic, thread and other supplies: uses of each, as unit-cost takes them."""

from ..catalogue import answer_of_facts
from ..declaring.errors import Problems
from ..making.seams import thread_in
from ..records.descriptions import ELASTIC_NAMES


def elastic_used(recorded, lines):
    """List the elastic in the pieces made, by the elastic their size names, or the only one there is.

    Takes: lines, as `lines_made` lists them.
    Returns: ({elastic: [use]}, {number of a line: pieces whose elastic is not known}).
    """
    uses, unknown, lengths = {}, {}, {}
    for line in lines:
        size = line["size"]
        if size not in lengths:
            lengths[size] = elastic_of(recorded, recorded.record("piece", size))
        elastic, length = lengths[size]
        if elastic is not None:
            _use(uses, elastic, line, length * line["made"], line["made"])
        else:
            unknown[line["line"]] = line["made"]
    return uses, unknown


def thread_used(recorded, lines):
    """List the thread in the pieces made, by what their batch has in needle and bobbin.

    Returns: ({thread: [use]}, {number of a line: pieces whose thread is not known}).
    """
    uses, unknown, lengths = {}, {}, {}
    for line in lines:
        batch = recorded.record("batch", line["batch"])
        size = line["size"]
        if size not in lengths:
            lengths[size] = _thread_of(recorded.record("piece", size))
        needle = batch["needle"] if batch else None
        if needle is None or lengths[size] is None:
            unknown[line["line"]] = line["made"]
            continue
        bobbin = needle if batch["bobbin"] is None else batch["bobbin"]
        each = lengths[size]
        if bobbin == needle:
            _use(uses, needle, line, each["total"] * line["made"], line["made"])
            continue
        _use(uses, needle, line, each["needle"] * line["made"], line["made"])
        _use(uses, bobbin, line, each["bobbin"] * line["made"], line["made"])
    return uses, unknown


def supplies_used(recorded, lines):
    """List what a piece takes of each supply: of packaging the good ones alone, one each.

    Returns: ({supply: [use]}, {}): those of which nobody said how long they last are none.
    """
    uses = {}
    for id in recorded.ids("supply"):
        supply = recorded.record("supply", id)
        if supply["archived"] or supply["lasts"] is None:
            continue
        for line in lines:
            pieces = line["good"] if supply["use"] == "packaging" else line["made"]
            _use(uses, id, line, pieces, pieces)
    return uses, {}


def _use(uses, material, line, quantity, pieces):
    if pieces:
        uses.setdefault(material, []).append({
            "at": line["at"],
            "quantity": quantity,
            "line": line["line"],
            "day": line["day"],
            "cut": None,
            "batch": line["batch"],
            "result": line["result"],
            "product": line["product"],
            "pieces": pieces,
        })  # fmt: skip


def elastic_of(recorded, piece):
    """Find the elastic of a size, and the length of it in a piece, in mm: (id, length).

    Takes: piece, a size's record. Returns: (None, 0.0) where either is not known.
    """
    known = [id for id in recorded.ids("elastic") if not recorded.record("elastic", id)["archived"]]
    id = piece["elastic"] if piece else None
    if id is None and len(known) == 1:
        id = known[0]
    elastic = recorded.record("elastic", id)
    if piece is None or elastic is None:
        return None, 0.0
    asked = {name: elastic[name] for name in ELASTIC_NAMES if elastic[name] is not None}
    asked["loop"] = piece["loop"]
    try:
        return id, answer_of_facts("elastic-cut-length", asked)["result"]["cut_length"]
    except Problems:
        return None, 0.0


def _thread_of(piece):
    try:
        return thread_in(piece) if piece else None
    except Problems:
        return None
