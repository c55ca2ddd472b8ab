"""A batch on trays that pass from step to step: who does what when, and how soon all is done.

A piece step is done tray by tray. Another step comes once: before the next piece step begins, after those
like it that stand right before it; behind the last piece step when all trays are done.
"""

from ..numbers.rounding import at_most


class Stop:
    """One step on the way: who may do it, at which machines, how long, and whether tray by tray.

    Takes: step, its place in the list of steps; minutes, of one piece, or of all where it comes once;
    people and machines, the numbers of those that may do it, and of its kind, none where it needs none.
    """

    def __init__(self, step, by_tray, minutes, people, machines):
        self.step = step
        self.by_tray = by_tray
        self.minutes = minutes
        self.people = people
        self.machines = machines
        # from when on it may begin, None while that is not known
        self.opens = None
        # trays that come to it, by who had them last: [(since when, tray)], first come, and the served
        self.queues = []
        self.served = []


class Turn:
    """One person at one step of one tray, or at a step that comes once, where tray is None."""

    def __init__(self, stop, tray, person, begin, minutes):
        self.stop = stop
        self.tray = tray
        self.person = person
        self.begin = begin
        self.end = begin + minutes


class Flow:
    """The work on all trays, turn by turn: whatever can begin earliest begins.

    Takes: stops, in working order; trays, the pieces of each; people and machines, how many; handover,
    minutes that a tray waits where it changes hands; late_first, whether of turns that can begin at once
    the latest step has it, or else the first; then the lower person.
    """

    def __init__(self, stops, trays, people, machines, handover, late_first):
        self.stops = stops
        self.trays = trays
        self.handover = handover
        self.late_first = late_first
        self.free = [0.0] * people
        self.machines = [0.0] * machines
        self.turns = []
        by_tray = [place for place, stop in enumerate(stops) if stop.by_tray]
        self.last = by_tray[-1] if by_tray else None
        self.left = len(trays)
        for place, stop in enumerate(stops):
            follows = place > 0 and (not stops[place - 1].by_tray or place - 1 == self.last)
            stop.opens = None if follows else 0.0
            stop.queues = [[] for _ in range(people + 1)]
            stop.served = [0] * (people + 1)
        if by_tray:
            # nobody had them yet
            stops[by_tray[0]].queues[people] = [(0.0, tray) for tray in range(len(trays))]

    def run(self):
        """Do all the work; returns when it is done."""
        for stop in self.stops:
            for _ in range(len(self.trays) if stop.by_tray else 1):
                self._take(*self._earliest())
        ends = [turn.end for turn in self.turns]
        return max(ends) if ends else 0.0

    def _earliest(self):
        best = None
        places = range(len(self.stops))
        for place in places[::-1] if self.late_first else places:
            stop = self.stops[place]
            if stop.opens is None:
                continue
            for since, tray, last in self._heads(stop):
                for person in stop.people:
                    begin = self._begin(stop, since, last, person)
                    if best is None or _is_before(begin, place, person, tray, best):
                        best = (begin, place, person, tray, last)
        return best

    def _heads(self, stop):
        # of the trays each person had last, the one that came first
        heads = []
        for last, queue in enumerate(stop.queues):
            if stop.served[last] < len(queue):
                since, tray = queue[stop.served[last]]
                heads.append((since, tray, last))
        if not stop.by_tray and not stop.served[-1]:
            heads.append((0.0, None, len(self.free)))
        return heads

    def _begin(self, stop, since, last, person):
        changes_hands = last != person and last < len(self.free)
        begin = max(self.free[person], stop.opens, since + self.handover if changes_hands else since)
        if stop.machines:
            begin = max(begin, min([self.machines[machine] for machine in stop.machines]))
        return begin

    def _take(self, begin, place, person, tray, last):
        stop = self.stops[place]
        stop.served[last] += 1
        turn = Turn(stop, tray, person, begin, stop.minutes * (self.trays[tray] if stop.by_tray else 1))
        self.turns.append(turn)
        self.free[person] = turn.end
        if stop.machines:
            times = [self.machines[machine] for machine in stop.machines]
            self.machines[stop.machines[times.index(min(times))]] = turn.end
        if not stop.by_tray:
            self._open(place + 1, turn.end)
        elif place == self.last:
            self.left -= 1
            if not self.left:
                self._open(place + 1, max([other.end for other in self.turns if other.stop is stop]))
        else:
            self._next_for_trays(place).queues[person].append((turn.end, tray))

    def _open(self, place, when):
        if place < len(self.stops):
            self.stops[place].opens = when

    def _next_for_trays(self, place):
        return [stop for stop in self.stops[place + 1 :] if stop.by_tray][0]


def _is_before(begin, place, person, tray, best):
    # a float's last bits put nothing first; the steps come in the order that decides between them
    if not at_most(best[0], begin):
        return True
    at_once = at_most(begin, best[0]) and place == best[1] and tray is not None
    return at_once and (person, tray) < (best[2], best[3])


def trays_of(quantity, most):
    """Share pieces out over trays, the last one smaller. Example: trays_of(30, 12) == [12, 12, 6]"""
    return [min(most, quantity - begun) for begun in range(0, quantity, most)]


def time_alone(stops, trays):
    """Add up all the work."""
    return _total([_work_at(stop, trays) for stop in stops])


def least_time(stops, trays, people):
    """Tell the time that no way of sharing the work comes below.

    Returns: the greatest of the work shared evenly, the work tied to one person, a machine's work shared by
    those of its kind, and the way of the largest tray.
    """
    bounds = [time_alone(stops, trays) / people]
    for person in range(people):
        bounds.append(_total([_work_at(stop, trays) for stop in stops if stop.people == [person]]))
    for stop in stops:
        if stop.machines:
            alike = [other for other in stops if other.machines == stop.machines]
            bounds.append(_total([_work_at(other, trays) for other in alike]) / len(stop.machines))
    if trays:
        bounds.append(_total([stop.minutes * max(trays) for stop in stops if stop.by_tray]))
    return max(bounds)


def _work_at(stop, trays):
    return stop.minutes * _total(trays) if stop.by_tray else stop.minutes


def _total(numbers):
    total = 0.0
    for number in numbers:
        total += number
    return total


def waiting_of(turns, people, makespan):
    """Tell how long each person has nothing to do before all is done."""
    worked = [0.0] * people
    for turn in turns:
        worked[turn.person] += turn.end - turn.begin
    return [max(0.0, makespan - minutes) for minutes in worked]
