"""The demo's year is the scenario's, by sums of our own over what its phones made."""

from collections import Counter, defaultdict
from datetime import date, timedelta
from statistics import mean, stdev

import pytest

from backend.core.catalogue import answer
from backend.core.inventing.days import DAYS
from backend.core.making.waiting import waiting_strips
from backend.core.records.copied import good_changes
from backend.demo.loading import evenings
from backend.fixtures import FOLDER
from tests.phones import text_of

BUSINESS = "0190a000-0000-7000-8000-000000000001"
# the year 2025, whose figures the documentation tells
TODAY = date(2026, 1, 1)


@pytest.fixture(scope="module")
def changes():
    return [change for _, _, made in evenings(BUSINESS, TODAY) for change in made]


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
    again = [change for _, _, made in evenings(BUSINESS, TODAY) for change in made]
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
    days = days_over(described)
    assert len(days) == len(set(days)) == 45
    assert {sale["day"] for sale in facts["sale"]} == set(days)
    assert len(facts["sale"]) == 4000
    assert [batch["number"] for batch in described["batch"].values()] == [str(n) for n in range(1, 126)]
    assert [row["batch"] for row in facts["batch-result"]] == list(described["batch"])
    home, table = described["place"]
    assert Counter(close["place"] for close in facts["count-close"]) == {home: 52, table: 45}
    assert {"spoilt", "given"} <= {row["reason"] for row in facts["set-aside"]}


def days_over(described):
    booked = [day for booking in described["booking"].values() for day in booking["days"]]
    return [day for day in booked if day < TODAY.isoformat()]


def test_a_market_is_held_today_and_stock_stands_ready_for_it(described, walked):
    booked = [booking for booking in described["booking"].values() if TODAY.isoformat() in booking["days"]]
    [today] = booked
    stock, _, _ = walked
    assert all(stock[today["place"], product] > 0 for product in described["product"])
    # and one that is to come is booked, too
    last = max(day for booking in described["booking"].values() for day in booking["days"])
    assert last > TODAY.isoformat()


@pytest.mark.parametrize("passed", range(0, 365, 73))
def test_a_year_may_end_on_any_day(passed):
    today = TODAY + timedelta(days=passed)
    made = [change for _, _, evening in evenings(BUSINESS, today) for change in evening]
    assert good_changes(made) == [True] * len(made)
    sold = {change["fields"]["day"] for change in made if change["kind"] == "sale"}
    assert 43 <= len(sold) <= 47
    assert (today - timedelta(days=DAYS)).isoformat() <= min(sold) <= max(sold) < today.isoformat()
    counted = [change["fields"]["quantity"] for change in made if change["kind"] == "count-line"]
    assert min(counted) >= 0
    # few come in vain: nothing is sewn too late for its season
    assert sum(change["kind"] == "asked-for" for change in made) < 300
    stamps = defaultdict(list)
    for change in made:
        stamps[change["stamp"][-36:]].append(change["stamp"])
    assert all(one == sorted(set(one)) for one in stamps.values())
    assert sum(change["kind"] == "batch-result" for change in made) == 125
    booked = [change["fields"] for change in made if change["kind"] == "booking"]
    assert sum(today.isoformat() in booking["days"] for booking in booked) == 1
    assert made[-1]["kind"] == "move"
    assert made[-1]["fields"]["day"] == (today - timedelta(days=1)).isoformat()


def test_the_weather_makes_days_of_one_market_differ_and_some_sell_out(facts, described):
    [quay] = [id for id, row in described["market"].items() if row["name"] == "Sandholt Quay Saturday"]
    booked = [row["days"][0] for row in described["booking"].values() if row.get("market") == quay]
    sales = Counter(sale["day"] for sale in facts["sale"] if sale["day"] in booked)
    spread = stdev(sales.values()) / mean(sales.values())
    assert len(sales) > 25 and 0.2 < spread < 0.4
    # more in fine weather than she thought of, and so asked for in vain
    assert len({row["day"] for row in facts["asked-for"] if row["day"] in booked}) > 3


def test_a_sale_is_about_one_and_a_half_pieces(facts):
    pieces = sum(line["quantity"] for sale in facts["sale"] for line in sale["lines"])
    assert 1.45 < pieces / 4000 < 1.55


