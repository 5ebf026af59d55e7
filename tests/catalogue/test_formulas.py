"""Formulas of any dimension: the tree they become, and what is refused in them."""

from __future__ import annotations

import json

import pytest

PI = [428224593349304, 136308121570117]


def tree(wide_with, formula: str, group: str = "cylinders") -> list:
    made = wide_with("formula: gap}", f'formula: "{formula}"}}').get("fits")["tried"]
    assert made["group"] == group
    return made["tree"]


def test_a_volume_carries_its_factor_in_the_tree(wide_with):
    # nm x nm x nm is 1e-27 m3, a nanolitre 1e-12 m3
    fits = wide_with()["fits"]
    quarter = ["ratio", PI[0] // 4, PI[1]]
    assert fits["swept"]["tree"] == [
        "*", ["ratio", 1, 10**15], ["*", ["*", quarter, ["**", ["point", "bore"], 2]], ["point", "stroke"]]
    ]  # fmt: skip
    assert fits["swept"]["dimension"] == "volume"
    assert fits["left"]["tree"][1] == ["point", "chamber"]
    assert fits["left"]["tree"][2][2][2] == ["+", ["point", "deck"], ["size", "gasket"]]


def test_a_figure_says_all_it_rests_on(wide_with):
    fits = wide_with()["fits"]
    assert fits["ratio"]["points"] == ["bore", "stroke", "chamber", "deck"]
    assert fits["ratio"]["sizes"] == ["gasket"] and fits["ratio"]["choices"] == []
    assert fits["growth"]["choices"] == ["block"]
    assert fits["ratio"]["page"] == "ratio" and fits["ratio"]["cure"] == "Another gasket."


def test_dimensions_come_from_what_is_multiplied(wide_with):
    found = {name: fit["dimension"] for name, fit in wide_with()["fits"].items()}
    assert found == {
        "swept": "volume", "left": "volume", "ratio": "ratio", "wall": "length", "speed": "velocity", "growth": "length",
        "load": "pressure", "lashes": "length", "tried": "length",
    }  # fmt: skip


def test_a_speed_in_turns_a_minute_is_a_pure_number_a_minute(wide_with):
    # nm x thousandths of a turn a minute: 1e-9 / 60 000 m/s, and the grid counts micrometres a second
    assert wide_with()["fits"]["speed"]["tree"][1] == ["ratio", 1, 60_000_000]


@pytest.mark.parametrize(
    ("formula", "made"),
    [
        ("-lash + bore", ["+", ["-", ["number", 0], ["point", "lash"]], ["point", "bore"]]),
        ("lash - '0.001 in'", ["-", ["point", "lash"], ["number", 25_400]]),
        ("mean(lash, bore, skirt)", ["mean", ["point", "lash"], ["point", "bore"], ["point", "skirt"]]),
        ("spread(lash, bore) + max(lash)", ["+", ["spread", ["point", "lash"], ["point", "bore"]], ["max", ["point", "lash"]]]),
        ("lash - sum(gap) + abs(deck)", ["+", ["-", ["point", "lash"], ["sum", ["point", "gap"]]], ["abs", ["point", "deck"]]]),
        ("lash + size(bucket)", ["+", ["point", "lash"], ["size", "bucket"]]),
    ],
)
def test_sums_over_one_dimension_hold_no_factor(wide_with, formula, made):
    assert tree(wide_with, formula) == made
    assert "ratio" not in json.dumps(made)


@pytest.mark.parametrize(
    ("formula", "made"),
    [
        ("lash * 1.5", ["*", ["point", "lash"], ["ratio", 3, 2]]),
        ("lash / -2", ["/", ["point", "lash"], ["ratio", -2, 1]]),
        ("lash * (1 - 0.25)", ["*", ["point", "lash"], ["-", ["number", 1], ["ratio", 1, 4]]]),
        ("lash * sin(tilt)", ["*", ["point", "lash"], ["sin", ["point", "tilt"]]]),
        ("lash * cos('60 deg')", ["*", ["point", "lash"], ["cos", ["number", 60_000_000]]]),
        ("sqrt(bore ** 2 + skirt ** 2)", ["sqrt", ["+", ["**", ["point", "bore"], 2], ["**", ["point", "skirt"], 2]], 1, 1]),
        ("bore * wall / skirt", ["/", ["*", ["point", "bore"], ["fit", "wall"]], ["point", "skirt"]]),
        # 1 nm over 1 nm is 1, a ratio counts millionths
        ("bore / skirt", ["*", ["ratio", 1_000_000, 1], ["/", ["point", "bore"], ["point", "skirt"]]]),
        ("1 + ratio", ["+", ["number", 1_000_000], ["fit", "ratio"]]),
        ("3 / 4 * 2 * lash", ["*", ["ratio", 3, 2], ["point", "lash"]]),
    ],
)
def test_products_and_their_factors(wide_with, formula, made):
    assert tree(wide_with, formula) == made


def test_the_root_of_a_volume_over_a_length_is_a_length(wide_with):
    # sqrt(nl / nm): 1e-12 m3 / 1e-9 m is 1e-3 m2, and the root counts nm: 1e-3 / (1e-9)^2 = 1e15
    assert tree(wide_with, "sqrt(chamber / bore)") == ["sqrt", ["/", ["point", "chamber"], ["point", "bore"]], 10**15, 1]


def test_no_integer_is_larger_than_a_phones_json_carries(wide_with):
    made = wide_with("formula: gap}", 'formula: "sqrt(bore ** 4 / skirt ** 4 * chamber ** 4 / skirt ** 4 / bore ** 4 / gap_ * lash)"}'.replace("gap_", "'1 mm'"))

    def largest(value) -> int:
        if isinstance(value, (dict, list)):
            return max([largest(v) for v in (value.values() if isinstance(value, dict) else value)], default=0)
        return abs(value) if isinstance(value, int) else 0

    assert largest(made["fits"]) < 2**53


REFUSED = [
    ("lash + 2", "The number 2 has no unit. Write it with one, in quotes: '2 in'."),
    ("lash + rise", "'lash' (length) cannot be added to 'rise' (temperature)."),
    ("lash * rise - bore", "'bore' (length) cannot be taken from 'lash * rise' ([length]^1 [temperature]^1)."),
    ("lash * rise", "gives [length]^1 [temperature]^1, which is no dimension that a figure can have"),
    ("tilt + 1", "The number 1 has no unit"),
    ("ratio + tilt", "'ratio' (ratio) cannot be added to 'tilt' (angle)."),
    ("sin(ratio)", "'sin' takes an angle; 'ratio' is a ratio."),
    ("cos(lash)", "'cos' takes an angle; 'lash' is a length."),
    ("lash + throw", "'lash' is read at the stations of cylinders, 'throw' at those of throws"),
    ("mean(lash, tilt)", "'lash' (length) cannot be put beside 'tilt' (angle)."),
    ("sum(lash, bore)", "'sum' takes one thing."),
    ("lash ** 5", "The power '5' must be a whole number from 2 to 4."),
    ("lash ** redline", "The power 'redline' must be a whole number from 2 to 4."),
    ("lash * 1e3", "'1e3' cannot be used in a formula"),
    ("lash * True", "'True' cannot be used in a formula"),
    ("lash * 0x10", "'0x10' cannot be used in a formula"),
    ("lash * 1234567890123456", "with at most 15 of them"),
    ("lash * block.modulus", "it is not a column of one of the choices"),
    ("lash * oil.price", "it is not a column of one of the choices"),
    ("lash % bore", "'lash % bore' cannot be used in a formula"),
    ("lash // bore", "cannot be used in a formula"),
    ("size(lash)", "'size' takes the name of one slot of this procedure, not 'lash'."),
    ("max(*lash)", "'max' takes plain arguments only."),
    ("max(lash, key=bore)", "'max' takes plain arguments only."),
    ("lash + '3 cubits'", "The unit 'cubits' is not known."),
    ("lash + '999999999999 in'", "larger than anything that can be kept exactly"),
    ("lash if lash else bore", "cannot be used in a formula"),
    ("[lash]", "cannot be used in a formula"),
    ("lash.real", "cannot be used in a formula"),
    ("(lambda: lash)()", "is not known"),
    ("+".join(["lash"] * 30), "nested more than 24 deep"),
]


@pytest.mark.parametrize(("formula", "says"), REFUSED, ids=[r[0][:30] for r in REFUSED])
def test_refused_with_its_line(wide_refused, formula, says):
    line, problems = wide_refused("formula: gap}", f'formula: "{formula}"}}')
    assert [p.line for p in problems if says in p.says] == [line], [str(p) for p in problems]


def test_a_figure_is_shown_in_the_unit_it_names_or_its_limit_is_written_in(wide_with, wide_refused):
    made = wide_with()
    assert {name: fit["unit"] for name, fit in made["fits"].items() if fit["unit"]} == {"swept": "in3", "ratio": ":1", "speed": "ft/min"}
    assert made["points"]["rise"]["unit"] == "K"
    line, problems = wide_refused("unit: in3", "unit: rpm")
    assert [(p.line, p.says) for p in problems] == [(line, "The fit 'swept' is a volume: 'rpm' is no unit to show it in.")]


def test_a_thing_called_pi_is_refused(wide_refused):
    _, problems = wide_refused("  gap: {title: Gap,", "  pi: {title: Gap,")
    assert any("'pi' is a number in every formula" in p.says for p in problems)
