"""The invented shop. Every name and figure here is made up; nothing is taken from a real shop, engine or person."""

SHOP = ("tern-hollow", "Tern Hollow Engines")

# login name, shown name, role, password
PEOPLE = [
    ("ines", "Ines", "owner", "ines-bench"),
    ("marek", "Marek", "builder", "marek-bench"),
    ("juno", "Juno", "apprentice", "juno-bench"),
    ("tomasz", "Tomasz", "crew_chief", "tomasz-bench"),
]

BENCH_DEVICE = ("7e12ab04c95d4f0e8b3366d1f0a9c217", "Shop bench")
OPENED_AT = 1_764_061_200_000  # 2025-11-25 09:00 UTC
SHEET = "Tern Hollow race sheet 7"

BUILDS = [
    {"key": "b-sprint-boat", "name": "Sprint-boat V8", "wants": "pushrod-v8", "duty": "race",
     "note": "Short block for the jet sprint boat."},
    {"key": "b-hill-climb", "name": "Hill-climb four", "wants": "twin-cam-four", "duty": "race",
     "note": "Twin-cam inline four for the hill-climb car."},
]

LIMITS = [
    {"limit": "main_clearance", "low": "0.0020", "high": "0.0030", "aim": "0.0025"},
    {"limit": "crank_end_play", "low": "0.005", "high": "0.010", "aim": "0.007"},
    {"limit": "cam_end_play", "low": "0.004", "high": "0.010", "aim": "0.006"},
]

# thickness in inches, how many lie on the bench
SHIMS = [("0.003", 2), ("0.004", 2), ("0.005", 3), ("0.010", 2), ("0.020", 2), ("0.035", 1)]
SHELLS = [("0.0927", 2), ("0.0930", 2), ("0.0933", 2)]
