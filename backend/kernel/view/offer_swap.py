"""Another part from the shelf in a slot: the fit to its aim while other fits stay in."""
from __future__ import annotations

from ..corrections.swap import swap
from ..fits import figure_if, fit_at
from .fit_view import amount
from .lens import Lens
from .offer import ENDS, is_out, misfits_of, offer, offer_row, read_again, unread
from .offer_parts import known_size, only_part, part_title, put, puts_draft, shelf_of, size_key, size_words
from .offer_reach import part_to_order


def swap_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One offer. Empty while the fit or the part's size waits to be read, and when the fit and those beside it are in. Of those
    beside it that are not read nobody knows what becomes; that is said, and such an offer is no cure."""
    build = lens.build
    places = [_place(build, spec, station) for station in build.stations(lens.procedure["slots"][spec["slot"]]["group"])]
    every = [fit for place in places for fit in place["fits"]]
    if not misfits_of(every) or unread([fit for fit in every if fit["wanted"]]) or any([place["part"] is None for place in places]):
        return []
    loose = shelf_of(build, lens.procedure["slots"][spec["slot"]]["part"])
    found = build.once(("swap", step["id"], spec["fit"], spec["slot"]), lambda: swap([_choices(build, spec, place, loose) for place in places]))
    return [_offer(lens, spec, places, found)]


def _place(build, spec: dict, station: str) -> dict:
    """One place of the slot: its part, and the figures that rest on it, those to bring to the aim first."""
    fits = []
    for name in [spec["fit"]] + (spec.get("also") or []):
        group = build.procedure["fits"][name]["group"]
        for at in [station] if station and group else build.stations(group):
            fit = dict(fit_at(build, name, at))
            fit["wanted"] = name == spec["fit"]
            fits.append(fit)
    known = [fit for fit in fits if fit["wanted"] or fit["value"] is not None]
    return {"station": station, "part": only_part(build, spec["slot"], station), "fits": known,
            "unread": [fit["fit"] for fit in fits if fit not in known]}


def _choices(build, spec: dict, place: dict, loose: list[str]) -> list[dict]:
    out = []
    for name in [place["part"]] + loose:
        figures = [(fit["wanted"], _figure(fit, _value_with(build, spec, place, fit, name))) for fit in place["fits"]]
        out.append({"id": name, "fit": [f for wanted, f in figures if wanted], "also": [f for wanted, f in figures if not wanted]})
    return out


def _value_with(build, spec: dict, place: dict, fit: dict, part: str) -> int | None:
    """What a fit reads with another part in this place."""
    if part == place["part"]:
        return fit["value"]
    return figure_if(build, fit["fit"], fit["station"], {size_key(spec["slot"], place["station"]): known_size(build, part)})["value"]


def _figure(fit: dict, value: int | None) -> dict:
    out = {end: fit["limit"][end] if fit["limit"] else None for end in ENDS}
    out["value"] = value
    return out


def _offer(lens: Lens, spec: dict, places: list[dict], found: dict) -> dict:
    changed = [places[at] for at in found["changed"]]
    rows, others = [], []
    for at in range(len(places)):
        for fit in places[at]["fits"]:
            after = _value_with(lens.build, spec, places[at], fit, found["ids"][at])
            row = offer_row(lens, fit, after, at in found["changed"])
            if fit["wanted"]:
                rows.append(row)
            else:
                others.append(row)
    title = _title(lens, spec, places, found)
    says = ([_others(lens, spec, others)] if changed else []) + [lens.say("swap_cures") if found["cures"] else _order(lens, spec, places)]
    says = says + _unread(lens, spec, places)
    fits_group = lens.procedure["fits"][spec["fit"]]["group"]
    again = read_again(lens, fits_group, [row["station"] for row in rows if row["moved"]]) if changed else ""
    words = {"title": title, "says": " ".join([one for one in says if one]), "again": again,
             "basis": lens.say("swap_basis")}
    puts = [put(spec["slot"], places[at]["station"], [found["ids"][at]]) for at in found["changed"]]
    cures = found["cures"] and not _unread(lens, spec, places)
    return offer(lens, "swap" if changed else "none", spec["fit"], words, rows, puts_draft(puts, title), cures)


def _title(lens: Lens, spec: dict, places: list[dict], found: dict) -> str:
    if not found["changed"]:
        return lens.say("offer_nothing")
    said = []
    for at in found["changed"]:
        part, station = part_title(lens, found["ids"][at]), places[at]["station"]
        said.append(lens.say("offer_at", what=part, at=station) if station else part)
    return lens.say("swap_title", parts=lens.listed(said), slot=lens.procedure["slots"][spec["slot"]]["title"])


def _others(lens: Lens, spec: dict, rows: list[dict]) -> str:
    """What the fits beside it would then read: `Squish would read 38.0 to 41.0.`"""
    out = []
    for name in spec.get("also") or []:
        values = [row["after_raw"] for row in rows if row["fit"] == name and row["after_raw"] is not None]
        if values:
            low, high, fit = amount(lens, name, min(values)), amount(lens, name, max(values)), lens.procedure["fits"][name]["title"]
            out.append(lens.say("swap_reads", fit=fit, low=low) if low == high else lens.say("swap_reads_range", fit=fit, low=low, high=high))
    return " ".join(out)


def _unread(lens: Lens, spec: dict, places: list[dict]) -> list[str]:
    names = [name for name in spec.get("also") or [] if any([name in place["unread"] for place in places])]
    return [lens.say("swap_unread", fit=lens.procedure["fits"][name]["title"]) for name in names]


def _order(lens: Lens, spec: dict, places: list[dict]) -> str:
    """The size to order for each place that is out now."""
    wants, none = [], False
    for place in places:
        if any([is_out(fit) for fit in place["fits"]]):
            size = part_to_order(lens.build, place["fits"], spec["slot"], place["station"], known_size(lens.build, place["part"]))
            if size is None:
                none = True
                continue
            words = size_words(lens, spec["slot"], size)
            wants.append(lens.say("swap_for", at=place["station"], size=words) if place["station"] else words)
    title = lens.procedure["slots"][spec["slot"]]["title"]
    said = [lens.say("swap_order", slot=title, sizes=lens.listed(wants))] if wants else []
    return " ".join(said + ([lens.say("swap_no_size", slot=title)] if none else []))
