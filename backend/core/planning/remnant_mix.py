"""From records to remnant-best-mix: what one remnant could give, and from its answer to cuts."""

from ..cutting.remnant.fields import INPUTS
from ..cutting.remnant.guillotine_cuts import cut_apart
from ..declaring.errors import Problems, refuse
from ..declaring.reading import read, read_part
from ..declaring.spec import Field, by_name
from ..numbers.ordering import in_text_order
from ..numbers.rounding import at_most, half_up
from .elastic import planned_elastic
from .strips import WAYS, strip_of, way_to_cut, whole_records

MEASURES = ("money", "area", "strips")
LYING = ("either", "across", "along")

CHOICES = [
    Field("measure", "choice", "What is added up: money, area, or strips", None, choices=MEASURES),
    Field("lying", "choice", "How the length of strips lies", None, choices=LYING),
    Field("many", "choice", "At most as many as fit, as are still wanted, or as she says", None,
          choices=("fit", "wanted", "typed")),
    by_name(INPUTS)["stages"],
    Field("left_out", "list", "Sizes not to be cut", [], item=Field("size", "text", "A size"), most=500),
    Field("worths", "object", "What she says that one is worth, by size", {}),
    Field("quantities", "object", "How many she says at most, by size", {}),
]  # fmt: skip


def remnant_mix(remnants, cloths, sizes, products, elastics, wanted, waiting, ways, choices, unit):
    """Make what remnant-best-mix is given of a remnant and the sizes she makes.

    A strip is worth what she says; else the price of its product in this cloth, or of
    the one whose cloth is not named, less what its elastic costs where that is
    known. Money and area are never mixed: where no size has a price, a strip is worth
    its area; where some have, those without are left out until she says. Still
    wanted is what is planned of the cloth less strips that wait for a batch.
    Takes: remnants, the one, and cloths, its own, {id: fields of the record}; sizes, products
    and elastics, the same; wanted and waiting, [{"size", "cloth", "quantity"}]; ways,
    {cloth: choices of WAYS}; choices, of CHOICES; unit, what the ruler is read in.
    Returns: {"given", for remnant-best-mix; "rows", the size behind each of its sizes;
    "sizes", of all [{"size", "name", "length", "width", "chosen", "price", "elastic_cost",
    "worth", "wanted", "waiting", "quantity"}], what is not known None; "measure",
    "lying" and "many", as chosen or as follows; "layers", like pieces to stack; "nap"}.
    Raises: Problems naming each record that is not whole, or a choice that is none.
    """
    if len(remnants) != 1:
        refuse("remnants", "rows" if remnants else "too_few", len(remnants), 1, "list")
    [remnant] = [one for _, one in _in_order(whole_records("remnant", remnants, "remnants", list(remnants)))]
    cloth = remnant["cloth"]
    way = read(WAYS, ways.get(cloth) or {})
    way = way_to_cut(whole_records("cloth", cloths, "cloths", [cloth])[cloth], way, True)
    chosen = read(CHOICES, choices)
    pieces = _in_order(whole_records("piece", sizes, "sizes", in_text_order(list(sizes))))
    rows = [_strip(id, piece, chosen, unit) for id, piece in pieces]
    _add_worths(rows, pieces, products, elastics, cloth, chosen, unit)
    measure = chosen["measure"] or ("money" if _worth_in_money(rows) else "area")
    many = chosen["many"] or ("wanted" if [row for row in wanted if row["cloth"] == cloth] else "fit")
    _add_quantities(rows, cloth, wanted, waiting, many, chosen)
    for row in rows:
        if measure != "money":
            row["worth"] = 1 if measure == "strips" else row["length"] * row["width"]
    lying = chosen["lying"] or _lying(way)
    cut = [row for row in rows if row["chosen"] and row["worth"] and row["quantity"] != 0]
    return {
        "given": {
            # strips that lie along are laid across a cloth that is turned
            "width": remnant["length" if lying == "along" else "width"],
            "length": remnant["width" if lying == "along" else "length"],
            "sizes": [
                {"name": row["name"], "length": row["length"], "width": row["width"], "value": row["worth"],
                 "quantity": row["quantity"]}
                for row in cut
            ],
            "rotate": lying == "either",
            "stages": chosen["stages"],
        },
        "rows": [row["size"] for row in cut],
        "sizes": rows,
        "measure": measure,
        "lying": lying,
        "many": many,
        "layers": way["layers"],
        "nap": way["nap"],
    }  # fmt: skip


def _in_order(records):
    return [(id, records[id]) for id in in_text_order(list(records))]


def _strip(id, piece, chosen, unit):
    length, width = strip_of(piece, unit)
    return {
        "size": id,
        "name": piece["name"],
        "length": length,
        "width": width,
        "chosen": id not in chosen["left_out"],
    }


