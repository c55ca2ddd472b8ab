"""What became of each product on a day: sold, back, set aside, asked for, left."""

from ..numbers.ordering import in_order
from ..records.reader import READERS, rows_of

# what money is called beside the goods it was for
MONEY = {"taken": "amount", "given_back": "given_back"}
NOTHING = ("pieces", "amount", "back", "given_back", "set_aside", "asked")


class Goods:
    """A row for each product, size alone or free name; money that no row holds is `rounded`."""

    def __init__(self):
        self.rows = {}
        self.rounded = 0

    def add(self, fact):
        """Take in one fact; what is about no goods passes by."""
        kind = fact["kind"]
        way = READERS[kind].takings
        if way:
            sign = 1 if way == "taken" else -1
            self.rounded += sign * fact["amount"]
            for part, _ in READERS[kind].moves:
                for row in rows_of(part.goods, fact):
                    worth = row[part.worth] if part.worth else 0
                    self.rounded -= sign * worth
                    self._add(row, "pieces" if part.out_of else "back", row["quantity"], worth, MONEY[way])
        elif kind == "set-aside":
            found = fact["reason"] == "found"
            self._add(fact, "set_aside", -fact["quantity"] if found else fact["quantity"])
        elif kind == "asked-for":
            self._add(fact, "asked", 1)

    def _add(self, goods, count, pieces, money=0, amount="amount"):
        row = self._row(goods)
        row[count] += pieces
        row[amount] += money

    def _row(self, goods):
        product, size = goods.get("product"), goods.get("size")
        name = "" if product is not None or size is not None else goods.get("name") or ""
        key = (product or "", size or "", name)
        if key not in self.rows:
            row = {name: 0 for name in NOTHING}
            row.update({"product": product, "size": size, "name": name, "left": None})
            self.rows[key] = row
        return self.rows[key]

    def listed(self, stock):
        """List the rows, most pieces first; of the same, most money, then by their ids.

        Takes: stock, what is left, [{"product", "size", "quantity"}]; None where it is not told.
        """
        for row in stock or []:
            if row["quantity"] or (row["product"] or "", row["size"] or "", "") in self.rows:
                goods = self._row(row)
                goods["left"] = (goods["left"] or 0) + row["quantity"]
        return in_order([self.rows[key] for key in self.rows], _most_sold_first)


def _most_sold_first(row):
    return (-row["pieces"], -row["amount"], row["product"] or "", row["size"] or "", row["name"])
