"""The one door: a JSON request in, a JSON answer out.

Law: what the phone, the server and a script may ask is this table and nothing else. A request that cannot be answered
gets `{"error": sentence}`. Builds opened by a phone stay folded here between calls; every other answer depends on its
request alone.
"""
from __future__ import annotations

import json

from .canon import canon
from .corrections import ops as solvers
from .corrections.assignment import assign
from .corrections.shells import propose
from .corrections.shims import stack
from .film import film
from .fold import Build
from .order import statuses
from .quantity import read, write
from .record_rows import build_dump, fit_rows, reading_rows
from .review import review
from .sentence import Sentence
from .verdict import judge
from .view.foretell import foretell
from .view.holds import holds
from .view.lens import Lens
from .view.overview import overview
from .view.parts_view import parts_view
from .view.step_view import step_view
from .view.weigh import weigh

DEFAULT_UNITS = {"length": "thou", "torque": "lbf.ft"}
_open: dict[str, tuple[Build, dict]] = {}


def call(text: str) -> str:
    """Answer one request, as canonical JSON."""
    try:
        request = json.loads(text)
    except ValueError:
        return canon({"error": "The request is not JSON. Send one JSON object on standard input."})
    return canon(answer(request))


def quick(text: str) -> str:
    """The same answer, its keys in any order: what a screen asks for. Canonical text takes four fifths of a phone's time."""
    try:
        request = json.loads(text)
    except ValueError:
        return call(text)
    return json.dumps(answer(request))


def answer(request: dict) -> dict:
    """Answer one request given as data."""
    if not isinstance(request, dict) or request.get("op") not in _OPS:
        return {"error": "Name one of these in “op”: " + ", ".join(OPS) + "."}
    try:
        return _OPS[request["op"]](request)
    except Sentence as error:
        return {"error": str(error)}
    except KeyError as error:
        return {"error": "The request for “" + request["op"] + "” names or needs something that is not there: " + str(error.args[0]) + "."}


def _build(request: dict) -> Build:
    """The folded build a request is about: opened before, or given whole with procedure and events."""
    if "procedure" in request:
        return Build(request["procedure"], request["events"])
    if request["build"] not in _open:
        raise KeyError("an open build “" + request["build"] + "”")
    return _open[request["build"]][0]


def _lens(request: dict) -> Lens:
    build = _build(request)
    people = request.get("people")
    if people is None:
        people = _open[request["build"]][1] if request.get("build") in _open else {}
    return Lens(build, request.get("units") or DEFAULT_UNITS, request.get("now") or 0, people)


def _op_open(request: dict) -> dict:
    build = Build(request["procedure"], request["events"])
    _open[request["build"]] = (build, request.get("people") or {})
    return {"events": len(build.events)}


def _op_add(request: dict) -> dict:
    build = _build(request)
    build.add(request["events"])
    return {"events": len(build.events)}


def _op_acked(request: dict) -> dict:
    build = _build(request)
    build.acknowledge(request["seqs"])
    return {"events": len(build.events)}


def _op_fold(request: dict) -> dict:
    return build_dump(_build(request))


def _op_overview(request: dict) -> dict:
    return overview(_lens(request))


def _op_step(request: dict) -> dict:
    return step_view(_lens(request), request["step"])


def _op_parts(request: dict) -> dict:
    return parts_view(_lens(request))


def _op_weigh(request: dict) -> dict:
    """With `step`, also the verdict that the reading would give there: a phone shows it as soon as the reading is kept."""
    lens = _lens(request)
    out = weigh(lens, request["draft"])
    if request.get("step") and not out["error"]:
        out["fits"] = foretell(lens, request["draft"], request["step"])
    return out


def _op_review(request: dict) -> dict:
    return {"findings": review(_lens(request))}


def _op_status(request: dict) -> dict:
    """Everything the server projects after a push, in one fold."""
    lens = _lens(request)
    seen = overview(lens)
    return {"overview": seen, "findings": review(lens), "fits": fit_rows(lens), "holds": _all_holds(lens),
            "readings": reading_rows(lens.build)}


def _all_holds(lens: Lens) -> list[dict]:
    out = []
    for row in statuses(lens.build):
        step = lens.build.steps[row["id"]]
        for hold in holds(lens, step, row["closed"]) if row["status"] == "held" else []:
            out.append({"title": hold["title"], "sentence": hold["sentence"], "step": step["id"], "phase": step["phase"]})
    return out


def _op_judge(request: dict) -> dict:
    """Typed quantities, some added and some taken off, against typed limits."""
    table = request["unit_table"]
    typed = [read(q["text"], table[q["unit"]]) for q in request["plus"]] + [read(q["text"], table[q["unit"]]) for q in request.get("minus") or []]
    count = len(request["plus"])
    value = sum([q["value"] for q in typed[:count]]) - sum([q["value"] for q in typed[count:]])
    tells = sum([(q["step"] + 1) // 2 for q in typed])
    ends = {end: None if request.get(end) is None else read(request[end]["text"], table[request[end]["unit"]])["value"]
            for end in ("low", "high")}
    out = judge(value, ends["low"], ends["high"], tells)
    out["value"] = value
    return out


def _op_number(request: dict) -> dict:
    """Typed text to the grid and back: `{value, step, written}`, written in `to` with `decimals`."""
    number = read(request["text"], request["from"])
    number["written"] = write(number["value"], request["to"], request["decimals"])
    return number


def _op_assign(request: dict) -> dict:
    columns, total = assign(request["cost"])
    return {"columns": columns, "total": total}


def _op_shims(request: dict) -> dict:
    return stack(request["play"], request["fitted"], request["on_hand"], request.get("low"), request.get("high"),
                 request["aim"], request.get("near") or 0)


def _op_shells(request: dict) -> dict:
    return {"proposals": propose(**request["case"])}


def _op_film(request: dict) -> dict:
    found = film(request["case"])
    return {"error": "Every figure of a bearing must be above zero."} if found is None else found


_OPS = {
    "open": _op_open, "add": _op_add, "acked": _op_acked, "fold": _op_fold, "overview": _op_overview, "step": _op_step,
    "parts": _op_parts, "weigh": _op_weigh, "review": _op_review, "status": _op_status, "judge": _op_judge,
    "number": _op_number, "film": _op_film, "assign": _op_assign, "shims": _op_shims, "shells": _op_shells,
} | solvers.OPS
OPS = ("open", "add", "acked", "fold", "overview", "step", "parts", "weigh", "review", "status", "judge", "number", "film",
       "assign", "shims", "shells", "match", "swap", "cut", "rings", "buckets", "springs", "length", "turns", "bobweight", "timing")
