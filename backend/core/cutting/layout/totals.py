"""What the layouts of all components of a plan come to, and what of it is proven."""

from ...numbers.rounding import at_most
from .placing import length_of


class Totals:
    """What all components come to: found and bound, in mm of bolt or minor units; what is proven.

    Has: paid and paid_bound, the same of what is bought, as the shop cuts it.
    """

    def __init__(self):
        self.found, self.bound = 0.0, 0.0
        self.paid, self.paid_bound = 0, 0
        self.optimal, self.optimal_to_buy = True, True

    def add(self, component, laid, bars):
        """Add a component, its layout as it is laid, and its BarBound or None."""
        found = component.value_of(laid.rows)
        bound = component.with_squaring(component.bound(laid.area) if bars is None else bars.bound)
        if bars is None:
            proven = component.is_proven(found, laid.area)
        else:
            # bars tell nothing of strips left out
            proven = not laid.area and at_most(found, bound)
        bound = found if proven else min(found, bound)
        self.found += found
        self.bound += bound
        self.optimal = self.optimal and proven
        paid, least, proven = _paid(component, laid, found, bound, bars)
        self.paid += paid
        self.paid_bound += least
        self.optimal_to_buy = self.optimal_to_buy and proven


def _paid(component, laid, found, bound, bars):
    # what is paid for the bolts, what is at least, and whether that is proven to be all
    till, paid = component.till, 0
    for number in till.numbers:
        paid += till.price_of_rows(number, length_of(laid.rows[number]))
    if not found:
        return paid, paid, True
    if component.purchase is None:
        # of one bolt the fewest mm are the fewest steps
        number = component.cloth_numbers[component.bolts[0]]
        cloth = till.bolts[number]
        needed = cloth.length_needed(length_of(laid.rows[number]))
        least = cloth.length_to_buy(needed * bound / found)
        proven = least >= cloth.length_to_buy(needed)
        return paid, paid if proven else till.price_of(number, least), proven
    if bars is None:
        least = component.purchase.bound()
    else:
        least = till.raised(max(0.0, bound - len(till.numbers) * till.rounded_off))
    proven = at_most(paid, least)
    return paid, paid if proven else least, proven
