"""Shell halves laid out on the bench: who sits where, what the shelf holds, what clearance each placing would leave.

Law: a half keeps its kind, for uppers carry the oil hole: uppers go to upper slots, lowers to lower slots, and only a
shelf half of kind "either" may go to both. A clearance nobody can predict is None and is never guessed.
"""
from __future__ import annotations

from .walls import learn

PAIR, UPPER, LOWER = "pair", "upper", "lower"


class Bench:
    """The stations whose present clearance is known, and what moves there are. Lengths in nm."""

    def __init__(self, stations: list, uppers: dict, lowers: dict, shelf: list, walls: dict, rooms: dict,
                 readings: list) -> None:
        self.walls = walls
        self.known = learn([self._equation(reading) for reading in readings], rooms, {"": 0})
        self.asked: dict = {}
        self.stations = [s for s in stations if self.clearance(s, uppers[s], lowers[s]) is not None]
        self.uppers = [uppers[s] for s in self.stations]
        self.lowers = [lowers[s] for s in self.stations]
        sized = [half for half in shelf if walls.get(half["id"]) is not None]
        self.spare_uppers = [half["id"] for half in sized if half["kind"] != LOWER]
        self.spare_lowers = [half["id"] for half in sized if half["kind"] != UPPER]
        self.mate = {}
        for at in range(len(self.stations)):
            self.mate[self.uppers[at]] = self.lowers[at]

    def clearance(self, station: str, upper: str, lower: str) -> int | None:
        """What these halves would leave at this station, or None."""
        asked = station + "\n" + upper + "\n" + lower
        if asked not in self.asked:
            measured, rest = self._measured(upper, lower)
            predicted = self.known.predict(station, rest)
            self.asked[asked] = None if predicted is None else predicted - measured
        return self.asked[asked]

    def _equation(self, reading: dict) -> dict:
        measured, rest = self._measured(reading["upper"], reading["lower"])
        return {"station": reading["station"], "pair": rest, "clearance": reading["clearance"] + measured}

    def _measured(self, upper: str, lower: str) -> tuple:
        """(sum of the walls that were measured, name of the rest): only the rest must be learned from readings."""
        total, rest = 0, ""
        for half in (upper, lower):
            wall = self.walls.get(half)
            if wall is None:
                rest = rest + "\n" + half
            else:
                total += wall
        return total, rest


class Deal:
    """One placing of halves, with the moves that led to it. Made from a bench; `make` leads to another deal."""

    def __init__(self, bench: Bench, uppers: list, lowers: list, moves: list, clearances: list) -> None:
        self.bench = bench
        self.uppers = uppers
        self.lowers = lowers
        self.moves = moves
        self.clearances = clearances
        self.short: tuple | None = None

    def exchange(self, what: str, a: int, b: int) -> Deal:
        """The deal with the pair, the uppers or the lowers of station numbers a and b exchanged."""
        uppers, lowers = list(self.uppers), list(self.lowers)
        if what != LOWER:
            uppers[a], uppers[b] = uppers[b], uppers[a]
        if what != UPPER:
            lowers[a], lowers[b] = lowers[b], lowers[a]
        return self._moved(uppers, lowers, (what, min(a, b), max(a, b), None))

    def put(self, what: str, at: int, part: str) -> Deal:
        """The deal with a shelf half in place of the upper or the lower of station number `at`."""
        uppers, lowers = list(self.uppers), list(self.lowers)
        if what == UPPER:
            uppers[at] = part
        else:
            lowers[at] = part
        return self._moved(uppers, lowers, (what, at, None, part))

    def _moved(self, uppers: list, lowers: list, move: tuple) -> Deal:
        clearances = list(self.clearances)
        for at in (move[1], move[2]):
            if at is not None:
                clearances[at] = self.bench.clearance(self.bench.stations[at], uppers[at], lowers[at])
        return Deal(self.bench, uppers, lowers, self.moves + [move], clearances)

    def make(self, way: tuple) -> Deal:
        """The deal that a way of `ways` leads to."""
        what, at, other, part = way[:4]
        return self.put(what, at, part) if other is None else self.exchange(what, at, other)

    def ways(self, at: int, partner: int | None = None) -> list:
        """Every move that changes station number `at` (and `partner`, when one is named).

        As (what, at, other or None, part or None, clearance then at `at`, clearance then at `other`): far cheaper than
        making every deal, and most are not worth making.
        """
        bench, uppers, lowers = self.bench, self.uppers, self.lowers
        clearance, station, upper, lower = bench.clearance, bench.stations[at], uppers[at], lowers[at]
        ways: list = []
        for other in range(len(uppers)) if partner is None else (partner,):
            if other == at:
                continue
            there, its_upper, its_lower = bench.stations[other], uppers[other], lowers[other]
            ways.append((PAIR, at, other, None, clearance(station, its_upper, its_lower),
                         clearance(there, upper, lower)))
            ways.append((UPPER, at, other, None, clearance(station, its_upper, lower),
                         clearance(there, upper, its_lower)))
            ways.append((LOWER, at, other, None, clearance(station, upper, its_lower),
                         clearance(there, its_upper, lower)))
        if partner is None:
            for part in bench.spare_uppers:
                if part not in uppers and part not in lowers:
                    ways.append((UPPER, at, None, part, clearance(station, part, lower), None))
            for part in bench.spare_lowers:
                if part not in uppers and part not in lowers:
                    ways.append((LOWER, at, None, part, clearance(station, upper, part), None))
        return ways

    def place(self) -> str:
        """A name for this placing. Not a tuple: on the phone all tuples of the same halves, however placed, share a hash."""
        return "\n".join(self.uppers) + "\n" + "\n".join(self.lowers)

    def shortfall(self, limits) -> tuple:
        """`limits.shortfall` of this deal's clearances, worked out once."""
        if self.short is None:
            self.short = limits.shortfall(self.clearances)
        return self.short

    def changed(self) -> list:
        """Numbers of the stations that hold other halves than now."""
        bench = self.bench
        return [at for at in range(len(self.uppers))
                if self.uppers[at] != bench.uppers[at] or self.lowers[at] != bench.lowers[at]]

    def parted(self) -> int:
        """How many stations would hold two halves that did not sit together before."""
        mate = self.bench.mate
        return len([at for at in range(len(self.uppers)) if mate.get(self.uppers[at]) != self.lowers[at]])


def present(bench: Bench) -> Deal:
    """The deal as it sits now."""
    return Deal(bench, bench.uppers, bench.lowers, [],
                [bench.clearance(s, bench.uppers[at], bench.lowers[at]) for at, s in enumerate(bench.stations)])
