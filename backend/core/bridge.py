"""The one door for the phone: a JSON string in, a JSON string out.

Exceptions and long numbers do not cross the runtime's border whole, so bad
input comes back as data: {"problems": [...]} instead of {"answer": ...}.
"""

import json

from . import money, units
from .errors import Problems, refuse
from .reading import load, read
from .spec import Field, by_name


def call(text):
    """Answer {"method": name, "args": {...}} as JSON text; never raises for JSON text."""
    try:
        asked = read(CALL, load(text))
        names = METHODS[asked["method"]][1]
        given = asked["args"] or {}
        args = read([ARGUMENTS[name] for name in names], given)
        _refuse_unknown_units(args.get("units") or {})
        return json.dumps({"answer": _function(asked["method"])(**args)})
    except Problems as error:
        return json.dumps({"problems": error.problems})


def _function(method):
    # loaded when first asked, as a phone at its start waits for each module
    module = __import__(PACKAGE + METHODS[method][0], None, None, (method,))
    return getattr(module, method)


def _refuse_unknown_units(given):
    if [name for name in given if given[name] not in units.UNITS]:
        refuse("units", "choice", None, ", ".join(units.UNITS), "choice")


PACKAGE = __name__[: -len("bridge")]
# what a day's report is made of
REPORTED = ("facts", "voids", "day", "booking", "stall", "hours", "stock", "boxes", "names")
# each method, the module of its function, and the names of its arguments
METHODS = {
    "describe": ("describing", ()),
    "answer": ("catalogue", ("name", "given")),
    "begin": ("working", ("name", "given")),
    "work_on": ("working", ("steps", "tell")),
    "fill": ("forms", ("name", "typed", "units", "currency")),
    "why": ("explaining", ("name", "typed", "units", "currency", "output")),
    "blank": ("forms", ("name", "units", "currency")),
    "show_inputs": ("forms", ("name", "given", "units", "currency")),
    "problems_in_words": ("wording", ("problems", "unit", "currency")),
    "convert": ("forms", ("text", "unit", "to")),
    "lengths_in_words": ("forms", ("lengths", "unit")),
    "record_in_words": ("forms", ("kind_name", "fields", "units", "currency")),
    "record_typed": ("record_forms", ("kind_name", "fields", "units", "currency")),
    "record_read": ("record_forms", ("kind_name", "typed", "units", "currency")),
    "blank_row": ("record_forms", ("kind_name", "list_name", "units", "currency")),
    "recurrences": ("records.recurring", ("day",)),
    "next_days": ("records.recurring", ("rule", "day", "after", "most")),
    "check": ("records.checking", ("kind_name", "fields", "new")),
    "good_changes": ("records.copied", ("changes",)),
    "fold": ("records.merging", ("changes",)),
    "merge": ("records.merging", ("held", "changes")),
    "clashes": ("records.merging", ("held", "own", "changes")),
    "fold_stock": ("counting.held", ("facts", "at", "places")),
    "take_in_stock": ("counting.held", ("held", "facts", "sales")),
    "list_stock": ("counting.stock_on_hand", ("held",)),
    "refund_of": ("selling.refunding", ("lines", "back", "amount")),
    "read_money": ("record_forms", ("text", "currency")),
    "price": ("selling.pricing", ("basket", "returned", "cash_rounding", "denominations")),
    "takings": ("selling.takings", ("facts", "voids")),
    "count_name": ("counting.naming", ("place", "day", "which")),
    "count_so_far": ("counting.count_so_far", ("facts", "session", "place")),
    "count_result": ("counting.count_result", ("facts", "session", "place", "close", "products")),
    "needed_since": ("counting.needed", ("facts", "session", "place", "at")),
    "last_packing": ("counting.last_packing", ("facts", "source", "target")),
    "planned": ("cutting.planned", ("wanted", "sizes", "cloths", "remnants", "elastics", "ways", "unit")),
    "at_the_table": ("safety.at_the_table", ("tool",)),
    "cuts_taken_back": ("making.taken_back", ("cuts", "cut_voids", "taken_back")),
    "waiting_strips": ("making.waiting", ("cuts", "cut_voids")),
    "rank_plans": ("buying.plan_ranking", ("plans",)),
    "days_taken": ("reviewing.days", ("facts", "voids")),
    "told_day": ("reviewing.parts", REPORTED),
    "report_csv": ("reviewing.report_csv", REPORTED + ("currency",)),
    "cash_up_of": ("reviewing.cash_box", ("facts", "voids", "day", "box", "usual_float", "counted")),
    "denominations_of": ("reviewing.cash_box", ("denominations",)),
}

CALL = [
    Field("method", "choice", "What is asked", choices=tuple(sorted(METHODS))),
    Field("args", "object", "Its arguments by name", None),
]

