"""Random formulas: what the kernel makes of the compiled tree, against plain fractions in metres worked out here."""

from __future__ import annotations

import ast
import math
from fractions import Fraction

from catalogue.compile import compile_text
from hypothesis import example, given, settings
from hypothesis import strategies as st
from kernel.formula import READ, nothing, reading, work_out

from .wide import TABLES, WIDE

GRAIN = {"length": Fraction(1, 10**9), "area": Fraction(1, 10**12), "volume": Fraction(1, 10**12), "ratio": Fraction(1, 10**6)}
LENGTHS = ("bore", "skirt", "stroke", "width", "gap", "deck")
ALWAYS_ABOVE_ZERO = ("bore", "skirt", "stroke", "width")
STATIONS = ("1", "2")
SINGLE = ("stroke", "width")
PI = Fraction(math.pi)  # right to 16 digits: enough for a figure, and not the fraction that is compiled


def lengths(smaller: dict) -> st.SearchStrategy[str]:
    two = st.tuples(smaller["length"], smaller["length"])
    return st.one_of(
        st.sampled_from(LENGTHS),
        st.sampled_from(["'0.001 in'", "'3 mm'", "size(gasket)", "chamber / bore ** 2"]),
        two.map(lambda t: f"({t[0]} + {t[1]})"),
        two.map(lambda t: f"({t[0]} - {t[1]})"),
        two.map(lambda t: f"max({t[0]}, {t[1]})"),
        two.map(lambda t: f"mean({t[0]}, {t[1]}, gap)"),
        two.map(lambda t: f"spread({t[0]}, {t[1]})"),
        smaller["length"].map(lambda a: f"-{a}"),
        smaller["length"].map(lambda a: f"abs({a})"),
        st.tuples(smaller["pure"], smaller["length"]).map(lambda t: f"{t[0]} * {t[1]}"),
        st.tuples(smaller["area"], st.sampled_from(ALWAYS_ABOVE_ZERO)).map(lambda t: f"{t[0]} / {t[1]}"),
        st.tuples(st.sampled_from(["min", "max", "mean", "sum", "spread"]), st.sampled_from(["bore", "deck"])).map(lambda t: f"{t[0]}({t[1]})"),
    )


def pures(smaller: dict) -> st.SearchStrategy[str]:
    return st.one_of(
        st.sampled_from(["2", "0.25", "1.7", "pi", "(1 - 0.4)", "pi / 4"]),
        st.tuples(smaller["length"], st.sampled_from(ALWAYS_ABOVE_ZERO)).map(lambda t: f"({t[0]} / {t[1]})"),
        st.tuples(smaller["pure"], st.sampled_from("+-"), smaller["pure"]).map(lambda t: f"({t[0]} {t[1]} {t[2]})"),
    )


def areas(smaller: dict) -> st.SearchStrategy[str]:
    two = st.tuples(smaller["length"], smaller["length"])
    return st.one_of(two.map(lambda t: f"({t[0]} * {t[1]})"), smaller["length"].map(lambda a: f"({a}) ** 2"))


def grown(depth: int) -> dict:
    found = {"length": st.sampled_from(LENGTHS), "pure": st.sampled_from(["3", "0.5"]), "area": st.just("bore * gap")}
    for _ in range(depth):
        found = {"length": lengths(found), "pure": pures(found), "area": areas(found)}
    return found


SMALLER = grown(3)
FORMULAS = st.one_of(
    SMALLER["length"], SMALLER["pure"], SMALLER["area"], SMALLER["length"].map(lambda a: f"chamber / bore ** 2 - ({a})"), st.tuples(SMALLER["area"], SMALLER["length"]).map(lambda t: f"({t[0]}) * ({t[1]})")
).filter(lambda text: len(text) < 300)
READINGS = st.fixed_dictionaries(
    {
        "bore": st.tuples(*[st.integers(99_000_000, 106_000_000)] * 2),
        "skirt": st.tuples(*[st.integers(99_000_000, 106_000_000)] * 2),
        "gap": st.tuples(*[st.integers(0, 5_000_000)] * 2),
        "deck": st.tuples(*[st.integers(-508_000, 1_270_000)] * 2),
        "gasket": st.tuples(*[st.integers(508_000, 2_032_000)] * 2),
        "chamber": st.tuples(*[st.integers(30_000_000, 90_000_000)] * 2),
        "stroke": st.tuples(st.integers(76_200_000, 101_600_000)),
        "width": st.tuples(st.integers(12_700_000, 50_800_000)),
    }
)


