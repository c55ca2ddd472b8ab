"""The report of a day at a market: what was taken, what sold, and what happened beside."""

from ..counting.keys import moment_of
from ..numbers.ordering import in_order
from ..records.reader import READERS, cash_part, stands, voided
from ..records.uses import DAY
from ..selling.takings import added_up
from .beside_sales import beside_sales
from .cash_box import cash_up_of
from .goods import Goods
from .known import known_facts


def day_report(facts, voids, day, booking, stall, hours, stock, boxes):
    """Report a day at a market.

    Takes: facts of the day, in any order; voids, {fact: true}; booking, None for
    what was at none; stall, where its stock stands, None where it is not known;
    hours, [{"at", "name"}]: when each local hour began, and the end of the day;
    stock, what was left, [{"place", "product", "size", "quantity"}], None where
    it is not told; boxes, [{"box", "usual_float"}], the cash boxes there are.
    Returns: {"place", "ended_at", "takings": as `takings`, "hours": [{"name",
    "sales", "pieces", "amount"}], "products": [{"product", "size", "name",
    "pieces", "amount", "back", "given_back", "set_aside", "asked", "left"}],
    "rounded", and what `beside_sales` and `cash_up_of` (`boxes`, `no_box`) tell}.
    All money less what was given back; the products' money and `rounded` come
    to the takings, and so do the hours'. `ended_at` is when the last of it
    happened: what is left is the stock of that time, before the car was packed.
    Facts that cannot be read are set aside.
    """
    facts = in_order([fact for fact in known_facts(facts) if fact["day"] == day], moment_of)
    voids = dict(voids)
    told_here = voided(facts, DAY, voids)
    voids.update({fact: told_here[fact] for fact in told_here if fact not in voids})
    ours = [fact for fact in facts if _is_of(fact, booking)]
    places = _places(ours, stall)
    here = [fact for fact in facts if READERS[fact["kind"]].at_place and fact["place"] in places]
    standing = [fact for fact in ours if stands(fact, voids)]
    here = [fact for fact in here if stands(fact, voids)]
    happened = [fact["at"] for fact in ours + here if not READERS[fact["kind"]].in_box]
    goods = Goods()
    for fact in standing + here:
        goods.add(fact)
    told = {
        "place": places[0] if places else None,
        "ended_at": max(happened) if happened else None,
        "takings": added_up(ours, voids),
        "hours": _by_hour(standing, voids, hours),
        "products": goods.listed(None if stock is None else [row for row in stock if row["place"] in places]),
        "rounded": goods.rounded,
        "boxes": _boxes(facts, voids, day, booking, boxes),
        "no_box": _cash_in_no_box(standing),
    }
    told.update(beside_sales(facts, ours, here, voids))
    return told


def _is_of(fact, booking):
    return READERS[fact["kind"]].at_market and fact.get("booking") == booking


def _places(facts, stall):
    # where it stood comes first, then wherever else it sold
    places = [] if stall is None else [stall]
    for fact in facts:
        if fact.get("place") is not None and fact["place"] not in places:
            places.append(fact["place"])
    return places


def _by_hour(facts, voids, hours):
    ends = in_order(hours, lambda hour: hour["at"])
    parts = [[] for _ in ends] or [[]]
    for fact in facts:
        if READERS[fact["kind"]].takings:
            parts[_hour_of(fact["at"], ends)].append(fact)
    last = len(parts) - 1
    used = [number for number, part in enumerate(parts[:last]) if part]
    rows = [_hour(ends[number]["name"], parts[number], voids) for number in _all_between(used)]
    # told by a phone whose day was another one
    return rows + [_hour("", parts[last], voids)] if parts[last] else rows


def _hour_of(at, ends):
    for number in range(len(ends) - 1):
        if ends[number]["at"] <= at < ends[number + 1]["at"]:
            return number
    return len(ends) - 1


def _all_between(numbers):
    return range(numbers[0], numbers[-1] + 1) if numbers else ()


def _hour(name, facts, voids):
    told = added_up(facts, voids)
    return {"name": name, "sales": told["sales"], "pieces": told["pieces"], "amount": told["amount"]}


def _boxes(facts, voids, day, booking, boxes):
    # a box is counted for all it held that day, whichever booking it was for
    rows = []
    for row in boxes:
        held = [fact for fact in facts if fact.get("box") == row["box"]]
        if [fact for fact in held if fact.get("booking") == booking]:
            rows.append(cash_up_of(held, voids, day, row["box"], row["usual_float"], None))
    return rows


def _cash_in_no_box(facts):
    return added_up([fact for fact in facts if _is_cash(fact) and fact.get("box") is None], {})["amount"]


def _is_cash(fact):
    return READERS[fact["kind"]].takings and cash_part(fact)
