"""Work at the bench: steps done, readings, pulls, rings filed, readings struck."""
from ..pen import Pen, place, spot
from ..texts import figures


def step(pen: Pen, entry: dict) -> None:
    """`step: bores` does all that a step asks, in its order; `until: [pass, fastener]` stops in the middle of its pulls."""
    asked = pen.step(entry["step"])
    for choice in asked["asks"]:
        pen.write("choice.made", {"choice": choice, "option": entry["chooses"][choice]})
    for item in asked["confirms"]:
        pen.write("confirm", {"step": asked["id"], "item": item["id"]})
    for point in asked["reads"]:
        _reads(pen, point, entry["reads"][point], entry.get("tool"))
    if asked["torque"]:
        _pulls(pen, asked, entry.get("until"))


def reads(pen: Pen, entry: dict) -> None:
    """`reads: {main_bore: {"1": 2.4513 in}}`: readings apart from a whole step."""
    for point, told in entry["reads"].items():
        _reads(pen, point, told, entry.get("tool"))


def _reads(pen: Pen, point: str, told, tool: str | None) -> None:
    for station, text, unit in figures(told, pen.stations("points", point)):
        body = {"point": point, "station": station, "text": text, "unit": unit} | ({"tool": tool} if tool else {})
        pen.write("reading", body, spot(point, station))


def _pulls(pen: Pen, asked: dict, until: list | None) -> None:
    for number in range(1, len(asked["torque"]["passes"]) + 1):
        for fastener in asked["torque"]["fasteners"]:
            _pull(pen, asked, number, fastener["id"])
            if until == [number, fastener["id"]]:
                return


def _pull(pen: Pen, asked: dict, number: int, fastener: str) -> None:
    pen.write("torque.pulled", {"step": asked["id"], "pass": number, "fastener": fastener, "again": False})


def again(pen: Pen, entry: dict) -> None:
    """`again: caps_for_measuring, at: ["1", "4"]`: the fasteners of these stations once more, every pass."""
    asked = pen.step(entry["again"])
    for number in range(1, len(asked["torque"]["passes"]) + 1):
        for fastener in asked["torque"]["fasteners"]:
            if fastener["station"] in entry["at"]:
                _pull(pen, asked, number, fastener["id"])


def files(pen: Pen, entry: dict) -> None:
    """`files: gap_second@6, turns: 4, reads: 0.0180 in`: a cut, and the gap read again."""
    point, station = place(entry["files"])
    pen.write("ring.filed", {"point": point, "station": station, "turns": str(entry["turns"])})
    _reads(pen, point, {station: entry["reads"]}, None)


def strikes(pen: Pen, entry: dict) -> None:
    """`strikes: gap_top@6, why: …`: the reading last written there was a mistake."""
    pen.write("strike", {"event": pen.last[entry["strikes"]], "why": entry["why"]})
