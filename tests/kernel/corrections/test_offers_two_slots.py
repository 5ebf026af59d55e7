"""Two slots that may cure the same fit: each is looked into with its own parts."""

from __future__ import annotations

from .every_method import MethodBench, procedure


def two_gaskets() -> MethodBench:
    """The bench with a base gasket under the cylinders as well, which takes squish up one for one."""
    bench, plain = MethodBench(), procedure()
    tree = ["+", plain["fits"]["squish"]["tree"], ["size", "base"]]
    squish = {**plain["fits"]["squish"], "tree": tree}
    slots = {**plain["slots"], "base": {**plain["slots"]["gasket"], "title": "base gasket", "part": "base"}}
    parts = {**plain["parts"], "base": {**plain["parts"]["gasket"], "title": "base gasket"}}
    corrects = [{"method": "swap", "fit": "squish", "slot": slot, "also": []} for slot in ("gasket", "base")]
    steps = [{**step, "corrects": corrects} if step["id"] == "chambers" else step for step in plain["steps"]]
    bench.procedure = {**plain, "fits": {**plain["fits"], "squish": squish}, "slots": slots, "parts": parts, "steps": steps}
    return bench


def test_each_slot_has_its_own_offer():
    bench = two_gaskets()
    bench.reads("deck", *["9.0000"] * 4)
    bench.reads("piston_height", *["9.0000"] * 4)
    bench.measures(gasket="0.040", base="0.020")
    bench.shelves("gasket", thin="0.022")
    bench.shelves("base", paper="0.005")
    puts = [(offer["draft"]["body"]["puts"][0]["slot"], offer["draft"]["body"]["puts"][0]["parts"]) for offer in bench.offers("chambers")]
    assert puts == [("gasket", ["thin"]), ("base", ["paper"])]
