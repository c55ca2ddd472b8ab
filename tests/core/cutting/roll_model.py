"""The fewest rolls for lengths of elastic, by a model that knows nothing of the search.

It lists every filling of every roll and lets HiGHS choose how many rolls to cut by each.
"""

from itertools import product

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp


def fewest_rolls(lengths, rolls, free=(), prices=None):
    """Solve for the fewest rolls; None where they do not reach.

    Takes: lengths, [(length, quantity)]; rolls, [(length, count or None)]; free, the
    numbers of rolls that are not counted; prices, what each roll costs, where that is to be least.
    """
    columns = [
        (roll, counts)
        for roll, (room, _) in enumerate(rolls)
        for counts in product(
            *[range(min(quantity, int(room // length)) + 1) for length, quantity in lengths]
        )
        if sum(count * length for count, (length, _) in zip(counts, lengths, strict=True)) <= room
    ]
    held = np.array([counts for _, counts in columns]).T
    taken = np.array([[roll == one for one, _ in columns] for roll in range(len(rolls))])
    solved = milp(
        np.array([prices[roll] if prices else roll not in free for roll, _ in columns], dtype=float),
        constraints=[
            LinearConstraint(held, lb=[quantity for _, quantity in lengths]),
            LinearConstraint(taken, ub=[np.inf if count is None else count for _, count in rolls]),
        ],
        integrality=np.ones(len(columns)),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0},
    )
    return round(solved.fun) if solved.success else None
