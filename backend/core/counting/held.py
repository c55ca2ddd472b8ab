"""Stock held and kept up: a few more facts at a time, to the same answer as the whole fold.

Plain movements and voids are taken into what is held. Where a count is closed,
or a line joins a closed count, what is held of that place has to be folded
again from the log, and only that.
"""

from ..declaring.errors import Problems, problem
from ..declaring.reading import is_number
from ..numbers.ordering import in_text_order
from ..records.kinds import LEFT_OUT
from ..records.reader import movements, once, readable, voidable, voided
from ..records.uses import STOCK
from .fold import counts_for, entry, fold
from .keys import count_of, key_of, moment_of, parts_of


def fold_stock(facts, at, places):
    """Fold facts into stock to be held: all of them, or all that touch some places.

    Takes: places, those wanted, None for all; of places folded again, all that
    was held goes and this takes its stead. Facts that cannot be read are set aside.
    Returns: held, as `fold` does.
    """
    return fold(readable(facts, STOCK), at, None if places is None else {place: True for place in places})


def fold_places(facts, voids, places):
    """Fold places again of which little is known, several at once.

    Takes: facts, all that happened there; voids, {fact: true, or how it is left
    out}, what of them never happened. Facts that cannot be read are set aside.
    Returns: held of these places, and of no other.
    """
    return fold(readable(facts, STOCK), None, {place: True for place in places}, voids)


def begin_place(facts, closes, voids, place):
    """Begin to fold a place again, with what says which of the rest counts.

    Takes: facts, the counts that matter; closes, all closes of counts of the
    place, as a line may still come to one of long ago; voids as `fold_places`
    does, of the rest, too.
    Returns: held of that place, to take the rest in; what is told of other
    places by then does not hold.
    """
    held = fold_places(facts, voids, [place])
    held["closed"] = fold_places(closes, voids, [])["closed"]
    return held


def put_places(held, places, folded):
    """Put places that were folded again in the stead of what was held of them.

    Takes: held, all of it; folded, held of the places; what it tells of others
    is left out.
    Returns: held, anew. Raises: Problems naming each `held.name` that is none.
    """
    before, after = parts_of_held(held), parts_of_held(folded)
    told, wanted = {}, {place: True for place in places}
    for name in before:
        told[name] = {key: before[name][key] for key in before[name] if not _is_of(name, key, wanted)}
        # what never happened and what is closed is of no place, and stays so
        placeless = name in ("voids", "closed")
        told[name].update({
            key: after[name][key] for key in after[name] if placeless or _is_of(name, key, wanted)
        })  # fmt: skip
    return told


def _is_of(part, key, places):
    return (part == "stock" and parts_of(key)[0] in places) or (part == "places" and key in places)


def take_in_stock(held, facts, sales):
    """Take a few more facts into what is held.

    Takes: held, as `fold_stock` returns it, all of it, {} for nothing yet;
    facts, new ones, each once; sales, those that voids among these name, as far
    as they were taken in before. Facts that cannot be read are set aside.
    Returns: {"stock", "voids", "closed"}: what changed, in the shape of held,
    and "refold": the places to fold again from the log, these facts among it;
    what is told of their stock does not hold until then; "anew", true where all
    is to be folded again, as an owner left out a fact of whatever kind.
    Raises: Problems naming each `held.name` that is none.
    """
    held = parts_of_held(held)
    facts = once(readable(facts, STOCK))
    told = voided(facts, STOCK, held["voids"])
    voids = {fact: told[fact] for fact in told if fact not in held["voids"]}
    facts = [fact for fact in facts if not _is_left_out(fact, voids, held)]
    closed = {count_of(fact): True for fact in facts if fact["kind"] == "count-close"}
    stock, refold, may_be_void = {}, {}, voidable(STOCK)
    for fact in facts:
        kind = fact["kind"]
        if kind == "count-close" or (kind == "count-line" and _is_closed(fact, closed, held)):
            refold[fact["place"]] = True
        else:
            never = kind in may_be_void and (fact["id"] in voids or fact["id"] in held["voids"])
            _take(held, stock, fact, 0 if never else 1)
    for fact in once(readable(sales, STOCK)):
        if fact["kind"] in may_be_void and fact["id"] in voids:
            _take(held, stock, fact, -1)
    return {
        "stock": {key: entry(stock[key]) for key in stock},
        "voids": voids,
        "closed": closed,
        "refold": in_text_order(list(refold)),
        "anew": len([fact for fact in facts if fact["kind"] == LEFT_OUT]) > 0,
    }


def _is_left_out(fact, voids, held):
    name = fact.get("id")
    return LEFT_OUT in (voids.get(name), held["voids"].get(name))


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
