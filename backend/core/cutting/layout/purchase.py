"""The layout that is paid least at the till where there are several bolts, and a proof of that.

What a bolt costs goes up in steps: those the shop cuts, and the least it cuts. So a layout of
least cloth may cost more than another. A node of this search says which bolts are used, each
at least once, and of some of them how many steps are bought: then such a bolt is a remnant,
and with one bolt left to choose the search for rows tells exactly what of that is to be bought.
Steps from some number to another are worked on together, as if so much could be cut as the
most of them give for what the fewest of them cost; they are parted until that proves something.
"""

from ...numbers.rounding import at_most, floor
from ..rows.problem import rank
from .placing import Laid, length_of

SLICE = 1000  # effort after which a node waits for others that promise as much
ROOT = 2  # nodes of the search for rows after which its bound says what it can


UNUSED = (0, 0)


class Node:
    """A part of all purchases.

    Takes: spans, for each bolt of the till (fewest, most) steps of it, UNUSED, or None for any;
    bound, (area left out, price): no layout of it is below.
    Has: component, its strips and bolts, None until it is worked on; slice, the effort it has.
    """

    def __init__(self, spans, bound):
        self.spans, self.bound = spans, bound
        self.component, self.layout, self.proven = None, None, None
        self.slice, self.taken = SLICE, 0

    def undecided(self):
        """List the places of the bolts of which any length may be bought."""
        return [place for place, span in enumerate(self.spans) if span is None]

    def widest(self):
        """Find the place of the bolt whose steps are least decided; None where all are."""
        best, widest = None, 0
        for place, span in enumerate(self.spans):
            if span is not None and span[1] - span[0] > widest:
                best, widest = place, span[1] - span[0]
        return best

    def with_span(self, place, span):
        """List the spans with another one."""
        return self.spans[:place] + [span] + self.spans[place + 1 :]


