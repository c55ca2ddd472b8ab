"""How long a product was there to be bought on a market day: what its hours of sale are counted by."""

HOUR_MS = 3600000


class There:
    """One product at a stall, from opening to closing.

    Takes: start and end of the day, UTC ms; pieces at the start, None where nobody knows: what nobody
    counted is taken to be there until somebody asks for it in vain. What sells is there, whatever the
    books say.
    """

    def __init__(self, start, end, pieces):
        self.start, self.end = start, end
        self.pieces = pieces
        self.since = start if pieces is None or pieces > 0 else None
        self.was_known = pieces is not None and pieces > 0
        self.last_sold = start
        self.passed = 0
        # sold out, and not carried off
        self.sold_out = self.carried_off = False

    def sell(self, at, pieces):
        """Take off what was sold."""
        self.last_sold = at
        if self.since is None or (self.pieces is not None and self.pieces < pieces):
            self.pieces = None
            self.sold_out = False
            if self.since is None:
                self.since, self.passed = self.start, 0
        if self.pieces is not None:
            self.pieces -= pieces
            if not self.pieces:
                self._end(at, True)

    def move(self, at, pieces):
        """Put down pieces that came, or take off what went otherwise than sold."""
        self.carried_off = self.carried_off or pieces < 0
        if self.pieces is not None or pieces > 0:
            self._be(at, (self.pieces or 0) + pieces)

    def ask(self, at):
        """Somebody asked for it, and none was left: it had gone when the last one was sold."""
        if self.since is not None:
            self._end(self.last_sold, True)
        self.pieces = 0

    def count(self, at, pieces):
        """So many were seen. Where none was, and none was carried off, the last one had been sold."""
        if pieces <= 0 and self.since is not None and not self.carried_off:
            self._end(self.last_sold, True)
        self._be(at, pieces)

    def hours(self):
        """Tell for how many hours it was there."""
        passed = self.passed
        if self.since is not None:
            passed += self.end - self._within(self.since)
        return passed / HOUR_MS

    def _be(self, at, pieces):
        self.pieces = pieces
        if pieces > 0:
            self.was_known = True
            if self.since is None:
                self.since, self.sold_out = at, False
        elif self.since is not None:
            self._end(at, False)

    def _end(self, at, sold_out):
        self.passed += max(0, self._within(at) - self._within(self.since))
        self.since, self.sold_out = None, sold_out

    def _within(self, at):
        return min(max(at, self.start), self.end)
