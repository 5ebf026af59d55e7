"""What is wrong with a procedure file.

Law: a bad file is refused whole, with every problem found, each with its file, line and a plain sentence.
"""
from __future__ import annotations

from typing import NamedTuple


class Problem(NamedTuple):
    """One thing wrong: `line` counts from 1, `says` is a sentence that says what to do."""

    file: str
    line: int
    says: str

    def __str__(self) -> str:
        return f"{self.file}, line {self.line}: {self.says}"


class ProcedureError(Exception):
    """A procedure file that cannot be used. `problems` are in order of line."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = sorted(problems, key=lambda p: (p.file, p.line))
        super().__init__("\n".join(str(p) for p in self.problems))


class Problems:
    """Collects problems of one file, so that a writer sees them all at once."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.found: list[Problem] = []

    def add(self, line: int, says: str) -> None:
        problem = Problem(self.file, line, says)
        if problem not in self.found:
            self.found.append(problem)

    def stop_if_any(self) -> None:
        """Raises ProcedureError when something was found: later checks would only stumble over it."""
        if self.found:
            raise ProcedureError(self.found)
