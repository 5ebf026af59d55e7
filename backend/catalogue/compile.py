"""From YAML text to the JSON the kernel reads (docs/design/procedure-format.md).

Law: a file is compiled whole or refused whole, and the same text always gives the same bytes.
"""
from __future__ import annotations

import hashlib
import re
from typing import Any

from kernel.canon import canon

from . import choices, corrects, figures, limits, units
from .errors import Problems
from .fields import read_procedure
from .film import check_film
from .fits import set_fits
from .flow import put_in_order
from .reach import set_reach
from .references import check_references
from .tables import Tables, load_tables
from .yaml_lines import Lined, load

PROCEDURE_ID = re.compile(r"[a-z][a-z0-9-]{1,39}")


def compile_text(text: str, file: str, tables: Tables | None = None) -> dict[str, Any]:
    """The compiled procedure. `file` is the name problems are reported under; `tables` the reference tables, those of this
    folder unless given. Raises ProcedureError."""
    problems = Problems(file)
    proc = read_procedure(load(text, problems), 1, "procedure", problems)
    if not PROCEDURE_ID.fullmatch(proc["procedure"]):
        problems.add(1, f"'procedure' must be small letters, digits and hyphens, not '{proc['procedure']}'.")
    problems.stop_if_any()
    _check(proc, tables or load_tables(), problems)
    out = _plain(proc)
    out["digest"] = digest(out)
    return out


def _check(proc: Lined, tables: Tables, problems: Problems) -> None:
    corrects.list_corrects(proc)
    check_references(proc, problems)
    figures.set_bands(proc["points"], problems)
    figures.set_bands(proc["parts"], problems)
    figures.set_passes(proc["steps"], problems)
    choices.set_choices(proc, tables, problems)
    choices.check_asked(proc, problems)
    found = limits.limits_of(proc, tables, problems)
    limits.every_duty(found, problems)
    problems.stop_if_any()
    set_fits(proc, problems)
    limits.match_fits(proc, found, problems)
    limits.set_units(proc, found, problems)
    corrects.set_figures(proc, problems)
    check_film(proc, problems)
    put_in_order(proc, found, problems)
    problems.stop_if_any()
    set_reach(proc)
    proc["limits"] = found
    proc["units"] = units.offered(_dimensions(proc))


def _dimensions(proc: Lined) -> set[str]:
    found = {row["dimension"] for table in ("points", "fits", "parts") for row in proc[table].values()}
    found |= {dimension for choice in proc["choices"].values() for dimension in choice["columns"].values()}
    return found | {kind for step in proc["steps"] if step["torque"] for kind in step["torque"]["pass_kinds"]}


def _plain(proc: Lined) -> dict[str, Any]:
    out = _copy(proc)
    out.pop("shop")
    for rows in out["limits"].values():
        for row in rows:
            for aside in ("dimension", "plus_dimension", "unit"):
                row.pop(aside)
    return out


def _copy(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _copy(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_copy(item) for item in value]
    return value


def digest(compiled: dict[str, Any]) -> str:
    """SHA-256 of the canonical JSON, the digest itself left out."""
    rest = {key: value for key, value in compiled.items() if key != "digest"}
    return hashlib.sha256(canon(rest).encode("utf-8")).hexdigest()
