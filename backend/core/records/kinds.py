"""What a kind of record is, and the fields that several kinds share."""

from ..spec import Field

# the largest amount of one record: a lot of money in any currency
MOST_MONEY = 1000000000
MOST_PIECES = 100000
ROLES = ("owner", "helper")


class Kind:
    """One kind of record: its fields, and who may write and see them.

    Takes: fact, true where it is appended and never edited; helper, what the
    role helper may do: `write`, `make` (new ones, without editing) or `read`;
    owner_only, names of fields a helper neither sees nor writes; also, a
    function of the checked fields of a new record that returns further
    problems.
    """

    def __init__(self, name, fact, help, fields, helper="read", owner_only=(), also=None):
        self.name = name
        self.fact = fact
        self.help = help
        self.fields = fields
        self.helper = helper
        self.owner_only = owner_only
        self.also = also

    def describe(self):
        """Return the declaration as plain data for JSON."""
        return {
            "name": self.name,
            "fact": self.fact,
            "help": self.help,
            "fields": [field.describe() for field in self.fields],
            "helper": self.helper,
            "hidden": {role: list(self.hidden_from(role)) for role in ROLES},
        }

    def hidden_from(self, role):
        """Name the fields that a role is not shown."""
        return () if role == "owner" else self.owner_only


# the kind a link leads to, where it is not called by it
LINKED = {"size": "piece", "box": "cash-box", "from": "place", "to": "place"}


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
ARCHIVED = Field("archived", "flag", "Put away: no longer offered", False)
# facts carry the day as it was at the stall, wherever they are read
DAY = Field("day", "day", "Local date it happened on")
PAYMENTS = ("cash", "card", "other", "none")
GOODS_END = ("table", "spoilt")
SET_ASIDE = ("spoilt", "given", "lost", "found")
CASH_MOMENTS = ("float", "cash-up")
DIRECTIONS = ("paid in", "taken out")
