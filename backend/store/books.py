"""What bookings, markets and years came to: the tables' facts and records, worked out by the core."""

from ..core.costing.facts_read import FACTS_READ
from ..core.costing.goods_costs import goods_costs
from ..core.counting.held import fold_stock
from ..core.counting.stock_on_hand import list_stock
from ..core.records.reader import READERS
from ..core.records.uses import STOCK
from ..core.reviewing.day_sums import day_sums
from ..core.reviewing.markets_told import markets_told
from ..core.reviewing.year_files import year_file
from ..core.reviewing.year_told import year_told
from .records import every
from .takings import summed_facts, voids_of_takings

MADE_OF = ("piece", "cloth", "remnant", "elastic", "thread", "supply", "product", "batch")
SOLD_AT = ("business", "market", "booking", "overhead", "place")


class Books:
    """A business's records as results are made of them, read once."""

    def __init__(self, connection, business):
        self.connection, self.business = connection, business
        self.records = {kind: self._described(kind) for kind in MADE_OF + SOLD_AT}
        sums = day_sums(list(summed_facts(connection, business)), voids_of_takings(connection, business))
        costs = goods_costs(self._facts(FACTS_READ["goods_costs"]), self.records)["goods"]
        self.made_of = (self._facts(FACTS_READ["ledger"]), self.records, sums, costs)

    def _described(self, kind):
        return {row["id"]: row for row in every(self.connection, self.business, kind)}

    def _facts(self, kinds):
        return [
            {**fact, "kind": kind} for kind in kinds for fact in every(self.connection, self.business, kind)
        ]

    def markets(self, day):
        """Set the markets side by side, as `markets_told` does; day, today."""
        return markets_told(*self.made_of, day)

    def year(self, year, day):
        """Add up a calendar year, as `year_told` does."""
        return year_told(*self.made_of, year, day)

    def year_file(self, file, year, day, at):
        """Write a file of a year, as `year_file` does; at, when the stock is told of, UTC ms."""
        currencies = [self.records["business"][id]["currency"] for id in sorted(self.records["business"])]
        stock = self._stock(at) if file == "stock" else None
        return year_file(file, *self.made_of, year, day, stock, at, [*currencies, "EUR"][0] or "EUR")

    def _stock(self, at):
        moving = [kind for kind in READERS if READERS[kind].looks_for(STOCK)]
        return list_stock(fold_stock(self._facts(moving), at, None))
