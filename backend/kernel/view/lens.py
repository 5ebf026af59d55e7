"""One person's way of looking at a build: its state, the person's units and language, the time, the names of people."""
from __future__ import annotations

from ..show import Shown
from ..words import EVERYDAY, said_in


class Lens:
    def __init__(self, build, units: dict, now: int, people: dict):
        self.build = build
        self.procedure = build.procedure
        self.shown = Shown(build.procedure["units"], units)
        self.now = now
        self.people = people
        self.manner = units["length"] + " " + units["torque"] + " " + (units.get("language") or EVERYDAY)
        self.said = said_in(units.get("language") or EVERYDAY)

    def say(self, key: str, **parts: object) -> str:
        """A sentence in this person's language."""
        return self.said[key].format(**parts)

    def listed(self, words: list[str]) -> str:
        """`1, 2 and 5`."""
        if len(words) < 2:
            return words[0] if words else ""
        return self.say("and", most=", ".join(words[: len(words) - 1]), last=words[len(words) - 1])

    def ago(self, at: int) -> str:
        """`6 minutes ago`, for a clock reading in ms."""
        minutes = max(0, (self.now - at) // 60000)
        for size, unit in ((1440, "day"), (60, "hour"), (1, "minute")):
            if minutes >= size:
                count = minutes // size
                return self.say(unit + "_ago") if count == 1 else self.say(unit + "s_ago", n=count)
        return self.say("just_now")

    def name(self, who: str | None) -> str:
        """A person's name; the bare id where the name is not known here."""
        return self.people.get(who or "", who or self.said["somebody"])

    def station_title(self, group: str, station: str) -> str:
        """`main 3`; empty where there are no stations."""
        return self.procedure["groups"][group]["title"] + " " + station if group and station else ""

    def spot_title(self, table: str, name: str, station: str) -> str:
        """`Bearing bore, main 3`."""
        item = self.procedure[table][name]
        at = self.station_title(item["group"], station)
        return item["title"] + ", " + at if at else item["title"]

    def part_title(self, part: dict) -> str:
        """The name it was given; a part that came with its place is called after it, wherever it runs now."""
        if not part["came"]:
            return part["title"]
        return self.say("came_at", part=part["title"], where=self.station_title(part["group"], part["came"]))


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]
