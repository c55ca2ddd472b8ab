"""The kinds of record: what each holds, who may write it, how edits merge.

A *fact* (a sale, a counted line) is appended and never edited; a *description*
(a product, a booking) is edited field by field. Both travel as changes.
"""

from .access import refuse_beyond_role, seen_by
from .checking import KINDS, check, kind_named
from .merging import fold, merge

__all__ = ["KINDS", "check", "fold", "kind_named", "merge", "refuse_beyond_role", "seen_by"]
