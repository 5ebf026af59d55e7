"""The fields of a procedure file, table by table (docs/design/procedure-format.md is the text to this)."""
from __future__ import annotations

from .shape import Field, as_it_is, either, list_of, record, table_of
from .words import code, day, ident, one_of, quantity, text, whole, yes_no

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
    "title": Field(text), "group": Field(ident, ""), "formula": Field(text), "limit": Field(ident, ""),
    "scale": Field(one_of("fit", "size"), "fit"), "unit": Field(text, ""), "why": Field(text, ""), "cure": Field(text, ""),
}
LIMIT = {
    "duty": Field(ident), "low": Field(quantity, None), "high": Field(quantity, None), "aim": Field(quantity, None),
    "per": Field(ident, ""), "plus": Field(quantity, None), "when": Field(table_of(code), {}), "source": Field(text), "dated": Field(day),
}
FROM_TABLE = {"table": Field(ident), "per": Field(ident, "")}
PART = {"title": Field(text), "band": BAND, "tool": Field(text, ""), "measures": Field(text, "")}
SLOT = {
    "title": Field(text), "group": Field(ident, ""), "part": Field(ident), "holds": Field(one_of("one", "many")),
    "must": Field(yes_no, False), "own": Field(yes_no, False), "disturbs": NAMES,
}
OPTION = {"id": Field(code), "title": Field(text), "source": Field(text, ""), "values": Field(table_of(quantity), {})}
CHOICE = {
    "title": Field(text), "options": Field(list_of(record(OPTION)), []), "table": Field(ident, ""), "only": Field(list_of(code), []),
}

CAUTION = {"text": Field(text), "source": Field(text)}
CONFIRM = {"id": Field(ident), "text": Field(text), "why": Field(text, ""), "last": Field(yes_no, False)}
CORRECTS = {
    "method": Field(ident), "fit": Field(ident, ""), "slots": NAMES, "slot": Field(ident, ""), "bare": Field(ident, ""),
    "level": Field(ident, ""), "fits": NAMES, "also": NAMES, "point": Field(ident, ""), "moves": Field(one_of("up", "down"), ""),
    "by": Field(text, ""), "down": NAMES, "up": NAMES, "step": Field(quantity, None), "pitch": Field(quantity, None),
    "ratio": Field(ident, ""),
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
    "works_out": NAMES, "asks": NAMES, "corrects": Field(either(list_of(record(CORRECTS)), record(CORRECTS)), None),
    "torque": Field(record(TORQUE), None), "disturbs": NAMES, "source": Field(text),
}
FILM = {
    "clearance": Field(ident), "journal": Field(ident), "length": Field(ident), "load": Field(ident), "viscosity": Field(text),
    "speed": Field(ident),
}

LIMITS = table_of(list_of(record(LIMIT)))
LIMITS_OR_TABLES = table_of(either(list_of(record(LIMIT)), record(FROM_TABLE)))
LIMITS_FILE = {"dated": Field(day, ""), "limits": Field(LIMITS)}
TABLE = {
    "table": Field(ident), "title": Field(text, ""), "dated": Field(day), "columns": Field(table_of(text), {}),
    "rows": Field(list_of(as_it_is)),
}
TABLE_ROW = {"id": Field(code), "title": Field(text), "source": Field(text), "note": Field(text, "")}
PROCEDURE = {
    "procedure": Field(text), "revision": Field(whole(1, 9999)), "dated": Field(day), "title": Field(text),
    "phases": Field(list_of(record(PHASE))), "groups": Field(table_of(record(GROUP)), {}),
    "points": Field(table_of(record(POINT))), "fits": Field(table_of(record(FIT)), {}), "limits": Field(LIMITS_OR_TABLES, {}),
    "shop": Field(LIMITS, {}), "parts": Field(table_of(record(PART)), {}), "slots": Field(table_of(record(SLOT)), {}),
    "choices": Field(table_of(record(CHOICE)), {}), "film": Field(record(FILM), None),
    "steps": Field(list_of(record(STEP))),
}
read_procedure = record(PROCEDURE)
