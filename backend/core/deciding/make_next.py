"""make-next: what to sew before the next bookings."""

from ..declaring.errors import Problems, problem
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.counts import MOST_MEAN
from .batch_worths import batch_worths
from .bring_to_market import PACKED, PRODUCT
from .next.bench import FINE, Bench
from .next.search import Search

STEPS = 800
MOST_STEPS = 30000
MOST_GAIN = 1000000
MOST_AREA = 10000000000
LOWEST_WORTH = 1000000000000
WHY = ("does not pay", "takes too long", "too little cloth", "too little elastic", "others bring more")

BOOKING = [
    Field("name", "text", "The booking", example="Quay market, 5 December"),
    Field("minutes", "minutes", "Bench minutes since the one before, or from now", example=600),
]
DEMAND = [
    Field("mean", "number", "Pieces that are likely to be asked for", highest=MOST_MEAN, example=10),
    by_name(PACKED)["size"],
    Field("gain", "money", "What a piece sold there brings: price less fees and materials",
          lowest=-MOST_GAIN, highest=MOST_GAIN, example=380),
]  # fmt: skip
MADE = [
    PRODUCT,
    Field("stock", "count", "Pieces there are, at every place", highest=2000, example=6),
    Field("batch", "count", "Pieces in a batch", lowest=1, highest=200, example=12),
    Field("most", "count", "Batches at most", 5, lowest=1, highest=8),
    Field("minutes", "minutes", "Bench minutes of a batch", lowest=0.1, example=90),
    Field("colour", "text", "Thread colour it is sewn in", example="sea green"),
    Field("cloth", "text", "Cloth it is of", example="lawn"),
    Field("area", "number", "Cloth for a batch, in square millimetres", highest=MOST_AREA, example=640000),
    Field("elastic", "length", "Elastic for a batch", example=2800),
    Field("left", "money", "What a piece that stays unsold is worth, less than nothing if it costs",
          0, lowest=-MOST_GAIN, highest=MOST_GAIN),
    Field("demand", "list", "What is asked for, a row for each booking", fields=DEMAND, fewest=1, most=4),
]  # fmt: skip
COLOUR = [
    Field("name", "text", "Thread colour", example="sea green"),
    Field("minutes", "minutes", "To get ready for it, once for each booking", example=10),
]
CLOTH = [
    Field("name", "text", "Cloth", example="lawn"),
    Field("area", "number", "What there is of it, in square millimetres; left out: enough", None,
          highest=MOST_AREA, example=2000000),
]  # fmt: skip
INPUTS = [
    Field("bookings", "list", "The next bookings, in order", fields=BOOKING, fewest=1, most=4,
          group="The bookings"),
    Field("products", "list", "Products that may be made", fields=MADE, fewest=1, most=40,
          group="What may be made"),
    Field("colours", "list", "Their thread colours", fields=COLOUR, most=40, group="What may be made"),
    Field("cloths", "list", "Their cloths", fields=CLOTH, most=40, group="What there is"),
    Field("elastic", "length", "Elastic there is; left out: enough", None, highest=10000000,
          group="What there is"),
    Field("wage", "money", "Your wage an hour", 0, highest=MOST_GAIN, group="What there is"),
    Field("steps", "count", "How long to look for a better plan", STEPS, highest=MOST_STEPS,
          group="The search"),
]  # fmt: skip

ROW = [
    Field("booking", "text", "Ready for this booking"),
    Field("colour", "text", "Thread colour"),
    PRODUCT,
    Field("batches", "count", "Batches of it"),
    Field("minutes", "minutes", "Bench minutes of them, without getting ready", highest=None),
    Field("worth", "number", "What they bring after wage, in minor units"),
]
BENCH = [
    Field("booking", "text", "The booking"),
    Field("minutes", "minutes", "Bench minutes until then", highest=None),
    Field("sewing", "minutes", "Sewing for it", highest=None),
    Field("changes", "minutes", "Getting ready for its colours", highest=None),
]
NOT_MADE = [
    PRODUCT,
    Field("why", "choice", "Why none is made", choices=WHY),
]
WORTHS = [
    PRODUCT,
    Field("worths", "list", "Of the first batch, the second, and so on",
          item=Field("worth", "number", "Worth", lowest=-LOWEST_WORTH, close=True), most=8),
]  # fmt: skip
OUTPUTS = [
    Field("plan", "list", "What to make, by booking, colour and product", fields=ROW, most=160),
    Field("worth", "number", "What the plan brings after wage, in minor units"),
    Field("bound", "number", "No plan brings more"),
    Field("gap", "percent", "What a better plan could bring more at most",
          formula="100 × ({bound} − {worth}) ÷ {worth}", highest=None),
    Field("optimal", "flag", "Proven: no plan brings more than this one"),
    Field("hour_worth", "number", "What one more hour at the bench now would bring, about"),
    Field("not_made", "list", "Products of which none is made", fields=NOT_MADE, most=40),
    Field("bench", "list", "How the bench minutes are used", fields=BENCH, most=4),
    Field("batch_worths", "list", "What each batch brings after wage, ready for the first booking",
          fields=WORTHS, most=40),
]  # fmt: skip


class NextSearch:
    """What is asked, what each batch is worth, and the search."""

    def __init__(self, given):
        self.given = given
        self.worths = [batch_worths(row, given["wage"]) for row in given["products"]]
        self.search = Search(Bench(given, self.worths))


def start(given):
    """Begin to look for what to sew next; see `work` for what is found.

    Returns: a state for `advance` and `best`, which holds a first plan.
    Raises: Problems on names that are there twice or are not there, on rows of demand that do not fit the
    bookings, and on demand above what can be worked out.
    """
    problems = _twice(given) + _unknown(given) + _bad_demand(given)
    if problems:
        raise Problems(problems)
    return NextSearch(given)