ARGUMENTS = by_name([
    Field("name", "text", "A calculator's name"),
    Field("given", "object", "Values in base units"),
    Field("steps", "count", "How far to work on"),
    Field("tell", "flag", "Whether the result is told", True),
    Field("typed", "object", "Texts as typed"),
    Field("units", "object", "The unit shown for each path", {}),
    Field("currency", "choice", "The currency shown", choices=tuple(sorted(money.EXPONENTS))),
    Field("output", "text", "An output's name"),
    Field("text", "text", "A length as typed", "", most=1000),
    Field("unit", "choice", "The unit it is in", choices=units.UNITS),
    Field("to", "choice", "The unit it should be in", choices=units.UNITS),
    Field("lengths", "list", "Lengths", most=10000,
          item=Field("mm", "length", "A length", highest=10000000000)),
    Field("kind_name", "text", "A kind of record"),
    Field("list_name", "text", "A list among its fields"),
    Field("held", "object", "What is held so far"),
    Field("fields", "object", "Fields of a record"),
    Field("new", "flag", "Whether the record is new"),
    Field("own", "list", "Own edits that the log did not have", most=100000),
    Field("changes", "list", "Changes as in the log", most=100000),
    Field("facts", "list", "Facts: their fields, with kind, id and at", most=100000),
    Field("sales", "list", "Sales taken in before that voids name", [], most=100000),
    Field("voids", "object", "Sales that never happened", {}),
    Field("at", "instant", "Leave out what happened later", None),
    Field("places", "list", "Ids of places", None, item=Field("place", "text", "A place")),
    Field("basket", "object", "Lines, offers and what is taken off"),
    Field("returned", "list", "Lines that come back", [], most=60),
    Field("amount", "money", "What was paid", highest=1000000000000),
    Field("lines", "list", "Lines of a sale", most=60, fields=[
        Field("product", "id", "Its product", None),
        Field("size", "id", "Its size", None),
        Field("name", "text", "What it was", "", most=60),
        Field("quantity", "count", "Pieces", lowest=1),
        Field("total", "money", "What it came to", highest=1000000000000),
    ]),
    Field("back", "list", "Pieces of each that come back", most=60, item=Field("pieces", "count", "Pieces")),
    Field("cash_rounding", "count", "Smallest coin in use", 1, lowest=1, highest=100000),
    Field("denominations", "list", "Values of notes and coins", [], most=40,
          item=Field("value", "money", "A note or coin", lowest=1)),
    Field("plans", "list", "What a plan comes to in each cloth", most=100, fields=[
        Field("left_out", "count", "Strips that the cloth does not give"),
        Field("cost", "money", "What it costs", None, highest=1000000000000),
        Field("length_to_buy", "length", "What is bought", highest=10000000000),
    ]),
    Field("session", "text", "A count", ""),
    Field("place", "text", "A place"),
    Field("which", "text", "Which count of the day"),
    Field("close", "object", "Fields of the close that a count is going to have", {}),
    Field("products", "object", "Size and price of each product", {}),
    Field("source", "text", "The place it leaves"),
    Field("target", "text", "The place it goes to"),
    Field("booking", "text", "A booking", None),
    Field("stall", "text", "The place its stock stands at", None),
    Field("hours", "list", "When each local hour began, and the end of the day", [], most=30, fields=[
        Field("at", "instant", "When it began"),
        Field("name", "text", "What it is called"),
    ]),
    Field("stock", "list", "What is left", None, most=100000, fields=[
        Field("place", "text", "The place"),
        Field("product", "text", "The product", None),
        Field("size", "text", "The size alone", None),
        Field("quantity", "count", "Pieces", lowest=-1000000000, highest=1000000000),
        Field("counted_at", "instant", "When it was last counted", None),
    ]),
    Field("boxes", "list", "The cash boxes", [], most=1000, fields=[
        Field("box", "text", "A cash box"),
        Field("usual_float", "money", "Change money it usually starts with", 0),
    ]),
    Field("box", "text", "A cash box"),
    Field("usual_float", "money", "Change money it usually starts with"),
    Field("counted", "list", "A count by note and coin", None, most=40, fields=[
        Field("value", "money", "The note or coin", lowest=1),
        Field("count", "count", "How many of it"),
    ]),
    Field("names", "object", "What ids are called", {}),
    Field("wanted", "list", "Strips wanted", most=500, fields=[
        Field("size", "text", "Their size"),
        Field("cloth", "text", "The cloth they are of"),
        Field("quantity", "count", "How many", lowest=1),
    ]),
    Field("sizes", "object", "Records of sizes, by id"),
    Field("cloths", "object", "Records of cloths, by id"),
    Field("remnants", "object", "Records of remnants at home, by id", {}),
    Field("elastics", "object", "Records of elastics, by id", {}),
    Field("ways", "object", "What is chosen for a cloth, by its id", {}),
    Field("problems", "list", "What is wrong, as a call told it", most=200),
    Field("tool", "text", "What is cut with"),
    Field("cut_voids", "list", "Cuts that never happened", most=100000, fields=[
        Field("cut", "text", "The cut"),
    ]),
    Field("cuts", "list", "What was cut", most=100000, fields=[
        Field("id", "text", "The cut"),
        Field("cloth", "text", "The cloth", None),
        Field("remnant", "text", "The remnant it was", None),
        Field("lines", "list", "The strips", [], most=60, fields=[
            Field("size", "text", "The size they are for"),
            Field("quantity", "count", "Strips"),
        ]),
        Field("offcuts", "list", "Remnants left of it", [], most=60,
              item=Field("remnant", "text", "A remnant")),
    ]),
    Field("taken_back", "list", "Cuts that are taken back", most=60, item=Field("cut", "text", "A cut")),
    Field("rule", "text", "A recurrence rule", most=120),
    Field("day", "text", "A day, YYYY-MM-DD"),
    Field("after", "text", "The earliest day wanted, YYYY-MM-DD"),
    Field("most", "count", "How many at most", highest=30),
])  # fmt: skip
