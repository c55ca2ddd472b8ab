"""What a report knows of facts."""

from ..records.reader import READERS, once, readable
from ..records.uses import DAY


def known_facts(facts):
    """List the facts that a report knows, each once; what it cannot read is set aside."""
    return once([fact for fact in readable(facts, DAY) if _is_known(fact["kind"])])


def _is_known(kind):
    return kind in READERS and READERS[kind].looks_for(DAY) is not None
