"""The sixteen goals of the bench, each measured in a browser at three widths. Every check prints its figure.

`make test` runs them with small numbers; `make goals` (HALFTHOU_GOALS=full) with the numbers the goals name.
"""
