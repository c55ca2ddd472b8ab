"""The one door for the phone: a JSON string in, a JSON string out.

Exceptions and long numbers do not cross the runtime's border whole, so bad
input comes back as data: {"problems": [...]} instead of {"answer": ...}.
"""

import json

from .arguments import ARGUMENTS
from .declaring.errors import Problems, refuse
from .declaring.reading import load, read
from .declaring.spec import Field
from .numbers import units


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
# what a mix from a remnant is made of
MIXED = (
    "remnants", "cloths", "sizes", "products", "elastics", "wanted", "waiting", "ways", "choices", "unit",
)  # fmt: skip
# what results of markets and of years are made of
BOOKED = ("facts", "records", "sums", "costs")
# what says when a batch is ready
TIMED = ("batch", "method_steps", "laps", "before", "tray", "now")
# what it is decided from what to bring
DECIDED = ("days_sold", "records", "costs", "stock", "booking", "choices")
# and what to sew
SEWN_NEXT = ("facts", "days_sold", "records", "costs", "stock", "waiting", "day", "choices")
# what a batch comes to
FINISHED = ("batch", "goods", "sewn", "results", "products")
# each method, the module of its function, and the names of its arguments
METHODS = {
    "describe": ("presenting.describing", ()),
    "answer": ("catalogue", ("name", "given")),
    "begin": ("working", ("name", "given")),
    "work_on": ("working", ("steps", "tell")),
    "fill": ("presenting.forms", ("name", "typed", "units", "currency")),
    "why": ("presenting.explaining", ("name", "typed", "units", "currency", "output")),
    "blank": ("presenting.forms", ("name", "units", "currency")),
    "show_inputs": ("presenting.forms", ("name", "given", "units", "currency")),
    "problems_in_words": ("presenting.wording", ("problems", "unit", "currency")),
    "convert": ("presenting.rewriting", ("text", "exact", "unit", "to", "rounding")),
    "next_eighth": ("presenting.rewriting", ("text", "up")),
    "lengths_in_words": ("presenting.forms", ("lengths", "unit")),
    "record_in_words": ("presenting.record_forms", ("kind_name", "fields", "units", "currency")),
    "record_typed": ("presenting.record_forms", ("kind_name", "fields", "units", "currency")),
    "record_read": ("presenting.record_forms", ("kind_name", "typed", "units", "currency")),
    "blank_row": ("presenting.record_forms", ("kind_name", "list_name", "units", "currency")),
    "recurrences": ("records.recurring", ("day",)),
    "next_days": ("records.recurring", ("rule", "day", "after", "most")),
    "check": ("records.checking", ("kind_name", "fields", "new")),
    "good_changes": ("records.copied", ("changes",)),
    "fold": ("records.merging", ("changes",)),
    "merge": ("records.merging", ("held", "changes")),
    "clashes": ("records.merging", ("held", "own", "changes")),
    "unreadable": ("records.reader", ("facts",)),
    "doubtful": ("reviewing.doubtful", ("facts", "received", "voids", "dearest", "records")),
    "fold_stock": ("counting.held", ("facts", "at", "places")),
    "take_in_stock": ("counting.held", ("held", "facts", "sales")),
    "fold_places": ("counting.held", ("facts", "voids", "places")),
    "begin_place": ("counting.held", ("facts", "closes", "voids", "place")),
    "put_places": ("counting.held", ("held", "places", "folded")),
    "list_stock": ("counting.stock_on_hand", ("held",)),
    "pieces_at": ("counting.pieces_at", ("held", "place")),
    "refund_of": ("selling.refunding", ("lines", "back", "amount", "refunds")),
    "read_money": ("presenting.record_forms", ("text", "currency")),
    "price": ("selling.pricing", ("basket", "returned", "cash_rounding", "denominations")),
    "takings": ("selling.takings", ("facts", "voids")),
    "count_name": ("counting.naming", ("place", "day", "which")),
    "plan_name": ("records.descriptions_of_markets", ("use", "booking")),
    "count_so_far": ("counting.count_so_far", ("facts", "session", "place")),
    "count_result": ("counting.count_result", ("facts", "session", "place", "close", "products")),
    "needed_since": ("counting.needed", ("facts", "session", "place", "at")),
    "last_packing": ("counting.last_packing", ("facts", "source", "target")),
    "to_pack": ("counting.to_pack", ("planned", "stock", "place", "facts", "booking")),
    "planned": ("planning.strips", ("wanted", "sizes", "cloths", "remnants", "elastics", "ways", "unit")),
    "brought_home": ("planning.brought_home", ("fields", "length")),
    "beside_calculator": ("planning.beside_calculator", ("given",)),
    "remnant_mix": ("planning.remnant_mix", MIXED),
    "laid_mix": ("planning.remnant_mix", ("given", "placed", "first", "lying", "layers", "strips")),
    "at_the_stall": ("safety.at_the_stall", ()),
    "at_the_table": ("safety.at_the_table", ("tool",)),
    "cuts_taken_back": ("making.taken_back", ("cuts", "cut_voids", "taken_back")),
    "waiting_strips": ("making.waiting", ("facts", "batches", "products")),
    "thread_of_plan": ("making.thread_of_plan", ("records", "wanted", "choices")),
    "times_of_methods": ("making.times_told", ("facts", "records")),
    "cost_of_goods": ("costing.cost_of_goods", ("facts", "records", "product_ids", "day")),
    "prices_of_goods": ("costing.prices_of_goods", ("facts", "records", "product_ids", "day", "choices")),
    "costs_each": ("costing.cost_of_goods", ("facts", "records", "product_ids")),
    "sold_at_markets": ("deciding.sold_at_market", ("facts", "records", "markets")),
    "next_market": ("deciding.next_market", DECIDED),
    "market_inputs": ("deciding.next_market", DECIDED + ("capacity",)),
    "next_sewing": ("deciding.next_sewing", SEWN_NEXT),
    "still_to_sew": ("making.still_to_sew", ("records", "waiting", "choices", "day")),
    "sewing_plans": ("making.still_to_sew", ("records", "made", "day")),
    "goods_costs": ("costing.goods_costs", ("facts", "records")),
    "usual_steps": ("making.usual_steps", ()),
    "free_strips": ("making.batch_start", ("waiting", "sewing", "results", "products")),
    "next_number": ("making.batch_start", ("sewing",)),
    "set_ups": ("making.batch_start", ("sewing", "last")),
    "batch_standing": ("making.batch_standing", ("batch", "method_steps", "laps")),
    "batch_change": ("making.batch_change", ("batch", "changed", "method_steps", "laps")),
    "finish_time": ("making.batch_timing", TIMED),
    "finished_lines": ("making.batch_finishing", FINISHED),
    "rank_plans": ("planning.ranking", ("plans",)),
    "days_taken": ("reviewing.days", ("facts", "voids")),
    "told_day": ("reviewing.parts", REPORTED),
    "report_csv": ("reviewing.report_csv", REPORTED + ("currency",)),
    "cash_up_of": ("reviewing.cash_box", ("facts", "voids", "day", "box", "usual_float", "counted")),
    "day_sums": ("reviewing.day_sums", ("facts", "voids")),
    "markets_told": ("reviewing.markets_told", BOOKED + ("day",)),
    "booking_told": ("reviewing.booking_told", BOOKED + ("booking", "voids")),
    "offer_days": ("reviewing.offer_days", BOOKED + ("offer",)),
    "year_told": ("reviewing.year_told", BOOKED + ("year", "day")),
    "year_file": ("reviewing.year_files", BOOKED + ("file", "year", "day", "stock", "at", "currency")),
    "denominations_of": ("reviewing.cash_box", ("denominations",)),
    "begin_year": ("inventing.year", ("fixtures", "business", "day", "offset_minutes")),
    "live_days": ("inventing.year", ("most",)),
}

CALL = [
    Field("method", "choice", "What is asked", choices=tuple(sorted(METHODS))),
    Field("args", "object", "Its arguments by name", None),
]
