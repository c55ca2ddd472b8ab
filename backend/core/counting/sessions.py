"""Counts: what each closed session says of each product at its place.

A line is (session, product, box): of one box the last line stands, boxes add
up. Lines of a session that nobody closed say nothing yet.

Each close of a session says all there is to say: what was looked for, and which
sales made meanwhile still lay there. What it does not name keeps its figure, a
sale that it does not answer was already out. Where two contradict each other the
later stands, by (at, id), and the earlier is worth a look. Where they agree, what
they say holds as of the first of them: what came after it is not none.
"""

from ..numbers.ordering import in_order
from .keys import count_of, key_of, moment_of


class Anchor:
    """The last count of a key: when, how many, and sales made before it that it still held."""

    def __init__(self, moment, quantity, still_held):
        self.moment = moment
        self.quantity = quantity
        self.still_held = still_held


class Session:
    """One count: lines by key and box, its closes and, once settled, what they come to."""

    def __init__(self):
        self.boxes = {}
        self.closes = []
        # the last close, and from when on none said otherwise
        self.close = None
        self.closed = None
        # by key the sales that still lay there, and since when what was looked for has been none
        self.still_held = {}
        self.listed = {}
        # since when that has been all of the place; None where it is not
        self.all = None

    def add_line(self, key, fact):
        """Take in what was seen; the later line of one box stands."""
        boxes = self.boxes.setdefault(key, {})
        box, line = fact.get("box_label") or "", (moment_of(fact), fact["quantity"])
        if box not in boxes or boxes[box] < line:
            boxes[box] = line

    def add_close(self, fact):
        """Take in a close."""
        self.closes.append(fact)

    def settle(self):
        """Find what the closes come to, once all are taken in."""
        self.closes = in_order(self.closes, moment_of)
        for close in self.closes:
            moment, named = moment_of(close), _named(close)
            if close["scope"] == "all":
                self.all = self.all or moment
                for key in named:
                    self.listed.setdefault(key, self.all)
            else:
                self.listed = {key: self.listed.get(key) or self.all or moment for key in named}
                self.all = None
            if self.close is None or self._said(self.close) != self._said(close):
                self.closed = moment
            self.close, self.still_held = close, _still_held(close)
        return self

    def first_close(self):
        """Tell the moment of the first close; None for an open count."""
        return moment_of(self.closes[0]) if self.closes else None

    def differing(self):
        """List the closes before the last that say otherwise than it does."""
        return [fact for fact in self.closes if self._said(fact) != self._said(self.close)]

    def _said(self, close):
        # what has a line is told by that
        listed = {} if close["scope"] == "all" else _named(close)
        return close["scope"], {key: True for key in listed if key not in self.boxes}, _still_held(close)

    def anchor(self, key):
        """Tell what the session says of a key that it covers."""
        still_held = self.still_held.get(key, {})
        if key in self.boxes:
            boxes = self.boxes[key]
            quantity = 0
            for box in boxes:
                quantity += boxes[box][1]
            return Anchor(max([boxes[box][0] for box in boxes]), quantity, still_held)
        # looked for and not seen: none, when the count was closed
        moments = [moment for moment in (self.all, self.listed.get(key)) if moment is not None]
        return Anchor(min(moments), 0, still_held)


def _named(close):
    return {key_of(close["place"], row): True for row in close.get("listed") or []}


def _still_held(close):
    # of two answers about one sale the one for still lying there stands
    still_held = {}
    for row in close.get("answers") or []:
        if not row["already_out"]:
            still_held.setdefault(key_of(close["place"], row), {})[row["sale"]] = True
    return still_held


class Counts:
    """All counts among facts, and the anchor that they give each key."""

    def __init__(self, facts):
        self.sessions = {}
        self.places = {}
        for fact in facts:
            if fact["kind"] == "count-line":
                self._session(fact).add_line(key_of(fact["place"], fact), fact)
            elif fact["kind"] == "count-close":
                self._session(fact).add_close(fact)
                names = self.places.setdefault(fact["place"], {})
                names[count_of(fact)] = True
        for name in self.sessions:
            self.sessions[name].settle()
        # {key: {count: true}}, closed counts that name a key; for each place the
        # names of those that took in all of it, last first
        self.naming, self.taking_in_all = {}, {}
        for name in self.sessions:
            session = self.sessions[name]
            if session.closes:
                for keys in (session.boxes, session.listed):
                    for key in keys:
                        self.naming.setdefault(key, {})[name] = True
        for place in self.places:
            names = [name for name in self.places[place] if self.sessions[name].all is not None]
            last_first = in_order(names, lambda name: self.sessions[name].all)
            last_first.reverse()
            self.taking_in_all[place] = last_first

    def _session(self, fact):
        return self.sessions.setdefault(count_of(fact), Session())

    def anchor(self, place, key):
        """Find the latest closed count that covers a key; None where there is none."""
        named = self.naming.get(key, {})
        names = list(named)
        for name in self.taking_in_all.get(place, ()):
            if name not in named:
                names.append(name)
                break
        best = None
        for name in names:
            anchor = self.sessions[name].anchor(key)
            if best is None or anchor.moment > best.moment:
                best = anchor
        return best

    def last_of_all(self, place):
        """Tell the moment of the last closed count that took in all of a place; None for none."""
        names = self.taking_in_all.get(place)
        return self.sessions[names[0]].all if names else None

    def earliest_of_all(self, place):
        """Tell the earliest moment that the last closed count of all of a place speaks of; None for none."""
        names = self.taking_in_all.get(place)
        if not names:
            return None
        session = self.sessions[names[0]]
        named = list(session.boxes) + list(session.listed)
        return min([session.all] + [session.anchor(key).moment for key in named])
