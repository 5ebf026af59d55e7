"""The ledger of revisions: one line each, `id revision digest`.

Law: the same id and revision always means the same bytes. A change is a new revision; a line is added, never altered.
"""
from __future__ import annotations

from pathlib import Path
from typing import Any

from .errors import Problem, ProcedureError

Key = tuple[str, int]


def read_ledger(path: Path) -> dict[Key, str]:
    """Digest by (id, revision). Raises ProcedureError for a line that is not three words."""
    out: dict[Key, str] = {}
    lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
    for number, line in enumerate(lines, 1):
        words = line.split()
        if len(words) != 3 or not words[1].isdigit():
            raise ProcedureError([Problem(path.name, number, "A line of the ledger is: id, revision, digest.")])
        out[(words[0], int(words[1]))] = words[2]
    return out


def key_of(compiled: dict[str, Any]) -> Key:
    """What a build names: procedure and revision."""
    return compiled["procedure"], compiled["revision"]


def check_against(ledger: dict[Key, str], compiled: dict[str, Any], file: str) -> None:
    """Raises ProcedureError when this id and revision stand in the ledger with another digest."""
    known = ledger.get(key_of(compiled))
    if known and known != compiled["digest"]:
        name, revision = key_of(compiled)
        raise ProcedureError([Problem(file, 1, f"{name} revision {revision} was changed after it was entered in the "
                                               f"ledger. Put it back, and make the change as revision {revision + 1} "
                                               "in a file of its own.")])


def enter(path: Path, compiled: dict[str, Any], file: str) -> bool:
    """Adds a line for a new revision; False when it was there already. Raises ProcedureError as above."""
    ledger = read_ledger(path)
    check_against(ledger, compiled, file)
    if key_of(compiled) in ledger:
        return False
    name, revision = key_of(compiled)
    with path.open("a", encoding="utf-8") as out:
        out.write(f"{name} {revision} {compiled['digest']}\n")
    return True
