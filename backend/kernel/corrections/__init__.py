"""Corrections: what would bring a misfit in, worked out from the parts on hand.

Law: pure functions over plain integers (lengths in nanometres). Nothing here knows events, procedures or screens,
so any proposal can be checked with paper and a pencil. The same input gives the same answer on every machine:
ties are always settled by a written rule, never by the order of a dict.

assignment  the optimal assignment            walls     what readings teach about shell walls
shells      proposals for bearing shells      shims     the shim stack for an end play
behind shells: bench (who sits where), judging (how good a set is), shell_search (the fewest moves), shell_effort and
redeal (the best that can be done), to_order (what would have to be bought)
"""
