"""The shell laws by brute force: every order of moves, every placing, from the definition. Slow and plain on purpose."""


class Case:
    """A bench with every wall measured. Figures are small integers; low, high, aim and level as in `propose`."""

    def __init__(self, rooms, upper_walls, lower_walls, shelf, low, high, aim, level):
        self.stations = [str(at + 1) for at in range(len(rooms))]
        self.uppers = {s: "u" + s for s in self.stations}
        self.lowers = {s: "l" + s for s in self.stations}
        self.room = dict(zip(self.stations, rooms))
        self.walls = dict(zip(self.uppers.values(), upper_walls)) | dict(zip(self.lowers.values(), lower_walls))
        self.shelf = [{"id": "x%d" % at, "kind": kind} for at, (kind, _) in enumerate(shelf)]
        self.walls |= {"x%d" % at: wall for at, (_, wall) in enumerate(shelf)}
        self.low, self.high, self.aim, self.level = low, high, aim, level

    def start(self):
        return tuple((self.uppers[s], self.lowers[s]) for s in self.stations)

    def clearances(self, placing):
        return [self.room[s] - self.walls[u] - self.walls[low] for s, (u, low) in zip(self.stations, placing)]

    def readings(self):
        return [
            {"station": s, "upper": self.uppers[s], "lower": self.lowers[s], "clearance": c}
            for s, c in zip(self.stations, self.clearances(self.start()))
        ]

    def shortfall(self, placing):
        clearances = self.clearances(placing)
        past = [max(0, self.low - c, c - self.high) for c in clearances]
        past.append(0 if self.level is None else max(0, max(clearances) - min(clearances) - self.level))
        return sum(1 for p in past if p), sum(past)

    def finish(self, placing):
        clearances = self.clearances(placing)
        changed = [at for at, (now, then) in enumerate(zip(self.start(), placing)) if now != then]
        return max(clearances) - min(clearances), max(abs(c - self.aim) for c in clearances), changed

    def one_move_on(self, placing):
        fitted = [half for pair in placing for half in pair]
        for a in range(len(placing)):
            for half in self.shelf:
                if half["id"] in fitted:
                    continue
                for slot, kind in ((0, "upper"), (1, "lower")):
                    if half["kind"] in (kind, "either"):
                        yield put(placing, a, slot, half["id"])
            for b in range(a + 1, len(placing)):
                uppers = put(put(placing, a, 0, placing[b][0]), b, 0, placing[a][0])
                yield uppers
                yield put(put(placing, a, 1, placing[b][1]), b, 1, placing[a][1])
                yield put(put(uppers, a, 1, placing[b][1]), b, 1, placing[a][1])

    def reachable(self, moves):
        """For 0, 1 ... `moves`: the placings that take that many moves and no fewer."""
        layers, seen = [{self.start()}], {self.start()}
        for _ in range(moves):
            layer = {on for placing in layers[-1] for on in self.one_move_on(placing)} - seen
            seen |= layer
            layers.append(layer)
        return layers

    def after(self, moves):
        """The placing that a proposal's moves lead to, done one by one as a builder would."""
        placing = self.start()
        for move in moves:
            slots = {"pair": (0, 1), "upper": (0,), "lower": (1,)}[move["what"]]
            a = self.stations.index(move["a"])
            for slot in slots:
                if move["b"] is None:
                    placing = put(placing, a, slot, move["part"])
                else:
                    b = self.stations.index(move["b"])
                    ours, theirs = placing[a][slot], placing[b][slot]
                    placing = put(put(placing, a, slot, theirs), b, slot, ours)
        return placing


def put(placing, at, slot, part):
    pair = list(placing[at])
    pair[slot] = part
    return placing[:at] + (tuple(pair),) + placing[at + 1 :]
