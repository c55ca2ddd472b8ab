"""A year for whoever does the books, as CSV (RFC 4180): takings, purchases, expenses, what stock is worth."""

from ..declaring.errors import refuse
from ..numbers.money import show_money
from ..numbers.numerals import decimal
from ..numbers.ordering import in_order
from ..numbers.rounding import half_up
from ..records.checking import kind_named
from ..records.naming import name_of
from .ledger import Ledger
from .spreadsheet import csv_line, guarded
from .year_told import FIGURES, year_told

FILES = ("figures", "takings", "purchases", "expenses", "stock")
MATERIALS = ("cloth", "elastic", "thread", "supply")


def year_file(file, facts, records, sums, costs, year, day, stock, at, currency):
    """Write one of FILES for a calendar year, money in the currency's units.

    Takes: facts, records, sums, costs, year and day as `year_told` does, records also of what was bought
    and of what products are; stock, what there was at the end of the year or is now, [{"place",
    "product", "size", "quantity"}], for the file of it; at, that time, UTC ms.
    Returns: the text, a line of names first.
    Raises: Problems on a file or a year that is none.
    """
    if file not in FILES:
        refuse("file", "choice", file, ", ".join(FILES), "choice")
    told = year_told(facts, records, sums, costs, year, day)
    ledger = Ledger(facts, records, sums, costs)
    rows = {
        "figures": lambda: _figures(told, currency),
        "takings": lambda: _takings(ledger, sums, year, currency),
        "purchases": lambda: _purchases(ledger, year, currency),
        "expenses": lambda: _expenses(ledger, year, currency),
        "stock": lambda: _stock(ledger, stock or [], at, currency),
    }[file]()
    return csv_line(rows[0] + ["currency"]) + "".join([csv_line(row + [currency]) for row in rows[1:]])


def stock_value(stock, each):
    """Value a row of stock at what its pieces cost: minor units, 0 for what is below nothing.

    Example: stock_value(3, 33.5) == 101
    """
    return half_up(max(0, stock) * each)


def _figures(told, currency):
    lines = [["part", "what"] + list(FIGURES)]
    rows = [("month", month["month"], month) for month in told["months"]]
    rows += [("market", market["name"] or "no market", market) for market in told["markets"]]
    for part, what, row in rows + [("year", told["year"], told["total"])]:
        lines.append([part, guarded(what)] + [show_money(row[name], currency) for name in FIGURES])
    return lines


def _takings(ledger, sums, year, currency):
    lines = [["day", "market", "sales", "pieces", "taken", "by_card", "given_back", "takings", "without_tax"]]
    for row, day in zip(sums, ledger.days):
        if row["day"][:4] == year:
            money = (row["taken"], row["card"], row["given_back"], row["taken"] - row["given_back"],
                     day["takings"] - day["refunds"])  # fmt: skip
            told = [row["day"], guarded(ledger.market_of(row["booking"])[1])]
            told += [decimal(row[name], 0) for name in ("sales", "pieces")]
            lines.append(told + [show_money(amount, currency) for amount in money])
    return lines


def _purchases(ledger, year, currency):
    lines = [["day", "material", "what", "length_mm", "quantity", "paid", "tax", "without_tax", "market"]]
    for fact in ledger.recorded.of("purchase"):
        if fact["day"][:4] == year:
            kind = [name for name in MATERIALS if fact[name]][0]
            record = ledger.recorded.record(kind, fact[kind])
            told = [fact["day"], kind, guarded(record["name"] if record else "")]
            told.append("" if fact["length"] is None else decimal(fact["length"], 0))
            told.append("" if fact["quantity"] is None else decimal(fact["quantity"], 0))
            money = (fact["amount"], fact["tax"], fact["amount"] - fact["tax"])
            told += [show_money(amount, currency) for amount in money]
            lines.append(told + [guarded(ledger.market_of(fact["booking"])[1])])
    return lines


def _expenses(ledger, year, currency):
    lines = [["day", "what", "market", "paid"]]
    for fact in ledger.recorded.of("expense"):
        if fact["day"][:4] == year:
            market = ledger.market_of(fact["booking"])[1]
            lines.append([fact["day"], guarded(fact["what"]), guarded(market)])
            lines[-1].append(show_money(fact["amount"], currency))
    return lines


def _stock(ledger, stock, at, currency):
    lines = [["place", "product", "pieces", "cost_each", "value"]]
    named = []
    for row in stock:
        place = ledger.recorded.record("place", row["place"])
        name = _goods_name(ledger.recorded, row["product"], row["size"])
        named.append((place["name"] if place else "", name, row["product"] or row["size"] or "", row))
    for place, name, _, row in in_order(named, lambda told: told[:3]):
        each = ledger.cost_each(row["product"], row["size"], at)
        told = [guarded(place), guarded(name), decimal(row["quantity"], 0)]
        if each is None:
            told += ["", ""]
        else:
            told.append(show_money(each, currency, 2))
            told.append(show_money(stock_value(row["quantity"], each), currency))
        lines.append(told)
    return lines


def _goods_name(recorded, product, size):
    record = recorded.record("product", product) if product else {"name": "", "size": size, "cloth": None}
    return name_of(kind_named("product"), record, recorded.record) if record else ""
