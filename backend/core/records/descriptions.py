"""The kinds of description: what things are, edited field by field."""

from ..buying.fabric_per_dozen import INPUTS as FABRIC_FIELDS
from ..buying.fabric_per_dozen import MOST_COST
from ..declaring.spec import NEEDED, Field, by_name
from ..numbers.calendar import WEEKDAYS
from ..numbers.money import EXPONENTS
from ..numbers.rounding import floor
from ..sizing.elastic_cut_length import INPUTS as ELASTIC_FIELDS
from ..sizing.strip_length import INPUTS as STRIP_FIELDS
from .descriptions_of_markets import DESCRIPTIONS_OF_MARKETS
from .kinds import ARCHIVED, NOTHING, STEPS_PER, Kind, link, money, quantity, words
from .offers import gives_something


def _same(fields, names):
    # the calculator's own declaration: one source for limits and help
    known = by_name(fields)
    return [known[name] for name in names]


def _when_known(fields, names):
    # what is sold already may be measured later; a plan asks for it
    known = by_name(fields)
    return [
        Field(name, known[name].quantity, known[name].help, None, lowest=known[name].lowest,
              highest=known[name].highest, unit=known[name].unit, example=known[name].example,
              group=known[name].group) if name in CLOTH_MEASURES else known[name]
        for name in names
    ]  # fmt: skip


def _name(help, most=60, example=None):
    return Field("name", "text", help, most=most, example=example)


STRIP_NAMES = ("loop", "fullness", "tube_width", "end_seam", "side_seam")
CLOTH_NAMES = ("bolt_width", "selvedge", "shrink_length", "shrink_width", "squaring", "mixed",
               "repeat", "shop_increment", "minimum_cut")  # fmt: skip
# what a bolt must have been measured for before it is cut
CLOTH_MEASURES = tuple([name for name in CLOTH_NAMES if by_name(FABRIC_FIELDS)[name].default == NEEDED])
ELASTIC_NAMES = ("elastic_width", "elastic_thickness", "tail", "strands", "pull", "knot_takeup")

GROUP = Field("group", "text", "Products that an offer may mix", most=60, example="Everyday")
DENOMINATION = [money("value", "Value of the note or coin", lowest=1)]
PRICE_POINT = [money("price", "A price you would put on a card", lowest=1)]
STEP = [
    _name("What is done, in the order of the work", 60, "Sew the tube"),
    Field("per", "choice", "What it is done for, each time anew", "piece", choices=STEPS_PER),
    words("machine", "The machine it needs, where there are fewer of it than people", 40),
    Field("allowance", "percent", "Time on top for breaks, threads and small delays", 15),
]
# strips that wait, and what they are to be
SEWN = [
    link("size", "The size of the strips", NEEDED),
    link("cloth", "The cloth of the strips", NEEDED),
    link("product", "The product they become"),
    quantity("Pieces to sew"),
]
BATCH_STATES = ("open", "finished")
# as many as a plan of the work is made for
MOST_PEOPLE = 3
SUPPLY_USES = ("packaging", "needle", "blade", "other")

BENCH_NAMES = ("bench_monday", "bench_tuesday", "bench_wednesday", "bench_thursday", "bench_friday",
               "bench_saturday", "bench_sunday")  # fmt: skip
# how long she can sew on a day of the week; None where she has not said
BENCH = [
    Field(name, "minutes", "How long you can sew then", None, label="sewing, " + day + "s", highest=1440)
    for name, day in zip(BENCH_NAMES, WEEKDAYS)
]  # fmt: skip

