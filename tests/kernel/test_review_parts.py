"""Parts in two places, with another's seat, or without a name."""

from __future__ import annotations

from .review_bench import found, reads, small

PLATE = "Build plate: empty, and "


def says(bench) -> list[str]:
    """What is found, but for the build plate, which no step relies on: it has a test of its own."""
    return [one["says"] for one in found(bench, "parts") if not one["says"].startswith(PLATE)]


def test_a_new_build_is_not_told_that_it_is_empty():
    assert says(small()) == []


def test_a_part_in_two_places():
    bench = small()
    bench.marek.write("parts.put", puts=[{"slot": "lifters", "station": "2", "parts": ["lifters@1"]}], why="tried")
    (one,) = found(bench, "parts")
    assert one["says"] == "Lifter from cylinder 1 is recorded in 2 places: lifter, cylinder 1 and lifter, cylinder 2."
    assert one["level"] == "look"
    bench.marek.write("parts.put", puts=[{"slot": "lifters", "station": "1", "parts": ["lifters@2"]}], why="changed over")
    assert says(bench) == []


def test_a_part_noted_as_belonging_elsewhere():
    bench = small()
    bench.marek.write("part.added", part="x", kind="lifter", title="lifter from the shelf", size=None, mark="L7", state="used",
                      cost=None, condition="", belongs={"slot": "lifters", "station": "1"})
    bench.marek.write("parts.put", puts=[{"slot": "lifters", "station": "2", "parts": ["x"]}], why="short of one")
    assert says(bench) == ["Lifter from the shelf (L7) ran in at lifter, cylinder 1 and is now in lifter, cylinder 2."]
    bench.marek.write("parts.put", puts=[{"slot": "lifters", "station": "2", "parts": ["lifters@2"]},
                                         {"slot": "lifters", "station": "1", "parts": ["x"]}], why="put right")
    assert says(bench) == []


def swapped(state: str):
    bench = small()
    for station in ("1", "2"):
        bench.marek.write("part.noted", part=f"lifters@{station}", mark="", state=state, cost=None, condition="", belongs=None)
    puts = [{"slot": "lifters", "station": "1", "parts": ["lifters@2"]}, {"slot": "lifters", "station": "2", "parts": ["lifters@1"]}]
    bench.marek.write("parts.put", puts=puts, why="mixed up")
    return bench


def test_used_parts_that_came_with_their_seats_belong_there():
    assert len(says(swapped("used"))) == 2
    assert says(swapped("new")) == []


def test_a_note_that_names_no_such_place_is_passed_over():
    bench = small()
    bench.marek.write("part.noted", part="lifters@1", mark="", state="used", cost=None, condition="", belongs={"slot": "lifters", "station": "9"})
    assert says(bench) == []


def begun():
    bench = small()
    bench.marek.ticks("heads_on")
    return bench


def test_what_the_engine_needs_is_missed_once_work_relies_on_it():
    one, other = (one for one in found(begun(), "parts") if not one["says"].startswith(PLATE))
    assert one["says"] == "Head gasket: without a named part, and “Heads on” has begun."
    assert one["level"] == "note"
    assert other["says"] == "Gallery plugs: empty, and “Heads on” has begun."
    assert other["level"] == "look"


def test_work_that_does_not_rely_on_it_does_not_ask_for_it():
    bench = small()
    reads(bench, main_journal=("2.4480", "2.4480"))
    assert says(bench) == []


def test_what_no_step_relies_on_is_asked_for_once_any_work_is_done():
    bench = small()
    assert found(bench, "parts") == []
    reads(bench, main_journal=("2.4480", "2.4480"))
    assert [one["says"] for one in found(bench, "parts")] == [PLATE + "“Read the mains” has begun."]


def test_a_named_part_or_a_mark_answers_it():
    bench = begun()
    bench.marek.write("part.added", part="p1", kind="gasket", title="plug set", size=None)
    bench.marek.write("parts.put", puts=[{"slot": "plugs", "station": "", "parts": ["p1"]}], why="in")
    assert says(bench) == ["Head gasket: without a named part, and “Heads on” has begun."]
    bench.marek.write("part.noted", part="head_gasket", mark="0.040 layered", state="new", cost=None, condition="", belongs=None)
    assert says(bench) == []


def test_measuring_a_part_does_not_name_it():
    bench = begun()
    bench.marek.write("part.measured", part="head_gasket", text="0.040", unit="in")
    assert "Head gasket: without a named part, and “Heads on” has begun." in says(bench)
