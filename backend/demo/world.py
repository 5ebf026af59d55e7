"""The invented shop. Every name and figure here is made up; nothing is taken from a real shop, engine or person."""
import hashlib

from shop.models import Shop

SHOP = ("tern-hollow", "Tern Hollow Engines")

# login name, shown name, role, password
PEOPLE = [
    ("ines", "Ines", "owner", "ines-bench"),
    ("marek", "Marek", "builder", "marek-bench"),
    ("juno", "Juno", "apprentice", "juno-bench"),
    ("tomasz", "Tomasz", "crew_chief", "tomasz-bench"),
]

BENCH_DEVICE = ("7e12ab04c95d4f0e8b3366d1f0a9c217", "Shop bench")
# Whose phone wrote what, in the builds that are told in `builds/`.
PHONES = {
    "ines": ("3d0c95e1784b4a6f9b22c7e05f81ad46", "Ines's phone"),
    "marek": ("a86f1e2b5c9047d3b0547ff0691d3c28", "Marek's phone"),
    "juno": ("c4b7083ad26e4f19857b1ce2409a6f5d", "Juno's phone"),
    "tomasz": ("59e2d7f0a13b4c84916da8035be7421f", "Tomasz's tablet"),
}


def times_begun() -> int:
    """How often the demo was begun afresh: each time left a shop behind that holds what was recorded until then."""
    return Shop.objects.filter(demo=True).exclude(slug=SHOP[0]).count()


def number_of(dev: str, times: int) -> str:
    """A device's number in the demo that was begun afresh so often: the record takes each entry of a device once."""
    return hashlib.sha256(f"{dev}:{times}".encode()).hexdigest()[:32] if times else dev


OPENED = (13, "07:30")  # days before the day of loading, UTC: when the builds below were opened

_V8_LIMITS = [
    {"limit": "main_clearance", "low": "0.0020", "high": "0.0030", "aim": "0.0025", "unit": "in"},
    {"limit": "crank_end_play", "low": "0.005", "high": "0.010", "aim": "0.007", "unit": "in"},
    {"limit": "cam_end_play", "low": "0.004", "high": "0.010", "aim": "0.006", "unit": "in"},
]
# kind, title, unit, and for each size how many lie on the bench
_V8_PARTS = [
    ("cam_shim", "Cam shim", "in", [("0.003", 2), ("0.004", 2), ("0.005", 3), ("0.010", 2), ("0.020", 2), ("0.035", 1)]),
    ("upper_shell", "Upper shell", "in", [("0.0927", 1), ("0.0930", 1), ("0.0933", 1)]),
    ("lower_shell", "Lower shell", "in", [("0.0927", 1), ("0.0930", 1), ("0.0933", 1)]),
]

BUILDS = [
    {"key": "b-sprint-boat", "name": "Sprint-boat V8", "procedure": "pushrod-v8", "duty": "race",
     "note": "Short block for the jet sprint boat.", "sheet": "Tern Hollow race sheet 7",
     "limits": _V8_LIMITS, "parts": _V8_PARTS},
    {"key": "b-hill-climb", "name": "Hill-climb spare", "procedure": "twin-cam-four", "duty": "race",
     "note": "The spare twin-cam four for the hill-climb car.", "sheet": "Tern Hollow race sheet 9",
     "limits": [{"limit": "crank_end_play", "low": "0.12", "high": "0.22", "aim": "0.16", "unit": "mm"}],
     "parts": [("upper_shell", "Upper shell", "mm", [("1.996", 1), ("2.000", 1), ("2.004", 1)]),
               ("lower_shell", "Lower shell", "mm", [("1.996", 1), ("2.000", 1), ("2.004", 1)])]},
]