DESCRIPTIONS = [
    Kind("business", False, "The business", [
        _name("What the business is called", example="Tern & Tansy"),
        Field("currency", "choice", "What it sells in", choices=tuple(sorted(EXPONENTS))),
        Field("cash_rounding", "count", "Smallest coin in use, in minor units", 1, lowest=1, highest=1000),
        Field("denominations", "list", "Notes and coins in use", [], fields=DENOMINATION, most=40),
        Field("card_fee", "percent", "Share of card takings that the card costs", 0),
        Field("tax_percent", "percent", "Tax on what it sells, as a share of the net price", 0,
              label="tax on sales"),
        Field("points", "list", "Prices you would ask: what a piece costs is compared with each", [],
              fields=PRICE_POINT, most=20, label="price points"),
        money("per_km", "What a kilometre of the way to a market costs", default=0,
              label="cost of a kilometre"),
        words("address", "Where you can be written to, as on labels"),
    ] + BENCH, owner_only=("card_fee", "tax_percent", "points", "per_km")),
    Kind("piece", False, "A size she makes", [
        _name("What you call this size", example="Everyday"),
    ] + _same(STRIP_FIELDS, STRIP_NAMES) + [
        link("elastic", "The elastic in it, where you have several"),
        ARCHIVED,
    ]),
    Kind("cloth", False, "A cloth as bought", [
        _name("What you call this cloth", example="Seagrass lawn"),
    ] + _when_known(FABRIC_FIELDS, CLOTH_NAMES + ("price", "price_length")) + [
        Field("tear", "flag", "Tears well along the grain", False),
        ARCHIVED,
    ], owner_only=("price", "price_length")),
    Kind("remnant", False, "A piece of cloth she has, as it can be cut now", [
        _name("What you call this remnant", example="Lawn, from the blue basket"),
        link("cloth", "The cloth it is of", NEEDED),
        Field("width", "length", "Width between the edges, washed and trimmed",
              lowest=10, highest=10000, unit="cm", example=900, rounded=floor),
        Field("length", "length", "Length, washed and its ends square",
              lowest=10, highest=100000, unit="cm", example=700, rounded=floor),
        Field("use_first", "flag", "Use it up before other remnants", False),
        ARCHIVED,
    ], helper="write"),
    Kind("elastic", False, "An elastic as bought, and what of it is at home", [
        _name("What you call this elastic", example="Braided, 6 mm"),
    ] + _same(ELASTIC_FIELDS, ELASTIC_NAMES) + [
        Field("roll_length", "length", "Elastic on a roll as bought",
              lowest=100, highest=1000000, unit="m", example=50000, rounded=floor),
        money("price", "Price of a roll", default=None),
        Field("rolls", "count", "Whole rolls at home", 0, label="whole rolls", highest=1000),
        Field("opened", "length", "Left on the opened roll", 0,
              label="opened roll", highest=1000000, unit="m", rounded=floor),
        ARCHIVED,
    ], helper="write", owner_only=("price",)),
    Kind("thread", False, "A thread as bought, and what of it is at home", [
        _name("What you call this thread: its colour, its number", example="Rust 214"),
        Field("length", "length", "Thread on a full spool as bought",
              lowest=1000, highest=100000000, unit="m", example=1000000, rounded=floor),
        money("price", "Price of a spool", default=None),
        Field("spools", "count", "Whole spools at home", 0, label="whole spools", highest=1000),
        Field("opened", "length", "Left on the opened spool, where it is known", 0,
              label="opened spool", highest=100000000, unit="m", rounded=floor),
        Field("grams", "number", "Weight of the opened spool, in grams, where it is weighed instead", None,
              label="opened spool, grams", highest=10000),
        Field("empty", "number", "Weight of an empty spool, in grams", None,
              label="empty spool, grams", highest=10000),
        Field("tex", "number", "Weight of a kilometre of it, in grams: a spool's label says it as tex", None,
              lowest=1, highest=1000),
        ARCHIVED,
    ], helper="write", owner_only=("price",)),
    Kind("supply", False, "What is used up beside cloth, elastic and thread", [
        _name("What you call it", example="Paper bags, small"),
        Field("use", "choice", "What it is", "other", choices=SUPPLY_USES),
        money("price", "Price of a pack", default=None),
        Field("lasts", "count", "Pieces that one pack is for", None, label="lasts for", lowest=1),
        Field("at_home", "count", "Packs at home", 0, label="packs at home", highest=1000),
        ARCHIVED,
    ], helper="write", owner_only=("price",)),
    Kind("method", False, "A way to sew a piece, step by step", [
        _name("What you call this way of sewing", example="Tube, then elastic"),
        Field("steps", "list", "Its steps, in the order of the work", fields=STEP, most=20, fewest=1),
        ARCHIVED,
    ]),
    Kind("batch", False, "Strips sewn together, and how", [
        Field("number", "text", "Its number, as on its sheet and its labels", most=20, example="126"),
        link("method", "How it is sewn"),
        link("needle", "The thread in the needle"),
        link("bobbin", "The thread in the bobbin"),
        Field("people", "count", "People at it", 1, lowest=1, highest=MOST_PEOPLE),
        Field("lines", "list", "What is sewn, by size and cloth", fields=SEWN, most=60, fewest=1),
        Field("needed", "day", "The day it is needed by", None, label="needed by"),
        Field("state", "choice", "Whether it is still worked on", "open", choices=BATCH_STATES),
        ARCHIVED,
    ], helper="write"),
    Kind("overhead", False, "What it costs to be in business, whatever is sewn", [
        _name("What is paid for", example="Insurance"),
        money("amount", "How much each time"),
        Field("per", "choice", "How often it is paid", "month", choices=("month", "year")),
        Field("from", "day", "First day of it; none for always", None),
        Field("to", "day", "Last day of it; none while it goes on", None),
        ARCHIVED,
    ], helper=NOTHING),
    Kind("list-line", False, "A line of the shopping list", [
        _name("What to buy", 80, "Seagrass lawn"),
        Field("for_what", "text", "What it is for", "", most=80),
        Field("quantity", "count", "Pieces it is for", None, lowest=1),
        Field("length_to_buy", "length", "Length to ask for", None, highest=10000000000, unit="cm"),
        Field("cost", "money", "What it should cost", None, highest=MOST_COST),
        Field("bought", "flag", "In the bag", False),
        link("cloth", "The saved cloth that it is"),
        link("size", "The saved size that it is for, where it is for one alone"),
        link("elastic", "The saved elastic that it is"),
        link("thread", "The saved thread that it is"),
        link("supply", "The saved supply that it is"),
        Field("packs", "count", "Rolls, spools or packs of it", None, lowest=1, highest=1000),
        ARCHIVED,
    ], owner_only=("cost",)),
    Kind("product", False, "One size in one cloth, as it is sold", [
        words("name", "What you call it, where size and cloth do not say it", 60),
        link("size", "Its size", NEEDED),
        link("cloth", "Its cloth"),
        money("price", "Price of one"),
        GROUP,
        Field("active", "flag", "Offered on the stall", True),
        ARCHIVED,
    ], named_after=("size", "cloth"), nameless="Product"),
    Kind("place", False, "Where stock is", [
        _name("What you call this place", example="Home shelf"),
        Field("use", "choice", "What it is", "other", choices=("home", "car", "stall", "shop", "other")),
        ARCHIVED,
    ]),
] + DESCRIPTIONS_OF_MARKETS + [
    Kind("cash-box", False, "A box for money", [
        _name("What you call this box", example="Green tin"),
        money("usual_float", "Change money it usually starts with", default=0),
        ARCHIVED,
    ]),
    Kind("offer", False, "A price for several, or a share off", [
        _name("What the offer says", example="Three Everyday for 15"),
        Field("groups", "list", "Groups of products it may mix", item=GROUP, most=20, fewest=1),
        Field("n", "count", "Pieces it takes", None, label="pieces", lowest=2, highest=200),
        money("price", "Price of that many", default=None),
        Field("percent", "percent", "Share off each piece, instead of a price", None, label="share off"),
        Field("active", "flag", "Offered on the stall", True),
        ARCHIVED,
    ], also=gives_something),
    Kind("person", False, "Somebody who sells, counts or signs", [
        _name("Their name", example="Imke"),
        ARCHIVED,
    ]),
    Kind("device-name", False, "What a phone is called", [
        _name("Its name", example="Joss's phone"),
    ]),
]  # fmt: skip
