"""Commands for people who write procedures.

    python -m catalogue check FILE...     print what is wrong, with file and line; exit 1 if anything is
    python -m catalogue json FILE         print the compiled JSON
    python -m catalogue enter FILE        enter a new revision in the ledger
"""
from __future__ import annotations

import json
import sys
from typing import Any

from .errors import ProcedureError
from .ledger import enter
from .library import LEDGER, compile_file


def main(arguments: list[str]) -> int:
    """Exit code: 0 good, 1 a file was refused, 2 not a command."""
    command, files = (arguments[0], arguments[1:]) if arguments else ("", [])
    if command not in COMMANDS or not files:
        print(__doc__, file=sys.stderr)
        return 2
    results = [_try(COMMANDS[command], file) for file in files]
    return 0 if all(results) else 1


def _try(act: Any, file: str) -> bool:
    try:
        print(act(file, compile_file(file)))
    except ProcedureError as error:
        print(error, file=sys.stderr)
        return False
    return True


def _check(file: str, compiled: dict[str, Any]) -> str:
    return f"{file}: good. {compiled['title']}, revision {compiled['revision']}, {len(compiled['steps'])} steps."


def as_json(compiled: dict[str, Any]) -> str:
    """Compiled JSON for people and tests: sorted keys, one space of indent."""
    return json.dumps(compiled, indent=1, sort_keys=True, ensure_ascii=False)


def _enter(file: str, compiled: dict[str, Any]) -> str:
    added = enter(LEDGER, compiled, file)
    return f"{file}: {'entered' if added else 'was entered already'}."


COMMANDS = {"check": _check, "json": lambda file, compiled: as_json(compiled), "enter": _enter}

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
