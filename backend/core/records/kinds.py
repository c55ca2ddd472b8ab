"""What a kind of record is, and the fields that several kinds share."""

from ..declaring.errors import problem
from ..declaring.spec import NEEDED, Field

# the largest amount of one record: a lot of money in any currency
MOST_MONEY = 1000000000
MOST_PIECES = 100000
MOST_LINES = 60
ROLES = ("owner", "helper")
# what a helper may do with a kind that is for owners alone: not even know of it
NOTHING = "none"


# the kind of fact by which owners leave out another one, whatever that is, and how it names it
LEFT_OUT = "left-out"
# by which they say that what was to be looked at is right
FOUND_RIGHT = "found-right"
ANY_FACT = "fact"
# how a fact is part of a count of goods
OF_GOODS = ("goods", "close")


class Only:
    """Where a choice of the fact decides whether something moves: only for these of its choices."""

    def __init__(self, name, *choices):
        self.name = name
        self.choices = choices


class Moves:
    """Goods that a fact moves at its time: pieces that leave a place, come to one, or both.

    Takes: goods, the list whose rows name goods and `quantity`, None where the
    fact itself does; out_of and into, the fields that name the places; only, an
    Only; worth, the field of a row that says what it came to in money; pieces,
    the field that says how many move.
    """

    def __init__(self, goods=None, out_of=None, into=None, only=None, worth=None, pieces="quantity"):
        self.goods = goods
        self.out_of = out_of
        self.into = into
        self.only = only
        self.worth = worth
        self.pieces = pieces


class Cash:
    """The `amount` of a fact, put into its `box` or taken out of it.

    Takes: part, what it is of the cash-up, one of CASH_PARTS; only, an Only.
    """

    def __init__(self, part, only=None):
        self.part = part
        self.only = only


class Kind:
    """One kind of record: its fields, who may write and see them, and what it does.

    Takes: fact, true where it is appended and never edited; helper, what the
    role helper may do: `write`, `make` (new ones, without editing), `read`, or
    NOTHING, where every field is for owners alone; owner_only, names of fields
    a helper neither sees nor writes; also, a
    function of the checked fields of a new record that returns further
    problems, beside what holds wherever goods are named: a product or a size
    alone, of what may have a `name` of its own perhaps neither; named_after, its
    links to those that it is called after where it has no name, nameless, what it
    is called where they have none either. Of a fact also:
    moves, its Moves; cash, its Cash; takings, `taken` or `given_back` where its
    `amount` is of the takings, under its `payment`; voids, the link to the fact
    that never happened; counts, `goods` or `cash` where it says what somebody
    counted, `close` where it ends a count of goods; claims, `made` or `minutes`
    where it may say more of them than there can have been.
    """

    def __init__(self, name, fact, help, fields, helper="read", owner_only=(), also=None,
                 moves=(), cash=(), takings=None, voids=None, counts=None, claims=None,
                 named_after=(), nameless=""):  # fmt: skip
        self.name = name
        self.fact = fact
        self.help = help
        self.fields = fields
        self.helper = helper
        self.owner_only = owner_only
        self.goods = _naming_goods(fields)
        self.also = _beside_goods(self.goods, also) if self.goods else also
        self.moves = moves
        self.cash = cash
        self.takings = takings
        self.voids = voids
        self.counts = counts
        self.claims = claims
        self.named_after = named_after
        self.nameless = nameless

    def describe(self):
        """Return the declaration as plain data for JSON."""
        told = {
            "name": self.name,
            "fact": self.fact,
            "help": self.help,
            "fields": [field.describe() for field in self.fields],
            "helper": self.helper,
            "naming": self.describe_naming(),
            "hidden": {role: list(self.hidden_from(role)) for role in ROLES},
        }
        if self.fact:
            told.update({"stock_at": self.stock_at(), "counts": self.counts, "voids": self.voids})
            told.update({"takings": self.takings, "leaving": self.leaving(), "watched": self.is_watched()})
            told["claims"] = self.claims
            told["cash"] = len(self.cash) > 0
        return told

    def completed(self, fields, role="owner"):
        """Fill in what is not said of a record: its declared defaults, None where it is needed.

        Of what a role is not shown nothing is said at all.
        """
        hidden, whole = self.hidden_from(role), dict(fields)
        for field in self.fields:
            if whole.get(field.name) is None and field.name not in hidden:
                whole[field.name] = None if field.default == NEEDED else field.default
        return whole

    def describe_naming(self):
        """Tell how it is called without a name: after which links, joined by what, and otherwise what."""
        after = [{"field": name, "kind": self.field(name).links} for name in self.named_after]
        return {"after": after, "joiner": " ", "otherwise": self.nameless}

    def field(self, name):
        """Find a field by its name."""
        return [field for field in self.fields if field.name == name][0]

    def is_watched(self):
        """Say whether owners look at it where a helper made it.

        Money given back, another fact undone, or more claimed than there can have been.
        """
        takes_back = self.takings == "given_back" or self.voids is not None
        return self.fact and self.helper == "write" and (takes_back or self.claims is not None)

    def stock_at(self):
        """Name the fields that say where goods are moved, or counted."""
        names = ["place"] if self.counts in OF_GOODS else []
        for part in self.moves:
            names += [name for name in (part.out_of, part.into) if name and name not in names]
        return names

    def leaving(self):
        """Name the fields that say which goods leave: lists of them, or how many."""
        return [part.goods or part.pieces for part in self.moves if part.out_of]

    def hidden_from(self, role):
        """Name the fields that a role is not shown."""
        if role == "owner":
            return ()
        return self.owner_only if self.is_known_to(role) else tuple([field.name for field in self.fields])

    def is_known_to(self, role):
        """Say whether a role may know that there are records of the kind."""
        return role == "owner" or self.helper != NOTHING


