"""An invented twin-cam four for the hill-climb car: what its sheets say and what was read. No real engine."""

from __future__ import annotations

CHOICES = {
    "block_material": "aluminium_356", "crank_material": "steel_4340", "rod_material": "steel",
    "piston_material": "low_expansion_forged", "oil": "sae_40_light", "fuel": "race",
}

READINGS: dict[str, str | list[str]] = {
    # sheets
    "stroke": "86.00 mm", "rod_length": "145.00 mm", "redline": "8200 rpm", "gasket_bore": "87.50 mm", "compression_wanted": "12.50 :1",
    "main_bearing_length": "18.0 mm", "oil_rise": "80 K", "intake_spring_height": "36.0 mm", "exhaust_spring_height": "36.0 mm",
    "intake_spring_solid": "24.6 mm", "exhaust_spring_solid": "24.6 mm", "intake_line_wanted": "105 deg", "exhaust_line_wanted": "105 deg",
    # block and mains
    "deck_gap": "0.03 mm", "deck_height": ["220.01 mm", "220.02 mm", "220.01 mm", "220.00 mm"],
    "bore_top_a": "86.003 mm", "bore_top_b": "86.001 mm", "bore_mid_a": "86.000 mm", "bore_mid_b": "86.002 mm",
    "bore_low_a": "86.000 mm", "bore_low_b": "85.999 mm",
    "main_front_a": "52.000 mm", "main_front_b": "51.999 mm", "main_rear_a": "51.998 mm", "main_rear_b": "51.999 mm",
    "crank_dial": "0.010 mm", "main_bore": ["52.053 mm", "52.055 mm", "52.052 mm", "52.054 mm", "52.053 mm"],
    "crank_pull": "4.0 N.m", "crank_float": "0.180 mm",
    # rods, pistons, rings
    "rod_journal_a": "48.000 mm", "rod_journal_b": "47.999 mm", "rod_bore": ["48.049 mm", "48.050 mm", "48.048 mm", "48.049 mm"],
    "rod_bolt_free": "41.000 mm", "rod_bolt_pulled": "41.140 mm", "pin_bush": "22.018 mm", "pin_dia": "22.000 mm", "rod_side_gap": "0.35 mm",
    "top_gap": "0.41 mm", "second_gap": "0.49 mm", "oil_gap": "0.50 mm", "top_side": "0.040 mm", "second_side": "0.040 mm",
    "piston_weight": ["402.1 g", "402.4 g", "402.0 g", "402.3 g"], "rod_big_weight": ["395.0 g", "395.4 g", "395.1 g", "395.3 g"],
    "rod_small_weight": ["148.2 g", "148.0 g", "148.3 g", "148.1 g"],
    # heights and volumes
    "deck_depth": ["0.10 mm", "0.11 mm", "0.10 mm", "0.12 mm"], "piston_drop": "10.00 mm", "crown_poured": "55.0 cm3", "chamber_volume": "40.5 cm3",
    # valves, springs, lobes
    "intake_stem": "5.970 mm", "intake_guide": "6.005 mm", "exhaust_stem": "5.960 mm", "exhaust_guide": "6.008 mm",
    "intake_nose": "44.20 mm", "intake_base": "34.20 mm", "exhaust_nose": "43.70 mm", "exhaust_base": "34.20 mm",
    "tester_high": "36.0 mm", "tester_low": "26.0 mm", "intake_load_high": "250 N", "intake_load_low": "600 N",
    "exhaust_load_high": "240 N", "exhaust_load_low": "590 N", "intake_height": "35.9 mm", "exhaust_height": "36.0 mm",
    "intake_seal_gap": "12.0 mm", "exhaust_seal_gap": "11.8 mm", "cam_journal": "24.952 mm", "cam_bore": "25.000 mm",
    # cams
    "stop_before": "21.0 deg", "stop_after": "20.8 deg", "balancer_off": "0.2 deg",
    "intake_opens": "25.0 deg", "intake_closes": "55.0 deg", "exhaust_opens": "55.0 deg", "exhaust_closes": "25.0 deg", "intake_shuts": "78.0 deg",
    "in_drop_0": "2.9 mm", "in_drop_5": "2.5 mm", "in_drop_10": "2.3 mm", "in_drop_15": "2.4 mm", "in_drop_20": "2.7 mm",
    "ex_drop_20": "3.3 mm", "ex_drop_15": "3.0 mm", "ex_drop_10": "2.8 mm", "ex_drop_5": "2.9 mm", "ex_drop_0": "3.2 mm", "valve_edge_gap": "1.6 mm",
    "cam_float": "0.15 mm", "intake_gap": "0.20 mm", "exhaust_gap": "0.25 mm",
    # oil and running
    "pump_end": "0.05 mm", "pump_tip": "0.10 mm", "pickup_gap": "9.5 mm", "prime_reading": "3.50 bar",
    "log_pressure": ["5.10 bar", "4.90 bar", "4.60 bar", "4.30 bar", "4.20 bar", "4.20 bar"],
    "run_speed": ["2000 rpm", "3010 rpm", "4020 rpm", "5000 rpm"], "run_pressure": ["2.40 bar", "3.30 bar", "4.20 bar", "4.60 bar"],
    "idle_reading": "1.40 bar", "leak_supply": "600 kPa", "leak_held": ["582 kPa", "579 kPa", "584 kPa", "580 kPa"],
    "intake_gap_after": "0.19 mm", "exhaust_gap_after": "0.24 mm",
}

SIZES: dict[str, str | list[str]] = {
    "piston": ["85.940 mm", "85.941 mm", "85.939 mm", "85.940 mm"], "head_gasket": "0.90 mm", "intake_key": "0 deg", "exhaust_key": "0 deg",
    "bucket_shim_intake": "2.50 mm", "bucket_shim_exhaust": "2.50 mm",
}
