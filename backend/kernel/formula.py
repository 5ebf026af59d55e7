"""Worked-out values: a formula tree evaluated over readings, with what each reading weighs in it.

Law: a formula gives a value only when every reading it rests on is there and can be relied on; otherwise it says why not.
It is worked out in exact fractions and rounded once, half away from zero. Nodes are listed in docs/design/procedure-format.md.
"""
from __future__ import annotations

from .angles import PER_MICRODEGREE, cosine, sine
from .rational import Pair, less, minus, over, plus, power, root, rounded, times

NOT_READ, STALE, CONTRARY, READ = "not_read", "stale", "contrary", "read"
NO_FIGURE = "no_figure"
ONE = 1_000_000_000   # sensitivities count billionths
NAMES = ("point", "fit", "size", "choice")


class NotThere(Exception):
    """Something the formula rests on gives no value; the message is its state."""


class Term:
    """A value on the way: a fraction, its slope against each reading, and half the resolution of each reading."""

    def __init__(self, value: Pair, slopes: dict[str, Pair], halves: dict[str, int]):
        self.value, self.slopes, self.halves = value, slopes, halves


def work_out(tree: list, station: str, source) -> dict:
    """`{"state", "value", "step", "sens", "halves"}` of a tree at one station; value None unless state is `read`.

    `source(node, station)` gives the same shape for a named leaf, and a list of them for a leaf over all its stations
    (station None). `sens` is, for each reading, billionths of a base unit of the result for a base unit of the reading;
    `step` how coarse the result is: every reading off by half its last digit, all against us; `halves` those half digits.
    """
    try:
        return _figure(_term(tree, station, source))
    except NotThere as error:
        return nothing(str(error))
    except (ZeroDivisionError, ValueError):
        return nothing(NO_FIGURE)


def nothing(state: str) -> dict:
    """A figure that is not there, and why."""
    return {"state": state, "value": None, "step": 0, "sens": {}, "halves": {}}


def reading(key: str, value: int, half: int) -> dict:
    """The figure of something read by itself; `half` is half its resolution."""
    return {"state": READ, "value": value, "step": half, "sens": {key: ONE}, "halves": {key: half}}


def _figure(term: Term) -> dict:
    sens = {key: rounded(times(term.slopes[key], (ONE, 1))) for key in term.slopes}
    coarse = sum([abs(sens[key]) * term.halves[key] for key in sens])
    return {"state": READ, "value": rounded(term.value), "step": -(-coarse // ONE), "sens": sens, "halves": term.halves}


def _term(tree: list, station: str, source) -> Term:
    kind = tree[0]
    if kind in NAMES:
        return _leaf(source(tree, station))
    if kind == "number":
        return Term((tree[1], 1), {}, {})
    if kind == "ratio":
        return Term((tree[1], tree[2]), {}, {})
    if kind in _OVER_SEVERAL:
        return _OVER_SEVERAL[kind](_several(tree, station, source))
    if kind in _OF_TWO:
        return _OF_TWO[kind](_term(tree[1], station, source), _term(tree[2], station, source))
    return _OF_ONE[kind](_term(tree[1], station, source), tree)


def _leaf(found: dict) -> Term:
    if found["state"] != READ:
        raise NotThere(found["state"])
    slopes = {key: (1, 1) if found["sens"][key] == ONE else (found["sens"][key], ONE) for key in found["sens"]}
    return Term((found["value"], 1), slopes, found["halves"])


def _several(tree: list, station: str, source) -> list[Term]:
    """The terms of an aggregate: one thing over all its stations, or several things at this station."""
    if len(tree) > 2:
        return [_term(tree[i], station, source) for i in range(1, len(tree))]
    found = source(tree[1], None)
    state = worst([f["state"] for f in found])
    if state != READ:
        raise NotThere(state)
    return [_leaf(f) for f in found]


def _combined(value: Pair, a: Term, by_a: Pair, b: Term, by_b: Pair) -> Term:
    """A value that moves by `by_a` for each unit of a and by `by_b` for each unit of b."""
    slopes = {key: times(a.slopes[key], by_a) for key in a.slopes}
    for key in b.slopes:
        more = times(b.slopes[key], by_b)
        slopes[key] = plus(slopes[key], more) if key in slopes else more
    return Term(value, slopes, a.halves | b.halves)


def _scaled(a: Term, value: Pair, by: Pair) -> Term:
    return Term(value, {key: times(a.slopes[key], by) for key in a.slopes}, a.halves)


def _add(a: Term, b: Term) -> Term:
    return _combined(plus(a.value, b.value), a, (1, 1), b, (1, 1))


def _subtract(a: Term, b: Term) -> Term:
    return _combined(minus(a.value, b.value), a, (1, 1), b, (-1, 1))


def _multiply(a: Term, b: Term) -> Term:
    return _combined(times(a.value, b.value), a, b.value, b, a.value)


def _divide(a: Term, b: Term) -> Term:
    value = over(a.value, b.value)
    return _combined(value, a, over((1, 1), b.value), b, over((-value[0], value[1]), b.value))


def _raise(a: Term, tree: list) -> Term:
    n = tree[2]
    return _scaled(a, power(a.value, n), times((n, 1), power(a.value, n - 1)))


def _abs(a: Term, tree: list) -> Term:
    sign = -1 if a.value[0] < 0 else 1
    return _scaled(a, (abs(a.value[0]), a.value[1]), (sign, 1))


def _sqrt(a: Term, tree: list) -> Term:
    factor = (tree[2], tree[3])
    value = root(times(a.value, factor))
    return _scaled(a, value, over(factor, times((2, 1), value)))


def _sin(a: Term, tree: list) -> Term:
    return _scaled(a, sine(a.value), times(cosine(a.value), PER_MICRODEGREE))


def _cos(a: Term, tree: list) -> Term:
    slope = times(sine(a.value), PER_MICRODEGREE)
    return _scaled(a, cosine(a.value), (-slope[0], slope[1]))


def _sum(terms: list[Term]) -> Term:
    total = terms[0]
    for i in range(1, len(terms)):
        total = _add(total, terms[i])
    return total


def _mean(terms: list[Term]) -> Term:
    total, share = _sum(terms), (1, len(terms))
    return _scaled(total, times(total.value, share), share)


def _least(terms: list[Term]) -> Term:
    found = terms[0]
    for term in terms:
        found = term if less(term.value, found.value) else found
    return found


def _most(terms: list[Term]) -> Term:
    found = terms[0]
    for term in terms:
        found = term if less(found.value, term.value) else found
    return found


def _spread(terms: list[Term]) -> Term:
    return _subtract(_most(terms), _least(terms))


_OVER_SEVERAL = {"mean": _mean, "spread": _spread, "min": _least, "max": _most, "sum": _sum}
_OF_TWO = {"+": _add, "-": _subtract, "*": _multiply, "/": _divide}
_OF_ONE = {"**": _raise, "abs": _abs, "sqrt": _sqrt, "sin": _sin, "cos": _cos}


def worst(states: list[str]) -> str:
    """One state for several readings: anything missing comes first, then stale, contrary, and what gives no figure."""
    for state in (NOT_READ, STALE, CONTRARY, NO_FIGURE):
        if state in states:
            return state
    return READ if states else NOT_READ
