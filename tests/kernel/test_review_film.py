"""The oil film as the review tells it."""

from __future__ import annotations

from kernel.film import film

from .bench import METRIC
from .review_bench import TEXT, found, reads, small


def mains(bores: tuple = ("2.4505", "2.4510"), oil: str = "sae_30", load: str = "3000", load_unit: str = "lbf", text: str = TEXT):
    bench = small(text, oil=oil)
    reads(bench, main_journal=("2.4480", "2.4480"), main_bore=bores)
    reads(bench, main_length="0.800")
    reads(bench, unit=load_unit, load=load)
    reads(bench, unit="rpm", redline="6500")
    return bench


def expected(clearance_tenths: int, viscosity: int) -> dict:
    """The same bearing by the kernel's function: 2.4480 x 0.800 in, 3000 lbf, 6500 rpm."""
    case = {"clearance": clearance_tenths * 2540, "journal": 62_179_200, "length": 20_320_000, "load": 13_344_664_846}
    return film(case | {"viscosity": viscosity, "speed": 6_500_000})


def micrometres(value: int) -> str:
    return f"{value / 1000:.1f} µm"


def test_nothing_before_a_clearance_is_read():
    assert found(small(), "film") == []


def test_what_is_missing_is_named():
    bench = small()
    reads(bench, main_journal=("2.4480", "2.4480"), main_bore=("2.4505", "2.4505"))
    (one,) = found(bench, "film")
    assert one["says"] == "The oil film cannot be worked out: bearing length, bearing load, oil grade and highest speed are not there yet."
    assert one["level"] == "note"


def test_the_thinnest_of_the_bearings_is_told_with_speed_and_oil():
    (one,) = found(mains(), "film")
    wide, narrow = expected(30, 2900), expected(25, 2900)
    worst, station = (wide, "2") if wide["film"] < narrow["film"] else (narrow, "1")
    assert one["says"].startswith(f"Oil film at main {station}, the thinnest of 2: ")
    assert f"({micrometres(worst['film'])}) at 6500 rpm with SAE 30 (2.90 mPa·s)" in one["says"]
    assert f"{worst['eccentricity'] / 10_000:.0f} % off centre" in one["says"]
    assert (one["level"], one["fit"], one["step"], one["station"]) == ("note", "main_clearance", "mains", station)


def test_what_would_thicken_it_is_worked_out():
    (one,) = found(mains(), "film")
    station = one["station"]
    thicker_oil = expected(25 if station == "1" else 30, 3500)
    assert "with SAE 40" in one["cure"] and f"({micrometres(thicker_oil['film'])})" in one["cure"]
    tight = expected(20, 2900)
    assert f"with 2.0 thou of clearance, {tight['film'] / 25400:.3f} thou ({micrometres(tight['film'])})" in one["cure"]


def test_the_thickest_oil_has_none_thicker():
    (one,) = found(mains(oil="sae_60"), "film")
    assert "SAE" not in one["cure"]


def test_a_clearance_already_at_its_tight_end_is_not_offered():
    (one,) = found(mains(bores=("2.4500", "2.4500")), "film")
    assert "SAE 40" in one["cure"] and "of clearance" not in one["cure"]


def test_a_film_too_thin_for_any_theory_is_to_be_looked_at():
    (one,) = found(mains(load="20000", oil="sae_8", bores=("2.4530", "2.4530")), "film")
    assert one["level"] == "look" and ": less than " in one["says"]


def test_a_bore_smaller_than_its_journal_has_no_film():
    (one,) = found(mains(bores=("2.4470", "2.4505")), "film")
    assert one["says"] == "There is no oil film at main 1: a figure it rests on is not above zero."
    assert one["level"] == "look"


def test_a_load_may_be_a_pressure_over_the_bearing():
    """3000 lbf on 2.4480 x 0.800 in is 1531.86 psi."""
    text = TEXT.replace("band: [1 lbf, 20000 lbf]", "band: [1 psi, 20000 psi]")
    assert text != TEXT
    assert found(mains(load="1531.86", load_unit="psi", text=text), "film") == found(mains(), "film")


def test_in_millimetres():
    (one,) = found(mains(), "film", units=METRIC)
    assert " mm (" in one["says"] and "thou" not in one["cure"]
