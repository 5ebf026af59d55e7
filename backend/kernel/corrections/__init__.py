"""Corrections: what would bring a misfit in, worked out from the parts on hand.

Law: pure functions over plain integers (lengths in nanometres). Nothing here knows events, procedures or screens,
so any proposal can be checked with paper and a pencil. The same input gives the same answer on every machine:
ties are always settled by a written rule, never by the order of a dict.

assignment  the optimal assignment            walls     what readings teach about shell walls
shells      proposals for bearing shells      shims     the shim stack for an end play
match       parts that change places          swap      another part from the shelf
cut         an order to the machine shop      rings     the filing plan of a ring gap
buckets     the shuffle of bucket shims       springs   stacks that restore installed height
length      the nearest length to order       turns     turns of an adjusting screw
bobweight   what stands for rod and piston    timing    what openings and closings say about a cam
ops         all of these behind the door, with plain numbers

behind shells: bench (who sits where), judging (how good a set is), shell_search (the fewest moves), shell_effort and
redeal (the best that can be done), to_order (what would have to be bought)
behind match: windows over seating, an assignment that stays optimal while its costs change
behind swap and cut: one_size (the size that brings several figures in)
behind springs: spring_stacks (what can be made), spring_sharing (who gets what), spring_fill (where there is too much choice)
behind several: within (one figure against its limits)
"""
