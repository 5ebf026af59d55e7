"""What the shop decides: its own limits, and what it lets through."""
from kernel.quantity import read

from ..pen import Pen, place, spot
from ..texts import quantity

ENDS = ("low", "high", "aim")


def limits(pen: Pen, entry: dict) -> None:
    """`limits: {main_clearance: {low: 0.0020, high: 0.0030, aim: 0.0025, unit: in}}`, off the shop's own sheet."""
    for name, told in entry["limits"].items():
        ends = {end: None if told.get(end) is None else str(told[end]) for end in ENDS}
        pen.write("limit.set", {"limit": name, "authority": "shop", "unit": told["unit"], "source": pen.told["sheet"]} | ends)


def concedes(pen: Pen, entry: dict) -> None:
    """`concedes: crank_end_play, reads: 0.0106 in, reason: …, granted_by: Ines`."""
    fit, station = place(entry["concedes"])
    text, unit = quantity(entry["reads"])
    value = read(text, pen.procedure["units"][unit])["value"]
    body = {"fit": fit, "station": station, "value": value, "reason": entry["reason"], "granted_by": entry["granted_by"]}
    pen.write("concession", body, "concession:" + spot(fit, station))


def reviews(pen: Pen, entry: dict) -> None:
    """`reviews: crank_end_play, note: …`: somebody else has looked at the concession asked last there."""
    pen.write("concession.countersigned", {"event": pen.last["concession:" + entry["reviews"]], "note": entry["note"]})


def opens(pen: Pen, entry: dict) -> None:
    """`opens: b-jet-sprint`: the build itself, from the head of its file."""
    pen.write("build.opened", {name: pen.told[name] for name in ("name", "procedure", "revision", "duty", "note")})
