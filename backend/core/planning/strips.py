"""From records to a plan for buy-list: strips of the sizes wanted, their cloths and their elastic."""

from ..catalogue import answer
from ..cutting.layout.fields import CLOTH, INPUTS
from ..declaring.errors import Problems, problem
from ..declaring.reading import read, read_part
from ..declaring.spec import Field, by_name
from ..numbers.ordering import in_order, in_text_order
from ..numbers.units import ruler_step
from ..records.checking import kind_named
from ..records.descriptions import CLOTH_MEASURES, STRIP_NAMES
from .elastic import planned_elastic

# what may be chosen for a cloth each time; what is left out follows from its record
CHOSEN = ("nap", "stretch", "fold", "layers", "tear")
WAYS = [Field("bolt", "flag", "Cut from the bolt, too, where remnants do not reach", True)] + [
    Field(name, by_name(CLOTH)[name].quantity, by_name(CLOTH)[name].help, None,
          lowest=by_name(CLOTH)[name].lowest, highest=by_name(CLOTH)[name].highest,
          choices=by_name(CLOTH)[name].choices)
    for name in CHOSEN
]  # fmt: skip

# a thin cloth that may be mixed is cut folded and stacked; common practice, no source
FOLD, LAYERS = 2, 4
MOST_CLOTHS = by_name(INPUTS)["cloths"].most
MOST_NAME = by_name(CLOTH)["name"].most
OF_BOLTS = (
    "selvedge", "shrink_length", "shrink_width", "squaring", "shop_increment", "minimum_cut", "price",
    "price_length",
)  # fmt: skip


def planned(wanted, sizes, cloths, remnants, elastics, ways, unit):
    """Make what buy-list is given: strips, the bolt and remnants of each strip's cloth, rolls of its elastic.

    Takes: wanted, [{"size", "cloth", "quantity"}]; sizes, cloths, remnants and
    elastics, {id: fields of the record}; ways, {cloth: choices of WAYS}; unit,
    what the ruler is read in. Remnants of other cloths pass by.
    Returns: {"given", for buy-list; "cloths": [{"cloth", "remnant"}], "strips":
    [{"size", "cloth"}] and "rolls": [{"elastic", "roll"}], the records behind its
    rows; "estimated", elastics whose knot nobody measured; "left_out", the
    smallest remnants, where there are more than can be planned at once}.
    Raises: Problems naming each record that is not whole, a bolt that was not
    measured, or a choice that is none.
    """
    strips = _added_up(wanted)
    known = {
        "sizes": whole_records("piece", sizes, "sizes", [strip["size"] for strip in strips]),
        "cloths": whole_records("cloth", cloths, "cloths", [strip["cloth"] for strip in strips]),
        "remnants": whole_records("remnant", remnants, "remnants", in_text_order(list(remnants))),
        "elastics": whole_records("elastic", elastics, "elastics", in_text_order(list(elastics))),
    }
    chosen = {cloth: read(WAYS, ways.get(cloth) or {}) for cloth in known["cloths"]}
    _refuse_unmeasured(known["cloths"], chosen)
    sources, left_out = _sources(strips, known, chosen)
    rows = _cloth_rows(sources, known, chosen)
    laid = _strip_rows(strips, known, sources, rows, unit)
    elastic = planned_elastic([known["sizes"][strip["size"]] for strip in strips], known["elastics"], unit)
    for row, more in zip(laid, elastic["strips"]):
        row.update(more)
    return {
        "given": {"cloths": rows, "strips": laid, "rolls": elastic["rolls"]},
        "cloths": sources,
        "strips": [{"size": strip["size"], "cloth": strip["cloth"]} for strip in strips],
        "rolls": elastic["sources"],
        "estimated": elastic["estimated"],
        "left_out": left_out,
    }


def _refuse_unmeasured(cloths, chosen):
    bolts = [id for id in cloths if chosen[id]["bolt"]]
    missing = [(id, name) for id in bolts for name in CLOTH_MEASURES if cloths[id][name] is None]
    if missing:
        raise Problems([problem("cloths." + id + "." + name, "required") for id, name in missing])


