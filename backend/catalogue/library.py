"""The procedures there are.

Law: everything in procedures/ compiles and agrees with the ledger, or nothing is served.
"""
from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import Any

from .compile import compile_text
from .errors import Problem, ProcedureError
from .ledger import Key, check_against, key_of, read_ledger

PROCEDURES = Path(__file__).parent / "procedures"
LEDGER = PROCEDURES / "LEDGER"


def compile_file(path: Path | str) -> dict[str, Any]:
    """One file compiled. Raises ProcedureError; a file that cannot be read is one too."""
    path = Path(path)
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise ProcedureError([Problem(str(path), 1, "There is no such file.")]) from None
    except (OSError, UnicodeDecodeError) as error:
        raise ProcedureError([Problem(str(path), 1, f"This file cannot be read as text: {error}.")]) from error
    return compile_text(text, str(path))


def load_folder(folder: Path, ledger_path: Path) -> dict[Key, dict[str, Any]]:
    """Every *.yaml of a folder by (id, revision), held against a ledger. Raises ProcedureError with all problems."""
    out: dict[Key, dict[str, Any]] = {}
    ledger = read_ledger(ledger_path)
    problems: list[Problem] = []
    for path in sorted(folder.glob("*.yaml")):
        try:
            _add(out, compile_file(path), ledger, str(path))
        except ProcedureError as error:
            problems.extend(error.problems)
    if problems:
        raise ProcedureError(problems)
    return out


def _add(out: dict[Key, dict[str, Any]], compiled: dict[str, Any], ledger: dict[Key, str], file: str) -> None:
    name, revision = key_of(compiled)
    if (name, revision) in out:
        raise ProcedureError([Problem(file, 1, f"{name} revision {revision} is in another file as well.")])
    check_against(ledger, compiled, file)
    out[(name, revision)] = compiled


@lru_cache(maxsize=1)
def load_all() -> dict[Key, dict[str, Any]]:
    """The procedures this server has, compiled once a process. Treat them as read-only."""
    return load_folder(PROCEDURES, LEDGER)
