"""The demo's year is the scenario's, by sums of our own over what its phones made."""

from collections import Counter, defaultdict
from datetime import date

import pytest

from backend.core.catalogue import answer
from backend.demo.fixtures import FOLDER
from backend.demo.year import evenings
from tests.phones import text_of

BUSINESS = "0190a000-0000-7000-8000-000000000001"


@pytest.fixture(scope="module")
def changes():
    return [change for _, _, made in evenings(BUSINESS) for change in made]


@pytest.fixture(scope="module")
def facts(changes):
    """Fields of facts by kind, sales that were voided left out; each with its id and time."""
    found = defaultdict(list)
    for change in changes:
        if "record" not in change:
            found[change["kind"]].append(change["fields"] | {"id": change["id"], "at": change["at"]})
    voided = {void["sale"] for void in found["void"]}
    found["sale"] = [sale for sale in found["sale"] if sale["id"] not in voided]
    return found


@pytest.fixture(scope="module")
def described(changes):
    found = defaultdict(lambda: defaultdict(dict))
    for change in changes:
        if "record" in change:
            found[change["kind"]][change["record"]].update(change["fields"])
    return found


def test_the_year_is_the_same_every_time(changes):
    again = [change for _, _, made in evenings(BUSINESS) for change in made]
    assert list(map(text_of, again)) == list(map(text_of, changes))


def test_no_id_is_there_twice_and_no_phone_sets_its_clock_back(changes):
    assert len({change["id"] for change in changes}) == len(changes)
    stamps = defaultdict(list)
    for change in changes:
        stamps[change["stamp"][-36:]].append(change["stamp"])
    assert len(stamps) == 2
    for one in stamps.values():
        assert one == sorted(set(one))


def test_a_year_has_three_markets_45_days_4000_sales_125_batches_and_a_count_a_week(facts, described):
    assert len(described["market"]) == 3
    days = [day for booking in described["booking"].values() for day in booking["days"]]
    assert len(days) == len(set(days)) == 45
    assert {sale["day"] for sale in facts["sale"]} == set(days)
    assert len(facts["sale"]) == 4000
    new = [row["reason"] for close in facts["count-close"] for row in close["reasons"]]
    assert sum(reason.count("batch ") for reason in new) == 125
    home, table = described["place"]
    assert Counter(close["place"] for close in facts["count-close"]) == {home: 52, table: 45}
    assert {"spoilt", "given"} <= {row["reason"] for row in facts["set-aside"]}


def test_a_sale_is_about_one_and_a_half_pieces(facts):
    pieces = sum(line["quantity"] for sale in facts["sale"] for line in sale["lines"])
    assert 1.45 < pieces / 4000 < 1.55


def test_the_markets_are_where_and_when_the_scenario_says(described):
    named = {market["name"]: (id, market) for id, market in described["market"].items()}
    quay, quay_terms = named["Sandholt Quay Saturday"]
    fair, fair_terms = named["Lantern Barn Winter Fair"]
    orchard, orchard_terms = named["Orchard Lane Makers' Morning"]
    days = {id: [row["days"] for row in described["booking"].values() if row["market"] == id]
            for id in described["market"]}  # fmt: skip
    assert {date.fromisoformat(day).weekday() for [day] in days[quay]} == {5}
    assert (quay_terms["pitch"], quay_terms["fee"]) == ("12", 2800)
    assert days[fair] == [["2025-12-13", "2025-12-14"]]
    assert (fair_terms["fee"], fair_terms["distance_km"]) == (14500, 61)
    assert [day[:7] for [day] in sorted(days[orchard])] == [f"2025-{month:02}" for month in range(1, 13)]
    assert (orchard_terms["fee"], orchard_terms["fee_percent"]) == (1500, 5)


def test_every_sale_is_charged_as_the_price_list_says(facts, described):
    size_of = {id: row["group"] for id, row in described["product"].items()}
    size_of |= {id: row["name"] for id, row in described["piece"].items()}
    for sale in facts["sale"]:
        if "returned" in sale:
            assert sale["amount"] == 0
            continue
        pieces, other = Counter(), 0
        for line in sale["lines"]:
            if "name" in line:
                other += line["total"]
            else:
                pieces[size_of[line.get("product") or line["size"]]] += line["quantity"]
        threes, rest = divmod(pieces["Everyday"], 3)
        due = threes * 1500 + rest * 600 + pieces["Petite"] * 450 + pieces["Grand"] * 900 + other
        assert sale["amount"] == due - sale.get("off", 0) == sum(line["total"] for line in sale["lines"])
        assert sum(use["times"] for use in sale.get("offers", ())) == threes
        assert sale.get("tendered", sale["amount"]) >= sale["amount"]