def _added_up(wanted):
    # each size of a cloth once, in the order they are first named
    strips = []
    for row in wanted:
        same = [one for one in strips if one["size"] == row["size"] and one["cloth"] == row["cloth"]]
        if same:
            same[0]["quantity"] += row["quantity"]
        else:
            strips.append(dict(row))
    return strips


def whole_records(kind, given, path, ids):
    """Read records that a plan is made from: {id: every field}.

    Raises: Problems naming each that is not whole.
    """
    fields, found, problems = kind_named(kind).fields, {}, []
    for id in ids:
        record = given.get(id) or {}
        told = {field.name: record[field.name] for field in fields if field.name in record}
        found[id], bad = read_part(fields, told, path + "." + id, True)
        problems += bad
    if problems:
        raise Problems(problems)
    return found


def _sources(strips, known, chosen):
    # the bolts come after the remnants: what lies at home is cut first
    cloths = []
    for strip in strips:
        if strip["cloth"] not in cloths:
            cloths.append(strip["cloth"])
    bolts = [{"cloth": cloth, "remnant": None} for cloth in cloths if chosen[cloth]["bolt"]]
    remnants = known["remnants"]
    ours = [id for id in remnants if remnants[id]["cloth"] in cloths]
    ours = in_order(ours, lambda id: _rank(remnants[id], id))
    room = max(0, MOST_CLOTHS - len(bolts))
    taken = [{"cloth": remnants[id]["cloth"], "remnant": id} for id in ours[:room]]
    return taken + bolts, ours[room:]


def _rank(remnant, id):
    return (not remnant["use_first"], -remnant["width"] * remnant["length"], id)


def _cloth_rows(sources, known, chosen):
    rows, names = [], []
    for source in sources:
        cloth = known["cloths"][source["cloth"]]
        remnant = known["remnants"][source["remnant"]] if source["remnant"] else None
        row = _remnant_row(remnant) if remnant else _bolt_row(cloth)
        row["name"] = _unlike(row["name"], names)
        row["repeat"] = cloth["repeat"]
        row.update(way_to_cut(cloth, chosen[source["cloth"]], bool(remnant)))
        names.append(row["name"])
        rows.append(row)
    return rows


def _bolt_row(cloth):
    row = {name: cloth[name] for name in OF_BOLTS if cloth[name] is not None}
    row.update({"name": cloth["name"], "width": cloth["bolt_width"]})
    return row


def bolt_of(cloth):
    """Give a cloth's whole record as a layout takes a bolt: uncut, in no special way."""
    row = _bolt_row(cloth)
    row["repeat"] = cloth["repeat"]
    return read(CLOTH, row)


def _remnant_row(remnant):
    # recorded as it can be cut now: nothing is trimmed any more
    return {name: remnant[name] for name in ("name", "width", "length", "use_first")}


def way_to_cut(cloth, choice, is_remnant):
    """Say how a cloth is cut: as is chosen, else as follows from its record."""
    way = {
        "nap": not cloth["mixed"],
        "stretch": "none",
        "fold": FOLD if cloth["mixed"] and not is_remnant else 1,
        "layers": LAYERS if cloth["mixed"] else 1,
        "tear": cloth["tear"],
    }
    way.update({name: choice[name] for name in CHOSEN if choice[name] is not None})
    return way


def _unlike(name, names):
    unlike, number = name[:MOST_NAME], 1
    while unlike in names:
        number += 1
        mark = " " + str(number)
        unlike = name[: MOST_NAME - len(mark)] + mark
    return unlike


def _strip_rows(strips, known, sources, rows, unit):
    laid = []
    for strip in strips:
        piece = known["sizes"][strip["size"]]
        length, width = strip_of(piece, unit)
        laid.append({
            "name": piece["name"],
            "length": length,
            "width": width,
            "quantity": strip["quantity"],
            "cloths": [
                row["name"] for row, source in zip(rows, sources) if source["cloth"] == strip["cloth"]
            ],
        })  # fmt: skip
    return laid


def strip_of(piece, unit):
    """Work out the strip of a size: (length, width), as the ruler shows them."""
    asked = {name: piece[name] for name in STRIP_NAMES}
    asked["ruler_step"] = ruler_step(unit)
    strip = answer("strip-length", asked)["result"]
    return strip["strip_length"], strip["strip_width"]
