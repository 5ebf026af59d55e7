"""Canonical JSON.

Law: equal data gives equal bytes on every runtime. Keys sorted by code point, no spaces, integers only, text unescaped
save for what JSON demands.
"""
from __future__ import annotations

from .sorting import merge_sort

_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}


def canon(value: object) -> str:
    """JSON text of `value`. TypeError for anything but dict, list, str, int, bool and None."""
    out: list[str] = []
    _write(value, out)
    return "".join(out)


def _write(value: object, out: list[str]) -> None:
    if isinstance(value, str):
        out.append(_quoted(value))
    elif value is None:
        out.append("null")
    elif value is True:
        out.append("true")
    elif value is False:
        out.append("false")
    elif isinstance(value, int):
        out.append(str(value))
    elif isinstance(value, dict):
        _write_object(value, out)
    elif isinstance(value, (list, tuple)):
        _write_list(value, out)
    else:
        raise TypeError("canonical JSON has no place for " + type(value).__name__)


def _write_object(value: dict, out: list[str]) -> None:
    out.append("{")
    comma = ""
    for key, quoted in _keys(value):
        out.append(comma + quoted)
        _write(value[key], out)
        comma = ","
    out.append("}")


# Answers repeat a few shapes of object hundreds of times; sorting and quoting their keys each time cost more than all else.
_SHAPES: dict[tuple, list[tuple[str, str]]] = {}
_MOST_SHAPES = 400


def _keys(value: dict) -> list[tuple[str, str]]:
    """(key, `"key":`) of an object, in order."""
    shape = tuple(value.keys())
    found = _SHAPES.get(shape)
    if found is None:
        for key in shape:
            if not isinstance(key, str):
                raise TypeError("keys of canonical JSON are text")
        found = [(key, _quoted(key) + ":") for key in merge_sort(list(shape), lambda k: k)]
        if len(_SHAPES) >= _MOST_SHAPES:
            _SHAPES.clear()
        _SHAPES[shape] = found
    return found


def _write_list(value: list | tuple, out: list[str]) -> None:
    out.append("[")
    comma = ""
    for item in value:
        out.append(comma)
        _write(item, out)
        comma = ","
    out.append("]")


def _quoted(text: str) -> str:
    if _plain(text):
        return '"' + text + '"'
    return '"' + "".join([_escaped(c) for c in text]) + '"'


def _plain(text: str) -> bool:
    return not text or ('"' not in text and "\\" not in text and min(text) >= " ")


def _escaped(c: str) -> str:
    if c in _ESCAPES:
        return _ESCAPES[c]
    if c < " ":
        return "\\u%04x" % ord(c)
    return c
