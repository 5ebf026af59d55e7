"""The record: append-only events, the builds they belong to, and projections that can be thrown away and rebuilt.

Services write, selectors read.
"""
