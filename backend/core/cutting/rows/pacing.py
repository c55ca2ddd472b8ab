"""How often a better layout is looked for: the less often, the longer none was found."""

SOON, LATE = 4, 32  # nodes from one time to the next, at first and at last
WIDE = 100  # a gap above the cost by this is wide: then it is the layout that may be poor


def is_wide(cost, bound):
    """Say whether a cost is far above what none is below."""
    return (cost - bound) * WIDE > cost


class Pace:
    """After how many nodes it is time to look for a better layout again."""

    def __init__(self):
        self.next, self.pause = 0, SOON

    def is_due(self, nodes):
        """Say whether it is time, after so many nodes."""
        return nodes >= self.next

    def tried(self, nodes, hopeful):
        """Take in that it was looked for; soon again where that is hopeful."""
        self.pause = SOON if hopeful else min(2 * self.pause, LATE)
        self.next = nodes + self.pause
