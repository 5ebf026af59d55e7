"""What a step may carry: corrections by every method, passes by angle, the item that is forgotten; and the film."""

from __future__ import annotations

import pytest

NONE = {
    "fit": "", "slots": [], "slot": "", "bare": "", "level": "", "fits": [], "also": [], "point": "", "moves": "", "by": "", "down": [],
    "up": [], "step": None, "pitch": None, "ratio": "",
}  # fmt: skip
CUT = "{method: cut, fit: wall, point: bore, moves: up, by: hone the cylinder}"


def test_corrections_are_a_list_with_every_field(wide_with):
    swap, cut, buckets = wide_with()["steps"][1]["corrects"]
    assert swap == {**NONE, "method": "swap", "fit": "ratio", "slot": "gasket", "also": ["wall"]}
    assert cut == {**NONE, "method": "cut", "fit": "wall", "point": "bore", "moves": "up", "by": "hone the cylinder"}
    assert buckets == {**NONE, "method": "buckets", "fits": ["lashes"], "slots": ["bucket"], "step": 50_000}


@pytest.mark.parametrize(
    ("record", "fields"),
    [
        ("{method: shells, fit: wall, slots: [gasket, bucket], bare: bore, level: speed}", {"slots": ["gasket", "bucket"], "level": "speed"}),
        ("{method: shims, fit: lashes, slot: bucket}", {"slot": "bucket"}),
        ("{method: match, fit: ratio, slot: gasket, level: speed}", {"slot": "gasket", "level": "speed"}),
        ("{method: rings, fit: tried, point: gap}", {"point": "gap"}),
        ("{method: springs, fit: tried, down: [bucket], up: [gasket]}", {"down": ["bucket"], "up": ["gasket"]}),
        ("{method: length, fit: tried, step: 0.050 in}", {"step": 1_270_000}),
        ("{method: turns, fit: tried, pitch: 1 mm, ratio: ratio, moves: up}", {"pitch": 1_000_000, "ratio": "ratio", "moves": "up"}),
    ],
)
def test_every_method(wide_with, record, fields):
    found = wide_with(CUT, record)["steps"][1]["corrects"][1]
    assert found == {**NONE, **fields, "method": found["method"], "fit": found["fit"], "bare": found["bare"]}


REFUSED = [
    ("{method: hammer, fit: wall}", "'method' must be one of shells, shims, match,"),
    ("{method: cut, fit: wall, point: bore, by: hone}", "A correction by cut needs 'moves'."),
    ("{method: cut, fit: wall, point: bore, moves: left, by: hone}", "'moves' must be up or down, not 'left'."),
    ("{method: cut, fit: wall, point: chamber, moves: up, by: hone}", "'wall' does not rest on 'chamber': working on that would not change it."),
    ("{method: shims, fit: wall, slots: [gasket]}", "A correction by shims has no 'slots'."),
    ("{method: shims, fit: wall}", "A correction by shims needs 'slot'."),
    ("{method: match, fit: wall, slot: gasket}", "'wall' does not rest on size(gasket): other parts there would not change it."),
    ("{method: swap, fit: wall, slot: gasket, also: [walls]}", "'also' names the fit 'walls', which is not there. Did you mean 'wall'?"),
    ("{method: buckets, fits: [wall, lashes], slots: [bucket], step: 0.05 mm}", "one slot for each of its fits"),
    ("{method: buckets, fits: [lashes], slots: [bucket], step: 1 deg}", "'step' is an angle, but the fit 'lashes' is a length."),
    ("{method: length, fit: wall, step: 0 mm}", "'step' must be more than nothing, not 0 mm."),
    ("{method: springs, fit: wall}", "A correction by springs needs 'down' or 'up'."),
    ("{method: turns, fit: wall, pitch: 1 mm, ratio: ration}", "'ratio' names the point or fit 'ration'"),
]


@pytest.mark.parametrize(("record", "says"), REFUSED, ids=[r[0] for r in REFUSED])
def test_a_correction_that_cannot_work_is_refused_with_its_line(wide_refused, record, says):
    line, problems = wide_refused(CUT, record)
    assert [p.line for p in problems if says in p.says] == [line], [str(p) for p in problems]


