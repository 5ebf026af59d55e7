"""Where the oil film of a bearing finds its figures: the procedure's `film` names points, fits and what was chosen."""
from __future__ import annotations

from ..film import NEEDS
from ..view.lens import Lens

_PRESSURE = 10 ** 15   # mPa on a square nanometre to uN


def case_at(lens: Lens, record: dict, station: str) -> dict:
    """What `film.film` takes, and the station. A load that is a pressure bears on length times diameter."""
    case: dict = {name: value_of(lens, record[name], station) for name in NEEDS}
    case["station"] = station
    kind = _kind(lens, record["load"])
    if kind != "choice" and lens.procedure[kind + "s"][record["load"]]["dimension"] == "pressure":
        case["load"] = (case["load"] * case["journal"] * case["length"] + _PRESSURE // 2) // _PRESSURE
    return case


def missing(lens: Lens, record: dict, stations: list[str]) -> list[str]:
    """Titles of what is not read or not chosen at one of the stations, in small letters, each once."""
    out: list[str] = []
    for name in NEEDS:
        if any([value_of(lens, record[name], s) is None for s in stations]):
            title = _title(lens, record[name])
            title = title[:1].lower() + title[1:]
            if title not in out:
                out.append(title)
    return out


def value_of(lens: Lens, name: str, station: str) -> int | None:
    """The figure of a fit, a point or a column of what was chosen; None while it is not there."""
    kind = _kind(lens, name)
    if kind == "choice":
        choice, _, column = name.partition(".")
        chosen = lens.build.choices.get(choice)
        return chosen["values"].get(column) if chosen else None
    return lens.build.figure_of(kind, name, station)["value"]


def bearings(lens: Lens, record: dict) -> list[str]:
    """The stations of the clearance."""
    return lens.build.stations(_group(lens, record))


def where(lens: Lens, record: dict, station: str) -> str:
    """`main 3`; a single bearing is just that."""
    return lens.station_title(_group(lens, record), station) or lens.say("film_bearing")


def _group(lens: Lens, record: dict) -> str:
    return lens.procedure[_kind(lens, record["clearance"]) + "s"][record["clearance"]]["group"]


def _kind(lens: Lens, name: str) -> str:
    if name in lens.procedure["fits"]:
        return "fit"
    return "point" if name in lens.procedure["points"] else "choice"


def _title(lens: Lens, name: str) -> str:
    kind = _kind(lens, name)
    if kind == "choice":
        return lens.procedure["choices"][name.partition(".")[0]]["title"]
    return lens.procedure[kind + "s"][name]["title"]
