"""A verdict in words and figures."""
from __future__ import annotations

from ..limits import waits_for
from ..show import DASH, scale_of
from .amount import amount
from .lens import Lens
from .working import working

PLUS_MINUS = "±"


def fit_view(lens: Lens, fit: dict) -> dict:
    """FitView of types.ts from what `fits.fit_at` found; kept as long as that is, since a step shows scores of them."""
    kept = lens.build.once(("seen", fit["fit"], fit["station"], lens.manner), lambda: (fit, _fit_view(lens, fit)))
    return kept[1] if kept[0] is fit else _fit_view(lens, fit)


def _fit_view(lens: Lens, fit: dict) -> dict:
    spec = lens.procedure["fits"][fit["fit"]]
    unit = lens.shown.unit(spec["dimension"], scale_of(spec))
    value = fit["value"]
    return {
        "fit": fit["fit"], "kind": spec["title"], "page": spec.get("page") or "", "station": fit["station"],
        "title": lens.spot_title("fits", fit["fit"], fit["station"]),
        "state": fit["state"], "close": fit["close"], "conceded": fit["conceded"], "word": _word(lens, fit),
        "value": "" if value is None else lens.shown.figure(value, unit), "unit": lens.shown.label(unit),
        "others": [] if value is None else lens.shown.beside(value, spec["dimension"], scale_of(spec)),
        "says": fit_says(lens, fit), "working": working(lens, fit), "tool": _tool(lens, fit, unit),
        "limit": limit_view(lens, fit["fit"], fit["limit"]),
        "raw": {"value": value, "low": _end(fit, "low"), "high": _end(fit, "high"), "aim": _end(fit, "aim")},
    }


def _word(lens: Lens, fit: dict) -> str:
    if fit["state"] == "in" and fit["limit"] is None:
        return lens.say("word_read")
    return lens.say("word_close" if fit["close"] else "word_" + fit["state"])


def _end(fit: dict, end: str) -> int | None:
    return fit["limit"][end] if fit["limit"] else None


def fit_says(lens: Lens, fit: dict) -> str:
    """How much: `0.2 to spare below`, `over by 31.0`."""
    state = fit["state"]
    if state in ("under", "over"):
        return lens.say(state + "_by", by=amount(lens, fit["fit"], fit["by"]))
    if state == "in":
        return _spare(lens, fit)
    if state == "no_limit":
        return lens.say("said_no_limit", what=lens.listed(waited_words(lens, fit["fit"])))
    return lens.say("said_" + state)


def waited_words(lens: Lens, fit_name: str) -> list[str]:
    """What a limit waits for, in words: `rod material`, `main journal`."""
    out = []
    for one in waits_for(lens.build, lens.procedure["fits"][fit_name]["limit"]):
        table = {"choice": "choices", "point": "points", "fit": "fits"}[one["kind"]]
        title = lens.procedure[table][one["name"]]["title"]
        out.append(title[:1].lower() + title[1:])
    return out or [lens.say("a_row")]


def _spare(lens: Lens, fit: dict) -> str:
    if not fit["end"]:
        return lens.say("unlimited") if lens.procedure["fits"][fit["fit"]]["limit"] else ""
    if fit["by"] == 0:
        return lens.say("on_" + fit["end"])
    return lens.say("spare_" + fit["end"], by=amount(lens, fit["fit"], fit["by"]))


def limit_range(lens: Lens, fit_name: str, limit: dict) -> str:
    """`2.0–3.0`, `at least 2.0`, `at most 0.5`."""
    low, high = limit["low"], limit["high"]
    if low is not None and high is not None:
        return amount(lens, fit_name, low) + DASH + amount(lens, fit_name, high)
    if low is not None:
        return lens.say("at_least", low=amount(lens, fit_name, low))
    return lens.say("at_most", high=amount(lens, fit_name, high)) if high is not None else lens.say("no_ends")


def limit_view(lens: Lens, fit_name: str, limit: dict | None) -> dict:
    if limit is None:
        wanted = lens.procedure["fits"][fit_name]["limit"]
        return {"low": "", "high": "", "aim": "", "says": lens.say("limit_none") if wanted else "", "authority": ""}
    ends = {end: "" if limit[end] is None else amount(lens, fit_name, limit[end]) for end in ("low", "high", "aim")}
    ends["says"] = lens.say("limit", range=limit_range(lens, fit_name, limit), origin=where_from(lens, limit))
    ends["authority"] = limit["authority"]
    return ends


def where_from(lens: Lens, limit: dict) -> str:
    """The limit's origin in words: `the shop's sheet (race sheet 4)`."""
    origin = lens.say("from_" + limit["authority"])
    return lens.say("from_with_source", origin=origin, source=limit["source"]) if limit["source"] else origin


def _tool(lens: Lens, fit: dict, unit: str) -> str:
    if fit["value"] is None or not fit["tells"]:
        return ""
    return lens.say("tells", pm=PLUS_MINUS + lens.shown.figure(fit["tells"], unit))
