"""What the compiled JSON holds."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from catalogue.compile import compile_text, digest
from kernel.canon import canon

ROOT = Path(__file__).parents[2]


def test_the_same_text_gives_the_same_bytes_in_another_process(good, tmp_path):
    file = tmp_path / "small.yaml"
    file.write_text(good, encoding="utf-8")
    outs = set()
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "backend"), "PYTHONHASHSEED": seed}
        command = [sys.executable, "-m", "catalogue", "json", str(file)]
        outs.add(subprocess.run(command, env=environment, capture_output=True, check=True).stdout)
    assert len(outs) == 1
    assert canon(json.loads(outs.pop())) == canon(compile_text(good, "small.yaml"))


def test_the_digest_covers_every_figure(good):
    one, other = compile_text(good, "a"), compile_text(good.replace("high: 0.0030 in", "high: 0.0031 in"), "a")
    assert one["digest"] == digest(one) and len(one["digest"]) == 64
    assert one["digest"] != other["digest"]


def test_comments_and_layout_do_not_change_the_digest(good):
    assert compile_text("# a remark\n\n" + good, "a")["digest"] == compile_text(good, "b")["digest"]


def test_figures_are_integers_on_the_grid(good):
    made = compile_text(good, "a")
    assert made["points"]["bore"]["band"] == [50_800_000, 76_200_000]
    assert made["points"]["chamber"]["dimension"] == "volume"
    assert made["limits"]["clearance"] == [
        {
            "authority": "table",
            "duty": "race",
            "low": 50_800,
            "high": 76_200,
            "aim": 63_500,
            "per": None,
            "plus": 0,
            "when": {},
            "source": "practice",
            "dated": "2026-11-25",
        }
    ]
    assert made["limits"]["level"][0]["low"] is None
    assert made["steps"][1]["torque"]["passes"] == [54_232_718, 74_569_987]


def test_a_formula_becomes_a_tree(good):
    fits = compile_text(good, "a")["fits"]
    assert fits["clearance"]["tree"] == ["-", ["point", "bore"], ["point", "journal"]]
    assert fits["clearance"]["text"] == "bore - journal"
    assert fits["level"]["tree"] == ["spread", ["fit", "clearance"]]
    assert fits["level"]["points"] == ["bore", "journal"]
    assert fits["level"]["scale"] == "fit" and fits["level"]["dimension"] == "length"


def test_a_quantity_in_a_formula_is_on_the_grid(good):
    made = compile_text(good.replace("formula: bore - journal", "formula: bore - journal - '0.001 in'"), "a")
    assert made["fits"]["clearance"]["tree"][2] == ["number", 25_400]


def test_disturbing_a_step_disturbs_what_that_step_disturbs(good):
    made = compile_text(good, "a")
    assert made["slots"]["upper"]["disturbs"] == {"points": ["bore", "float"], "steps": ["caps", "turn"]}
    assert made["steps"][1]["disturbs"] == {"points": ["float"], "steps": ["turn"]}


def test_steps_follow_what_they_come_after(good):
    head, steps = good.split("steps:\n")
    read, rest = steps.split("  - id: caps\n")
    made = compile_text(head + "steps:\n  - id: caps\n" + rest + read, "a")
    assert [s["id"] for s in made["steps"]] == ["read", "caps", "turn"]


def test_optional_fields_are_all_there(good):
    step = compile_text(good, "a")["steps"][2]
    for field in ("gates", "cautions", "reads", "may_read", "may_measure", "works_out"):
        assert step[field] == []
    assert step["corrects"] == [] and step["asks"] == [] and step["torque"] is None
    assert compile_text(good, "a")["points"]["bore"]["tool"] == ""


def test_shop_rows_stand_beside_table_rows(good):
    row = "{duty: race, low: 0.0022 in, high: 0.0028 in, source: the shop, dated: 2026-11-25}"
    made = compile_text(good + f"shop:\n  clearance: [{row}]\n", "a")
    assert sorted(r["authority"] for r in made["limits"]["clearance"]) == ["shop", "table"]
    assert "shop" not in made


def test_a_station_called_one_stays_text_and_no_stays_no(good):
    made = compile_text(good.replace('{id: "1", x: 50', "{id: no, x: 50"), "a")
    assert made["groups"]["rods"]["stations"][0]["id"] == "no"


def test_only_plain_data_comes_out(good):
    made = compile_text(good, "a")
    assert json.loads(json.dumps(made)) == made
    assert type(made["points"]) is dict and type(made["steps"]) is list
