"""YAML that remembers its lines.

Law: every value knows the line it came from, and YAML guesses nothing: each plain value is text (or None when empty),
so a station called 1, a date and a 'no' arrive as they were written. Duplicate keys and aliases are refused.
"""
from __future__ import annotations

from typing import Any

import yaml
from yaml.composer import Composer
from yaml.resolver import Resolver

from .errors import Problems


class Lined(dict):
    """A mapping. `line` is where it starts, `lines[key]` where each key stands."""

    line: int = 0
    lines: dict[str, int]


class LinedList(list):
    """A sequence. `line` is where it starts, `lines[i]` where each item stands."""

    line: int = 0
    lines: list[int]


def _reader() -> Any:
    """The scanner in C, where it is there, takes a fifth of the time; what is composed of its events is the same."""
    if not yaml.__with_libyaml__:
        return yaml.SafeLoader
    from yaml.cyaml import CParser  # type: ignore[attr-defined]

    class Fast(Composer, CParser, Resolver):
        def __init__(self, text: str) -> None:
            CParser.__init__(self, text)
            Composer.__init__(self)
            Resolver.__init__(self)
    return Fast


class _NoAliases(_reader()):  # type: ignore[misc]
    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        if self.check_event(yaml.AliasEvent):
            mark = self.peek_event().start_mark
            raise yaml.MarkedYAMLError(None, None, "references such as *name are not used here, write the values out", mark)
        return super().compose_node(parent, index)


def load(text: str, problems: Problems) -> object:
    """Lined, LinedList, str or None. Raises ProcedureError when the text is not YAML or breaks the law above."""
    try:
        node = _NoAliases(text).get_single_node()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        problems.add(_line(mark), f"This is not readable YAML: {error.problem or error.context}.")
        problems.stop_if_any()
    except yaml.YAMLError as error:
        problems.add(1, f"This is not readable YAML: {' '.join(str(error).split())}.")
        problems.stop_if_any()
    except UnicodeError:
        problems.add(1, "This file holds something that is no text.")
        problems.stop_if_any()
    except RecursionError:
        problems.add(1, "This YAML is nested too deeply.")
        problems.stop_if_any()
    value = _value(node, problems)
    problems.stop_if_any()
    return value


def _line(mark: object) -> int:
    return getattr(mark, "line", 0) + 1


def _value(node: object, problems: Problems) -> object:
    if isinstance(node, yaml.MappingNode):
        return _mapping(node, problems)
    if isinstance(node, yaml.SequenceNode):
        return _sequence(node, problems)
    if isinstance(node, yaml.ScalarNode):
        empty = node.style is None and node.value in ("", "~", "null")
        return None if empty else node.value
    return None


def _mapping(node: yaml.MappingNode, problems: Problems) -> Lined:
    out = Lined()
    out.line = _line(node.start_mark)
    out.lines = {}
    for key_node, value_node in node.value:
        line = _line(key_node.start_mark)
        if not isinstance(key_node, yaml.ScalarNode):
            problems.add(line, "A key must be a plain word.")
            continue
        key = key_node.value
        if key in out:
            problems.add(line, f"'{key}' is given twice; it was already given in line {out.lines[key]}.")
            continue
        out[key] = _value(value_node, problems)
        out.lines[key] = line
    return out


def _sequence(node: yaml.SequenceNode, problems: Problems) -> LinedList:
    out = LinedList(_value(item, problems) for item in node.value)
    out.line = _line(node.start_mark)
    out.lines = [_line(item.start_mark) for item in node.value]
    return out