def _add_worths(rows, pieces, products, elastics, cloth, chosen, unit):
    sold = _in_order(whole_records("product", products, "products", in_text_order(list(products))))
    known = whole_records("elastic", elastics, "elastics", in_text_order(list(elastics)))
    strips = planned_elastic([piece for _, piece in pieces], known, unit)["strips"]
    typed = _of_sizes(chosen["worths"], rows, "money", "worths")
    for row, strip in zip(rows, strips):
        row["price"] = _price(sold, row["size"], cloth)
        row["elastic_cost"] = _elastic_cost(strip, known)
        row["worth"] = typed[row["size"]]
        if row["worth"] is None and row["price"] is not None:
            row["worth"] = max(0, row["price"] - (row["elastic_cost"] or 0))


def _of_sizes(given, rows, quantity, path):
    # what is said of sizes that are not there any more passes by
    fields = [Field(row["size"], quantity, path, None) for row in rows]
    told = {row["size"]: given[row["size"]] for row in rows if row["size"] in given}
    values, problems = read_part(fields, told, path, True)
    if problems:
        raise Problems(problems)
    return values


def _price(sold, size, cloth):
    for wanted in (cloth, None):
        for _, product in sold:
            if product["active"] and product["size"] == size and product["cloth"] == wanted:
                return product["price"]
    return None


def _elastic_cost(strip, elastics):
    # as whole as money is, so that what is shown adds up
    if not strip or elastics[strip["elastic_name"]]["price"] is None:
        return None
    elastic = elastics[strip["elastic_name"]]
    return half_up(strip["elastic"] * elastic["price"] / elastic["roll_length"])


def _worth_in_money(rows):
    return len([row for row in rows if row["chosen"] and row["worth"] is not None]) > 0


def _add_quantities(rows, cloth, wanted, waiting, many, chosen):
    typed = _of_sizes(chosen["quantities"], rows, "count", "quantities")
    for row in rows:
        row["wanted"] = _pieces(wanted, row["size"], cloth)
        row["waiting"] = _pieces(waiting, row["size"], cloth)
        still = max(0, row["wanted"] - row["waiting"])
        row["quantity"] = {"fit": None, "wanted": still, "typed": typed[row["size"]]}[many]


def _pieces(lines, size, cloth):
    pieces = 0
    for line in lines:
        if line["size"] == size and line["cloth"] == cloth:
            pieces += line["quantity"]
    return pieces


def _lying(way):
    # strips of cloth that stretches or has a nap lie one way
    if way["stretch"] != "none":
        return way["stretch"]
    return "across" if way["nap"] else "either"


def laid_mix(given, placed, first, lying, layers, strips):
    """Turn what remnant-best-mix found into a laid cloth with its cuts, as a layout tells one.

    Takes: given, what it was asked; placed and first (cuts), what it told; lying
    and layers, as `remnant_mix` returns them; strips, [{"length", "width"}] that an
    offcut is worth keeping for.
    Returns: {"cloth", "usable_width", "usable_length", "used_length", "length_to_buy", "rows"
    and "offcuts", as cutting-layout tells them; "cuts", as `cut_apart` does, with "strip"
    for "size"}.
    Raises: Problems if no straight cuts through each piece free these strips.
    """
    given = read(INPUTS, given)
    width, length = given["width"], given["length"]
    if lying == "along":
        placed, first = [_turned(strip) for strip in placed], "along" if first == "across" else "across"
        width, length = length, width
    if [strip for strip in placed if strip["size"] >= len(given["sizes"])]:
        refuse("placed", "not_cut_apart")
    apart = cut_apart(width, length, placed, first, given["stages"] == "any", layers)
    if apart is None:
        refuse("placed", "not_cut_apart")
    used = 0.0
    for strip in apart["strips"]:
        used = max(used, strip["y"] + strip["length" if strip["turned"] else "width"])
    return {
        "cloth": 0,
        "usable_width": width,
        "usable_length": length,
        "used_length": used,
        "length_to_buy": None,
        "rows": _rows(apart, given["sizes"]) if placed else [],
        "cuts": [_of_strip(cut, "size") for cut in apart["cuts"]],
        "offcuts": [offcut for offcut in apart["offcuts"] if _holds_some(offcut, strips)],
    }


def _turned(strip):
    return dict(strip, x=strip["y"], y=strip["x"], turned=not strip["turned"])


def _of_strip(row, size):
    told = {name: row[name] for name in row if name != size}
    told["strip"] = row[size]
    return told


def _rows(apart, sizes):
    rows = [{"y": row["y"], "height": row["length"], "strips": []} for row in apart["rows"]]
    for strip in apart["strips"]:
        # rows that begin at it or before; the last of them holds it
        before = [row for row in rows if at_most(row["y"], strip["y"])]
        before[-1]["strips"].append(dict(_of_strip(strip, "size"), name=sizes[strip["size"]]["name"]))
    return rows


def _holds_some(offcut, strips):
    for strip in strips:
        for one, other in ((strip["length"], strip["width"]), (strip["width"], strip["length"])):
            if at_most(one, offcut["width"]) and at_most(other, offcut["length"]):
                return True
    return False
