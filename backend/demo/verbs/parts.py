"""Parts: laid on the bench, named, measured, put where they run."""
from ..pen import Pen, spot
from ..texts import figures, size


def adds(pen: Pen, entry: dict) -> None:
    """`adds: bucket_shim, title: …, parts: {id: 2.55 mm, …}`, with `mark`, `state`, `cost` and `condition` for all of them."""
    for name, told in entry["parts"].items():
        one = told if isinstance(told, dict) else {"size": told}
        about = _about(entry | one)
        title = " ".join(t for t in (one.get("title") or entry["title"], one.get("size")) if t)
        pen.write("part.added", {"part": name, "kind": entry["adds"], "title": title, "size": size(one.get("size"))} | about)


def names(pen: Pen, entry: dict) -> None:
    """`names: pistons, mark: P`: what came with a slot gets a mark and its station; `own: true` says that it has run there."""
    slot = entry["names"]
    for station in entry.get("at") or pen.stations("slots", slot):
        one = entry | (entry.get("but") or {}).get(station, {})
        about = _about(one) | {"mark": one["mark"] + station, "belongs": {"slot": slot, "station": station} if one.get("own") else None}
        pen.write("part.noted", {"part": spot(slot, station)} | about)


def _about(told: dict) -> dict:
    return {"mark": told.get("mark", ""), "state": told.get("state", ""), "cost": size(told.get("cost")),
            "condition": told.get("condition", ""), "belongs": told.get("belongs")}


def measures(pen: Pen, entry: dict) -> None:
    """`measures: {pistons: 4.0270 4.0271 in}`: the sizes of the parts that came with a slot."""
    for slot, told in entry["measures"].items():
        for station, text, unit in figures(told, pen.stations("slots", slot)):
            pen.write("part.measured", {"part": spot(slot, station), "text": text, "unit": unit})


def puts(pen: Pen, entry: dict) -> None:
    """`puts: {main_shell_lower@1: [main_shell_lower@4], …}, why: …`."""
    rows = [{"slot": at.partition("@")[0], "station": at.partition("@")[2], "parts": held} for at, held in entry["puts"].items()]
    pen.write("parts.put", {"puts": rows, "why": entry["why"]})
