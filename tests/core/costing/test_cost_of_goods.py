"""What a piece costs, from the records: worked by hand, and said where something is missing."""

from backend.core.costing.cost_of_goods import cost_of_goods, costs_each
from tests.core.costing.one_batch import DAY, FACTS, RECORDS, fact
from tests.core.ids import named


def cost(facts=FACTS, records=RECORDS):
    return cost_of_goods(facts, records, [named("g1")], DAY)


def part(told, name):
    return next(row for row in told["parts"] if row["part"] == name)


def rules(told):
    return [item["rule"] for item in told["notes"]]


def test_a_piece_costs_what_its_cloth_elastic_thread_packaging_and_time_do():
    told = cost()
    # 2600 × 0.97 × (1400 × 0.98 − 20) = 3,409,744 mm² for 2314; the rows took 1000 × 1352 less 388 × 1000
    assert part(told, "cloth")["cost"] == 654
    # 18 × (165 + 31 + 2 × 20) mm of 50 m for 790
    assert part(told, "elastic")["cost"] == 67
    # 18 × 2 × ((482 + 110) × 1.25 + 2 × 100) × 1.15 mm of 1000 m for 420
    assert part(told, "thread")["cost"] == 16
    # a bag for each of 17 good ones, of 100 for 3.00 once the tax is back
    assert part(told, "packaging")["cost"] == 51
    # 27 minutes, 5, and 5 for the lap that was disturbed, at 15.00 an hour
    assert (told["time"]["minutes"], told["time"]["labour"]) == (37.0, 925)
    assert told["total"] == 654 + 67 + 16 + 51 + 925
    # 18 less 5 % carry it, as that is above the 17 good ones: 1713 ÷ 17.1
    assert told["cost_each"] == 100.18
    assert (told["made"], told["good"], told["notes"]) == (18, 17, [])


def test_each_figure_leads_to_its_purchase_its_cut_and_its_laps():
    told = cost()
    cloth = part(told, "cloth")
    assert [row["purchase"] for row in cloth["bought"]] == ["purchase 1"]
    assert [(use["cut"], use["pieces"], use["cost"]) for use in cloth["uses"]] == [("cut 6", 18, 654)]
    assert [(step["step"], step["minutes"], step["disturbed"]) for step in told["time"]["steps"]] == [
        ("tube", 27.0, 0),
        ("knot", 10.0, 1),
    ]
    assert [(row["batch"], row["made"]) for row in told["batches"]] == [(named("h1"), 18)]


def test_the_prices_asked_and_those_she_would_ask_are_compared():
    told = cost()
    assert [row["price"] for row in told["points"]] == [600, 700]
    # 60 × 17 × (600 − (1713 − 925) ÷ 17.1) ÷ 37
    assert told["points"][0]["hour_earns"] == 15270


def test_what_is_not_recorded_is_said_and_costs_nothing():
    assert cost(FACTS[:8]) is None
    told = cost([fact for fact in FACTS if fact["kind"] in ("cut", "batch-result")])
    assert told["total"] == 0
    assert sorted(rules(told)) == ["never_bought"] * 4 + ["never_timed"]
    assert sorted(item["given"] for item in told["notes"] if item["given"]) == [
        "Bags", "Braided", "Lawn", "Sea green"
    ]  # fmt: skip
    told = cost([fact for fact in FACTS if fact["kind"] not in ("cut", "wage-set")])
    assert rules(told) == ["made_without_cut", "no_wage"]
    # 18 × 482 × 110 of 3,409,744 mm² for 2314
    assert part(told, "cloth")["cost"] == 648


def test_strips_that_still_wait_carry_their_own_cloth():
    more = [{**FACTS[5], "lines": [{"size": named("s1"), "quantity": 36}], "length": 2000, "offcuts": []}]
    told = cost(FACTS[:5] + more + FACTS[6:])
    # half of 2000 × 1352 mm²
    assert part(told, "cloth")["cost"] == 918
    assert part(told, "cloth")["uses"][0]["pieces"] == 18


def test_cloth_costs_the_mean_of_what_was_bought_before_it_was_cut():
    dearer = fact("purchase", 1, cloth=named("c1"), length=2600, amount=4628)
    late = fact("purchase", 8, cloth=named("c1"), length=2600, amount=99999)
    dearer["id"] = "dearer"
    told = cost([dearer, late] + FACTS)
    # 964,000 mm² at (2314 + 4628) ÷ (2 × 3,409,744)
    assert part(told, "cloth")["cost"] == 981


def test_time_of_a_batch_is_shared_by_all_that_was_made_in_it():
    records = {**RECORDS, "product": {**RECORDS["product"], named("g2"): {"size": named("s1"), "price": 500}}}
    both = {**FACTS[-1], "lines": FACTS[-1]["lines"] + [{"product": named("g2"), "made": 18, "good": 18}]}
    told = cost([*FACTS[:-1], both], records)
    assert told["time"]["minutes"] == 18.5
    records = {
        **RECORDS,
        "batch": {**RECORDS["batch"], named("h2"): {"number": "2", "needle": named("t1"), "lines": []}},
    }
    untimed = {**FACTS[-1], "id": "later", "batch": named("h2"), "at": 12}
    told = cost([*FACTS, untimed], records)
    assert told["time"]["minutes"] == 74.0
    assert "made_without_laps" in rules(told)


def test_overheads_are_shared_by_the_hours_that_were_worked():
    records = {**RECORDS, "overhead": {named("o1"): {"name": "Insurance", "amount": 36500, "per": "year"}}}
    told = cost(records=records)
    # 28 days at 1.00 a day by 37 minutes of work
    assert told["time"]["overheads_an_hour"] == 4541
    assert told["time"]["overheads"] == 2800


def test_somebody_with_a_wage_of_their_own_is_paid_that():
    own = fact("wage-set", 6, person="joss", wage=1200, **{"from": "2026-03-01"})
    later = fact("wage-set", 7, person="joss", wage=9900, **{"from": "2026-06-01"})
    facts = [{**one, "person": "joss"} if one["kind"] == "batch-step" else one for one in FACTS]
    assert cost([*facts, own, later])["time"]["labour"] == 740


def test_a_wage_that_was_set_late_holds_for_the_work_before_it():
    late = fact("wage-set", 5, wage=900, **{"from": "2026-05-09"})
    dearer = fact("wage-set", 4, wage=1800, **{"from": "2026-05-10"})
    assert cost([*FACTS[:4], late, dearer, *FACTS[5:]])["time"]["labour"] == 555


def test_what_each_product_costs_is_told_of_all_at_once():
    told = costs_each(FACTS, RECORDS, [named("g1"), named("g2")])
    # without 37 minutes at 15.00 an hour, by 17.1 pieces
    assert told == {named("g1"): {"cost_each": 100.18, "cash_each": 46.08, "unbought": []}, named("g2"): None}
    assert costs_each([], RECORDS, [named("g1")]) == {named("g1"): None}
    # what was used and never bought costs nothing, and is named
    cloth_bought = [fact for fact in FACTS if fact["kind"] != "purchase" or fact.get("cloth")]
    told = costs_each(cloth_bought, RECORDS, [named("g1")])[named("g1")]
    assert told["unbought"] == ["Braided", "Sea green", "Bags"]
    # 654 by 17.1 pieces
    assert told["cash_each"] == 38.25