def test_the_markets_are_where_and_when_the_scenario_says(described):
    named = {market["name"]: (id, market) for id, market in described["market"].items()}
    quay, quay_terms = named["Sandholt Quay Saturday"]
    fair, fair_terms = named["Lantern Barn Winter Fair"]
    orchard, orchard_terms = named["Orchard Lane Makers' Morning"]
    days = {id: [row["days"] for row in described["booking"].values() if row.get("market") == id]
            for id in described["market"]}  # fmt: skip
    assert {date.fromisoformat(day).weekday() for [day] in days[quay]} == {5}
    assert quay_terms["first_day"] == "2025-04-05"
    assert (quay_terms["pitch"], quay_terms["fee"]) == ("12", 2800)
    assert days[fair] == [["2025-12-13", "2025-12-14"]]
    assert (fair_terms["fee"], fair_terms["distance_km"]) == (14500, 61)
    held = [day[:7] for [day] in sorted(days[orchard])]
    assert held == [f"2025-{month:02}" for month in range(1, 13)] + ["2026-01", "2026-02"]
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
    for row in facts["expense"]:
        holds[row["day"], row["box"]] -= row["amount"]
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
        elif kind == "batch-result":
            for line in row["lines"]:
                stock[row["place"], line["product"]] += line["good"]
        elif kind in ("sale", "refund"):
            for sign, line in goods_of(kind, row):
                if "product" in line:
                    stock[row["place"], line["product"]] += sign * line["quantity"]
                elif "size" in line:
                    unknown[line["size"]] += sign * line["quantity"]
        elif kind == "count-line":
            key = row["place"], row["product"]
            reason = reasons.get((row["session"], row["product"]), "")
            stock[key] -= reason.count("not found")
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
    # the shelf began with six dozen of each
    assert differed[:15] == [(row["size"], 72) for row in described["product"].values()]
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
    assert 500 < sum(folded.values()) < 1200


def test_what_is_cut_fits_its_cloth_and_the_remnant_used_is_put_away(facts, described):
    # a batch of each cut, and what lies at home beside
    weeks = {date.fromisoformat(fact["day"]).weekday() for fact in facts["cut"]}
    assert weeks == {0} and len(facts["cut"]) == 125 + 3
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


def test_what_waits_at_the_end_is_what_was_cut_beside_the_batches(changes, described):
    facts = [
        {**change["fields"], **{name: change[name] for name in ("kind", "id", "at")}}
        for change in changes
        if "record" not in change
    ]
    rows = waiting_strips(facts, described["batch"], described["product"])
    told = {
        (described["cloth"][row["cloth"]]["name"], described["piece"][row["size"]]["name"]): row["quantity"]
        for row in rows
    }
    assert told == {
        ("Harbour check", "Everyday"): 6,
        ("Harbour check", "Petite"): 3,
        ("Seagrass lawn", "Everyday"): 24,
        ("Rust needlecord", "Grand"): 12,
    }
    assert waiting_strips(facts[::-1], described["batch"], described["product"]) == rows


def test_a_batch_is_sewn_by_its_method_in_a_few_hours_and_most_of_it_is_good(facts, described):
    made = sum(line["made"] for row in facts["batch-result"] for line in row["lines"])
    good = sum(line["good"] for row in facts["batch-result"] for line in row["lines"])
    assert made == 125 * 48 and 0.97 < good / made < 1
    steps = {id: [step["name"] for step in method["steps"]] for id, method in described["method"].items()}
    done, took, at = defaultdict(list), Counter(), defaultdict(list)
    for row in facts["batch-step"]:
        done[row["batch"]].append(row["step"])
        took[row["batch"]] += sum(lap["took_ms"] for lap in row["laps"])
        at[row["batch"]].append(row["at"])
    methods = Counter()
    for id, batch in described["batch"].items():
        assert done[id] == steps[batch["method"]] and batch["state"] == "finished"
        assert at[id] == sorted(at[id]) and batch["needed"] > "2025"
        methods[batch["method"]] += 1
    hours = [ms / 3_600_000 for ms in took.values()]
    assert min(hours) > 2
    assert max(hours) < 4.5
    # the new one has enough batches to be compared
    assert min(methods.values()) > 15
    assert Counter(row["verdict"] for row in facts["sample-result"])["accept"] > 50


def test_what_is_bought_is_enough_for_what_is_cut_and_never_dear(facts, described):
    bought, cut = Counter(), Counter()
    for row in facts["purchase"]:
        bought[row.get("cloth")] += row.get("length", 0)
    for row in facts["cut"]:
        cut[row["cloth"]] += row["length"]
    for cloth in described["cloth"]:
        assert bought[cloth] > cut[cloth] > 0
    spent = sum(row["amount"] for row in facts["purchase"] + facts["expense"])
    assert 300_000 < spent < 1_500_000
    priced = {row["product"]: row["price"] for row in facts["price-set"]}
    assert priced == {id: product["price"] for id, product in described["product"].items()}


def test_the_figures_of_the_documentation(facts, changes):
    taken = sum(sale["amount"] for sale in facts["sale"]) - sum(row["amount"] for row in facts["refund"])
    told = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert f"{len(changes):,} changes" in told
    assert f"{taken / 100:,.2f} euros" in told
