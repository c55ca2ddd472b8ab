"""Facts as folds, reports and sums take them: one reader, compiled once a kind from its declaration.

Facts come by the thousand, and some were made by an older version, so they are
not read as forms are: of each kind only what a use needs is looked at, where
it is given, and what was left out has its default. Kinds that say nothing to
the use, unknown ones among them, pass by.
"""

from ..declaring.errors import Problems, problem
from ..declaring.spec import NEEDED
from ..numbers.ordering import in_text_order
from .facts import FACTS
from .kinds import LEFT_OUT
from .looks import MOST_TEXT, NO_OBJECT, bad_fields
from .uses import DAY, NO_KIND, PASSING, SHOWN, TAKINGS, USES

MOST_NAMED = 200


class Reader:
    """What is to be known of a kind of fact, compiled from its declaration.

    moves, cash: [(Moves or Cash, where: None or (field, default, choices))];
    takings, voids, counts as declared; at_market, true for what says which
    booking it is of, at_place for what says only where it happened; in_box, for
    money by itself.
    """

    def __init__(self, kind):
        self.kind = kind
        self.fields = {field.name: field for field in kind.fields}
        self.moves = tuple([(part, self._where(part.only)) for part in kind.moves])
        self.cash = tuple([(part, self._where(part.only)) for part in kind.cash])
        self.takings, self.voids, self.counts = kind.takings, kind.voids, kind.counts
        # what is finished there is no matter of a market
        self.at_place = "place" in self.fields and not ("booking" in self.fields or "batch" in self.fields)
        self.at_market = "booking" in self.fields
        self.in_box = "box" in self.fields and "place" not in self.fields
        # the lists, None for the fact itself, whose goods it takes away
        self.leaving = tuple([part.goods for part in kind.moves if part.out_of])
        self.steps = tuple([
            (part.goods, part.out_of, part.into, part.pieces, where) for part, where in self.moves
        ])  # fmt: skip
        # {use: what it looks at}, made when first asked
        self.looks = {}

    def _where(self, only):
        if only is None:
            return None
        default = self.fields[only.name].default
        return only.name, None if default == NEEDED else default, only.choices

    def looks_for(self, use):
        """Find what a use looks at, None where the kind says nothing to it."""
        if use not in self.looks:
            self.looks[use] = USES[use](self, READERS)
        return self.looks[use]


READERS = {}
# what was found of all kinds, as it is asked for with each few facts
FOUND = {}


def learn(kind):
    """Know a kind of fact from now on."""
    READERS[kind.name] = Reader(kind)
    FOUND.clear()


for _kind in FACTS:
    learn(_kind)


def voids_of(use):
    """Find which kinds void another that says something to a use: {kind: its link}."""
    return _found(use)[0]


def voidable(use):
    """Find the kinds that another may void: {kind: true}."""
    return _found(use)[1]


def _found(use):
    if (use, "voids") not in FOUND:
        voids = {name: READERS[name].voids for name in READERS if READERS[name].voids}
        voids = {name: voids[name] for name in voids if READERS[name].looks_for(use)}
        named = {READERS[name].fields[voids[name]].links: True for name in voids}
        FOUND[(use, "voids")] = (voids, named)
    return FOUND[(use, "voids")]


def kinds_of_takings():
    """Find the kinds that are of the takings: {kind: (`taken` or `given_back`, lists that leave)}."""
    if TAKINGS not in FOUND:
        summed = [READERS[name] for name in READERS if READERS[name].takings]
        FOUND[TAKINGS] = {one.kind.name: (one.takings, one.leaving) for one in summed}
    return FOUND[TAKINGS]


