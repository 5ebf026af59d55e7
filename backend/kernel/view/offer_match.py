"""Parts of one slot that change places between stations, with loose ones, so that a fit comes in and level."""
from __future__ import annotations

from ..corrections.match import match
from ..fits import figure_if, fit_at, fit_everywhere
from ..limits import limit_of
from .lens import Lens, capital
from .offer import counted, misfits_of, offer, offer_row, read_again, unread
from .offer_parts import known_size, only_part, part_title, put, puts_draft, shelf_of, size_key, size_words
from .offer_reach import part_to_order


def match_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One offer. Empty while a station or a part waits to be read, and when all is in and level."""
    build = lens.build
    fits = fit_everywhere(build, spec["fit"])
    held = [only_part(build, spec["slot"], fit["station"]) for fit in fits]
    if unread(fits) or None in held or not _troubled(build, spec, fits):
        return []
    parts = [name for name in held if name] + shelf_of(build, lens.procedure["slots"][spec["slot"]]["part"])
    found = build.once(("match", step["id"], spec["fit"], spec["slot"]), lambda: _solved(build, spec, fits, parts))
    return [_offer(lens, spec, fits, parts, found)]


def _troubled(build, spec: dict, fits: list[dict]) -> bool:
    level = [fit_at(build, spec["level"], "")] if spec.get("level") else []
    return bool(misfits_of(fits + level))


def _solved(build, spec: dict, fits: list[dict], parts: list[str]) -> dict:
    table = []
    for at in range(len(fits)):
        key, known = size_key(spec["slot"], fits[at]["station"]), {}
        row = []
        for name in parts:
            size = known_size(build, name)
            if size not in known:
                known[size] = figure_if(build, spec["fit"], fits[at]["station"], {key: size})["value"]
            row.append(known[size])
        table.append(row)
    return match(table, list(range(len(fits))), [fit["limit"] or {} for fit in fits], _level(build, spec))


def _level(build, spec: dict) -> int | None:
    limit = limit_of(build, build.procedure["fits"][spec["level"]]["limit"]) if spec.get("level") else None
    return limit["high"] if limit else None


def _offer(lens: Lens, spec: dict, fits: list[dict], parts: list[str], found: dict) -> dict:
    stations = [fit["station"] for fit in fits]
    rows = [offer_row(lens, fits[at], found["figures"][at], at in found["moved"]) for at in range(len(fits))]
    moved = [stations[at] for at in found["moved"]]
    title = _title(lens, spec, stations, parts, found)
    group = lens.procedure["fits"][spec["fit"]]["group"]
    words = {"title": title, "says": _says(lens, spec, fits, parts, found), "again": read_again(lens, group, moved),
             "basis": lens.say("match_basis")}
    puts = [put(spec["slot"], stations[at], [parts[found["parts"][at]]]) for at in found["moved"]]
    return offer(lens, "match" if moved else "none", spec["fit"], words, rows, puts_draft(puts, title), found["cures"])


def _title(lens: Lens, spec: dict, stations: list[str], parts: list[str], found: dict) -> str:
    """`Piston: 1 and 4 exchange theirs; 2 takes that of 3; 3 takes “Spare” from the shelf`."""
    if not found["moved"]:
        return lens.say("offer_nothing")
    place, said, done = found["parts"], [], []
    for at in found["moved"]:
        source = place[at]
        if source < len(stations) and place[source] == at:
            if at not in done:
                said.append(lens.say("match_exchange", a=stations[at], b=stations[source]))
                done = done + [at, source]
        elif source < len(stations):
            said.append(lens.say("match_takes", a=stations[at], b=stations[source]))
        else:
            said.append(lens.say("match_takes_loose", a=stations[at], part=part_title(lens, parts[source])))
    return lens.say("match_title", slot=capital(lens.procedure["slots"][spec["slot"]]["title"]), moves="; ".join(said))


def _says(lens: Lens, spec: dict, fits: list[dict], parts: list[str], found: dict) -> str:
    change = counted(lens, len(found["moved"]), "match_one", "match_many")
    if found["cures"]:
        return lens.say(_cured_key(spec, max(found["parts"]) >= len(fits)), change=change)
    order = _order(lens, spec, fits, parts, found)
    return lens.say("match_nearest", change=change, order=order) if found["moved"] else order


def _cured_key(spec: dict, loose: bool) -> str:
    if loose:
        return "match_cures_loose_level" if spec.get("level") else "match_cures_loose"
    return "match_cures_level" if spec.get("level") else "match_cures"


def _order(lens: Lens, spec: dict, fits: list[dict], parts: list[str], found: dict) -> str:
    wants = []
    for at in found["out"]:
        fit = fits[at]
        size = part_to_order(lens.build, [fit], spec["slot"], fit["station"], known_size(lens.build, parts[at]))
        if size is not None:
            wants.append(lens.say("match_want", at=fit["station"], size=size_words(lens, spec["slot"], size)))
    if wants:
        return lens.say("match_order", wants=lens.listed(wants))
    return lens.say("match_no_size" if found["out"] else "match_uneven")