def test_one_correction_needs_no_list_and_none_is_an_empty_one(wide_with):
    made = wide_with(f"\n      - {{method: swap, fit: ratio, slot: gasket, also: [wall]}}\n      - {CUT}\n      - ", " ")
    assert [c["method"] for c in made["steps"][1]["corrects"]] == ["buckets"]
    assert made["steps"][0]["corrects"] == []


def test_passes_end_in_angles(wide_with):
    made = wide_with()
    assert made["steps"][2]["torque"]["passes"] == [20_000_000, 40_000_000, 90_000_000, 45_000_000]
    assert made["steps"][2]["torque"]["pass_kinds"] == ["torque", "torque", "angle", "angle"]
    assert made["units"]["deg"]["num"] == 1_000_000


@pytest.mark.parametrize(
    ("passes", "says"),
    [
        ("[20 N.m, 90 deg, 40 N.m]", "A pass of 'pull' by angle stands before one by torque: angles come last."),
        ("[40 N.m, 20 N.m, 90 deg]", "The passes of 'pull' must rise."),
        ("[20 N.m, 0 deg]", "needs at least one pass above zero"),
        ("[20 N.m, 90 K]", "A pass of 'pull' is 90 K, which is a temperature, not a torque or an angle."),
        ("[]", "needs at least one pass above zero"),
    ],
)
def test_passes_that_cannot_be_pulled(wide_refused, passes, says):
    line, problems = wide_refused("[20 N.m, 40 N.m, 90 deg, 45 deg]", passes)
    assert [p.line for p in problems if says in p.says] == [line], [str(p) for p in problems]


def test_the_item_that_is_forgotten_stands_last(wide_with, wide_refused):
    assert [item["last"] for item in wide_with()["steps"][1]["confirms"]] == [False, True]
    line, problems = wide_refused("{id: dry, text: Dry}", "{id: dry, text: Dry, last: true}")
    assert [(p.line, p.says) for p in problems] == [(line, "'dry' of 'read' is marked 'last', so it must stand last in its list.")]
    _, problems = wide_refused("text: Plug in, last: true", "text: Plug in, last: yes")
    assert [p.says for p in problems] == ["'last' must be true or false, not 'yes'."]


def test_a_slot_that_must_be_filled_and_parts_that_keep_their_seat(wide_with):
    slots = wide_with()["slots"]
    assert [(slots[s]["must"], slots[s]["own"]) for s in ("gasket", "bucket")] == [(True, False), (False, True)]


def test_a_step_says_where_it_comes_from(wide_with, wide_refused):
    assert [step["source"] for step in wide_with()["steps"]] == ["practice"] * 3
    _, problems = wide_refused("source: practice, asks: [block, oil, piston]", "asks: [block, oil, piston]")
    assert [p.says for p in problems] == ["'steps' has no 'source'."]


def test_a_size_that_is_measured_nowhere_before_is_refused(wide_refused):
    line, problems = wide_refused("may_measure: [gasket, bucket]", "may_measure: [bucket]")
    says = "'read' needs the size of what is in 'gasket' for 'ratio': put the slot in 'may_measure' of this step or of one before it."
    assert [(p.line, p.says) for p in problems] == [(line + 1, says)]


def test_to_ask_is_enough_for_a_step(wide_with):
    assert wide_with()["steps"][0]["asks"] and not wide_with()["steps"][0]["reads"]


def test_the_film_is_passed_on(wide_with):
    assert wide_with()["film"] == {
        "clearance": "wall", "journal": "bore", "length": "width", "load": "load", "viscosity": "oil.hths", "speed": "redline",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("viscosity: oil.hths", "viscosity: oil.kv", "'viscosity' of the film names 'oil.kv', which is no point, fit or column of a choice."),
        ("speed: redline}", "speed: speed}", "'speed' of the film is 'speed', a velocity, not a speed."),
        ("length: width,", "length: swept,", "'length' of the film is 'swept', a volume, not a length."),
        ("load: load,", "load: rise,", "'load' of the film is 'rise', a temperature, not a force or a pressure."),
        ("load: load, ", "", "'film' has no 'load'."),
    ],
)
def test_a_film_of_the_wrong_kind(wide_refused, old, new, says):
    line, problems = wide_refused(old, new)
    assert [p.line for p in problems if says in p.says] == [line], [str(p) for p in problems]
