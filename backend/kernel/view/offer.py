"""The shape of an offer, common to every kind of correction."""
from __future__ import annotations

from ..limits import limit_of
from ..show import scale_of
from .fit_view import amount, limit_view
from .lens import Lens, capital

ENDS = ("low", "high", "aim")


def offer(lens: Lens, kind: str, fit_name: str, words: dict, rows: list[dict], draft: dict | None, cures: bool) -> dict:
    """`words`: title, says, basis, again. The limit is that of the first station; each row carries its own figures."""
    first = rows[0]["station"] if rows and rows[0]["fit"] == fit_name else ""
    limit = limit_of(lens.build, lens.procedure["fits"][fit_name]["limit"], first)
    out = {"kind": kind, "fit": fit_name, "rows": rows, "draft": draft, "cures": cures,
           "limit": limit_view(lens, fit_name, limit),
           "raw": {end: limit[end] if limit else None for end in ENDS}}
    out.update(words)
    return out


def offer_row(lens: Lens, fit: dict, after: int | None, moved: bool) -> dict:
    """One station before and after; `after` None where it can't be told beforehand."""
    name, limit = fit["fit"], fit["limit"]
    return {"fit": name, "station": fit["station"], "before": "" if fit["value"] is None else amount(lens, name, fit["value"]),
            "after": "" if after is None else amount(lens, name, after), "before_raw": fit["value"], "after_raw": after,
            "out": is_out(fit), "moved": moved, "raw": {end: limit[end] if limit else None for end in ENDS}}


def is_out(fit: dict) -> bool:
    return fit["state"] in ("under", "over")


def misfits_of(fits: list[dict]) -> list[dict]:
    """Those out of their limits that no concession lets pass."""
    return [fit for fit in fits if is_out(fit) and not fit["open"]]


def unread(fits: list[dict]) -> bool:
    return any([fit["value"] is None for fit in fits])


def full(lens: Lens, fit_name: str, value: int) -> str:
    """A figure of this fit with its unit."""
    spec = lens.procedure["fits"][fit_name]
    return lens.shown.own(value, spec["dimension"], scale_of(spec))


def read_again(lens: Lens, group: str, stations: list[str]) -> str:
    """`Main 1 and 4 will want reading again.`"""
    if not stations:
        return ""
    if not group:
        return lens.say("offer_read_it_again")
    return lens.say("offer_read_again", where=capital(lens.procedure["groups"][group]["title"]) + " " + lens.listed(stations))


def counted(lens: Lens, count: int, one: str, many: str) -> str:
    """`One station changes` or `3 stations change`, by the keys of both."""
    return lens.say(one) if count == 1 else lens.say(many, n=count)
