"""What to sew next, from the records: what make-next is asked, and what each figure of it is known from."""

from ..costing.time_taken import wage_of
from ..declaring.errors import refuse
from ..declaring.reading import read
from ..declaring.spec import Field, by_name
from ..making.batches_there import open_batches
from ..making.still_to_sew import pieces_in
from ..numbers.ordering import in_order
from ..numbers.shapes import is_date
from ..records.recorded import Recorded
from .at_home import areas_at_home, elastic_at_home, minutes_left, pieces_of, unmade
from .batch_taken import Taken
from .bench_time import bench_minutes, less, minutes_of_weekdays
from .demand_ahead import demand_ahead
from .make_next import INPUTS, MADE
from .next_market import CHOICES as OF_MARKETS

KNOWN, OF_PRODUCTS = by_name(INPUTS), by_name(MADE)
MOST_BOOKINGS, MOST_PRODUCTS = KNOWN["bookings"].most, KNOWN["products"].most
CHOICES = [
    Field("buy", "flag", "Whether cloth and elastic can be bought: else only what is at home is sewn", True),
    Field("pieces", "count", "Pieces in a batch; left out, as many as its last batch had", None,
          lowest=1, highest=OF_PRODUCTS["batch"].highest),
    Field("minutes_each", "minutes", "Your guess of the minutes in a piece, where no lap tells", None,
          lowest=0.1, highest=600),
    Field("week_minutes", "minutes", "Minutes for sewing in a week, where the business does not say", None,
          highest=10080),
    Field("threads", "object", "The thread of a cloth, by the cloth's id", {}),
] + [field for field in OF_MARKETS if field.name == "guess"]  # fmt: skip
# what is sewn without a thread being named is sewn in one that goes with its cloth
OF_CLOTH = "cloth "
TOLD = ("pieces", "minutes", "minutes_from", "thread", "cloth")


def next_sewing(facts, days_sold, records, costs, stock, waiting, day, choices):
    """Say what make-next is asked for the next bookings.

    Pieces of open batches count as stock, and what is left to do of them is taken off the minutes first.
    A piece left over after the last booking counts as what its material cost: it sells later. Without
    buying, cloth is limited by its area at home, remnants and strips that wait, and elastic by its length.
    Takes: facts, laps, wages and results of open batches, with what voids them; days_sold, as `next_market`
    takes them; records, {kind: {id: fields}}; costs, {product: what the material of one costs}; stock,
    [{"product", "quantity"}] at every place; waiting, strips that wait and are in no open batch; day, of the
    asking; choices, of CHOICES.
    Returns: {"given", for make-next, in which all is named by its id, None where nothing can be asked;
    "bookings": [{"booking", "days", "bench": minutes, without those of open batches}], "bench_from"
    said|typed|worked|unknown, "open_minutes", "demand_from" here|elsewhere|guess|None, "market_days": how
    many days it is learnt from, "wage", "products": [{"product", "pieces", "minutes", "minutes_from",
    "thread", "cloth", "stock", "sewing"}], "left_out": how many products more there are}.
    Raises: Problems on a choice that is none, and on `day`.
    """
    if not is_date(day):
        refuse("day", "date", quantity="text")
    recorded, chosen = Recorded(facts, records), read(CHOICES, choices)
    taken, sewing = Taken(recorded, chosen), open_batches(recorded)
    bookings = _bookings(recorded, day)
    of_weekdays, bench_from = minutes_of_weekdays(recorded, day, chosen["week_minutes"])
    open_minutes = minutes_left(recorded, sewing, taken.before)
    minutes = less(bench_minutes([booking for _, booking in bookings], day, of_weekdays), open_minutes)
    told = {"given": None, "bench_from": bench_from, "open_minutes": open_minutes, "products": []}
    told["bookings"] = [
        {"booking": id, "days": booking["days"], "bench": bench}
        for (id, booking), bench in zip(bookings, minutes)
    ]
    told["wage"] = wage_of(recorded, None, day) or 0
    ids = [id for id, _ in bookings]
    ahead = demand_ahead(days_sold, recorded, costs, stock, ids, {"guess": chosen["guess"]})
    told.update({"demand_from": ahead["from"], "market_days": ahead["days"], "left_out": 0})
    wanted = [id for id in ahead["demand"] if _can_be_sewn(recorded, id)]
    if not bookings or not wanted or ahead["from"] is None:
        return told
    told["left_out"] = max(0, len(wanted) - MOST_PRODUCTS)
    rows, told["products"] = _products(
        recorded, wanted[:MOST_PRODUCTS], ahead["demand"], taken, stock, sewing
    )
    told["given"] = {
        "bookings": [{"name": row["booking"], "minutes": row["bench"]} for row in told["bookings"]],
        "products": rows,
        "colours": _colours(rows, told["products"]),
        "wage": told["wage"],
    }
    told["given"].update(_materials(recorded, rows, told["products"], waiting, chosen["buy"]))
    return told