def _naming_goods(fields):
    # [(list or None for the fact itself, whether its goods must be named)]
    found = [(None, names_goods(fields))] + [(field.name, names_goods(field.fields)) for field in fields]
    return [(name, must) for name, must in found if must is not None]


def names_goods(fields):
    """Say whether fields must name goods; false where a free name will do, None where they name none.

    Where a cloth stands beside them, strips are named, whatever product they are for.
    """
    names = [field.name for field in fields or ()]
    if "product" in names and "size" in names and "cloth" not in names:
        return "name" not in names
    return None


def _beside_goods(lists, also):
    def check(fields):
        problems = []
        for name, must in lists:
            if name is None:
                problems += _goods_problems("", fields, must)
            else:
                for index, row in enumerate(fields[name]):
                    if not is_one_thing(row, must):
                        problems += _goods_problems(name + "." + str(index) + ".", row, must)
        return problems + (also(fields) if also else [])

    return check


def is_one_thing(row, must):
    """Say whether a row names a product or a size alone, or neither where it need not."""
    product, size = row.get("product"), row.get("size")
    if product is None:
        return size is not None or not must
    return size is None


def _goods_problems(path, row, must):
    if is_one_thing(row, must):
        return []
    return [problem(path + ("product" if row["product"] is None else "size"), "product_or_size")]


# the kind a link leads to, where it is not called by it
LINKED = {"size": "piece", "box": "cash-box", "from": "place", "to": "place",
          "set_aside": "set-aside", "asked_for": "asked-for", "needle": "thread", "bobbin": "thread",
          "result": "batch-result", "batch_step": "batch-step", "line": "list-line"}  # fmt: skip


def link(name, help, default=None):
    """Declare the id of another record; that it exists is not asked."""
    return Field(name, "id", help, default, links=LINKED.get(name, name))


def quantity(help, lowest=1):
    """Declare a number of pieces."""
    return Field("quantity", "count", help, lowest=lowest, highest=MOST_PIECES)


def money(name, help, **more):
    """Declare an amount in minor units."""
    return Field(name, "money", help, highest=MOST_MONEY, **more)


def words(name, help, most=200):
    """Declare text that may be left empty."""
    return Field(name, "text", help, "", most=most)


# what goods are called: a product, or a size whose cloth nobody named
GOODS = [
    link("product", "The product: a size in one cloth"),
    link("size", "The size alone, where the cloth was not said"),
]
ARCHIVED = Field("archived", "flag", "Archived: no longer offered", False)
# facts carry the day as it was at the stall, wherever they are read
DAY = Field("day", "day", "The day it happened")
PAYMENTS = ("cash", "card", "other", "none")
GOODS_END = ("table", "spoilt")
SET_ASIDE = ("spoilt", "given", "lost", "found")
CASH_MOMENTS = ("float", "cash-up")
DIRECTIONS = ("paid in", "taken out")
# what a step of a method is done for, each time anew
STEPS_PER = ("piece", "batch", "colour", "thread")
WORK = ("sewing", "cutting", "pressing", "packing", "travel", "other")
VERDICTS = ("accept", "reject")
# what a cash-up asks beside its float, and which way the money goes
CASH_PARTS = {"cash_sales": 1, "cash_refunds": -1, "paid_in": 1, "taken_out": -1}
