"""Work at the bench: steps done, readings, pulls, rings filed, readings struck."""
from ..pen import Pen, place, spot
from ..texts import figures


def steps(pen: Pen, entry: dict) -> None:
    """`steps: [bores, decks]`: all that these steps ask, in their order, with the figures and choices of the build's file."""
    for name in entry["steps"]:
        _does(pen, pen.step(name), None)


def begins(pen: Pen, entry: dict) -> None:
    """`begins: head_torqued, until: [3, "4"]`: a step that is left in the middle of its pulls, after this pass and fastener."""
    _does(pen, pen.step(entry["begins"]), entry["until"])


def _does(pen: Pen, asked: dict, until: list | None) -> None:
    for choice in asked["asks"]:
        pen.write("choice.made", {"choice": choice, "option": pen.told["choices"][choice]})
    for item in asked["confirms"]:
        pen.write("confirm", {"step": asked["id"], "item": item["id"]})
    for point in asked["reads"]:
        _reads(pen, point, pen.told["figures"][point], None)
    if asked["torque"]:
        _pulls(pen, asked, until)


def reads(pen: Pen, entry: dict) -> None:
    """`reads: {main_bore: {"1": 2.4513 in}}`: readings apart from a whole step, or once more."""
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


def ticks(pen: Pen, entry: dict) -> None:
    """`ticks: {cases_tried: [trial_gasket]}`: items of a list once more."""
    for name, items in entry["ticks"].items():
        for item in items:
            pen.write("confirm", {"step": name, "item": item})


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