NAMED = (("bookings", "name"), ("products", "product"), ("colours", "name"), ("cloths", "name"))


def _twice(given):
    problems = []
    for rows, key in NAMED:
        names = [row[key] for row in given[rows]]
        problems += [
            problem(rows + "." + str(index) + "." + key, "named_twice", name)
            for index, name in enumerate(names)
            if name in names[:index]
        ]
    return problems


def _unknown(given):
    problems = []
    for rows, key, rule in (("colours", "colour", "colour_unknown"), ("cloths", "cloth", "cloth_unknown")):
        names = [row["name"] for row in given[rows]]
        problems += [
            problem("products." + str(index) + "." + key, rule, row[key])
            for index, row in enumerate(given["products"])
            if row[key] not in names
        ]
    return problems


def _bad_demand(given):
    problems = []
    for index, row in enumerate(given["products"]):
        field, total = "products." + str(index) + ".demand", 0.0
        for demand in row["demand"]:
            total += demand["mean"]
        if len(row["demand"]) != len(given["bookings"]):
            problems.append(
                problem(field, "demand_each", len(row["demand"]), len(given["bookings"]), "count")
            )
        elif total > MOST_MEAN:
            problems.append(problem(field, "demand_too_large", total, MOST_MEAN, "number"))
    return problems


def advance(state, steps):
    """Work on for so many steps; returns whether the plan is proven."""
    for _ in range(steps):
        if state.search.done:
            break
        state.search.step()
    return state.search.done


def best(state):
    """Tell the best plan found so far, with a bound that holds: (result, notes)."""
    search, bench = state.search, state.search.bench
    rows, used = _rows(state)
    worth, bound = search.found.worth, search.bound_now()
    return {
        "plan": rows,
        "worth": worth / bench.parts,
        "bound": bound / bench.parts,
        "gap": 100 * (bound - worth) / worth if bound > worth else 0.0,
        "optimal": bound == worth,
        "hour_worth": search.hour() / bench.parts,
        "not_made": _not_made(state, rows),
        "bench": used,
        "batch_worths": [
            {"product": row["product"], "worths": [worth[0] for worth in worths]}
            for row, worths in zip(state.given["products"], state.worths)
        ],
    }, []


def _rows(state):
    # the plan by booking, colour and product, and the minutes of each booking
    given, bench = state.given, state.search.bench
    made = state.search.found.batches()
    told, used = [], []
    for booking, ready in enumerate(given["bookings"]):
        sewing = changes = 0.0
        for colour, products in enumerate(bench.of_colour):
            before = len(told)
            for product in products:
                batches = [one for one, at in made if at == booking and bench.products[one] == product]
                if batches:
                    told.append(_row(state, booking, product, batches))
                    sewing += bench.minutes[product] * len(batches)
            if len(told) > before:
                changes += bench.changes[colour]
        used.append({
            "booking": ready["name"],
            "minutes": bench.until[booking] / FINE,
            "sewing": sewing / FINE,
            "changes": changes / FINE,
        })  # fmt: skip
    return told, used


def _row(state, booking, product, batches):
    bench, worth = state.search.bench, 0.0
    for one in batches:
        worth += bench.worths[one][booking]
    row = state.given["products"][product]
    return {
        "booking": state.given["bookings"][booking]["name"],
        "colour": row["colour"],
        "product": row["product"],
        "batches": len(batches),
        "minutes": bench.minutes[product] * len(batches) / FINE,
        "worth": worth / bench.parts,
    }


def _not_made(state, rows):
    made = [row["product"] for row in rows]
    return [
        {"product": row["product"], "why": _why(state, product)}
        for product, row in enumerate(state.given["products"])
        if row["product"] not in made
    ]


def _why(state, product):
    bench, root = state.search.bench, state.search.root
    paying = {}
    for batch in bench.of_product[product]:
        for booking, worth in enumerate(bench.worths[batch]):
            if worth > 0:
                paying[booking] = True
    if not paying:
        return "does not pay"
    if not [
        booking
        for booking in range(bench.bookings)
        if booking in paying and root.takes(product, booking) <= root.room()[booking]
    ]:
        return "takes too long"
    if root.has_stuff(product):
        return "others bring more"
    row = state.given["products"][product]
    elastic = state.given["elastic"]
    return "too little elastic" if elastic is not None and row["elastic"] > elastic else "too little cloth"


def work(given):
    """Find what to sew before the next bookings, so that the bench brings most.

    The q-th piece of a product is for the q-th customer (see `batch_worths`). Of all batches, each ready
    for a booking or not made, the worths are added up; minutes and changes of colour that are due up to a
    booking fit the bench minutes up to it, and cloth and elastic what there is. Worths are told apart by
    ten-thousandths of a minor unit, minutes and materials by thousandths. A plan is there at once; prices
    on minutes, batches and materials bound what any plan can bring, and the search goes depth first under
    that bound. Each set of prices, exchange or branch is a step.
    Returns: plan, worth, bound, gap, optimal, hour_worth, not_made, bench, batch_worths.
    Raises: Problems on names that are there twice or are not there, and on demand that does not fit.
    Source: Fisher, The Lagrangian relaxation method for solving integer programming problems, Management
    Science 27 (1981) 1–18; Polyak, USSR Computational Mathematics 9 (1969) 14–29.
    """
    state = start(given)
    advance(state, given["steps"])
    return best(state)


CALCULATOR = Calculator(
    "make-next",
    "What to sew next",
    "The batches to sew before the next bookings that bring most for the hours at the bench, and the proof.",
    INPUTS,
    OUTPUTS,
    work,
    main=("worth", "bound"),
    by_steps=(start, advance, best),
)
