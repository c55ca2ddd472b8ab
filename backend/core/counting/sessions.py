"""Counts: what each closed session says of each product at its place.

A line is (session, product, box): of one box the last line stands, boxes add
up. Lines of a session that nobody closed say nothing yet.
"""

from ..ordering import in_order
from .movements import count_of, key_of, moment_of


class Anchor:
    """The last count of a key: when, how many, and sales made before it that it still held."""

    def __init__(self, moment, quantity, still_held):
        self.moment = moment
        self.quantity = quantity
        self.still_held = still_held


class Session:
    """One count: lines by key and box, and its closes."""

    def __init__(self):
        self.boxes = {}
        self.closes = []
        self.answers = {}
        self.listed = {}
        # the first close that took in all of the place
        self.all = None

    def add_line(self, key, fact):
        """Take in what was seen; the later line of one box stands."""
        boxes = self.boxes.setdefault(key, {})
        box, line = fact.get("box_label") or "", (moment_of(fact), fact["quantity"])
        if box not in boxes or boxes[box] < line:
            boxes[box] = line

    def add_close(self, fact):
        """Take in a close: the first that covers a key counts, the last that answers."""
        moment, place = moment_of(fact), fact["place"]
        self.closes.append(moment)
        if fact["scope"] == "all" and (self.all is None or moment < self.all):
            self.all = moment
        for row in fact.get("listed") or []:
            key = key_of(place, row)
            if key not in self.listed or moment < self.listed[key]:
                self.listed[key] = moment
        for row in fact.get("answers") or []:
            answers = self.answers.setdefault(key_of(place, row), {})
            answer = (moment, not row["already_out"])
            if row["sale"] not in answers or answers[row["sale"]] < answer:
                answers[row["sale"]] = answer

    def anchor(self, key):
        """Tell what the session says of a key that it covers."""
        answers = self.answers.get(key, {})
        still_held = {sale: True for sale in answers if answers[sale][1]}
        if key in self.boxes:
            boxes = self.boxes[key]
            quantity = 0
            for box in boxes:
                quantity += boxes[box][1]
            return Anchor(max([boxes[box][0] for box in boxes]), quantity, still_held)
        # looked for and not seen: none, when the count was closed
        moments = [moment for moment in (self.all, self.listed.get(key)) if moment is not None]
        return Anchor(min(moments), 0, still_held)


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
