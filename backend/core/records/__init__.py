"""The kinds of record: what each holds, who may write it, how edits merge.

A *fact* (a sale, a counted line) is appended and never edited; a *description*
(a product, a booking) is edited field by field. Both travel as changes.
"""
