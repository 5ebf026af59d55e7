"""The fields of a procedure file, table by table (docs/design/procedure-format.md is the text to this)."""
from __future__ import annotations

from .shape import Field, day, ident, list_of, one_of, quantity, record, table_of, text, whole

NAMES = Field(list_of(ident), [])

STATION = {"id": Field(text), "x": Field(whole(0, 100)), "y": Field(whole(0, 100))}
GROUP = {"title": Field(text), "stations": Field(list_of(record(STATION)))}
PHASE = {"id": Field(ident), "title": Field(text)}

BAND = Field(list_of(quantity))
POINT = {
    "title": Field(text), "group": Field(ident, ""), "scale": Field(one_of("size", "fit"), "size"), "band": BAND,
    "tool": Field(text, ""), "how": Field(text, ""),
}
FIT = {
    "title": Field(text), "group": Field(ident, ""), "formula": Field(text), "limit": Field(ident),
    "scale": Field(one_of("fit", "size"), "fit"),
}
LIMIT = {
    "duty": Field(ident), "low": Field(quantity, None), "high": Field(quantity, None), "aim": Field(quantity, None),
    "source": Field(text), "dated": Field(day),
}
PART = {"title": Field(text), "band": BAND, "tool": Field(text, ""), "measures": Field(text, "")}
SLOT = {
    "title": Field(text), "group": Field(ident, ""), "part": Field(ident), "holds": Field(one_of("one", "many")),
    "disturbs": NAMES,
}

CAUTION = {"text": Field(text), "source": Field(text)}
CONFIRM = {"id": Field(ident), "text": Field(text), "why": Field(text, "")}
CORRECTS = {
    "method": Field(one_of("shells", "shims")), "fit": Field(ident), "slots": NAMES, "slot": Field(ident, ""),
    "bare": Field(ident, ""), "level": Field(ident, ""),
}
FASTENER = {
    "id": Field(text), "x": Field(whole(0, 100)), "y": Field(whole(0, 100)), "station": Field(text, ""),
    "note": Field(text, ""),
}
TORQUE = {
    "lubricant": Field(text), "passes": Field(list_of(quantity)), "fasteners": Field(list_of(record(FASTENER))),
    "group": Field(ident, ""),
}
STEP = {
    "id": Field(ident), "phase": Field(ident), "title": Field(text), "do": Field(text), "why": Field(text),
    "after": NAMES, "gates": NAMES, "cautions": Field(list_of(record(CAUTION)), []),
    "confirms": Field(list_of(record(CONFIRM)), []), "reads": NAMES, "may_read": NAMES, "may_measure": NAMES,
    "works_out": NAMES, "corrects": Field(record(CORRECTS), None), "torque": Field(record(TORQUE), None),
    "disturbs": NAMES,
}

LIMITS = table_of(list_of(record(LIMIT)))
PROCEDURE = {
    "procedure": Field(text), "revision": Field(whole(1, 9999)), "dated": Field(day), "title": Field(text),
    "phases": Field(list_of(record(PHASE))), "groups": Field(table_of(record(GROUP)), {}),
    "points": Field(table_of(record(POINT))), "fits": Field(table_of(record(FIT)), {}), "limits": Field(LIMITS, {}),
    "shop": Field(LIMITS, {}), "parts": Field(table_of(record(PART)), {}), "slots": Field(table_of(record(SLOT)), {}),
    "steps": Field(list_of(record(STEP))),
}
read_procedure = record(PROCEDURE)
