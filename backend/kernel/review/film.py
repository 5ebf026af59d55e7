"""The oil film at the speed and oil chosen: how thin it gets, and what would make it thicker."""
from __future__ import annotations

from ..film import film
from ..limits import limit_of
from ..quantity import write
from ..view.holds import step_of_fit
from ..view.lens import Lens
from .bearing import bearings, case_at, missing, value_of, where
from .finding import LOOK, NOTE, finding

_MICROMETRE = {"num": 1000, "den": 1}
_THOUSANDTHS = {"num": 1000, "den": 1}   # milli-rpm to rpm, uPa.s to mPa.s
_PERCENT = {"num": 10000, "den": 1}      # ppm to %
_FINER = 2   # digits more than a clearance is shown with


def findings(lens: Lens) -> list[dict]:
    """One finding, about the bearing whose film is thinnest; none before a clearance is read."""
    record = lens.procedure.get("film")
    read = [s for s in bearings(lens, record) if value_of(lens, record["clearance"], s) is not None] if record else []
    if not record or not read:
        return []
    lacks = missing(lens, record, read)
    if lacks:
        says = lens.say("film_lacks" if len(lacks) == 1 else "film_lack", what=lens.listed(lacks))
        return [_finding(lens, record, NOTE, says, lens.say("cure_film_lacks"), "")]
    return [_thinnest(lens, record, [case_at(lens, record, s) for s in read])]


def _thinnest(lens: Lens, record: dict, cases: list[dict]) -> dict:
    found, worst = cases[0], None
    for case in cases:
        seen = film(case)
        if seen is None:
            says = lens.say("film_none", where=where(lens, record, case["station"]))
            return _finding(lens, record, LOOK, says, lens.say("cure_film_none"), case["station"])
        if worst is None or seen["film"] < worst["film"]:
            found, worst = case, seen
    return _told(lens, record, found, worst or {}, len(cases))


def _told(lens: Lens, record: dict, case: dict, seen: dict, count: int) -> dict:
    thick = _thickness(lens, seen["film"])
    parts = {"where": where(lens, record, case["station"]), "speed": write(case["speed"], _THOUSANDTHS, 0),
             "thick": lens.say("film_less", thick=thick) if seen["beyond"] else thick, "oil": _oil(lens, record, case["viscosity"]),
             "off": write(seen["eccentricity"], _PERCENT, 0)}
    says = lens.say("film_of", count=count, **parts) if count > 1 else lens.say("film", **parts)
    return _finding(lens, record, LOOK if seen["beyond"] else NOTE, says, _cure(lens, record, case, seen), case["station"])


def _oil(lens: Lens, record: dict, viscosity: int) -> str:
    """`SAE 30 (2.90 mPa·s)`; the viscosity alone where it was read and not chosen."""
    choice = lens.build.choices.get(record["viscosity"].partition(".")[0])
    shown = write(viscosity, _THOUSANDTHS, 2) + " mPa·s"
    return choice["title"] + " (" + shown + ")" if choice else shown


def _thickness(lens: Lens, value: int) -> str:
    """`0.051 thou (1.3 µm)`: a film is a fraction of the last digit of a clearance."""
    unit = lens.shown.unit("length", "fit")
    fine = lens.procedure["units"][unit]["decimals"] + _FINER
    return lens.shown.full(value, unit, fine) + " (" + write(value, _MICROMETRE, 1) + " µm)"


def _cure(lens: Lens, record: dict, case: dict, seen: dict) -> str:
    """The next thicker oil, and the end of the clearance's limit, where they thicken the film; worked out, not guessed."""
    ways: list[str] = []
    oil = _thicker_oil(lens, record, case["viscosity"])
    if oil:
        ways = ways + _way(lens, "thicker_oil", {"oil": oil["title"]}, case | {"viscosity": oil["value"]}, seen)
    limit = limit_of(lens.build, lens.procedure["fits"].get(record["clearance"], {"limit": ""})["limit"], case["station"])
    for end in ("low", "aim", "high"):
        if limit and limit[end]:
            shown = lens.shown.full(limit[end], lens.shown.unit("length", "fit"))
            found = _way(lens, "thicker_clearance", {"clearance": shown}, case | {"clearance": limit[end]}, seen)
            if found:
                ways = ways + found
                break
    return lens.say("thicker", ways=lens.listed(ways)) if ways else ""


def _way(lens: Lens, key: str, parts: dict, case: dict, than: dict) -> list[str]:
    """`with SAE 60, 0.060 thou (1.5 µm)`; empty where the film would be no thicker."""
    seen = film(case)
    return [lens.say(key, thick=_thickness(lens, seen["film"]), **parts)] if seen and seen["film"] > than["film"] else []


def _thicker_oil(lens: Lens, record: dict, now: int) -> dict | None:
    """The option of the oil's choice that is thicker than now by the least."""
    choice, _, column = record["viscosity"].partition(".")
    best = None
    for option in (lens.procedure.get("choices") or {}).get(choice, {"options": []})["options"]:
        value = option["values"].get(column) if column else None
        if value is not None and value > now and (best is None or value < best["value"]):
            best = {"title": option["title"], "value": value}
    return best


def _finding(lens: Lens, record: dict, level: str, says: str, cure: str, station: str) -> dict:
    return finding("film", level, says, lens.say("why_film"), cure, step_of_fit(lens.procedure, record["clearance"]), record["clearance"], station)
