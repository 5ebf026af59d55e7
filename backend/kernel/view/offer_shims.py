"""Shims from those on hand that bring an end play to its aim."""
from __future__ import annotations

from ..corrections.shims import stack
from ..fits import fit_at
from ..limits import limit_of
from .fit_view import amount
from .lens import Lens
from .offer import counted, offer, offer_row
from .offer_parts import shelf_of

_NEAR_PART = 8  # near enough to the aim: an eighth of the way between the limits


def shim_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    fit = fit_at(lens.build, spec["fit"], "")
    limit = limit_of(lens.build, lens.procedure["fits"][spec["fit"]]["limit"])
    if fit["value"] is None or fit["state"] == "in" or limit is None:
        return []
    fitted, loose = _shims(lens, spec["slot"])
    found = stack(fit["value"], fitted, loose, limit["low"], limit["high"], limit["aim"], _near(limit))
    if not found["cures"]:
        return [_nothing(lens, fit, found)]
    return [_cure(lens, fit, spec, found, fitted, loose)]


def _near(limit: dict) -> int:
    if limit["low"] is None or limit["high"] is None:
        return 0
    return (limit["high"] - limit["low"]) // _NEAR_PART


def _shims(lens: Lens, slot: str) -> tuple[list[dict], list[dict]]:
    """Shims in the stack and shims on hand whose thickness is known."""
    kind = lens.procedure["slots"][slot]["part"]
    parts = lens.build.parts
    fitted = lens.build.slot_parts(slot, "")
    loose = shelf_of(lens.build, kind)
    return [_sized(parts, n) for n in fitted if _known(parts, n)], [_sized(parts, n) for n in loose if _known(parts, n)]


def _known(parts: dict, name: str) -> bool:
    return name in parts and (parts[name]["size"] or 0) > 0


def _sized(parts: dict, name: str) -> dict:
    return {"id": name, "thickness": parts[name]["size"]}


def _cure(lens: Lens, fit: dict, spec: dict, found: dict, fitted: list[dict], loose: list[dict]) -> dict:
    thick = {s["id"]: s["thickness"] for s in fitted + loose}
    figures = " + ".join([_thickness(lens, fit, thick[n]) for n in found["ids"]])
    title = lens.say("shims_fit", shims=figures) if found["ids"] else lens.say("shims_all_out")
    count = counted(lens, len(found["ids"]), "shims_one", "shims_many")
    words = {"title": title, "again": lens.say("offer_read_it_again"), "basis": lens.say("shims_basis"),
             "says": lens.say("shims_leaves", shims=count, thick=_thickness(lens, fit, found["thickness"]),
                              play=amount(lens, fit["fit"], found["play"]))}
    draft = {"type": "parts.put", "body": {"puts": [{"slot": spec["slot"], "station": "", "parts": found["ids"]}],
                                           "why": title}}
    return offer(lens, "shims", fit["fit"], words, [offer_row(lens, fit, found["play"], True)], draft, True)


def _thickness(lens: Lens, fit: dict, value: int) -> str:
    """A whole number of thou or hundredths reads without its zero."""
    text = amount(lens, fit["fit"], value)
    return text[: len(text) - 2] if text.endswith(".0") else text


def _nothing(lens: Lens, fit: dict, found: dict) -> dict:
    if found["order"] is None:
        says = lens.say("shims_no_play")
    else:
        says = lens.say("shims_order", thick=_thickness(lens, fit, found["order"]))
    words = {"title": lens.say("shims_none"), "says": says, "again": "", "basis": lens.say("shims_none_basis")}
    return offer(lens, "none", fit["fit"], words, [offer_row(lens, fit, None, False)], None, False)
