"""From when on facts matter, so that nobody folds a year to know an afternoon."""

from ..ordering import in_text_order
from .movements import MARK, count_of, moment_of
from .reading_facts import refuse_other_than_facts
from .sessions import Counts


def needed_since(facts, session, place, at):
    """Say which of a place's facts still matter to its stock, or to one count of it.

    Takes: facts, all count lines and closes of the place, or all of its latest
    counts; session, the count that is looked at, "" for the stock; at, leave
    out what happened later, None for now.
    Returns: {"since": UTC ms, 0 where no count took in all of the place; what
    moved stock before it a later count says anew; "sales": those before it that
    matter all the same, as a count still held them; "sessions": the counts that
    matter}. Voids always matter.
    Raises: Problems naming each `facts.N.field` that the fold cannot take.
    """
    refuse_other_than_facts(facts)
    known = [fact for fact in facts if fact["kind"] in ("count-line", "count-close")]
    ours = [fact for fact in known if count_of(fact) == place + MARK + session]
    first, last = _ends(ours)
    others = [fact for fact in known if count_of(fact) != place + MARK + session]
    others = [fact for fact in others if at is None or fact["at"] <= at]
    counts = Counts([fact for fact in others if last is None or moment_of(fact) < last])
    earliest = [moment[0] for moment in (first, counts.earliest_of_all(place)) if moment is not None]
    complete = counts.last_of_all(place) is not None
    since = int(min(earliest)) if complete else 0
    sessions = {fact["session"]: True for fact in ours + others if fact["at"] >= since}
    return {"since": since, "sales": _still_held(others), "sessions": in_text_order(list(sessions))}


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
