"""A name that refers to something must refer to something that is there."""
from __future__ import annotations

from collections.abc import Container
from difflib import get_close_matches

from .errors import Problems
from .yaml_lines import Lined


def refers(row: Lined, field: str, there: Container[str], what: str, problems: Problems) -> None:
    """A problem, with a near miss where there is one, for each name of a field that is not `there`."""
    names = row[field]
    for name in names if isinstance(names, list) else [names]:
        if name and name not in there:
            near = get_close_matches(name, list(there), 1)  # type: ignore[call-overload]
            hint = f" Did you mean '{near[0]}'?" if near else ""
            problems.add(row.lines.get(field, row.line), f"'{field}' names the {what} '{name}', which is not there.{hint}")
