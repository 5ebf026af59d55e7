"""Another part from the shelf in a slot, every figure it touches worked out anew.

Law: a part goes in only when it brings the fit nearer, or more figures in, and takes nothing that must stay in out or further
out. Figures come worked out by the fit's own formula; nothing is estimated here. Of the parts that may go in, the best:
  1. the fewest figures out, those that must stay in counted with the rest;
  2. the least sum of squared deviations of the fit from what is wanted;
  3. the fewest parts changed, then the parts listed first.
Each loose part serves one place only; over several places the best sharing-out is found, not the first.
"""
from __future__ import annotations

from .assignment import assign
from .within import common_step, excess, off


def swap(places: list) -> dict:
    """Choose a part for each place.

    places  for each place a list of choices {id, fit, also}: first the part that sits there, then the loose ones. `fit` and
            `also` are lists of {value, low, high, aim}; a choice with a value None cannot be chosen (its size is not known).

    Returns {ids, changed, out, was_out, cures}: `ids` the part for each place, `changed` the numbers of the places that change,
    `out` and `was_out` how many figures are out then and now.
    """
    prices = _Prices(places)
    names = _names(places)
    columns = assign([prices.row(place, names) for place in places])[0]
    ids = [names[column] for column in columns]
    chosen = [_choice(places[i], ids[i]) for i in range(len(places))]
    out = sum([_out(choice) for choice in chosen])
    return {"ids": ids, "changed": [i for i in range(len(places)) if ids[i] != places[i][0]["id"]], "out": out,
            "was_out": sum([_out(place[0]) for place in places]), "cures": not out}


def _names(places: list) -> list:
    """Every part once: those that sit first, so that equal choices leave things as they are."""
    names, seen = [], {}
    for choices in [[place[0] for place in places]] + places:
        for choice in choices:
            if choice["id"] not in seen:
                seen[choice["id"]] = True
                names.append(choice["id"])
    return names


def _choice(place: list, name: str) -> dict:
    for choice in place:
        if choice["id"] == name:
            return choice
    raise ValueError("No part on hand may go there.")


def _figures(choice: dict) -> list:
    return choice["fit"] + choice["also"]


def _out(choice: dict) -> int:
    """How many figures are out; one that cannot be told counts as out."""
    return len([f for f in _figures(choice) if f["value"] is None or excess(f["value"], f)])


def _may(choice: dict, now: dict) -> bool:
    """Whether all its figures are known, no more of the fit's are out than now, and none that must stay in is worse than now."""
    if any([f["value"] is None for f in _figures(choice)]):
        return False
    if len([f for f in choice["fit"] if excess(f["value"], f)]) > len([f for f in now["fit"] if f["value"] is None or excess(f["value"], f)]):
        return False
    return all([_no_worse(choice["also"][i], now["also"][i]) for i in range(len(choice["also"]))])


def _no_worse(then: dict, now: dict) -> bool:
    """In, or out on the same side as now and no further."""
    past = excess(then["value"], then)
    if not past:
        return True
    if now["value"] is None or excess(now["value"], now) < past:
        return False
    return (then["low"] is not None and then["value"] < then["low"]) == (now["low"] is not None and now["value"] < now["low"])


class _Prices:
    """Rules 1 to 3 folded into one integer, each rule dearer than all that the later ones can add up to."""

    def __init__(self, places: list) -> None:
        offs = [off(f["value"], f) for place in places for choice in place for f in choice["fit"] if f["value"] is not None]
        self.step = common_step(offs)
        most = max([(o // self.step) * (o // self.step) for o in offs] + [0])
        figures = max([len(_figures(choice)) for place in places for choice in place] + [1])
        self.square = len(places) + 1
        self.out = (len(places) * figures * most + 1) * self.square
        self.never = self.out * (len(places) * figures + 2)

    def row(self, place: list, names: list) -> list:
        now = self._cost(place[0])
        costs = {place[0]["id"]: now}
        for choice in place[1:]:
            cost = self._cost(choice) if _may(choice, place[0]) else self.never
            costs[choice["id"]] = cost + 1 if cost < now else self.never
        return [costs.get(name, self.never) for name in names]

    def _cost(self, choice: dict) -> int:
        squares = 0
        for figure in choice["fit"]:
            if figure["value"] is not None:
                o = off(figure["value"], figure) // self.step
                squares += o * o
        return _out(choice) * self.out + squares * self.square
