"""Stock held and kept up: a few more facts at a time, to the same answer as the whole fold.

Plain movements and voids are taken into what is held. Where a count is closed,
or a line joins a closed count, what is held of that place has to be folded
again from the log, and only that.
"""

from ..errors import Problems, problem
from ..ordering import in_text_order
from ..reading import is_number
from .fold import counts_for, entry, fold, once, voided
from .movements import count_of, key_of, moment_of, movements
from .reading_facts import refuse_other_than_facts


def fold_stock(facts, at, places):
    """Fold facts into stock to be held: all of them, or all that touch some places.

    Takes: places, those wanted, None for all; of places folded again, all that
    was held goes and this takes its stead.
    Returns: held, as `fold` does.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    refuse_other_than_facts(facts)
    return fold(facts, at, None if places is None else {place: True for place in places})


def take_in_stock(held, facts, sales):
    """Take a few more facts into what is held.

    Takes: held, as `fold_stock` returns it, all of it, {} for nothing yet;
    facts, new ones, each once; sales, those that voids among these name, as far
    as they were taken in before.
    Returns: {"stock", "voids", "closed"}: what changed, in the shape of held,
    and "refold": the places to fold again from the log, these facts among it;
    what is told of their stock does not hold until then.
    Raises: Problems naming each `facts.N.field`, and `held.name` that is none.
    """
    held = parts_of_held(held)
    refuse_other_than_facts(facts)
    refuse_other_than_facts(sales)
    facts = once(facts)
    voids = {sale: True for sale in voided(facts) if sale not in held["voids"]}
    closed = {count_of(fact): True for fact in facts if fact["kind"] == "count-close"}
    stock, refold = {}, {}
    for fact in facts:
        kind = fact["kind"]
        if kind == "count-close" or (kind == "count-line" and _is_closed(fact, closed, held)):
            refold[fact["place"]] = True
        else:
            never = kind == "sale" and (fact["id"] in voids or fact["id"] in held["voids"])
            _take(held, stock, fact, 0 if never else 1)
    for fact in once(sales):
        if fact["kind"] == "sale" and fact["id"] in voids:
            _take(held, stock, fact, -1)
    return {
        "stock": {key: entry(stock[key]) for key in stock},
        "voids": voids,
        "closed": closed,
        "refold": in_text_order(list(refold)),
    }


def _is_closed(line, closed, held):
    return count_of(line) in closed or count_of(line) in held["closed"]


def _take(held, stock, fact, sign):
    moment = moment_of(fact)
    for place, row, pieces in movements(fact):
        key = key_of(place, row)
        if key is not None:
            if key not in stock:
                stock[key] = _begun(held, place, key)
            if counts_for(stock[key], fact, moment):
                stock[key][0] += sign * pieces


def _begun(held, place, key):
    if key in held["stock"]:
        pieces, at, name, still_held = held["stock"][key]
        return [pieces, None if at is None else (at, name), {sale: True for sale in still_held}]
    # never seen: none when all of the place was counted last
    anchor = held["places"].get(place)
    return [0, tuple(anchor) if anchor else None, {}]


def parts_of_held(held):
    """Check what is held, and fill in the parts that are not there yet.

    Raises: Problems naming each `held.name` that is no such part.
    """
    parts, problems = {}, []
    for name in ("stock", "places", "voids", "closed"):
        part = held.get(name, {})
        good = isinstance(part, dict)
        if good and name == "stock":
            good = not [key for key in part if not _is_entry(part[key])]
        elif good and name == "places":
            good = not [place for place in part if not _is_moment(part[place])]
        if not good:
            problems.append(problem("held." + name, "held"))
        parts[name] = part
    if problems:
        raise Problems(problems)
    return parts


def _is_entry(row):
    if not isinstance(row, list) or len(row) != 4 or not is_number(row[0]) or not isinstance(row[3], list):
        return False
    return (row[1] is None or is_number(row[1])) and isinstance(row[2], str)


def _is_moment(moment):
    return (
        isinstance(moment, list)
        and len(moment) == 2
        and is_number(moment[0])
        and isinstance(moment[1], str)
    )  # fmt: skip
