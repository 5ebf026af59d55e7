"""Something that cannot be used, told in a sentence.

Law: what went wrong is a key and its parts, so that it can be said in any language; `str()` says it in the everyday one.
"""
from __future__ import annotations

from .words import EVERYDAY, said_in


class Sentence(ValueError):
    """Raised with the key of a sentence in `words/` and what fills its places."""

    def __init__(self, key: str, **parts: object):
        super().__init__(said_in(EVERYDAY)[key].format(**parts))
        self.key, self.parts = key, parts


class BadNumber(Sentence):
    """Text that is not a number a gauge could show."""


class Refused(Sentence):
    """An event that cannot be applied."""
