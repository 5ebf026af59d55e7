"""Pistons that change bores, bores to hone, decks to cut: offered, done, read again."""

from __future__ import annotations

from .every_method import MethodBench, after


def bores(*texts: str) -> MethodBench:
    bench = MethodBench()
    bench.reads("bore", *texts)
    bench.measures(piston_1="4.0262", piston_2="4.0260", piston_3="4.0258", piston_4="4.0264")
    return bench


def test_pistons_change_places_and_the_figures_come_true():
    bench = bores("4.0300", "4.0300", "4.0306", "4.0302")
    (best,) = bench.offers("bores")
    assert (best["kind"], best["cures"]) == ("match", True)
    assert after(best) == {"1": "4.2", "2": "4.0", "3": "4.2", "4": "4.0"}
    bench.does_it(best)
    assert bench.offers("bores") == []
    assert [f["value"] for f in bench.view("bores")["fits"][:4]] == ["4.2", "4.0", "4.2", "4.0"]


def test_nothing_is_offered_while_a_bore_or_a_piston_is_not_measured():
    bench = MethodBench()
    bench.reads("bore", "4.0300", "4.0300", "4.0306", "4.0302")
    assert bench.offers("bores") == []
    bench = bores("4.0300", "4.0300", "4.0306", "")
    assert [offer for offer in bench.offers("bores") if offer["kind"] == "match"] == []


def test_all_in_but_uneven_is_levelled():
    bench = bores("4.0301", "4.0300", "4.0303", "4.0302")
    assert {f["state"] for f in bench.view("bores")["fits"][:4]} == {"in"}, "only the spread is out"
    best = bench.offers("bores")[0]
    figures = [float(figure) for figure in after(best).values()]
    assert best["cures"] and max(figures) - min(figures) <= 0.6


def test_a_spare_piston_cures_where_no_exchange_does():
    bench = bores("4.0314", "4.0302", "4.0300", "4.0306")
    assert not bench.offers("bores")[0]["cures"]
    bench.shelves("piston", spare="4.0268")
    best = bench.offers("bores")[0]
    assert best["cures"] and any(put["parts"] == ["spare"] for put in best["draft"]["body"]["puts"])


def test_nothing_on_hand_says_the_piston_to_order_and_it_cures():
    bench = bores("4.0300", "4.0300", "4.0300", "4.0340")
    best = bench.offers("bores")[0]
    assert not best["cures"] and "for 4 one of 4.0298 in" in best["says"]
    bench.shelves("piston", ordered="4.0298")
    assert bench.offers("bores")[0]["cures"]


def test_a_tight_bore_is_honed_and_a_loose_one_cannot_be():
    bench = bores("4.0285", "4.0300", "4.0300", "4.0306")
    honing = next(offer for offer in bench.offers("bores") if offer["kind"] == "cut")
    assert honing["title"] == "Hone the cylinder: cylinder 1"
    assert "1 to 4.0304 in (1.9 thou more)" in honing["says"] and "Compression ratio" in honing["again"]
    assert honing["draft"] is None, "the machine shop does it; the reading afterwards tells"
    bench.reads("bore", "4.0304", "", "", "")
    assert bench.view("bores")["fits"][0]["value"] == "4.2"
    loose = bores("4.0400", "4.0300", "4.0300", "4.0306").offers("bores")
    assert not any(offer["cures"] for offer in loose)
    assert any(offer["kind"] == "none" and "the other way" in offer["says"] for offer in loose)


def test_a_deck_is_cut_where_it_is_too_high_and_all_to_the_lowest_to_level():
    bench = MethodBench()
    bench.reads("deck", "9.0060", "9.0100", "9.0050", "9.0055")
    bench.reads("piston_height", *["9.0000"] * 4)
    one, level = bench.offers("decks")
    assert one["fit"] == "deck_clearance" and after(one)["2"] == "2.0" and "2 to 9.0020 in" in one["says"]
    assert level["fit"] == "deck_spread" and after(level) == {"": "0.0"}
    assert all(f"{station} to 9.0050 in" in level["says"] for station in "124") and "3 to" not in level["says"]


def test_the_chamber_is_opened_or_the_head_cut_whichever_way_it_must_go():
    for volume, way in (("58", "Open the chamber"), ("70", "Cut the head")):
        bench = MethodBench()
        bench.reads("bore", *["4.0300"] * 4)
        bench.reads("deck", *["9.0030"] * 4)
        bench.reads("piston_height", *["9.0000"] * 4)
        bench.measures(gasket="0.040")
        bench.reads("stroke", "3.48")
        bench.reads("chamber", *[volume] * 4, unit="cm3")
        first = bench.offers("chambers")[0]
        assert first["title"].startswith(way) and first["cures"]
        assert set(after(first).values()) == {"10.60"}
        to = first["says"].split("1 to ")[1].split(" ")[0]
        bench.reads("chamber", *[to] * 4, unit="cm3")
        assert [f["state"] for f in bench.view("chambers")["fits"] if f["fit"] == "compression"] == ["in"] * 4
