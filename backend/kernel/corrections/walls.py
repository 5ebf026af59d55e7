"""What readings teach about bearing shell walls.

Law: a clearance is what the housing leaves over the journal, less both shell walls:

    clearance = room(station) - wall(pair)        room = bare housing bore - journal, wall = upper wall + lower wall

Each reading is one such equation. Rooms and walls are unknown by themselves, but readings that share a station or a pair
chain together, and within a chain every other clearance follows. A measured wall or a measured bare bore ties its chain
to zero, so measured things can be predicted across chains.

Where equations disagree (they do, by the feel of the hand):
  1. a spot that was read with this very pair is predicted as it was read; the latest reading of the two counts;
  2. otherwise newer readings count before older, readings before measured walls, walls before bare bores: an equation
     that says again what better ones already say is not averaged in; a reading that contradicts them is listed in `strays`.
"""

from __future__ import annotations

from ..sorting import merge_sort

GROUND = "zero"


class Walls:
    """Holds the chains; made by `learn`."""

    def __init__(self) -> None:
        self.read: dict = {}  # (station, pair) -> clearance, the latest
        self.parent: dict = {}
        self.above: dict = {}  # value of a node less the value of its parent
        self.strays: list = []  # {station, pair, clearance, expected} that newer readings contradict

    def predict(self, station: str, pair: str) -> int | None:
        """Clearance in nm of this pair at this station; None where nothing read so far says."""
        if (station, pair) in self.read:
            return self.read[(station, pair)]
        return self._less(_station(station), _pair(pair))

    def difference(self, pair_a: str, pair_b: str) -> int | None:
        """Wall of pair_a less wall of pair_b in nm; None where nothing read so far says."""
        return self._less(_pair(pair_a), _pair(pair_b))

    def _less(self, a: str, b: str) -> int | None:
        top_a, value_a = self._find(a)
        top_b, value_b = self._find(b)
        return value_a - value_b if top_a == top_b else None

    def _find(self, node: str) -> tuple:
        value = 0
        while node in self.parent:
            value += self.above[node]
            node = self.parent[node]
        return node, value

    def _tie(self, a: str, b: str, apart: int) -> int | None:
        """Take in `a - b = apart`. Returns what is already known of a - b, or None when the equation is news."""
        top_a, value_a = self._find(a)
        top_b, value_b = self._find(b)
        if top_a == top_b:
            return value_a - value_b
        self.parent[top_a] = top_b
        self.above[top_a] = apart + value_b - value_a
        return None


def learn(readings: list, rooms: dict | None = None, walls: dict | None = None) -> Walls:
    """Learn from readings {station, pair, clearance}, oldest first, all of the same housings and journals.

    `rooms`: {station: bare housing bore - journal} where the bare bore was read.
    `walls`: {pair: sum of both walls} where the walls were measured. All lengths in nm.
    """
    known = Walls()
    for at in range(len(readings) - 1, -1, -1):
        _take(known, readings[at])
    for pair, wall in _in_order(walls or {}):
        known._tie(_pair(pair), GROUND, wall)
    for station, room in _in_order(rooms or {}):
        known._tie(_station(station), GROUND, room)
    return known


def _in_order(sizes: dict) -> list:
    """(name, size) in alphabetical order: where measured sizes contradict each other the first is believed."""
    return merge_sort(list(sizes.items()), lambda named: named[0])


def _take(known: Walls, reading: dict) -> None:
    station, pair, clearance = reading["station"], reading["pair"], reading["clearance"]
    if (station, pair) in known.read:
        return  # read again later
    known.read[(station, pair)] = clearance
    expected = known._tie(_station(station), _pair(pair), clearance)
    if expected is not None and expected != clearance:
        known.strays.append({"station": station, "pair": pair, "clearance": clearance, "expected": expected})


def _station(station: str) -> str:
    return "station " + station


def _pair(pair: str) -> str:
    return "pair " + pair
