"""What comes before what.

Law: an order is stable (as written, save where something must come first), and a circle is named in words.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence


def circle(before: Mapping[str, Sequence[str]]) -> list[str]:
    """The first circle found, as [a, b, c, a]: a needs b, b needs c, c needs a. Empty when there is none."""
    done: set[str] = set()
    for start in before:
        found = _walk(start, before, [], done)
        if found:
            return found
    return []


def _walk(name: str, before: Mapping[str, Sequence[str]], path: list[str], done: set[str]) -> list[str]:
    if name in path:
        return path[path.index(name):] + [name]
    if name in done:
        return []
    for one in before.get(name, ()):
        found = _walk(one, before, path + [name], done)
        if found:
            return found
    done.add(name)
    return []


def all_before(name: str, before: Mapping[str, Sequence[str]]) -> list[str]:
    """Everything that comes before `name`, at any distance, nearest first. Circles do no harm."""
    found: list[str] = []
    todo = list(before.get(name, ()))
    while todo:
        one = todo.pop(0)
        if one not in found:
            found.append(one)
            todo.extend(before.get(one, ()))
    return found


def in_order(before: Mapping[str, Sequence[str]]) -> list[str]:
    """Names so that each follows what it needs; otherwise as written. There must be no circle."""
    out: list[str] = []
    left = list(before)
    while left:
        ready = next(n for n in left if all(b in out for b in before[n] if b in before))
        out.append(ready)
        left.remove(ready)
    return out


def in_words(names: Sequence[str], verb: str) -> str:
    """'a waits for b, b waits for c, c waits for a'."""
    return ", ".join(f"{a} {verb} {b}" for a, b in zip(names, names[1:], strict=False))