def voided(facts, use, known=None):
    """Name what never happened, of what says something to a use: {fact: true}.

    Of what an owner left out it is LEFT_OUT instead, and such a fact voids nothing itself.
    Takes: known, the same of facts that are not among these.
    """
    links, known = voids_of(use), known or {}
    left_out = {fact[links[LEFT_OUT]]: LEFT_OUT for fact in facts if fact["kind"] == LEFT_OUT}
    never = {}
    for fact in facts:
        name = fact.get("id")
        if fact["kind"] in links and name not in left_out and known.get(name) != LEFT_OUT:
            never[fact[links[fact["kind"]]]] = True
    never.update(left_out)
    return never


def once(facts):
    """Leave out facts that came twice: a fact is its id."""
    seen, once = {}, []
    for fact in facts:
        name = fact.get("id")
        if name is None or name not in seen:
            seen[name] = True
            once.append(fact)
    return once


def stands(fact, voids):
    """Say whether a fact happened, given {fact: true, or how it is left out} of those that did not."""
    never = voids.get(fact["id"])
    return not never or (never != LEFT_OUT and fact["kind"] not in voidable(DAY))


def rows_of(goods, fact):
    """List the rows that name goods: those of a list of the fact, or the fact itself for None."""
    return (fact,) if goods is None else fact.get(goods) or ()


def movements(fact):
    """List what a fact moves: [(place, row, pieces)], pieces below nothing for what leaves."""
    moved = []
    reader = READERS.get(fact["kind"])
    for goods, out_of, into, count, where in reader.steps if reader else ():
        if where is None or _is_so(fact, where):
            for row in rows_of(goods, fact):
                pieces = row[count]
                if out_of:
                    moved.append((fact[out_of], row, -pieces))
                if into:
                    moved.append((fact[into], row, pieces))
    return moved


def cash_part(fact):
    """Say which part of a cash-up a fact's amount is, one of CASH_PARTS; None for what moves no cash."""
    reader = READERS.get(fact["kind"])
    for part, where in reader.cash if reader else ():
        if where is None or _is_so(fact, where):
            return part.part
    return None


def _is_so(fact, where):
    name, default, choices = where
    value = fact.get(name)
    return (default if value is None else value) in choices


def readable(facts, use):
    """Keep the facts that a use can read; those it cannot are set aside (`unreadable` names them)."""
    bad = {index: True for index, _ in _bad_ones(facts, use)}
    return [fact for index, fact in enumerate(facts) if index not in bad] if bad else facts


def unreadable(facts):
    """Name the facts that are set aside, as some use cannot read them: a later version's, or bent ones.

    Takes: facts, in any order, each with its kind, id and at.
    Returns: [{"number": where it is among the facts, "fields": what of it, each once}].
    """
    told = []
    for index, bad in _bad_ones(facts, SHOWN):
        names = {one[0].split(".")[0]: True for one in bad}
        told.append({"number": index, "fields": in_text_order(list(names))})
    return told


def refuse_other_than_facts(facts, use):
    """Check what a use needs of each fact.

    Raises: Problems naming each `facts.N.field` that is missing or no such
    thing, of about the first 200.
    """
    problems = []
    for index, found in _bad_ones(facts, use):
        if len(problems) < MOST_NAMED:
            path = "facts." + str(index)
            problems += [problem(path + ("." + bad[0] if bad[0] else ""), *bad[1:]) for bad in found]
    if problems:
        raise Problems(problems)


def _bad_ones(facts, use):
    # [(number, what is bad)] of the facts that a use cannot read
    bad_ones, known_texts, known = [], {}, {}
    for index, fact in enumerate(facts):
        if isinstance(fact, dict):
            kind = fact.get("kind")
            looks = known.get(kind) if isinstance(kind, str) else NO_KIND[use]
            if looks is None:
                looks = known[kind] = _looks_of(kind, use)
            found = bad_fields(looks, fact, known_texts)
        else:
            found = NO_OBJECT
        if found:
            bad_ones.append((index, found))
    return bad_ones


def _looks_of(kind, use):
    looks = READERS[kind].looks_for(use) if kind in READERS else None
    return looks or (PASSING if len(kind) <= MOST_TEXT else NO_KIND)[use]
