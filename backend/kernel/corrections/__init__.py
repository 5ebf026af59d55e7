"""Corrections: what would bring a misfit in, worked out from the parts on hand.

Law: pure functions over plain integers (lengths in nanometres). Nothing here knows events, procedures or screens,
so any proposal can be checked with paper and a pencil. The same input gives the same answer on every machine:
ties are always settled by a written rule, never by the order of a dict.
"""
