"""Locators, shims, retainers and locks that restore the installed height of valve springs."""
from __future__ import annotations

from ..corrections.springs import springs
from ..fits import fit_everywhere
from .lens import Lens
from .offer import ENDS, counted, full, misfits_of, offer, offer_row, read_again
from .offer_parts import part_title, put, puts_draft, shelf_of, size_of


def spring_offers(lens: Lens, step: dict, spec: dict) -> list[dict]:
    """One offer for all springs whose height is out and read."""
    build = lens.build
    fits = [fit for fit in fit_everywhere(build, spec["fit"]) if fit["value"] is not None]
    if not misfits_of(fits):
        return []
    names = (spec.get("down") or []) + (spec.get("up") or [])
    slots = [_slot(lens, name, name in (spec.get("down") or [])) for name in names]
    valves = [_valve(build, names, fit) for fit in fits]
    found = build.once(("springs", step["id"], spec["fit"]), lambda: springs(valves, slots, _shelf(build, slots)))
    return [_offer(lens, spec, names, fits, valves, found)]


def _slot(lens: Lens, name: str, down: bool) -> dict:
    slot = lens.procedure["slots"][name]
    return {"way": "down" if down else "up", "many": slot["holds"] == "many", "kind": slot["part"]}


def _valve(build, slots: list[str], fit: dict) -> dict:
    """A conceded height counts as it stands: it has no limits here."""
    limit = {} if fit["open"] else fit["limit"] or {}
    out = {end: limit.get(end) for end in ENDS}
    out.update({"height": fit["value"], "fitted": [[{"id": name, "size": size_of(build, name)} for name in build.slot_parts(slot, fit["station"])]
                                                   for slot in slots]})
    return out


def _shelf(build, slots: list[dict]) -> list[dict]:
    kinds: list[str] = []
    for slot in slots:
        if slot["kind"] not in kinds:
            kinds.append(slot["kind"])
    return [{"id": name, "size": size_of(build, name), "kind": kind} for kind in kinds for name in shelf_of(build, kind)]


def _offer(lens: Lens, spec: dict, names: list[str], fits: list[dict], valves: list[dict], found: dict) -> dict:
    rows = [offer_row(lens, fits[i], found["heights"][i], i in found["changed"]) for i in range(len(fits))]
    changed = [fits[i]["station"] for i in found["changed"]]
    title = counted(lens, len(changed), "springs_one", "springs_many") if changed else lens.say("offer_nothing")
    group = lens.procedure["fits"][spec["fit"]]["group"]
    words = {"title": title, "says": _says(lens, spec, names, fits, valves, found), "again": read_again(lens, group, changed),
             "basis": _basis(lens, names, fits, valves)}
    puts = [put(names[at], fits[i]["station"], found["stacks"][i][at]) for i in found["changed"] for at in range(len(names))
            if found["stacks"][i][at] != [part["id"] for part in valves[i]["fitted"][at]]]
    return offer(lens, "springs" if changed else "none", spec["fit"], words, rows, puts_draft(puts, title), found["cures"])


def _says(lens: Lens, spec: dict, names: list[str], fits: list[dict], valves: list[dict], found: dict) -> str:
    stacks = []
    for i in found["changed"]:
        for at in range(len(names)):
            if found["stacks"][i][at] != [part["id"] for part in valves[i]["fitted"][at]]:
                held = [part_title(lens, part) for part in found["stacks"][i][at]]
                stacks.append(lens.say("springs_gets" if held else "springs_gets_none", at=fits[i]["station"], parts=" + ".join(held),
                                       slot=lens.procedure["slots"][names[at]]["title"]))
    return " ".join((["; ".join(stacks) + "."] if stacks else []) + _order(lens, spec, fits, found))


def _order(lens: Lens, spec: dict, fits: list[dict], found: dict) -> list[str]:
    take = [fits[o["valve"]]["station"] + " " + full(lens, spec["fit"], o["by"]) for o in found["order"] if o["by"] > 0]
    give = [fits[o["valve"]]["station"] + " " + full(lens, spec["fit"], -o["by"]) for o in found["order"] if o["by"] < 0]
    out = [lens.say("springs_take", what=lens.listed(take))] if take else []
    return out + ([lens.say("springs_give", what=lens.listed(give))] if give else [])


def _basis(lens: Lens, names: list[str], fits: list[dict], valves: list[dict]) -> str:
    slots = [lens.procedure["slots"][names[at]]["title"] for at in range(len(names))
             if any([part["size"] is None for valve in valves for part in valve["fitted"][at]])]
    stays = " " + lens.say("springs_unmeasured", slots=lens.listed(slots)) if slots else ""
    return lens.say("springs_basis") + stays
