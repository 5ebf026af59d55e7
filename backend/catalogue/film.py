"""Where the oil film of a bearing finds its figures.

Law: each is a point or a fit of the right dimension; the viscosity may be a column of what was chosen.
"""
from __future__ import annotations

from .errors import Problems
from .known import leaves_of
from .unit_table import a
from .yaml_lines import Lined

# Load: a force, or a pressure over the bearing's projected area.
WANTED = {"clearance": ("length",), "journal": ("length",), "length": ("length",), "load": ("force", "pressure"),
          "viscosity": ("viscosity",), "speed": ("speed",)}


def check_film(proc: Lined, problems: Problems) -> None:
    """Every name of `film` is there and of a dimension that it can be."""
    film = proc["film"]
    if not film:
        return
    known = {name: leaf.dimension for (kind, name), leaf in leaves_of(proc).items() if kind in ("point", "choice")}
    known |= {name: fit["dimension"] for name, fit in proc["fits"].items()}
    for field, wanted in WANTED.items():
        found = known.get(film[field])
        if found is None:
            problems.add(film.lines[field], f"'{field}' of the film names '{film[field]}', which is no point, fit or column of a choice.")
        elif found not in wanted:
            problems.add(film.lines[field], f"'{field}' of the film is '{film[field]}', {a(found)}, not {' or '.join(a(one) for one in wanted)}.")
