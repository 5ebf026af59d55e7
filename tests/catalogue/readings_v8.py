"""An invented pushrod V8 for the sprint boat: what its sheets say and what was read. No real engine."""

from __future__ import annotations

CHOICES = {
    "rod_material": "steel", "block_material": "grey_iron", "crank_material": "steel_4340",
    "piston_material": "low_expansion_forged", "lifter": "solid", "oil": "sae_50", "fuel": "race",
}

READINGS: dict[str, str | list[str]] = {
    # sheets
    "stroke": "3.750 in", "rod_length": "6.000 in", "redline": "6800 rpm", "hot_rise": "80 K", "main_bearing_length": "0.820 in",
    "gasket_bore": "4.100 in", "piston_volume": "5.0 cm3", "rocker_stated": "1.50 :1", "adjuster_ratio": "2.50 :1",
    "checking_lift": "0.050 in", "intake_centreline_stated": "102.0 deg", "lobe_separation_stated": "102.0 deg",
    "lash_intake_stated": "0.0160 in", "lash_exhaust_stated": "0.0180 in", "preload_stated": "0 in",
    "height_stated": "1.900 in", "seat_load_stated": "150 lbf", "open_load_stated": "415 lbf",
    "spring_test_closed": "1.900 in", "spring_test_open": "1.350 in", "spring_solid": "1.150 in",
    "stretch_stated": "0.0060 in", "rod_bolt_free_length": "1.700 in", "balance_factor": "50 %", "oil_weight": "4.0 g",
    # block
    "bore_thrust_top": "4.0301 in", "bore_axis_top": "4.0301 in",
    "bore_thrust_middle": ["4.0300 in", "4.0301 in", "4.0300 in", "4.0300 in", "4.0299 in", "4.0300 in", "4.0301 in", "4.0300 in"],
    "bore_axis_middle": "4.0301 in", "bore_thrust_bottom": "4.0300 in", "bore_axis_bottom": "4.0300 in",
    "deck_height": ["9.0010 in", "9.0005 in", "9.0000 in", "9.0010 in"], "deck_flat": ["0.0010 in", "0.0015 in"],
    # crank and mains
    "crank_swing": "0.0005 in",
    "main_front_a": ["2.4490 in", "2.4491 in", "2.4490 in", "2.4489 in", "2.4490 in"], "main_front_b": "2.4489 in",
    "main_rear_a": "2.4489 in", "main_rear_b": "2.4489 in",
    "main_bore": ["2.4515 in", "2.4516 in", "2.4514 in", "2.4513 in", "2.4515 in"],
    "breakaway": "4.0 lbf.ft", "crank_float": "0.0070 in",
    # rods
    "pin_a": "2.0998 in", "pin_b": "2.0997 in",
    "rod_bore": ["2.1019 in", "2.1020 in", "2.1019 in", "2.1018 in", "2.1019 in", "2.1020 in", "2.1019 in", "2.1019 in"],
    "pin_hole": "0.9275 in", "pin_diameter": "0.9267 in",
    "rod_bolt_free": [f"1.80{n:02} in" for n in range(16)], "rod_bolt_tight": [f"1.80{n + 60:02} in" for n in range(16)],
    "side_gap": ["0.0140 in", "0.0145 in", "0.0150 in", "0.0140 in"],
    # rings and weights
    "gap_top": "0.0190 in", "gap_second": "0.0230 in", "gap_oil": "0.0180 in", "side_top": "0.0015 in", "side_second": "0.0015 in",
    "piston_weight": [f"{430 + n / 10:.1f} g" for n in range(8)], "rod_big": [f"{460 + n / 10:.1f} g" for n in range(8)],
    "rod_small": [f"{170 + n / 10:.1f} g" for n in range(8)],
    "pin_weight": "115.0 g", "ring_weight": "38.0 g", "lock_weight": "3.0 g", "rod_shell_weight": "42.0 g",
    # camshaft: 24/48 and 48/24 is straight up on 102
    "cam_bore": "1.9560 in", "cam_journal": "1.9530 in", "cam_float": "0.0060 in",
    "stop_one_way": "32.0 deg", "stop_other_way": "32.2 deg", "lobe_intake": "0.3553 in", "lobe_exhaust": "0.3553 in",
    "intake_opens": "24.0 deg", "intake_closes": "48.0 deg", "exhaust_opens": "48.0 deg", "exhaust_closes": "24.0 deg",
    "intake_seat_closes": "70.0 deg", "centreline_found": "102.0 deg", "mark_one_way": "30.0 deg", "mark_other_way": "30.4 deg",
    # heights and volumes
    "crown_front": "0.0050 in", "crown_rear": "0.0050 in",
    "chamber": [f"{64 + n / 10:.1f} cm3" for n in range(8)],
    # valves and springs
    "guide_intake": "0.3430 in", "stem_intake": "0.3415 in", "guide_exhaust": "0.3430 in", "stem_exhaust": "0.3408 in",
    "load_closed_intake": "150 lbf", "load_open_intake": "430 lbf", "load_closed_exhaust": "152 lbf", "load_open_exhaust": "430 lbf",
    "height_intake": "1.900 in", "height_exhaust": "1.902 in", "retainer_gap_intake": "0.620 in", "retainer_gap_exhaust": "0.610 in",
    # valve to piston
    "checking_gasket": "0.0390 in", "checker_intake": "7.200 in", "checker_exhaust": "7.215 in", "sweep_width": "0.0450 in",
    "lift_read_intake": "0.5170 in", "lift_read_exhaust": "0.5150 in",
    "intake_drop": ["0.190 in", "0.140 in", "0.112 in", "0.120 in", "0.165 in"],
    "exhaust_drop": ["0.175 in", "0.140 in", "0.128 in", "0.150 in", "0.200 in"],
    "pocket_gap_intake": "0.065 in", "pocket_gap_exhaust": "0.070 in",
    # valve train, oil, running
    "gap_intake": "0.0160 in", "gap_exhaust": "0.0180 in", "gap_intake_after": "0.0155 in", "gap_exhaust_after": "0.0175 in",
    "pump_end": "0.0020 in", "pump_tip": "0.0040 in", "pan_depth": "8.000 in", "pickup_depth": "7.625 in", "primed": "62 psi",
    "log_speed": "2200 rpm", "log_pressure": ["68 psi", "64 psi", "58 psi", "52 psi", "50 psi", "50 psi"],
    "log_water": ["5 K", "15 K", "40 K", "58 K", "60 K", "60 K"],
    "idle_read": "28 psi", "speed_held": ["2010 rpm", "3005 rpm", "4000 rpm"], "pressure_held": ["44 psi", "56 psi", "63 psi"],
    "leak_supply": "100 psi", "leak_held": ["97 psi", "96 psi", "97 psi", "97 psi", "96 psi", "98 psi", "97 psi", "97 psi"],
}

SIZES: dict[str, str | list[str]] = {
    "pistons": ["4.0272 in", "4.0273 in", "4.0272 in", "4.0272 in", "4.0271 in", "4.0272 in", "4.0273 in", "4.0272 in"],
    "timing_key": "0 deg", "head_gaskets": "0.0390 in",
}
