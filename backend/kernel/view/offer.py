"""The shape of an offer, common to every kind of correction."""
from __future__ import annotations

from ..limits import limit_of
from .fit_view import amount, limit_view
from .lens import Lens


def offer(lens: Lens, kind: str, fit_name: str, words: dict, rows: list[dict], draft: dict | None, cures: bool) -> dict:
    """`words`: title, says, basis, again."""
    limit = limit_of(lens.build, lens.procedure["fits"][fit_name]["limit"])
    out = {"kind": kind, "fit": fit_name, "rows": rows, "draft": draft, "cures": cures,
           "limit": limit_view(lens, fit_name, limit),
           "raw": {end: limit[end] if limit else None for end in ("low", "high", "aim")}}
    out.update(words)
    return out


def offer_row(lens: Lens, fit: dict, after: int | None, moved: bool) -> dict:
    """One station before and after; `after` None where it can't be told beforehand."""
    name = fit["fit"]
    return {"station": fit["station"], "before": "" if fit["value"] is None else amount(lens, name, fit["value"]),
            "after": "" if after is None else amount(lens, name, after), "before_raw": fit["value"], "after_raw": after,
            "out": fit["state"] in ("under", "over"), "moved": moved}
