"""Entries that are in the record and could not be used."""
from __future__ import annotations

from ..view.lens import Lens
from .finding import LOOK, NOTE, finding


def findings(lens: Lens) -> list[dict]:
    out = [finding("readings_kept", LOOK, _says(lens, flag), lens.say("why_flag", entry=flag["event"][-8:]), lens.say("cure_flag"))
           for flag in lens.build.flags]
    if lens.build.unknown:
        says = lens.say("newer", count=lens.build.unknown)
        out.append(finding("readings_kept", NOTE, says, lens.say("why_newer"), lens.say("cure_newer")))
    return out


def _says(lens: Lens, flag: dict) -> str:
    said = lens.say(flag["key"], **flag["parts"])
    return lens.say("misshapen", problem=said) if flag["misshapen"] else said
