"""Cam timing: duration, overlap, centrelines, lobe separation, lift, rocker ratio."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from .shop import Shop

SHOP = Shop("""\
points:
  intake_opens: {title: Intake opens before top, band: [-40 deg, 90 deg]}
  intake_closes: {title: Intake closes after bottom, band: [-20 deg, 120 deg]}
  exhaust_opens: {title: Exhaust opens before bottom, band: [-20 deg, 120 deg]}
  exhaust_closes: {title: Exhaust closes after top, band: [-40 deg, 90 deg]}
  lobe_lift: {title: Lobe lift, band: [0.1 in, 1 in]}
  valve_lift: {title: Valve lift, band: [0 in, 1.5 in]}
  rocker: {title: Rocker ratio, band: ["1 :1", "2.5 :1"]}
  lash: {title: Lash, band: [0 in, 0.1 in]}
  before: {title: Stop before top, band: [0 deg, 180 deg]}
  after: {title: Stop after top, band: [0 deg, 180 deg]}
fits:
  overlap: {title: Overlap, formula: intake_opens + exhaust_closes}
  intake_duration: {title: Intake duration, formula: "intake_opens + '180 deg' + intake_closes"}
  exhaust_duration: {title: Exhaust duration, formula: "exhaust_opens + '180 deg' + exhaust_closes"}
  intake_centreline: {title: Intake centreline, formula: intake_duration / 2 - intake_opens}
  exhaust_centreline: {title: Exhaust centreline, formula: exhaust_duration / 2 - exhaust_closes}
  lobe_separation: {title: Lobe separation, formula: "mean(intake_centreline, exhaust_centreline)"}
  lift_at_valve: {title: Valve lift, formula: lobe_lift * rocker - lash}
  lobe_for_lift: {title: Lobe lift for a valve lift, formula: valve_lift / rocker}
  true_ratio: {title: Rocker ratio, formula: valve_lift / lobe_lift}
  true_top: {title: Top dead centre off the mark, formula: (after - before) / 2}
""")


def test_overlap():
    """US Army TM 9-8000, read: opens 28 degrees before top, closes 45 after: 73 degrees."""
    assert SHOP.gives("overlap", "deg", intake_opens="28 deg", exhaust_closes="45 deg") == 73


def test_a_whole_card():
    """Constructed: 10/40/50/10 is 230 and 240 degrees, centrelines 105 and 110, lobe separation 107.5, overlap 20."""
    card = {"intake_opens": "10 deg", "intake_closes": "40 deg", "exhaust_opens": "50 deg", "exhaust_closes": "10 deg"}
    wanted = {"intake_duration": 230, "exhaust_duration": 240, "intake_centreline": 105, "exhaust_centreline": 110, "lobe_separation": 107.5}
    for fit, angle in wanted.items():
        assert SHOP.gives(fit, "deg", **card) == angle, fit
    assert SHOP.gives("overlap", "deg", **card) == 20


def test_lobe_for_a_lift():
    """Common practice: 0.533 in at the valve with 1.5 rockers is 0.3553 in at the lobe."""
    assert SHOP.gives("lobe_for_lift", "in", valve_lift="0.533 in", rocker="1.5 :1") == pytest.approx(0.3553, abs=5e-5)
    assert SHOP.gives("true_ratio", ":1", valve_lift="0.533 in", lobe_lift="0.3553 in") == pytest.approx(1.5, abs=2e-4)


@given(st.integers(1000, 9999), st.integers(100, 250), st.integers(0, 900))
def test_lift_is_lobe_times_ratio_less_lash(lobe, ratio, lash):
    """No published example."""
    found = SHOP.gives("lift_at_valve", "in", lobe_lift=f"0.{lobe} in", rocker=f"{ratio / 100:.2f} :1", lash=f"0.{lash:04d} in")
    assert found == pytest.approx(lobe / 10000 * ratio / 100 - lash / 10000, abs=1e-7)


@given(st.integers(-400, 900), st.integers(-200, 1200), st.integers(-200, 1200), st.integers(-400, 900), st.integers(-100, 100))
def test_advancing_the_cam_moves_both_centrelines_and_nothing_else(opens, closes, opens_exhaust, closes_exhaust, by):
    """No published example: a cam advanced by `by` opens and closes everything earlier; duration, separation and overlap stay."""
    def card(shift: int) -> dict[str, str]:
        events = {"intake_opens": opens + shift, "intake_closes": closes - shift, "exhaust_opens": opens_exhaust + shift}
        events["exhaust_closes"] = closes_exhaust - shift
        return {name: f"{angle / 10:.1f} deg" for name, angle in events.items()}
    for fit in ("intake_duration", "exhaust_duration", "lobe_separation", "overlap"):
        assert SHOP.gives(fit, "deg", **card(by)) == pytest.approx(SHOP.gives(fit, "deg", **card(0)), abs=2e-6)
    moved = SHOP.gives("intake_centreline", "deg", **card(by)) - SHOP.gives("intake_centreline", "deg", **card(0))
    assert moved == pytest.approx(-by / 10, abs=2e-6)


@given(st.integers(0, 1800), st.integers(-50, 50))
def test_true_top_is_midway_between_the_stops(stop, off):
    """No published example: a positive stop is met as many degrees after true top as before it."""
    before, after = (min(1800, max(0, stop + side * off)) for side in (-1, 1))
    found = SHOP.gives("true_top", "deg", before=f"{before / 10:.1f} deg", after=f"{after / 10:.1f} deg")
    assert found == pytest.approx((after - before) / 20, abs=1e-6)
