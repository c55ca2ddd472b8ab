"""Which facts money is worked out from: the store and the phones gather these for it."""

from ..records.checking import KINDS
from ..records.kinds import LEFT_OUT


def with_voids(*kinds):
    """List kinds of fact, and after them those by which one of theirs never happened."""
    voiding = [kind.name for kind in KINDS if kind.voids and kind.field(kind.voids).links in kinds]
    return list(kinds) + voiding + [LEFT_OUT]


# what works it out: the kinds of fact that it reads; the ledger is under all that markets and years came to
FACTS_READ = {
    "goods_costs": with_voids("cut", "batch-result", "purchase"),
    "cost_of_goods": with_voids("cut", "batch-step", "batch-result", "work-time", "purchase", "wage-set"),
    "ledger": with_voids("expense", "work-time", "wage-set", "purchase"),
    "next_sewing": with_voids("batch-step", "batch-result", "wage-set"),
}
