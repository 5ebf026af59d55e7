"""What counts as on the shelf: measured, of the right kind, and in no place of the engine."""

from __future__ import annotations

from kernel.fold import Build
from kernel.view.lens import Lens
from kernel.view.offer_parts import shelf_of
from kernel.view.offer_shells import shell_case

from tests.kernel.bench import NOW, PEOPLE, THOU, Bench

from .every_method import MethodBench


def build_of(bench: Bench) -> Build:
    return Build(bench.procedure, bench.events)


def test_a_part_that_came_with_a_place_is_on_the_shelf_once_another_took_it():
    bench = MethodBench()
    bench.measures(piston_1="4.0262")
    assert shelf_of(build_of(bench), "piston") == []
    bench.shelves("piston", spare="4.0268")
    assert shelf_of(build_of(bench), "piston") == ["spare"]
    bench.marek.write("parts.put", puts=[{"slot": "piston", "station": "1", "parts": ["spare"]}], why="test")
    assert shelf_of(build_of(bench), "piston") == ["piston@1"]


def test_a_part_nobody_measured_is_not():
    bench = MethodBench()
    bench.marek.write("part.added", part="bare", kind="piston", title="No size", size=None)
    assert shelf_of(build_of(bench), "piston") == []


def test_a_displaced_shell_half_may_go_in_again_as_its_own_kind_only():
    bench = Bench()
    bench.marek.write("part.measured", part="main_shell_upper@3", text="0.0930", unit="in")
    bench.marek.write("part.added", part="spare", kind="upper_shell", title="Spare", size={"text": "0.0940", "unit": "in"})
    bench.marek.write("parts.put", puts=[{"slot": "main_shell_upper", "station": "3", "parts": ["spare"]}], why="test")
    build = build_of(bench)
    spec = next(step["corrects"] for step in bench.procedure["steps"] if step["id"] == "main_bores")
    spec = spec[0] if isinstance(spec, list) else spec
    case = shell_case(Lens(build, THOU, NOW, PEOPLE), spec)
    assert case["shelf"] == [{"id": "main_shell_upper@3", "kind": "upper"}]
    assert case["uppers"]["3"] == "spare"
