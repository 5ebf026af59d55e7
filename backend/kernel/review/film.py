"""The oil film at the speed and oil chosen: how thin it gets, and what would make it thicker."""
from __future__ import annotations

from ..film import NEEDS, film
from ..limits import limit_of
from ..quantity import write
from ..view.holds import step_of_fit
from ..view.lens import Lens, listed
from .finding import LOOK, NOTE, finding

_WHY = "Where the film is thinner than the roughness of journal and shell together, they touch. Worked out for a steady load and a round bore."
_MICROMETRE = {"num": 1000, "den": 1}
_THOUSANDTHS = {"num": 1000, "den": 1}   # milli-rpm to rpm, uPa.s to mPa.s
_PERCENT = {"num": 10000, "den": 1}      # ppm to %
_PRESSURE = 10 ** 15                     # mPa on a square nanometre to uN
_FINER = 2   # digits more than a clearance is shown with


def findings(lens: Lens) -> list[dict]:
    record = lens.procedure.get("film")
    if not record:
        return []
    stations = _stations(lens, record["clearance"])
    read = [s for s in stations if _value(lens, record["clearance"], s) is not None]
    if not read:
        return []
    missing = _missing(lens, record, read)
    if missing:
        is_or_are = " is" if len(missing) == 1 else " are"
        says = "The oil film cannot be worked out: " + listed(missing) + is_or_are + " not there yet."
        return [_finding(lens, record, NOTE, says, "Read or choose what is missing.", "")]
    return _thinnest(lens, record, [_case(lens, record, s) for s in read])


def _case(lens: Lens, record: dict, station: str) -> dict:
    """What `film` takes, at one station. A load that is a pressure bears on length times diameter."""
    case: dict = {name: _value(lens, record[name], station) for name in NEEDS}
    case["station"] = station
    kind = _kind(lens, record["load"])
    if kind != "choice" and lens.procedure[kind + "s"][record["load"]]["dimension"] == "pressure":
        case["load"] = (case["load"] * case["journal"] * case["length"] + _PRESSURE // 2) // _PRESSURE
    return case


def _thinnest(lens: Lens, record: dict, cases: list[dict]) -> list[dict]:
    """One finding, about the station whose film is thinnest."""
    found, worst = cases[0], None
    for case in cases:
        seen = film(case)
        if seen is None:
            says = "There is no oil film at " + _at(lens, record, case["station"]) + ": a figure it rests on is not above zero."
            return [_finding(lens, record, LOOK, says, "Read the clearance and the bearing again.", case["station"])]
        if worst is None or seen["film"] < worst["film"]:
            found, worst = case, seen
    return [_says(lens, record, found, worst, len(cases))] if worst else []


def _says(lens: Lens, record: dict, case: dict, seen: dict, count: int) -> dict:
    of = ", the thinnest of " + str(count) if count > 1 else ""
    thick = ("less than " if seen["beyond"] else "") + _thickness(lens, seen["film"])
    speed = write(case["speed"], _THOUSANDTHS, 0) + " rpm"
    says = ("Oil film at " + _at(lens, record, case["station"]) + of + ": " + thick + " at " + speed
            + _oil_words(lens, record, case["viscosity"]) + ". The journal runs " + write(seen["eccentricity"], _PERCENT, 0) + " % off centre.")
    return _finding(lens, record, LOOK if seen["beyond"] else NOTE, says, _cure(lens, record, case, seen), case["station"])


def _cure(lens: Lens, record: dict, case: dict, seen: dict) -> str:
    """The next thicker oil, and the end of the clearance's limit, where they thicken the film; worked out, not guessed."""
    words: list[str] = []
    oil = _thicker_oil(lens, record, case["viscosity"])
    if oil:
        words = words + _thicker(lens, "with " + oil["title"], case | {"viscosity": oil["value"]}, seen)
    limit = limit_of(lens.build, lens.procedure["fits"].get(record["clearance"], {"limit": ""})["limit"], case["station"])
    for end in ("low", "aim", "high"):
        if limit and limit[end]:
            by = "with " + lens.shown.full(limit[end], lens.shown.unit("length", "fit")) + " of clearance"
            found = _thicker(lens, by, case | {"clearance": limit[end]}, seen)
            if found:
                words = words + found
                break
    return "Thicker: " + listed(words) + "." if words else ""


def _thicker(lens: Lens, by: str, case: dict, than: dict) -> list[str]:
    """`with SAE 60, 0.060 thou (1.5 µm)`; empty where the film would be no thicker."""
    seen = film(case)
    return [by + ", " + _thickness(lens, seen["film"])] if seen and seen["film"] > than["film"] else []


def _thicker_oil(lens: Lens, record: dict, now: int) -> dict | None:
    """The option of the oil's choice that is thicker than now by the least."""
    choice, _, column = record["viscosity"].partition(".")
    best = None
    for option in (lens.procedure.get("choices") or {}).get(choice, {"options": []})["options"]:
        value = option["values"].get(column) if column else None
        if value is not None and value > now and (best is None or value < best["value"]):
            best = {"title": option["title"], "value": value}
    return best


def _oil_words(lens: Lens, record: dict, viscosity: int) -> str:
    choice = lens.build.choices.get(record["viscosity"].partition(".")[0])
    return (" with " + choice["title"] if choice else "") + " (" + write(viscosity, _THOUSANDTHS, 2) + " mPa·s)"


def _thickness(lens: Lens, value: int) -> str:
    """`0.051 thou (1.3 µm)`: a film is a fraction of the last digit of a clearance."""
    unit = lens.shown.unit("length", "fit")
    fine = lens.procedure["units"][unit]["decimals"] + _FINER
    return lens.shown.full(value, unit, fine) + " (" + write(value, _MICROMETRE, 1) + " µm)"


def _missing(lens: Lens, record: dict, stations: list[str]) -> list[str]:
    """Titles of what is not read or not chosen at any of the stations."""
    out: list[str] = []
    for name in NEEDS:
        if any([_value(lens, record[name], s) is None for s in stations]):
            title = _title(lens, record[name])
            title = title[:1].lower() + title[1:]
            if title not in out:
                out.append(title)
    return out


def _kind(lens: Lens, name: str) -> str:
    if name in lens.procedure["fits"]:
        return "fit"
    return "point" if name in lens.procedure["points"] else "choice"


def _value(lens: Lens, name: str, station: str) -> int | None:
    """The figure of a fit, a point or a column of what was chosen; None while it is not there."""
    kind = _kind(lens, name)
    if kind == "choice":
        choice, _, column = name.partition(".")
        chosen = lens.build.choices.get(choice)
        return chosen["values"].get(column) if chosen else None
    return lens.build.figure_of(kind, name, station)["value"]


def _title(lens: Lens, name: str) -> str:
    kind = _kind(lens, name)
    if kind == "choice":
        return lens.procedure["choices"][name.partition(".")[0]]["title"]
    return lens.procedure[kind + "s"][name]["title"]


def _stations(lens: Lens, name: str) -> list[str]:
    kind = _kind(lens, name)
    return [""] if kind == "choice" else lens.build.stations(lens.procedure[kind + "s"][name]["group"])


def _at(lens: Lens, record: dict, station: str) -> str:
    kind = _kind(lens, record["clearance"])
    group = lens.procedure[kind + "s"][record["clearance"]]["group"]
    return lens.station_title(group, station) or "the bearing"


def _finding(lens: Lens, record: dict, level: str, says: str, cure: str, station: str) -> dict:
    return finding("film", level, says, _WHY, cure, step_of_fit(lens.procedure, record["clearance"]), record["clearance"], station)
