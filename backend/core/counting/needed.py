"""From when on facts matter, so that nobody folds a year to know an afternoon."""

from ..numbers.ordering import in_text_order
from ..records.reader import readable
from ..records.uses import STOCK
from .keys import MARK, count_of, moment_of
from .sessions import Counts

# a count of all of a place is seldom longer ago; where it is, all counts are looked at
LATEST_COUNTS_MS = 30 * 24 * 3600 * 1000


def needed_since(facts, session, place, at):
    """Say which of a place's facts still matter to its stock, or to one count of it.

    Takes: facts, all count lines and closes of the place, or all of its latest
    counts; session, the count that is looked at, "" for the stock; at, leave
    out what happened later, None for now.
    Returns: {"since": UTC ms, 0 where no count took in all of the place; what
    moved stock before it a later count says anew; "sales": those before it that
    matter all the same, as a count still held them; "sessions": the counts that
    matter}. Voids always matter. Facts that cannot be read are set aside.
    """
    known = [fact for fact in readable(facts, STOCK) if fact["kind"] in ("count-line", "count-close")]
    ours = [fact for fact in known if count_of(fact) == place + MARK + session]
    first, last = _ends(ours)
    others = [fact for fact in known if count_of(fact) != place + MARK + session]
    others = [fact for fact in others if at is None or fact["at"] <= at]
    sure = _sure(others)
    counts = Counts([fact for fact in sure if last is None or moment_of(fact) < last])
    earliest = [moment[0] for moment in (first, counts.earliest_of_all(place)) if moment is not None]
    complete = counts.last_of_all(place) is not None
    since = int(min(earliest)) if complete else 0
    sessions = {fact["session"]: True for fact in ours + others if fact["at"] >= since}
    return {"since": since, "sales": _still_held(others), "sessions": in_text_order(list(sessions))}


def _sure(counts):
    # without counts of which some close took in all and another did not: which of the two stands may
    # change with every close that is looked at
    scopes = {}
    for fact in counts:
        if fact["kind"] == "count-close":
            scopes.setdefault(count_of(fact), {})[fact["scope"]] = True
    return [fact for fact in counts if len(scopes.get(count_of(fact), {})) < 2]


def _ends(ours):
    lines = [moment_of(fact) for fact in ours if fact["kind"] == "count-line"]
    closes = [moment_of(fact) for fact in ours if fact["kind"] == "count-close"]
    if lines:
        return min(lines), max(lines)
    return None, min(closes) if closes else None


def _still_held(counts):
    # whatever was answered later: a count that goes on sees what was said by then
    sales = {}
    for fact in counts:
        for row in fact.get("answers") or []:
            if not row["already_out"]:
                sales[row["sale"]] = True
    return in_text_order(list(sales))