def _bookings(recorded, day):
    # those not over, the first first; of years of bookings the most are
    ids = recorded.ids("booking", lambda given: _is_ahead(given.get("days"), day))
    found = [(id, recorded.record("booking", id)) for id in ids]
    coming = [row for row in found if not row[1]["archived"]]
    return in_order(coming, lambda row: (min(row[1]["days"]), row[0]))[:MOST_BOOKINGS]


def _is_ahead(days, day):
    return isinstance(days, list) and len([one for one in days if isinstance(one, str) and one >= day]) > 0


def _can_be_sewn(recorded, id):
    product = recorded.record("product", id)
    return product is not None and product["cloth"] is not None


def _products(recorded, ids, demand, taken, stock, sewing):
    # (rows of make-next, what the screen shows of each)
    shelves, coming = pieces_of(stock), pieces_in(unmade(recorded, sewing))
    rows, told = [], []
    for id in ids:
        product = recorded.record("product", id)
        batch, sewn = taken.of(product), coming.get((product["size"], product["cloth"]), 0)
        there = shelves.get(id, 0)
        rows.append({
            "product": id,
            "stock": min(there + sewn, OF_PRODUCTS["stock"].highest),
            "batch": batch["pieces"],
            "minutes": _within(batch["minutes"], OF_PRODUCTS["minutes"]),
            "colour": batch["thread"] or OF_CLOTH + batch["cloth"],
            "cloth": batch["cloth"],
            "area": batch["area"],
            "elastic": _within(batch["elastic_length"], OF_PRODUCTS["elastic"]),
            "demand": demand[id],
        })  # fmt: skip
        shown = {name: batch[name] for name in TOLD}
        shown.update({"product": id, "stock": there, "sewing": sewn, "size": product["size"]})
        shown.update({"change": batch["change"], "elastic": batch["elastic"]})
        told.append(shown)
    return rows, told


def _within(value, field):
    return min(max(value, field.lowest), field.highest)


def _colours(rows, products):
    # each colour once; getting ready for one takes as long as the longest way of its products
    told = []
    for row, product in zip(rows, products):
        same = [one for one in told if one["name"] == row["colour"]]
        if same:
            same[0]["minutes"] = max(same[0]["minutes"], product["change"])
        else:
            told.append({"name": row["colour"], "minutes": product["change"]})
    return told


def _materials(recorded, rows, products, waiting, buy):
    cloths = []
    for row in rows:
        if row["cloth"] not in cloths:
            cloths.append(row["cloth"])
    if buy:
        return {"cloths": [{"name": id} for id in cloths]}
    each = {}
    for row, product in zip(rows, products):
        each[(product["size"], product["cloth"])] = row["area"] / row["batch"]
    areas = areas_at_home(recorded, waiting, each)
    told = {"cloths": [{"name": id, "area": areas.get(id, 0.0)} for id in cloths]}
    elastics = [product["elastic"] for product in products]
    # of an elastic that nobody named there is nothing to add up
    if None not in elastics:
        told["elastic"] = elastic_at_home(recorded, elastics)
    return told