def in_metres(text: str, readings: dict, station: str) -> Fraction:
    """The formula as a person would work it out, every reading turned into metres first."""

    def all_of(name: str) -> list[Fraction]:
        return [value * GRAIN["volume" if name == "chamber" else "length"] for value in readings[name]]

    def one(name: str) -> Fraction:
        return all_of(name)[0 if name in SINGLE else STATIONS.index(station)]

    def spread(values: list[Fraction]) -> Fraction:
        return max(values) - min(values)

    over = {"mean": lambda v: sum(v) / len(v), "spread": spread, "min": min, "max": max, "sum": sum}

    def value(node: ast.expr) -> Fraction:
        match node:
            case ast.Name("pi"):
                return PI
            case ast.Name(name):
                return one(name)
            case ast.Constant(str(quoted)):
                number, unit = quoted.split(" ")
                return Fraction(number) * {"in": Fraction("0.0254"), "mm": Fraction("0.001")}[unit]
            case ast.Constant(number):
                return Fraction(str(number))
            case ast.UnaryOp(ast.USub(), inside):
                return -value(inside)
            case ast.Call(ast.Name("size"), [ast.Name(slot)]):
                return one(slot)
            case ast.Call(ast.Name("abs"), [inside]):
                return abs(value(inside))
            case ast.Call(ast.Name(name), [ast.Name(point)]):
                return Fraction(over[name](all_of(point)))
            case ast.Call(ast.Name(name), parts):
                return Fraction(over[name]([value(part) for part in parts]))
            case ast.BinOp(left, ast.Pow(), ast.Constant(n)):
                return value(left) ** n
            case ast.BinOp(left, sign, right):
                a, b = value(left), value(right)
                return {ast.Add: lambda: a + b, ast.Sub: lambda: a - b, ast.Mult: lambda: a * b, ast.Div: lambda: a / b}[type(sign)]()
        raise AssertionError(ast.dump(node))

    return value(ast.parse(text, mode="eval").body)


def source_of(readings: dict):
    def source(leaf: list, at: str | None):
        name = leaf[1]
        if at is None:
            return [source(leaf, each) for each in STATIONS]
        place = 0 if name in SINGLE else STATIONS.index(at)
        return reading(f"{name}@{at}", readings[name][place], 500)

    return source


def compiled(formula: str) -> dict:
    for group in ("group: cylinders, ", ""):
        text = WIDE.replace("tried: {title: Tried, group: cylinders, formula: gap}", f'tried: {{title: Tried, {group}formula: "{formula}"}}')
        try:
            return compile_text(text, "wide.yaml", TABLES)["fits"]["tried"]
        except Exception as error:
            if "single figure" not in str(error):
                raise
    raise AssertionError("unreachable")


def nearest(exact: Fraction) -> int:
    return math.floor(abs(exact) + Fraction(1, 2)) * (1 if exact >= 0 else -1)


@settings(max_examples=80, deadline=None)
@given(FORMULAS, READINGS, st.sampled_from(STATIONS))
@example("bore ** 2 * stroke * pi / 4", {"bore": (101_600_000, 101_600_000), "stroke": (88_900_000,)}, "1")
def test_the_kernel_agrees_with_plain_fractions(formula, readings, station):
    if not any(name in formula for name in (*LENGTHS, "gasket", "chamber")):
        formula += " * bore / skirt"
    fit = compiled(formula)
    got = work_out(fit["tree"], station if fit["group"] else "", source_of(readings) if fit["group"] else source_of_single(readings))
    exact = in_metres(formula, readings, station) / GRAIN[fit["dimension"]]
    assert got["state"] == READ
    if "pi" in formula:
        assert abs(got["value"] - exact) <= 1 + abs(exact) / 10**14
    else:
        assert got["value"] == nearest(exact)


def source_of_single(readings: dict):
    """A formula without a group asks for single figures, and for whole groups."""
    inner = source_of(readings)
    return lambda leaf, at: inner(leaf, None if at is None else "1")


@settings(max_examples=60, deadline=None)
@given(READINGS)
def test_roots_and_angles_come_within_a_base_unit(readings):
    fit = compiled("stroke / 2 * cos('33 deg') + sqrt(bore ** 2 - (stroke / 2 * sin('33 deg')) ** 2)")
    stroke, bore = readings["stroke"][0], readings["bore"][0]
    angle = math.radians(33)
    exact = stroke / 2 * math.cos(angle) + math.sqrt(bore**2 - (stroke / 2 * math.sin(angle)) ** 2)
    assert abs(work_out(fit["tree"], "1", source_of(readings))["value"] - exact) <= 1


@settings(max_examples=40, deadline=None)
@given(READINGS)
def test_the_root_of_what_is_no_length_squared_on_the_grid(readings):
    fit = compiled("sqrt(bore * stroke * gap / width)")
    b, s, g, w = (readings[name][0] for name in ("bore", "stroke", "gap", "width"))
    got = work_out(fit["tree"], "1", source_of(readings))
    if g:
        assert got["value"] == nearest(Fraction(math.isqrt(b * s * g * 10**20 // w), 10**10))


def test_a_reading_that_is_not_there_leaves_no_figure():
    fit = compiled("bore / skirt")
    got = work_out(fit["tree"], "1", lambda leaf, at: nothing("not_read") if leaf[1] == "skirt" else reading("bore@1", 1, 0))
    assert (got["state"], got["value"]) == ("not_read", None)
