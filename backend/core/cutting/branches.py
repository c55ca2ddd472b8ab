"""A branch of the search: a part of all layouts, and the parts that it begins with."""

MOST_CHARGED = 4  # ladders that are paid for once, of which every choice is tried


class Branch:
    """A part of all layouts.

    Takes: bounds, a list of Bound; lying and closed as in Plan.within;
    charge, what is paid once; least, a cost none of it is below; basis, where
    the linear programme begins; rounding, what led here, or None.
    """

    def __init__(self, bounds, lying, closed, charge, least, basis, rounding=None):
        self.bounds = bounds
        self.lying = lying
        self.closed = closed
        self.charge = charge
        self.least = least
        self.basis = basis
        self.rounding = rounding

    def narrowed(self, bounds, lying, basis, rounding=None):
        """Make a part of this branch."""
        kept, added = list(self.bounds), []
        for new in bounds:
            places = [place for place, bound in enumerate(kept) if new.replaces(bound)]
            if places:
                kept[places[0]] = new
            else:
                added.append(new)
        return Branch(kept + added, lying, self.closed, self.charge, self.least, basis, rounding)


def choices_of_charges(plan):
    """List the choices of what is paid for once: [(ladders closed, charge)]; every layout is in one."""
    charges = plan.charges
    charged = [ladder for ladder in range(len(plan.ladders)) if ladder in charges]
    free = [kind for kind in plan.kinds if kind.store is None and kind.ladder not in charges]
    if len(charged) > MOST_CHARGED:
        return [([], 0 if free else min([charges[ladder] for ladder in charged]))]
    choices = [([], 0)]
    for ladder in charged:
        paid = [(closed, charge + charges[ladder]) for closed, charge in choices]
        choices = paid + [(closed + [ladder], charge) for closed, charge in choices]
    return [choice for choice in choices if free or not charged or len(choice[0]) < len(charged)]
