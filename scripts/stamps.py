"""Stamps: a step of the set-up is skipped when the files it depends on have not changed since it last succeeded.

The stamp is a digest of contents, not of times, so a fresh clone, a touched file or a changed branch all do the right thing.
"""

import hashlib
from collections.abc import Iterable
from pathlib import Path

from places import ROOT, STAMPS

SKIP = {"node_modules", "__pycache__", "dist", ".vite", "coverage", "test-results", ".mypy_cache", "static_built"}


def files_under(*roots: Path) -> list[Path]:
    """Every file below the given files and folders, in a fixed order, without built or fetched ones."""
    found = []
    for root in roots:
        if root.is_file():
            found.append(root)
        elif root.is_dir():
            found += [p for p in root.rglob("*") if p.is_file() and not SKIP & set(p.relative_to(root).parts)]
    return sorted(found)


def digest(paths: Iterable[Path], *also: str) -> str:
    total = hashlib.sha256()
    for path in paths:
        total.update(str(path.relative_to(ROOT)).encode() + b"\0")
        total.update(hashlib.sha256(path.read_bytes()).digest())
    for text in also:
        total.update(text.encode() + b"\0")
    return total.hexdigest()


def is_fresh(name: str, value: str, *made: Path) -> bool:
    """True when the step `name` last succeeded with this digest and what it made is still there."""
    stamp = STAMPS / name
    return stamp.exists() and stamp.read_text() == value and all(p.exists() for p in made)


def remember(name: str, value: str) -> None:
    STAMPS.mkdir(parents=True, exist_ok=True)
    (STAMPS / name).write_text(value)


def forget(name: str) -> None:
    (STAMPS / name).unlink(missing_ok=True)
