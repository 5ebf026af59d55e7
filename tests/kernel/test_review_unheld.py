"""Figures out of limit that no step waits for; and that no figure is reported by two checks."""

from __future__ import annotations

from collections import Counter

from .bench import METRIC
from .review_bench import found, reads, small


def heights(deck: tuple, **chosen: str):
    bench = small(**chosen)
    reads(bench, deck=deck, bore=("4.0000", "4.0000"), fore=("4.0000", "4.0000"), gap=("0.0200", "0.0200"))
    return bench


def test_everything_in_is_not_mentioned():
    assert found(heights(("0.000", "0.000"), rod_material="steel"), "unheld") == []


def test_a_misfit_says_what_where_how_much_by_which_limit_why_and_what_would_cure_it():
    (one,) = found(heights(("0.000", "0.012"), rod_material="steel"), "unheld")
    assert one["says"] == (
        "Squish, cylinder 2 reads 52.0 thou, over by 7.0. "
        "Limit 35.0–45.0 from the reference table (common practice, no published source), for rod material steel."
    )
    assert one["why"] == "Too little and the piston meets the head."
    assert one["cure"] == "A thicker gasket."
    assert (one["level"], one["step"], one["fit"], one["station"]) == ("look", "heights", "squish", "2")


def test_in_german():
    (one,) = found(heights(("0.000", "0.012"), rod_material="steel"), "unheld", units=METRIC | {"language": "de"})
    assert one["says"] == (
        "Squish, cylinder 2: 1.321 mm, um 0.178 darüber. Grenzmaß 0.889–1.143, Tabelle (common practice, no published source), für rod material steel."
    )


def test_the_limit_goes_by_what_was_chosen():
    """The same heights with aluminium rods are under."""
    says = [one["says"] for one in found(heights(("0.000", "0.012"), rod_material="aluminium"), "unheld")]
    assert ["under by 15.0" in says[0], "under by 3.0" in says[1]] == [True, True]
    assert all(one.endswith("for rod material aluminium.") for one in says)


def test_before_the_choice_is_made_there_is_no_limit_and_no_misfit():
    assert found(heights(("0.000", "0.012")), "unheld") == []


def test_a_limit_set_for_this_build_goes_by_no_choice():
    bench = heights(("0.000", "0.000"), rod_material="steel")
    bench.marek.write("limit.set", limit="squish", authority="maker", low="0.045", high="0.060", aim=None, unit="in", source="piston sheet")
    says = [one["says"] for one in found(bench, "unheld")]
    assert says[0] == "Squish, cylinder 1 reads 40.0 thou, under by 5.0. Limit 45.0–60.0 from the maker's sheet (piston sheet)."


def test_a_shop_limit_goes_by_the_choice_until_the_shop_sets_another_for_this_build():
    bench = small(rod_material="steel")
    reads(bench, deck=("0.000", "0.000"), bore=("4.0000", "4.0000"), fore=("4.0000", "4.0011"), gap=("0.0200", "0.0200"))
    (one,) = found(bench, "unheld")
    assert one["says"].endswith("Limit at most 0.4 from the shop's sheet (common practice, no published source), for rod material steel.")
    bench.marek.write("limit.set", limit="out_of_round", authority="shop", low=None, high="0.0006", aim=None, unit="in", source="this engine")
    (one,) = found(bench, "unheld")
    assert one["says"].endswith("Limit at most 0.6 from the shop's sheet (this engine).")


def test_a_limit_by_size_is_said_at_its_own_size():
    """0.0045 in per inch of a 4.0000 in bore is 18.0 thou."""
    bench = small(rod_material="steel")
    reads(bench, deck=("0.000", "0.000"), bore=("4.0000", "5.0000"), fore=("4.0000", "5.0000"), gap=("0.0200", "0.0200"))
    (one,) = found(bench, "unheld", units=METRIC)
    assert one["says"].startswith("Ring gap, cylinder 2 reads 0.508 mm, under by 0.064. Limit at least 0.572")
    assert one["cure"] == "Read it again at “Read the heights”; if it stands, the parts have to be put right."


def test_out_of_round_is_of_one_cylinder_and_not_a_spread_between_stations():
    bench = small(rod_material="steel")
    reads(bench, deck=("0.000", "0.000"), bore=("4.0000", "4.0000"), fore=("4.0000", "4.0011"), gap=("0.0200", "0.0200"))
    assert [one["fit"] for one in found(bench, "unheld")] == ["out_of_round"]
    assert found(bench, "spread") == []


def test_each_misfit_is_reported_once_by_the_check_that_speaks_for_it():
    bench = heights(("0.000", "0.012"), rod_material="steel")
    reads(bench, main_journal=("2.4480", "2.4480"), main_bore=("2.4495", "2.4515"))
    everything = [f for check in ("gates", "unheld", "spread") for f in found(bench, check) if f["fit"]]
    assert max(Counter((f["fit"], f["station"]) for f in everything).values()) == 1
    assert [(f["check"], f["fit"], f["station"]) for f in everything] == [
        ("gates", "main_clearance", "1"),
        ("gates", "main_clearance", "2"),
        ("gates", "main_spread", ""),
        ("unheld", "squish", "2"),
        ("spread", "squish_spread", ""),
    ]


def test_a_gate_names_every_step_that_waits():
    bench = small()
    reads(bench, main_journal=("2.4480", "2.4480"), main_bore=("2.4505", "2.4515"))
    one = found(bench, "gates")[0]
    assert one["why"] == "“Crank in” and “Crank turned” wait until it is in."
    assert one["step"] == "crank"


def test_what_was_let_through_is_not_reported_again():
    bench = heights(("0.000", "0.012"), rod_material="steel")
    bench.ines.write("concession", fit="squish", station="2", value=1_320_800, reason="one event", granted_by="Tomasz")
    assert found(bench, "unheld") == []
    assert len(found(bench, "concessions")) == 1