class Purchase:
    """The search for what is paid least, a little at a time.

    Takes: component, with several bolts; till.
    Has: found, the best layout so far, laid; key, by which layouts are compared: (area left
    out, price, worth of the cloth, rank of equal ones); done; effort.
    The search that counts every mm alike may find more after this one's last step: `best` and
    `is_least_cloth` look at that too.
    """

    def __init__(self, component, till):
        self.component, self.till = component, till
        self.effort, self.done = 1, False
        self.found, self.key, self.seen, self.node = None, None, None, None
        self.unresolved = []
        self.nodes = []
        self._look_at_rows()
        self._wait(Node([UNUSED] * len(till.numbers), (0, 0)))

    def _least_price(self, spans, undecided=True):
        price = 0
        for number, span in zip(self.till.numbers, spans):
            if span is not None and span[0]:
                price += self.till.price_of_steps(number, span[0])
            elif span is None and undecided:
                price += self.till.price_of_steps(number, self.till.least[number])
        return price

    def _wait(self, node, next_of_equals=True):
        # in order of their bounds, the least at the end
        low, high = 0, len(self.nodes)
        while low < high:
            middle = (low + high) // 2
            bound = self.nodes[middle].bound
            if bound < node.bound or bound == node.bound and not next_of_equals:
                high = middle
            else:
                low = middle + 1
        self.nodes.insert(low, node)

    def bound(self):
        """Return what no layout that leaves out as little is paid less for."""
        area, price = self.key[:2]
        for node in self.nodes[-1:] + [self.node] + self.unresolved:
            if node is not None and not self._is_beaten(node.bound):
                price = min(price, node.bound[1] if node.bound[0] == area else 0)
        return price

    def _is_beaten(self, bound):
        area, price = self.key[:2]
        return bound[0] > area or bound[0] == area and at_most(price, bound[1])

    def step(self):
        """Do a little of the work."""
        self.effort += 1
        self._look_at_rows()
        if self.node is None and self.nodes and not self._is_beaten(self.nodes[-1].bound):
            self.node = self.nodes.pop()
        if self.node is None:
            self.nodes, self.done = [], True
        elif self._is_beaten(self.node.bound):
            self.node = None
        elif self.node.component is None:
            self._begin(self.node)
        else:
            self._work_on(self.node)

    # layouts

    def _look_at_rows(self):
        # the search that counts every mm alike finds good ones, too
        layout = self.component.search.layout
        if layout is not self.seen:
            self.seen = layout
            self._offer(self.component, layout)

    def _offer(self, component, layout):
        laid, key = self._compared(component, layout)
        if self.found is None or key < self.key:
            self.found, self.key = laid, key

    def _compared(self, component, layout):
        # (a layout as it is laid, by what it is compared)
        laid = Laid(component, layout)
        price = 0
        for number in self.till.numbers:
            laid.rows[number] = laid.rows.get(number, [])
            price += self.till.price_of_rows(number, length_of(laid.rows[number]))
        value = self.component.value_of(laid.rows)
        return laid, (laid.area, price, value) + rank(component.search.problem, layout)[1:]

    def best(self):
        """Return the best layout there is, laid."""
        laid, key = self._compared(self.component, self.component.search.layout)
        return laid if key < self.key else self.found

    def is_least_cloth(self, value, area):
        """Say whether a layout is as good as that of the search that counts every mm alike."""
        _, key = self._compared(self.component, self.component.search.layout)
        return area == key[0] and at_most(value, key[2])

    # one node

    def _begin(self, node):
        lengths = {}
        for number, span in zip(self.till.numbers, node.spans):
            if span is None:
                lengths[number] = None
            elif span != UNUSED:
                lengths[number] = self.till.usable_length(number, span[1])
        node.component = self.component.with_bolts(lengths)
        self.effort += 20
        # more bolts cost more: each is added after those before it
        for place in range(len(node.spans) - 1, -1, -1):
            if node.spans[place] != UNUSED:
                break
            spans = node.with_span(place, None)
            self._wait(Node(spans, (0, self._least_price(spans))))

    def _work_on(self, node):
        search = node.component.search
        before = search.effort
        search.step()
        self.effort += search.effort - before
        node.taken += search.effort - before
        if search.layout is not None and search.layout is not node.layout:
            node.layout = search.layout
            self._offer(node.component, node.layout)
        if search.bound != node.proven:
            node.proven = search.bound
            node.bound = max(node.bound, self._bound_of(node))
        if self._is_beaten(node.bound):
            self.node = None
        elif search.done or search.explored >= ROOT and not self._is_last(node):
            self.node = None
            self._part(node)
        elif node.taken >= node.slice:
            node.slice, node.taken = 2 * node.slice, 0
            self.node = None
            self._wait(node, next_of_equals=False)

    def _is_last(self, node):
        return node.widest() is None and len(node.undecided()) < 2

    def _bound_of(self, node):
        # (area left out, price) that no layout of the node is below
        component = node.component
        area = component.search.bound // component.left_out_cost
        worth = component.worth_of_rows(component.search.bound - area * component.left_out_cost)
        price = self._least_price(node.spans, undecided=False)
        bolts = component.bolts
        if len(bolts) == 1:
            number, own = component.cloth_numbers[bolts[0]], worth / component.rates[bolts[0]]
            least = self.till.price_of_steps(number, self.till.least[number])
            return area, price + max(least, self.till.price_of_rows(number, own))
        for index in bolts:
            worth += component.rates[index] * component.cloths[index].squaring - self.till.rounded_off
        return area, self.till.raised(price + max(0.0, worth))

    # its parts

    def _part(self, node):
        place, undecided = node.widest(), node.undecided()
        if place is not None:
            low, high = node.spans[place]
            middle = (low + high) // 2
            self._add(node, place, low, middle)
            self._add(node, place, middle + 1, high)
        elif len(undecided) > 1:
            best, fewest = None, 0
            for place in undecided:
                count = self._most_steps(node, place) - self.till.least[self.till.numbers[place]]
                if best is None or count < fewest:
                    best, fewest = place, count
            if fewest >= 0:
                least = self.till.least[self.till.numbers[best]]
                self._add(node, best, least, least + fewest)
        else:
            # the search for rows has left a node undecided
            self.unresolved.append(node)

    def _add(self, node, place, low, high):
        spans = node.with_span(place, (low, high))
        self._wait(Node(spans, max(node.bound, (node.bound[0], self._least_price(spans)))))

    def _most_steps(self, node, place):
        # more hold nothing more, or cost more than the best layout
        number = self.till.numbers[place]
        cloth, longest = self.till.bolts[number], 0.0
        for strip, count in zip(self.component.strips, self.component.demand):
            longest += count * cloth.row_height(max(strip["length"], strip["width"]) + 2 * cloth.loss)
        most = floor(cloth.length_needed(longest) / cloth.given["shop_increment"]) + 1
        if node.bound[0] < self.key[0]:
            return most
        others = self._least_price(node.with_span(place, UNUSED))
        low = self.till.least[number] - 1
        while low < most:
            middle = (low + most + 1) // 2
            if at_most(self.key[1], others + self.till.price_of_steps(number, middle)):
                most = middle - 1
            else:
                low = middle
        return low
