"""A choice that limits or figures go by, left open while work went on."""

from __future__ import annotations

from .review_bench import TEXT, found, reads, small


def test_nothing_is_said_before_work_goes_past_it():
    assert found(small(), "choices_missing") == []


def test_it_is_said_once_a_later_step_has_begun():
    bench = small()
    reads(bench, main_journal=("2.4480", "2.4480"))
    one = found(bench, "choices_missing")[0]
    assert one["says"] == "Rod material has not been chosen, and “Read the mains” has begun."
    assert one["why"] == "Squish and out of round go by it."
    assert one["cure"] == "Choose it at “Choose” before going on."
    assert (one["level"], one["step"]) == ("look", "choose")


def test_what_nothing_goes_by_is_not_missed():
    """No limit goes by the colour; the film's oil is asked for by the film."""
    bench = small(rod_material="steel")
    reads(bench, main_journal=("2.4480", "2.4480"))
    assert found(bench, "choices_missing") == []


def test_it_goes_when_the_choice_is_made():
    bench = small()
    reads(bench, main_journal=("2.4480", "2.4480"))
    bench.marek.write("choice.made", choice="rod_material", option="steel")
    assert found(bench, "choices_missing") == []


def test_work_before_the_place_where_it_is_asked_is_no_hurry():
    """The same engine with the choice asked for after the mains."""
    asking = next(line for line in TEXT.splitlines(keepends=True) if "id: choose" in line)
    later = TEXT.replace(asking, "").replace("  - id: heights\n", asking + "  - id: heights\n")
    bench = small(later)
    reads(bench, main_journal=("2.4480", "2.4480"))
    assert found(bench, "choices_missing") == []
    reads(bench, deck=("0.000", "0.000"))
    assert [one["says"] for one in found(bench, "choices_missing")] == ["Rod material has not been chosen, and “Read the heights” has begun."]


def test_a_choice_that_a_formula_uses_is_missed_too():
    """The same engine with a figure that goes by the colour."""
    by_colour = TEXT.replace("{id: red, title: red}", "RED").replace("{id: blue, title: blue}", "BLUE")
    for name in ("red", "blue"):
        by_colour = by_colour.replace(name.upper(), f'{{id: {name}, title: {name}, source: invented, values: {{share: "1 :1"}}}}')
    by_colour = by_colour.replace("formula: gap,", "formula: gap * colour.share,").replace("id: heights\n", "id: heights\n    after: [choose]\n")
    bench = small(by_colour, rod_material="steel")
    reads(bench, main_journal=("2.4480", "2.4480"))
    assert [(one["says"], one["why"]) for one in found(bench, "choices_missing")] == [
        ("Colour has not been chosen, and “Read the mains” has begun.", "Ring gap goes by it.")
    ]
