"""A node of the search: a part of all layouts, and the parts that the search begins with."""

MOST_CHARGED = 4  # families that are paid for once, of which every choice is tried


class Node:
    """A part of all layouts.

    Takes: constraints, a list of Constraint; orientations and closed as in Problem.restricted;
    charge, what is paid once; bound, a cost none of it is below; warm_start, where
    the linear programme begins; decision, what led here, or None.
    """

    def __init__(self, constraints, orientations, closed, charge, bound, warm_start, decision=None):
        self.constraints = constraints
        self.orientations = orientations
        self.closed = closed
        self.charge = charge
        self.bound = bound
        self.warm_start = warm_start
        self.decision = decision

    def narrowed(self, constraints, orientations, warm_start, decision=None):
        """Make a part of this node."""
        kept, added = list(self.constraints), []
        for new in constraints:
            places = [place for place, constraint in enumerate(kept) if new.replaces(constraint)]
            if places:
                kept[places[0]] = new
            else:
                added.append(new)
        return Node(kept + added, orientations, self.closed, self.charge, self.bound, warm_start, decision)


def choices_of_charges(problem):
    """List the choices of what is paid for once: [(families closed, charge)]; every layout is in one."""
    charges = problem.charges
    charged = [family for family in range(len(problem.families)) if family in charges]
    free = [
        row_type
        for row_type in problem.row_types
        if row_type.store is None and row_type.family not in charges
    ]
    if len(charged) > MOST_CHARGED:
        return [([], 0 if free else min([charges[family] for family in charged]))]
    choices = [([], 0)]
    for family in charged:
        paid = [(closed, charge + charges[family]) for closed, charge in choices]
        choices = paid + [(closed + [family], charge) for closed, charge in choices]
    return [choice for choice in choices if free or not charged or len(choice[0]) < len(charged)]
