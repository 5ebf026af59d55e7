"""The diary: plausible times, people one at a time, and nothing but invented names."""

from __future__ import annotations

import re

import pytest

from demo import clock, diary, world
from demo.pen import Pen
from demo.verbs import tell

from .told import MIDNIGHT, ROLES, told, written

# Every capitalised word inside a sentence of the demo: people, places and papers of the invented world, and how marks begin.
INVENTED = {"Ines", "Marek", "Juno", "Tomasz", "Tern", "Hollow", "Saltmarsh", "Fridays", "V8", "P", "R", "L", "B", "MB", "I3", "Grade"}
TEXTS = {"name", "note", "sheet", "why", "reason", "condition", "title", "mark", "granted_by", "tool"}


def texts(told_: object) -> list[str]:
    if isinstance(told_, dict):
        own = [str(value) for key, value in told_.items() if key in TEXTS and isinstance(value, str)]
        return own + [text for value in told_.values() for text in texts(value)]
    return [text for value in told_ for text in texts(value)] if isinstance(told_, list) else []


def names_inside(text: str) -> list[str]:
    """Capitalised words that do not begin a sentence."""
    found = []
    for sentence in re.split(r"(?<=[.:!?])\s+", text):
        found += [word for word in re.findall(r"[A-Z]\w*", sentence.partition(" ")[2])]
    return found


def test_nobody_and_nothing_in_it_is_real():
    found = {name for file in diary.files() for text in texts(file) for name in names_inside(text)}
    assert found - INVENTED == set()
    assert {body["granted_by"] for events in told().values() for body in [e["body"] for e in events] if "granted_by" in body} <= {"Ines"}


@pytest.mark.parametrize("key", diary.keys())
def test_it_ended_before_today_and_went_on_minute_by_minute(key):
    at = [event["at"] for event in told()[key]]
    assert at == sorted(at) and at[-1] < MIDNIGHT
    assert len({time // clock.DAY for time in at}) >= 8, "over days"


def test_nobody_is_at_two_engines_at_once():
    for who in ROLES:
        turns: dict[tuple, list[int]] = {}
        for key, events in told().items():
            for event in events:
                if event["who"] == who:
                    turns.setdefault((key, event["seen"]), []).append(event["at"])
        spans = sorted((min(at), max(at)) for at in turns.values())
        assert all(before[1] < after[0] for before, after in zip(spans, spans[1:], strict=False)), who
        assert all(8 <= (at // 3_600_000) % 24 < 19 for span in spans for at in span), f"{who} works by day"


def test_everybody_works_and_each_knew_what_was_there():
    for key, events in told().items():
        assert {"marek", "juno", "ines"} <= {event["who"] for event in events}, key
        assert all(event["seen"] < event["seq"] for event in events)
    assert {event["dev"] for events in told().values() for event in events} == {dev for dev, _ in world.PHONES.values()}


@pytest.mark.parametrize("file", diary.files(), ids=diary.keys())
def test_the_same_day_tells_the_same_story_and_another_day_the_same_a_day_on(file):
    story, later = written(file), written(file, MIDNIGHT + clock.DAY)
    assert story == written(file)
    assert [(who, event | {"at": event["at"] + clock.DAY}) for who, event in story] == later


def test_no_two_entries_have_one_number():
    used = [(event["dev"], event["n"]) for events in told().values() for event in events]
    assert len(used) == len(set(used)) > 1000
    ranges = sorted((file["numbers_from"], max(event["n"] for _, event in written(file))) for file in diary.files())
    assert all(last < first for (_, last), (first, _) in zip(ranges, ranges[1:], strict=False)), "room for a longer story"


def test_an_entry_that_does_not_go_with_the_procedure_is_named():
    pen = Pen({"key": "b-any"}, {"procedure": "any", "steps": [], "points": {}})
    with pytest.raises(ValueError, match="b-any: the entry “steps: \\['bores'\\]” does not go with any"):
        tell(pen, {"steps": ["bores"]})
    with pytest.raises(ValueError, match="guesses"):
        tell(pen, {"guesses": "bores"})