def test_each_box_holds_at_the_end_what_went_in_give_or_take_a_slip(facts):
    holds, ended, slips = Counter(), {}, 0
    for row in facts["cash-count"]:
        if row["moment"] == "float":
            assert row["amount"] == 4000
            holds[row["day"], row["box"]] += 4000
        else:
            ended[row["day"], row["box"]] = row
    for row in facts["sale"]:
        holds[row["day"], row.get("box")] += row["amount"] if row["payment"] == "cash" else 0
    for row in facts["refund"]:
        holds[row["day"], row["box"]] -= row["amount"] if row["payment"] == "cash" else 0
    for row in facts["cash-movement"]:
        holds[row["day"], row["box"]] += row["amount"] if row["direction"] == "paid in" else -row["amount"]
    assert len(ended) == 90
    for key, row in ended.items():
        differs = row["amount"] - holds[key]
        assert differs in ((-100, -50, 50, 200) if "reason" in row else (0,))
        slips += differs != 0
    assert 0 < slips < 20


@pytest.fixture(scope="module")
def walked(facts, described):
    """Walk through the year with sums of our own: (stock, how counts differ, sold as a size alone)."""
    stock, reasons, unknown, differed = Counter(), {}, Counter(), []
    for close in facts["count-close"]:
        reasons |= {(close["session"], row["product"]): row["reason"] for row in close["reasons"]}
    for kind, row in in_order_of_time(facts):
        if kind == "move":
            stock[row["from"], row["product"]] -= row["quantity"]
            stock[row["to"], row["product"]] += row["quantity"]
        elif kind == "set-aside":
            stock[row["place"], row["product"]] -= row["quantity"]
        elif kind in ("sale", "refund"):
            for sign, line in goods_of(kind, row):
                if "product" in line:
                    stock[row["place"], line["product"]] += sign * line["quantity"]
                elif "size" in line:
                    unknown[line["size"]] += sign * line["quantity"]
        elif kind == "count-line":
            key = row["place"], row["product"]
            reason = reasons.get((row["session"], row["product"]), "")
            stock[key] += 48 * reason.count("batch ") - reason.count("not found")
            if row["quantity"] != stock[key]:
                size = described["product"][row["product"]]["size"]
                differed.append((size, row["quantity"] - stock[key]))
            stock[key] = row["quantity"]
    return stock, differed, unknown


def in_order_of_time(facts):
    rows = [(row["at"], row["id"], kind, row) for kind in facts for row in facts[kind]]
    return [(kind, row) for _, _, kind, row in sorted(rows, key=lambda one: one[:2])]


def goods_of(kind, row):
    if kind == "sale":
        return [(-1, line) for line in row["lines"]] + [(1, line) for line in row.get("returned", ())]
    return [(1, line) for line in row["lines"]] if row["goods"] == "table" else []


def test_what_is_counted_is_what_was_there_but_for_what_was_sold_without_its_cloth(walked, described):
    _, differed, unknown = walked
    # the shelf began with four dozen of each
    assert differed[:15] == [(row["size"], 48) for row in described["product"].values()]
    missed = Counter()
    for size, differs in differed[15:]:
        missed[size] += differs
    assert missed == unknown and min(unknown.values()) < 0


def test_the_core_folds_the_year_to_the_same_stock(walked, changes):
    stock, _, _ = walked
    facts = [
        {**change["fields"], **{name: change[name] for name in ("kind", "id", "at")}}
        for change in changes
        if "record" not in change
    ]
    told = answer("stock-on-hand", {"facts": facts})["result"]
    assert told["flags"] == []
    folded = {(row["place"], row["product"]): row["quantity"] for row in told["on_hand"] if row["product"]}
    assert folded == stock
    assert min(folded.values()) >= 0
    assert 300 < sum(folded.values()) < 900


def test_what_is_cut_fits_its_cloth_and_the_remnant_used_is_put_away(facts, described):
    assert {fact["day"] for fact in facts["cut"]} == {"2025-12-11", "2025-12-18"}
    for fact in facts["cut"]:
        cloth = described["cloth"][fact["cloth"]]
        width = cloth["bolt_width"] * (1 - cloth["shrink_width"] / 100) - 2 * cloth["selvedge"]
        strips = 0
        for line in fact["lines"]:
            size = described["piece"][line["size"]]
            length = size["loop"] * size["fullness"] + 2 * size["end_seam"]
            strips += line["quantity"] * length * (2 * size["tube_width"] + 2 * size["side_seam"])
        assert strips <= fact["length"] * width
        if "remnant" in fact:
            remnant = described["remnant"][fact["remnant"]]
            assert fact["length"] <= remnant["length"] and remnant["archived"]
    assert sum(not remnant.get("archived") for remnant in described["remnant"].values()) == 3


def test_the_figures_of_the_documentation(facts, changes):
    taken = sum(sale["amount"] for sale in facts["sale"]) - sum(row["amount"] for row in facts["refund"])
    told = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert f"{len(changes):,} changes" in told
    assert f"{taken / 100:,.2f} euros" in told
