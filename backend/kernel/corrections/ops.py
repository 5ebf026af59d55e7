"""The corrections, each behind the door with plain numbers. A missing or senseless number is answered with a sentence."""
from __future__ import annotations

from .bobweight import bobweight
from .buckets import shuffle
from .cut import cut
from .length import lengths
from .match import match
from .rings import next_cut
from .springs import springs
from .swap import swap
from .timing import timing
from .turns import MILLION, turns


def _match(request: dict) -> dict:
    limits = request["limits"]
    rows = limits if isinstance(limits, list) else [limits for _ in request["now"]]
    return match(request["figures"], request["now"], rows, request.get("level"))


def _swap(request: dict) -> dict:
    return swap(request["places"])


def _cut(request: dict) -> dict:
    return cut(request["reads"], request["figures"], request["moves"])


def _rings(request: dict) -> dict:
    return next_cut(request["gap"], request["limit"], request.get("cuts") or [])


def _buckets(request: dict) -> dict:
    return shuffle(request["valves"], request["shelf"], request["step"])


def _springs(request: dict) -> dict:
    return springs(request["valves"], request["slots"], request["shelf"])


def _length(request: dict) -> dict:
    return lengths(request["wanted"], request["step"])


def _turns(request: dict) -> dict:
    return turns(request["figure"], request["limit"], request["pitch"], request.get("ratio") or MILLION)


def _bobweight(request: dict) -> dict:
    return bobweight(request["rotating"], request["reciprocating"], request["oil"], request["factor"])


def _timing(request: dict) -> dict:
    intake, exhaust = request["intake"], request["exhaust"]
    return timing(intake["opens"], intake["closes"], exhaust["opens"], exhaust["closes"], request.get("wanted"))


def _said(solve):
    def answer(request: dict) -> dict:
        try:
            return solve(request)
        except ValueError as error:
            return {"error": str(error)}
    return answer


OPS = {
    "match": _said(_match), "swap": _said(_swap), "cut": _said(_cut), "rings": _said(_rings), "buckets": _said(_buckets),
    "springs": _said(_springs), "length": _said(_length), "turns": _said(_turns), "bobweight": _said(_bobweight),
    "timing": _said(_timing),
}
