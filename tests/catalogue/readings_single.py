"""An invented single four-stroke with a pressed crank: what its sheets say and what was read. No real engine."""

from __future__ import annotations

CHOICES = {
    "web_material": "steel_4140", "case_material": "aluminium_356", "rod_material": "steel",
    "piston_material": "low_expansion_forged", "oil": "sae_50", "fuel": "race",
}

READINGS: dict[str, str | list[str]] = {
    # sheets
    "stroke": "78.00 mm", "rod_length": "130.00 mm", "redline": "9500 rpm", "gasket_bore": "91.50 mm", "compression_wanted": "11.50 :1",
    "intake_spring_height": "36.0 mm", "exhaust_spring_height": "36.0 mm", "intake_spring_solid": "24.6 mm", "exhaust_spring_solid": "24.6 mm",
    "intake_line_wanted": "106 deg", "exhaust_line_wanted": "106 deg", "balance_share": "55 %",
    # crank and cases
    "pin_seat": ["32.096 mm", "32.098 mm"], "web_bore": ["32.012 mm", "32.014 mm"], "press_room": "0 mm",
    "rod_eye": "44.016 mm", "pin_track": "34.000 mm", "rod_side_gap": "0.35 mm", "crank_dial": ["0.015 mm", "0.020 mm"],
    "bearing_od": ["62.000 mm", "61.998 mm"], "case_bore": ["61.970 mm", "61.969 mm"], "bearing_room": "0.030 mm",
    "crank_float": "0.180 mm", "crank_pull": "0.5 N.m",
    # cylinder, piston, rings
    "bore_top_a": "90.002 mm", "bore_top_b": "90.001 mm", "bore_mid_a": "90.000 mm", "bore_mid_b": "90.001 mm",
    "bore_low_a": "90.000 mm", "bore_low_b": "89.999 mm", "deck_gap": "0.02 mm", "pin_bush": "20.018 mm", "pin_dia": "20.000 mm",
    "top_gap": "0.43 mm", "second_gap": "0.50 mm", "oil_gap": "0.50 mm", "top_side": "0.040 mm", "second_side": "0.040 mm",
    "piston_weight": "330.0 g", "rod_big_weight": "260.0 g", "rod_small_weight": "110.0 g",
    "deck_depth": "-0.40 mm", "piston_drop": "10.00 mm", "crown_poured": "60.3 cm3", "chamber_volume": "44.0 cm3",
    # valves, springs, lobes
    "intake_stem": "5.970 mm", "intake_guide": "6.005 mm", "exhaust_stem": "5.960 mm", "exhaust_guide": "6.008 mm",
    "intake_nose": "34.50 mm", "intake_base": "28.00 mm", "exhaust_nose": "34.20 mm", "exhaust_base": "28.00 mm",
    "intake_lift_read": "9.10 mm", "exhaust_lift_read": "8.68 mm",
    "tester_high": "36.0 mm", "tester_low": "26.0 mm", "intake_load_high": "250 N", "intake_load_low": "600 N",
    "exhaust_load_high": "240 N", "exhaust_load_low": "590 N", "intake_height": "35.9 mm", "exhaust_height": "36.0 mm",
    "intake_seal_gap": "12.0 mm", "exhaust_seal_gap": "11.8 mm",
    # cam
    "stop_before": "21.0 deg", "stop_after": "20.8 deg", "balancer_off": "0.2 deg",
    "intake_opens": "24.0 deg", "intake_closes": "56.0 deg", "exhaust_opens": "56.0 deg", "exhaust_closes": "24.0 deg", "intake_shuts": "78.0 deg",
    "in_drop_0": "2.9 mm", "in_drop_5": "2.5 mm", "in_drop_10": "2.3 mm", "in_drop_15": "2.4 mm", "in_drop_20": "2.7 mm",
    "ex_drop_20": "3.3 mm", "ex_drop_15": "3.0 mm", "ex_drop_10": "2.8 mm", "ex_drop_5": "2.9 mm", "ex_drop_0": "3.2 mm", "valve_edge_gap": "1.6 mm",
    "cam_float": "0.15 mm", "intake_gap": "0.08 mm", "exhaust_gap": "0.13 mm",
    # oil and running
    "pump_end": "0.05 mm", "pump_tip": "0.10 mm", "prime_reading": "0.50 bar",
    "log_pressure": ["1.60 bar", "1.50 bar", "1.30 bar", "1.20 bar", "1.20 bar"],
    "run_speed": ["3000 rpm", "5020 rpm", "7000 rpm"], "run_pressure": ["0.80 bar", "1.20 bar", "1.50 bar"], "idle_reading": "0.30 bar",
    "leak_supply": "600 kPa", "leak_held": "582 kPa", "intake_gap_after": "0.08 mm", "exhaust_gap_after": "0.12 mm",
}

SIZES: dict[str, str | list[str]] = {
    "rollers": "5.000 mm", "piston": "89.938 mm", "base_gasket": "0.50 mm", "head_gasket": "0.90 mm", "cam_key": "0 deg",
}
