"""Second entry of the code numbers, by topic and then by edition of the NEC (2014, 2017, 2020, 2023, 2026).

Entered from the notes on the code, on sizing and on practice alone, by someone who had not seen the rules (the practice notes are
the later word, the sizing notes correct those on the code).
Plain data: a test compares it with the first entry. Nothing here is code text; the adopted code governs.

None   the source says it was not found or not seen, or the edition has no such figure; the comment says which.
()     in CITATIONS: the edition has no such section. None there: the place was not found.
Confidence tags are those of the code notes: [2+], [1], [1w], [mem], [mem+chk]; in the practice notes percentages.
Percentages are numbers out of 100. Sizes are strings: AWG ("4", "1/0") or kcmil ("250").
"""

from __future__ import annotations

# fmt: off

EDITIONS = ("2014", "2017", "2020", "2023", "2026")

# ---------------------------------------------------------------------------------------------------------------------
# 1. Standard method
# ---------------------------------------------------------------------------------------------------------------------

# General lighting and general-use receptacles, VA per ft2, feeder and service. code notes 0.2 and 1.1.
# 3 VA in 2014-2023 [2+]; 2 VA in 2026 [2+].
LIGHTING_VA_PER_FT2 = {"2014": 3, "2017": 3, "2020": 3, "2023": 3, "2026": 2}

# The same by method. code notes 2.1, 2.2, 2.3, 0.3 #15, 0.4.
# 220.82: 2026 (B)(1) 2 VA [2+]. 220.83: 2026 2 VA [1] (0.4, the later reading; 0.3 #15 and 2.2 call it not confirmed).
# 220.84: 2026 2 VA [1w]. 2014-2023 3 VA [2+] in all three.
LIGHTING_VA_PER_FT2_BY_METHOD = {
    "2014": {"standard": 3, "220.82": 3, "220.83": 3, "220.84": 3},
    "2017": {"standard": 3, "220.82": 3, "220.83": 3, "220.84": 3},
    "2020": {"standard": 3, "220.82": 3, "220.83": 3, "220.84": 3},
    "2023": {"standard": 3, "220.82": 3, "220.83": 3, "220.84": 3},
    "2026": {"standard": 2, "220.82": 2, "220.83": 2, "220.84": 2},
}

# VA per ft2 used only to count general lighting branch circuits. code notes 0.3 #3: still 3 in 2026 [1w]; before 2026 one
# figure served both (1.1 [2+]). sizing notes 2.5: counted at full rating.
LIGHTING_VA_PER_FT2_CIRCUIT_COUNT = {"2014": 3, "2017": 3, "2020": 3, "2023": 3, "2026": 3}

# SI figure, VA per m2. code notes 1.1: 33 for 3 VA per ft2. 2026: no SI figure given in the source, so None (not found).
LIGHTING_VA_PER_M2 = {"2014": 33, "2017": 33, "2020": 33, "2023": 33, "2026": None}

# Small-appliance circuit, VA each, 220.52(A). code notes 1.1 [2+]; 2026 120.82(B)(2) [1], 120.52 [mem].
SMALL_APPLIANCE_VA = {"2014": 1500, "2017": 1500, "2020": 1500, "2023": 1500, "2026": 1500}

# Smallest number of small-appliance circuits in a dwelling unit, 210.11(C)(1). code notes 1.1 [2+]; 2026 0.3 #5 [1].
SMALL_APPLIANCE_MIN_CIRCUITS = {"2014": 2, "2017": 2, "2020": 2, "2023": 2, "2026": 2}

# Laundry circuit, VA each, 220.52(B). code notes 1.1 [2+]; 2026 0.3 #5 [1].
LAUNDRY_VA = {"2014": 1500, "2017": 1500, "2020": 1500, "2023": 1500, "2026": 1500}

# Smallest number of laundry circuits, 0 where a 210.52(F) exception applies. code notes 1.1 [2+]; 2026 0.3 #5 [1].
LAUNDRY_MIN_CIRCUITS = {"2014": 1, "2017": 1, "2020": 1, "2023": 1, "2026": 1}

# Lighting demand tiers as (up to VA, percent); None: all that is left. code notes 1.1 [2+]; 2026 Table 120.45 [mem].
# Table 220.42 in 2014-2020, Table 220.45 in 2023, Table 120.45 in 2026. All units of a feeder together [2+].
LIGHTING_DEMAND_TIERS = {
    "2014": [(3000, 100), (120000, 35), (None, 25)],
    "2017": [(3000, 100), (120000, 35), (None, 25)],
    "2020": [(3000, 100), (120000, 35), (None, 25)],
    "2023": [(3000, 100), (120000, 35), (None, 25)],
    "2026": [(3000, 100), (120000, 35), (None, 25)],
}

# Which areas count as floor area (True counts). code notes 1.1, 0.2, 0.3 #8, 6.20; practice notes 2.
# 2014-2020 garages out [2+]; 2023 garages no longer named as excluded [1]; 2026 detached out, attached in [1].
# Detached garage 2023: text silent; practice notes 2 default: excluded, with a remark. Adaptable unfinished basement [1].
# The unfinished test is "adaptable for future use" to 2020, "habitable or occupiable use" from 2023.
FLOOR_AREA_COUNTS = {
    "2014": {"finished": True, "open_porch": False, "attached_garage": False, "detached_garage": False,
             "unfinished_adaptable": True, "unfinished_not_adaptable": False},
    "2017": {"finished": True, "open_porch": False, "attached_garage": False, "detached_garage": False,
             "unfinished_adaptable": True, "unfinished_not_adaptable": False},
    "2020": {"finished": True, "open_porch": False, "attached_garage": False, "detached_garage": False,
             "unfinished_adaptable": True, "unfinished_not_adaptable": False},
    "2023": {"finished": True, "open_porch": False, "attached_garage": True, "detached_garage": False,
             "unfinished_adaptable": True, "unfinished_not_adaptable": False},
    "2026": {"finished": True, "open_porch": False, "attached_garage": True, "detached_garage": False,
             "unfinished_adaptable": True, "unfinished_not_adaptable": False},
}

# The exclusions as the text lists them. code notes 1.1 [2+] to 2020 (unused/unfinished); 2023 and 2026 [1] for garages.
FLOOR_AREA_EXCLUDED_WORDS = {
    "2014": ["open porches", "garages", "unused or unfinished space not adaptable for future use"],
    "2017": ["open porches", "garages", "unused or unfinished space not adaptable for future use"],
    "2020": ["open porches", "garages", "unused or unfinished space not adaptable for future use"],
    "2023": ["open porches", "unfinished areas not adaptable to habitable or occupiable use"],
    "2026": ["detached garages", "open porches", "unfinished areas not adaptable to habitable or occupiable use"],
}

# Fastened-in-place appliances, 220.53. code notes 1.2, 0.2 [2+]; 2026 thresholds and exclusions [mem], assumed as 2023.
# min_watts and min_hp None in 2014 and 2017: the edition has no smallest size (not a gap in the source).
# Charging equipment before 2023: practice notes 2 default is on its own at 100 %, never the fourth appliance; in 2014-2020
# it is not named among the words, so it is not in "excluded" there.
# Built-in microwave: counts before 2020, excluded as cooking equipment from 2020 (practice notes 1.13, 75 %).
FASTENED_APPLIANCES = {
    "2014": {"count": 4, "percent": 75, "min_watts": None, "min_hp": None, "built_in_microwave_counts": True,
             "excluded": ["electric ranges", "dryers", "space heating", "air conditioning"]},
    "2017": {"count": 4, "percent": 75, "min_watts": None, "min_hp": None, "built_in_microwave_counts": True,
             "excluded": ["electric ranges", "dryers", "space heating", "air conditioning"]},
    "2020": {"count": 4, "percent": 75, "min_watts": 500, "min_hp": 0.25, "built_in_microwave_counts": False,
             "excluded": ["household cooking fastened in place", "dryers", "space heating", "air conditioning"]},
    "2023": {"count": 4, "percent": 75, "min_watts": 500, "min_hp": 0.25, "built_in_microwave_counts": False,
             "excluded": ["household cooking fastened in place", "dryers", "space heating", "air conditioning",
                          "EVSE"]},
    "2026": {"count": 4, "percent": 75, "min_watts": 500, "min_hp": 0.25, "built_in_microwave_counts": False,
             "excluded": ["household cooking fastened in place", "dryers", "space heating", "air conditioning",
                          "EVSE"]},
}

# Dryer, smallest VA each, 220.54: the larger of this and the nameplate. code notes 1.3 [2+]; 2026 120.54 [mem].
DRYER_MIN_VA = {"2014": 5000, "2017": 5000, "2020": 5000, "2023": 5000, "2026": 5000}

# Table 220.54 as (number of dryers, percent), 1 to 60. code notes 1.3: rows to 23 [2+], rows 24 and on [1]; 2026 [mem].
# 12 to 23: 47 - (n - 11); 24 to 42: 35 - 0.5 (n - 23); 43 and on: 25. The source has the 2023 text, "2014 identical".
DRYER_DEMAND_PERCENT = dict.fromkeys(EDITIONS, [
    (1, 100), (2, 100), (3, 100), (4, 100), (5, 85), (6, 75), (7, 65), (8, 60), (9, 55), (10, 50), (11, 47),
    (12, 46), (13, 45), (14, 44), (15, 43), (16, 42), (17, 41), (18, 40), (19, 39), (20, 38), (21, 37), (22, 36),
    (23, 35), (24, 34.5), (25, 34), (26, 33.5), (27, 33), (28, 32.5), (29, 32), (30, 31.5), (31, 31), (32, 30.5),
    (33, 30), (34, 29.5), (35, 29), (36, 28.5), (37, 28), (38, 27.5), (39, 27), (40, 26.5), (41, 26), (42, 25.5),
    (43, 25), (44, 25), (45, 25), (46, 25), (47, 25), (48, 25), (49, 25), (50, 25), (51, 25), (52, 25), (53, 25),
    (54, 25), (55, 25), (56, 25), (57, 25), (58, 25), (59, 25), (60, 25),
])

# Table 220.55 Column A (less than 3.5 kW), (number, percent). code notes 1.4 [mem+chk], believed unchanged 2014-2026.
COOKING_COLUMN_A_PERCENT = dict.fromkeys(EDITIONS, [
    (1, 80), (2, 75), (3, 70), (4, 66), (5, 62), (6, 59), (7, 56), (8, 53), (9, 51), (10, 49), (11, 47), (12, 45),
    (13, 43), (14, 41), (15, 40), (16, 39), (17, 38), (18, 37), (19, 36), (20, 35), (21, 34), (22, 33), (23, 32),
    (24, 31), (25, 30), (26, 30), (27, 30), (28, 30), (29, 30), (30, 30), (31, 30), (32, 30), (33, 30), (34, 30),
    (35, 30), (36, 30), (37, 30), (38, 30), (39, 30), (40, 30), (41, 30), (42, 30), (43, 30), (44, 30), (45, 30),
    (46, 30), (47, 30), (48, 30), (49, 30), (50, 30), (51, 30), (52, 30), (53, 30), (54, 30), (55, 30), (56, 30),
    (57, 30), (58, 30), (59, 30), (60, 30), (61, 30),
])

# Table 220.55 Column B (3.5 to 8.75 kW), (number, percent). code notes 1.4 [mem+chk], believed unchanged 2014-2026.
COOKING_COLUMN_B_PERCENT = dict.fromkeys(EDITIONS, [
    (1, 80), (2, 65), (3, 55), (4, 50), (5, 45), (6, 43), (7, 40), (8, 36), (9, 35), (10, 34), (11, 32), (12, 32),
    (13, 32), (14, 32), (15, 32), (16, 28), (17, 28), (18, 28), (19, 28), (20, 28), (21, 26), (22, 26), (23, 26),
    (24, 26), (25, 26), (26, 24), (27, 24), (28, 24), (29, 24), (30, 24), (31, 22), (32, 22), (33, 22), (34, 22),
    (35, 22), (36, 22), (37, 22), (38, 22), (39, 22), (40, 22), (41, 20), (42, 20), (43, 20), (44, 20), (45, 20),
    (46, 20), (47, 20), (48, 20), (49, 20), (50, 20), (51, 18), (52, 18), (53, 18), (54, 18), (55, 18), (56, 18),
    (57, 18), (58, 18), (59, 18), (60, 18), (61, 16),
])

# Table 220.55 Column C (not over 12 kW), (number, kW). code notes 1.4 [mem+chk], believed unchanged 2014-2026.
# 26 to 40: 15 + n; 41 and on: 25 + 0.75 n.
COOKING_COLUMN_C_KW = dict.fromkeys(EDITIONS, [
    (1, 8), (2, 11), (3, 14), (4, 17), (5, 20), (6, 21), (7, 22), (8, 23), (9, 24), (10, 25), (11, 26), (12, 27),
    (13, 28), (14, 29), (15, 30), (16, 31), (17, 32), (18, 33), (19, 34), (20, 35), (21, 36), (22, 37), (23, 38),
    (24, 39), (25, 40), (26, 41), (27, 42), (28, 43), (29, 44), (30, 45), (31, 46), (32, 47), (33, 48), (34, 49),
    (35, 50), (36, 51), (37, 52), (38, 53), (39, 54), (40, 55), (41, 55.75), (42, 56.5), (43, 57.25), (44, 58),
    (45, 58.75), (46, 59.5), (47, 60.25), (48, 61), (49, 61.75), (50, 62.5), (51, 63.25), (52, 64), (53, 64.75),
    (54, 65.5), (55, 66.25), (56, 67), (57, 67.75), (58, 68.5), (59, 69.25), (60, 70), (61, 70.75),
])

# Table 220.55 for 61 appliances and on: percent A, percent B, Column C = base + each x n. code notes 1.4 [mem+chk].
COOKING_TABLE_FROM_61 = {
    "2014": {"A_percent": 30, "B_percent": 16, "C_base_kw": 25, "C_each_kw": 0.75},
    "2017": {"A_percent": 30, "B_percent": 16, "C_base_kw": 25, "C_each_kw": 0.75},
    "2020": {"A_percent": 30, "B_percent": 16, "C_base_kw": 25, "C_each_kw": 0.75},
    "2023": {"A_percent": 30, "B_percent": 16, "C_base_kw": 25, "C_each_kw": 0.75},
    "2026": {"A_percent": 30, "B_percent": 16, "C_base_kw": 25, "C_each_kw": 0.75},
}

# Limits and notes of Table 220.55. code notes 1.4: over 1.75 kW [2+]; notes 1 to 3 [2+]; a fraction of 0.5 kW or more counts
# as one more [2+]; over 27 kW nameplate, notes 4 and 5 [mem]. Column limits [mem+chk].
COOKING_LIMITS = dict.fromkeys(EDITIONS,
    {"over_kw": 1.75, "A_below_kw": 3.5, "B_to_kw": 8.75, "C_to_kw": 12, "note_1_and_2_to_kw": 27,
         "note_2_over_kw": 8.75, "increase_percent_each_kw": 5, "fraction_counts_from_kw": 0.5})

# Fixed electric space heating, percent of connected load, 220.51. code notes 1.5 [2+]; 2026 120.51 [mem].
SPACE_HEATING_PERCENT = {"2014": 100, "2017": 100, "2020": 100, "2023": 100, "2026": 100}

# Addition for the largest motor, percent, 430.24 / 220.50, standard method and 550.18 only. code notes 1.5 [1] S54, S21;
# 6.10. None on an AC entered by its MCA (practice notes 1.11, 90 %).
LARGEST_MOTOR_ADDITION_PERCENT = {"2014": 25, "2017": 25, "2020": 25, "2023": 25, "2026": 25}

# Noncoincident loads, 220.60: percent of a motor (or AC) and when. code notes 1.5, 0.2.
# 2014, 2017 no motor sentence [1] + memory (None: no such figure). 2020 year [1], wording [mem]. 2023 [1].
# 2026 rewritten, two alternatives [1w]; whether a percentage stands there was not found: None.
# practice notes 2: default in 2020 and 2023 is two scenarios, the literal add-on also printed.
NONCOINCIDENT = {
    "2014": {"motor_percent": None, "when": "no motor sentence"},
    "2017": {"motor_percent": None, "when": "no motor sentence"},
    "2020": {"motor_percent": 125, "when": "omitted motor that is the largest motor"},
    "2023": {"motor_percent": 125, "when": "motor or AC of the noncoincident set that is not the largest load"},
    "2026": {"motor_percent": None, "when": None},
}

# Charging equipment in the standard method. code notes 1.6, 0.2, 0.4; practice notes 1.14, 2.
# 2014-2020 no section, nameplate at 100 % (min_va None: no such figure). 2023 larger of 7,200 VA and nameplate [2+].
# unknown_rating_va None: no fallback of its own is stated (in 2023 the minimum covers it).
# 2026 nameplate, 7,200 VA only where the rating is unknown [1w] (0.4: [2+ secondary]; code text not seen).
CHARGING_STANDARD = {
    "2014": {"rule": "nameplate", "min_va": None, "unknown_rating_va": None, "percent": 100},
    "2017": {"rule": "nameplate", "min_va": None, "unknown_rating_va": None, "percent": 100},
    "2020": {"rule": "nameplate", "min_va": None, "unknown_rating_va": None, "percent": 100},
    "2023": {"rule": "larger of minimum and nameplate", "min_va": 7200, "unknown_rating_va": None, "percent": 100},
    "2026": {"rule": "nameplate, minimum only if the rating is unknown", "min_va": None, "unknown_rating_va": 7200,
             "percent": 100},
}

# Charging equipment in 220.82 and 220.83: "pool" (inside the 40 % pool) or "outside" (at the percent).
# code notes 2.1, 6.2, practice notes 2: 2014-2023 default in the pool; 2026 outside at 100 %, unverified (0.3 #6 [1] draft and
# [1w]; 0.4 [2+ secondary]). percent None: inside the pool, no percentage of its own. For 220.83 in 2026 code notes 6.2 "same
# switch" and practice notes 2 "the same, 2026"; EVSE treatment in 120.83 itself was not found (code notes 9.3).
# 220.84: practice notes 1.18, no edition named; not addressed up to 2023 (code notes 2.3), 120.84 not found (code notes 9.3).
# The 7,200 VA minimum does not apply in 220.82, 220.83, 220.84 (practice notes 1.14, 85 %; said of 220.57, 2023).
CHARGING_OPTIONAL = {
    "2014": {"220.82": "pool", "220.83": "pool", "220.84_fed_from_unit": "inside the factor",
             "220.84_house_panel": "outside the factor", "percent": None, "min_va": None},
    "2017": {"220.82": "pool", "220.83": "pool", "220.84_fed_from_unit": "inside the factor",
             "220.84_house_panel": "outside the factor", "percent": None, "min_va": None},
    "2020": {"220.82": "pool", "220.83": "pool", "220.84_fed_from_unit": "inside the factor",
             "220.84_house_panel": "outside the factor", "percent": None, "min_va": None},
    "2023": {"220.82": "pool", "220.83": "pool", "220.84_fed_from_unit": "inside the factor",
             "220.84_house_panel": "outside the factor", "percent": None, "min_va": None},
    "2026": {"220.82": "outside", "220.83": "outside", "220.84_fed_from_unit": "inside the factor",
             "220.84_house_panel": "outside the factor", "percent": 100, "min_va": None},
}

# Does the 125 % of continuous loads apply inside the load calculation? code notes 0.1, 0.2, 0.3 #10: "no" is stated in 2026
# (120.5(E)) [2+]. 2014-2023 the text is silent: None. 6.18: not applied inside the load.
CONTINUOUS_125_INSIDE_CALCULATION = {"2014": None, "2017": None, "2020": None, "2023": None, "2026": False}

# Energy management or power control: what may stand as the load. code notes 0.1, 0.2; sizing notes 1 (625.42).
# 2014 not seen (sizing notes 1); practice notes 1.10 puts it in 625.41. 2017, 2020 [1]; 2023 [2+]; 2026 [2+].
# continuous: the setpoint is treated as a continuous load (said of 2023 only [2+]); None: not stated.
MANAGED_LOAD = {
    "2014": {"scope": "charging only", "figure": "load management maximum", "continuous": None},
    "2017": {"scope": "charging only", "figure": "load management maximum", "continuous": None},
    "2020": {"scope": "charging only", "figure": "load management maximum", "continuous": None},
    "2023": {"scope": "feeder or service", "figure": "EMS current setpoint", "continuous": True},
    "2026": {"scope": "branch, feeder or service", "figure": "PCS control setting", "continuous": None},
}

# Demand factors for instantaneous water heaters, 120.56, new in 2026 [1w]: code notes 0.3 #11 "numbers not found": None.
# 2014-2023 the edition has no such table: None.
INSTANTANEOUS_WATER_HEATERS = {"2014": None, "2017": None, "2020": None, "2023": None, "2026": None}

# Neutral, 220.61. code notes 1.7: 70 % of cooking and dryer [2+]; over 200 A 70 % [1]; 140 % two-phase (no tag beside it);
# none on 208Y/120 two phases and neutral [mem] (6.15). 2026 120.61 [1]. No 83 % on the neutral load (sizing notes 2.4).
NEUTRAL = dict.fromkeys(EDITIONS, {"cooking_percent": 70, "dryer_percent": 70, "over_amperes": 200, "over_percent": 70,
         "two_phase_percent": 140, "reduction_208y120_three_wire": False})

# ---------------------------------------------------------------------------------------------------------------------
# 2. Optional methods and measured load
# ---------------------------------------------------------------------------------------------------------------------

# 220.82 / 120.82: general demand. code notes 2.1, 0.2: 10 kVA and 40 % in 2014-2023 [2+]; 8 kVA in 2026 [1], 0.4 [2+].
# heaters: "fewer than" / "or more" separately controlled units; smallest ampacity 100 A [2+].
OPTIONAL_82 = {
    "2014": {"first_va": 10000, "first_percent": 100, "rest_percent": 40, "heaters": 4, "min_ampacity": 100},
    "2017": {"first_va": 10000, "first_percent": 100, "rest_percent": 40, "heaters": 4, "min_ampacity": 100},
    "2020": {"first_va": 10000, "first_percent": 100, "rest_percent": 40, "heaters": 4, "min_ampacity": 100},
    "2023": {"first_va": 10000, "first_percent": 100, "rest_percent": 40, "heaters": 4, "min_ampacity": 100},
    "2026": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "heaters": 4, "min_ampacity": 100},
}

# 220.82(C): shares of the selections, percent. code notes 2.1 [2+]; 2026 (C) as before, 0.4 [1] S1 and [2+].
# supplemental_heat goes with heat_pump_with_supplemental (the compressor).
OPTIONAL_82_HVAC_PERCENT = dict.fromkeys(EDITIONS,
    {"air_conditioning": 100, "heat_pump": 100, "heat_pump_with_supplemental": 100, "supplemental_heat": 65,
         "heat_fewer_than_four": 65, "central_heat": 65, "heat_four_or_more": 40, "thermal_storage": 100})

# 220.83 / 120.83. code notes 2.2 [2+] for 2014-2023. 2026 (0.4): one table, no (A)/(B) split [1]; its percentages were not
# visible: 8 kVA and 40 % are [mem] until seen. min_ampacity None: no 100 A floor (no such figure) [2+].
OPTIONAL_83 = {
    "2014": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "split_a_b": True, "min_ampacity": None},
    "2017": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "split_a_b": True, "min_ampacity": None},
    "2020": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "split_a_b": True, "min_ampacity": None},
    "2023": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "split_a_b": True, "min_ampacity": None},
    "2026": {"first_va": 8000, "first_percent": 100, "rest_percent": 40, "split_a_b": False, "min_ampacity": None},
}

# 220.83(B): heating and cooling at 100 %. code notes 2.2 [2+]; the four-or-more remark [mem] (None: among all other loads);
# compressor and strips both at 100 % (practice notes 1.2, 85 %). 2026: percentages of the single table not visible (not
# found): None throughout.
OPTIONAL_83_HVAC_PERCENT = {
    "2014": {"air_conditioning": 100, "central_heat": 100, "heat_fewer_than_four": 100, "heat_four_or_more": None,
             "heat_pump_compressor": 100, "supplemental_heat": 100},
    "2017": {"air_conditioning": 100, "central_heat": 100, "heat_fewer_than_four": 100, "heat_four_or_more": None,
             "heat_pump_compressor": 100, "supplemental_heat": 100},
    "2020": {"air_conditioning": 100, "central_heat": 100, "heat_fewer_than_four": 100, "heat_four_or_more": None,
             "heat_pump_compressor": 100, "supplemental_heat": 100},
    "2023": {"air_conditioning": 100, "central_heat": 100, "heat_fewer_than_four": 100, "heat_four_or_more": None,
             "heat_pump_compressor": 100, "supplemental_heat": 100},
    "2026": {"air_conditioning": None, "central_heat": None, "heat_fewer_than_four": None, "heat_four_or_more": None,
             "heat_pump_compressor": None, "supplemental_heat": None},
}
# Number of separately controlled heaters in 220.83(B), "fewer than four". code notes 2.2 [2+]. 2026: table not seen: None.
OPTIONAL_83_HEATERS = {"2014": 4, "2017": 4, "2020": 4, "2023": 4, "2026": None}

# Table 220.84 as (units, percent), 3 to 70; 62 and on 23 %. code notes 2.3 [mem+chk]: only 3, 12 and 15 units were seen; the
# other rows were not confirmed. 2026: 120.84, no wording change found besides the lighting load [1w].
MULTIFAMILY_DEMAND_PERCENT = dict.fromkeys(EDITIONS, [
    (3, 45), (4, 45), (5, 45), (6, 44), (7, 44), (8, 43), (9, 43), (10, 43), (11, 42), (12, 41), (13, 41),
    (14, 40), (15, 40), (16, 39), (17, 39), (18, 38), (19, 38), (20, 38), (21, 37), (22, 36), (23, 36), (24, 35),
    (25, 35), (26, 34), (27, 34), (28, 33), (29, 33), (30, 33), (31, 32), (32, 31), (33, 31), (34, 30), (35, 30),
    (36, 30), (37, 29), (38, 29), (39, 28), (40, 28), (41, 28), (42, 28), (43, 27), (44, 27), (45, 27), (46, 26),
    (47, 26), (48, 26), (49, 26), (50, 26), (51, 25), (52, 25), (53, 25), (54, 25), (55, 25), (56, 24), (57, 24),
    (58, 24), (59, 24), (60, 24), (61, 24), (62, 23), (63, 23), (64, 23), (65, 23), (66, 23), (67, 23), (68, 23),
    (69, 23), (70, 23),
])

# 220.84: smallest number of units, percent of the larger of heating and cooling, VA per unit where cooking is not
# electric (8 kW, fictitious, exception to condition 2). code notes 2.3 [2+]. House loads outside the factor [2+].
OPTIONAL_84 = {
    "2014": {"min_units": 3, "hvac_percent": 100, "no_electric_cooking_va": 8000},
    "2017": {"min_units": 3, "hvac_percent": 100, "no_electric_cooking_va": 8000},
    "2020": {"min_units": 3, "hvac_percent": 100, "no_electric_cooking_va": 8000},
    "2023": {"min_units": 3, "hvac_percent": 100, "no_electric_cooking_va": 8000},
    "2026": {"min_units": 3, "hvac_percent": 100, "no_electric_cooking_va": 8000},
}

# 220.85: two units compared with three identical ones at the 220.84 percent. code notes 2.4 [1]; 2026 120.85 [mem].
OPTIONAL_85 = {
    "2014": {"units": 2, "identical_units": 3, "percent": 45},
    "2017": {"units": 2, "identical_units": 3, "percent": 45},
    "2020": {"units": 2, "identical_units": 3, "percent": 45},
    "2023": {"units": 2, "identical_units": 3, "percent": 45},
    "2026": {"units": 2, "identical_units": 3, "percent": 45},
}

# 220.87: percent of the measured maximum, days (practice notes 2: 365 is text), days of the exception, minutes of the
# interval. code notes 2.6 [2+]; new load at 100 % (6.1, practice notes 2). With generation or peak shaving: not usable in any
# edition (practice notes 1.12, 60 % on the text). 2026 wording: no source found (code notes 2.6, 9.3): None throughout, except
# that generation is not usable by the practice notes policy.
MEASURED_87 = {
    "2014": {"maximum_percent": 125, "days": 365, "exception_days": 30, "interval_minutes": 15, "new_load_percent": 100,
             "with_generation": False},
    "2017": {"maximum_percent": 125, "days": 365, "exception_days": 30, "interval_minutes": 15, "new_load_percent": 100,
             "with_generation": False},
    "2020": {"maximum_percent": 125, "days": 365, "exception_days": 30, "interval_minutes": 15, "new_load_percent": 100,
             "with_generation": False},
    "2023": {"maximum_percent": 125, "days": 365, "exception_days": 30, "interval_minutes": 15, "new_load_percent": 100,
             "with_generation": False},
    "2026": {"maximum_percent": None, "days": None, "exception_days": None, "interval_minutes": None,
             "new_load_percent": None, "with_generation": False},
}

# ---------------------------------------------------------------------------------------------------------------------
# 3. Mobile and manufactured homes
# ---------------------------------------------------------------------------------------------------------------------

# 550.18. code notes 5. 75 % over three, 15 A allowance, 25 % motor and range table [1] (S64, another state's adoption);
# 240 V, laundry line [mem]; 3 VA, 1500 VA, 3000 VA and 35 % stand in the same block without tags of their own.
# 100 A service equipment (550.32(C)) and feeder assembly (550.33(B)) [mem]. The source names no edition for these.
# lighting_va_per_ft2 2026: whether 3 VA was lowered was not found: None.
# appliances_more_than: 75 % when there are MORE than this number of them.
MOBILE_HOME_550_18 = {
    "2014": {"lighting_va_per_ft2": 3, "small_appliance_va": 1500, "laundry_va": 1500, "first_va": 3000,
             "first_percent": 100, "rest_percent": 35, "volts": 240, "largest_motor_percent": 25,
             "ac_cord_amperes": 40, "ac_allowance_amperes_per_leg": 15, "appliances_more_than": 3,
             "appliances_percent": 75, "min_service_amperes": 100, "min_feeder_assembly_amperes": 100,
             "optional_82_allowed": True},
    "2017": {"lighting_va_per_ft2": 3, "small_appliance_va": 1500, "laundry_va": 1500, "first_va": 3000,
             "first_percent": 100, "rest_percent": 35, "volts": 240, "largest_motor_percent": 25,
             "ac_cord_amperes": 40, "ac_allowance_amperes_per_leg": 15, "appliances_more_than": 3,
             "appliances_percent": 75, "min_service_amperes": 100, "min_feeder_assembly_amperes": 100,
             "optional_82_allowed": True},
    "2020": {"lighting_va_per_ft2": 3, "small_appliance_va": 1500, "laundry_va": 1500, "first_va": 3000,
             "first_percent": 100, "rest_percent": 35, "volts": 240, "largest_motor_percent": 25,
             "ac_cord_amperes": 40, "ac_allowance_amperes_per_leg": 15, "appliances_more_than": 3,
             "appliances_percent": 75, "min_service_amperes": 100, "min_feeder_assembly_amperes": 100,
             "optional_82_allowed": True},
    "2023": {"lighting_va_per_ft2": 3, "small_appliance_va": 1500, "laundry_va": 1500, "first_va": 3000,
             "first_percent": 100, "rest_percent": 35, "volts": 240, "largest_motor_percent": 25,
             "ac_cord_amperes": 40, "ac_allowance_amperes_per_leg": 15, "appliances_more_than": 3,
             "appliances_percent": 75, "min_service_amperes": 100, "min_feeder_assembly_amperes": 100,
             "optional_82_allowed": True},
    "2026": {"lighting_va_per_ft2": None, "small_appliance_va": 1500, "laundry_va": 1500, "first_va": 3000,
             "first_percent": 100, "rest_percent": 35, "volts": 240, "largest_motor_percent": 25,
             "ac_cord_amperes": 40, "ac_allowance_amperes_per_leg": 15, "appliances_more_than": 3,
             "appliances_percent": 75, "min_service_amperes": 100, "min_feeder_assembly_amperes": 100,
             "optional_82_allowed": True},
}

# 550.18(B)(5) range table as (rating up to W, VA); the first row is a percent of the rating, see
# MOBILE_HOME_RANGE_FIRST_ROW_PERCENT. code notes 5 [1] S64. Over 17,500 W: no row in the source (not found), no entry.
MOBILE_HOME_RANGE_VA = dict.fromkeys(EDITIONS,
    [(10000, None), (12500, 8000), (13500, 8400), (14500, 8800), (15500, 9200), (16500, 9600), (17500, 10000)])
# Percent of the rating in the first row (up to 10,000 W). code notes 5 [1] S64.
MOBILE_HOME_RANGE_FIRST_ROW_PERCENT = {"2014": 80, "2017": 80, "2020": 80, "2023": 80, "2026": 80}

# ---------------------------------------------------------------------------------------------------------------------
# 4. Ratings, conductors, bus
# ---------------------------------------------------------------------------------------------------------------------

# Smallest service ratings, 230.79, amperes. code notes 3.1, sizing notes 1: (A) 15 [2+], (B) 30 [2+], (C) 100 [2+], (D) 60 [2+].
# The sources give no difference between editions; 2026 not named.
SERVICE_MIN_AMPERES = {
    "2014": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2017": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2020": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2023": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2026": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
}

# The same for a second building, 225.39. code notes 3.1: 100 A [1], the rest [mem]; sizing notes 5: (A), (B), (D) not found.
# Entered from code notes ("same four values").
BUILDING_FEEDER_MIN_AMPERES = {
    "2014": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2017": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2020": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2023": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
    "2026": {"one_circuit": 15, "two_circuits": 30, "one_family": 100, "all_others": 60},
}

# Standard ratings, 240.6(A). code notes 3.2 [mem+chk]; 10 A from 2023 [2+]. sizing notes 5: a citable full copy with 10 A was
# not found.
STANDARD_RATINGS = {
    "2014": [
        15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
        500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ],
    "2017": [
        15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
        500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ],
    "2020": [
        15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
        500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ],
    "2023": [
        10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
        500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ],
    "2026": [
        10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
        500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000,
    ],
}

# Fuse-only ratings, 240.6(A). code notes 3.2, sizing notes 1 [2+]. The source gives one list for all editions.
FUSE_ONLY_RATINGS = {
    "2014": [1, 3, 6, 10, 601],
    "2017": [1, 3, 6, 10, 601],
    "2020": [1, 3, 6, 10, 601],
    "2023": [1, 3, 6, 10, 601],
    "2026": [1, 3, 6, 10, 601],
}

# Next higher standard rating allowed up to this rating, 240.4(B). code notes 3.2, sizing notes 1 [2+]; no edition named.
NEXT_RATING_UP_TO_AMPERES = {"2014": 800, "2017": 800, "2020": 800, "2023": 800, "2026": 800}

# Small conductors, 240.4(D): (material, size) to largest device. code notes 3.2: 14 to 10 [2+]; 18 and 16 [1w] (sizing notes 1);
# 14 AWG copper-clad aluminum 10 A from 2023 (None before: no such row). "Al" stands for Al and copper-clad aluminum.
SMALL_CONDUCTOR_MAX_AMPERES = {
    "2014": {("Cu", "18"): 7, ("Cu", "16"): 10, ("CCA", "14"): None, ("Cu", "14"): 15, ("Al", "12"): 15,
             ("Cu", "12"): 20, ("Al", "10"): 25, ("Cu", "10"): 30},
    "2017": {("Cu", "18"): 7, ("Cu", "16"): 10, ("CCA", "14"): None, ("Cu", "14"): 15, ("Al", "12"): 15,
             ("Cu", "12"): 20, ("Al", "10"): 25, ("Cu", "10"): 30},
    "2020": {("Cu", "18"): 7, ("Cu", "16"): 10, ("CCA", "14"): None, ("Cu", "14"): 15, ("Al", "12"): 15,
             ("Cu", "12"): 20, ("Al", "10"): 25, ("Cu", "10"): 30},
    "2023": {("Cu", "18"): 7, ("Cu", "16"): 10, ("CCA", "14"): 10, ("Cu", "14"): 15, ("Al", "12"): 15,
             ("Cu", "12"): 20, ("Al", "10"): 25, ("Cu", "10"): 30},
    "2026": {("Cu", "18"): 7, ("Cu", "16"): 10, ("CCA", "14"): 10, ("Cu", "14"): 15, ("Al", "12"): 15,
             ("Cu", "12"): 20, ("Al", "10"): 25, ("Cu", "10"): 30},
}

# Dwelling service and feeder conductors: share of the RATING, range of ratings, supplies. code notes 3.3 [2+].
# 2014 120/240 V only [2+] (sizing notes 1). From 2017 208Y/120 for feeders; services stay 120/240 V (sizing notes 1, [1]).
# No second test of the load against the ampacity (practice notes 1.5, 85 %). 2026 310.12 [mem].
DWELLING_CONDUCTOR_RULE = {
    "2014": {"percent": 83, "from_amperes": 100, "to_amperes": 400, "service_supplies": ["120/240"],
             "feeder_supplies": ["120/240"]},
    "2017": {"percent": 83, "from_amperes": 100, "to_amperes": 400, "service_supplies": ["120/240"],
             "feeder_supplies": ["120/240", "208Y/120"]},
    "2020": {"percent": 83, "from_amperes": 100, "to_amperes": 400, "service_supplies": ["120/240"],
             "feeder_supplies": ["120/240", "208Y/120"]},
    "2023": {"percent": 83, "from_amperes": 100, "to_amperes": 400, "service_supplies": ["120/240"],
             "feeder_supplies": ["120/240", "208Y/120"]},
    "2026": {"percent": 83, "from_amperes": 100, "to_amperes": 400, "service_supplies": ["120/240"],
             "feeder_supplies": ["120/240", "208Y/120"]},
}

# The table printed in the article: rating to (Cu, Al or copper-clad aluminum). code notes 3.3 [2+]; 2026 [mem].
# 2014 and 2017: None, the article has no table (an Annex D7 example carried it); it returned in 2020 [2+].
DWELLING_CONDUCTOR_TABLE = {
    "2014": None,
    "2017": None,
    "2020": {
        100: ("4", "2"), 110: ("3", "1"), 125: ("2", "1/0"), 150: ("1", "2/0"), 175: ("1/0", "3/0"),
        200: ("2/0", "4/0"), 225: ("3/0", "250"), 250: ("4/0", "300"), 300: ("250", "350"), 350: ("350", "500"),
        400: ("400", "600"),
    },
    "2023": {
        100: ("4", "2"), 110: ("3", "1"), 125: ("2", "1/0"), 150: ("1", "2/0"), 175: ("1/0", "3/0"),
        200: ("2/0", "4/0"), 225: ("3/0", "250"), 250: ("4/0", "300"), 300: ("250", "350"), 350: ("350", "500"),
        400: ("400", "600"),
    },
    "2026": {
        100: ("4", "2"), 110: ("3", "1"), 125: ("2", "1/0"), 150: ("1", "2/0"), 175: ("1/0", "3/0"),
        200: ("2/0", "4/0"), 225: ("3/0", "250"), 250: ("4/0", "300"), 300: ("250", "350"), 350: ("350", "500"),
        400: ("400", "600"),
    },
}

# The sizes 83 % of the rating gives in the 75 C column, 30 C, no factors: for every edition, the editions without a table
# included. code notes 3.3 and 8: each table size is the smallest that reaches 0.83 x rating. Arithmetic, [2+] for its inputs.
DWELLING_CONDUCTOR_SIZES_83_PERCENT = dict.fromkeys(EDITIONS, {
    100: ("4", "2"), 110: ("3", "1"), 125: ("2", "1/0"), 150: ("1", "2/0"), 175: ("1/0", "3/0"),
    200: ("2/0", "4/0"), 225: ("3/0", "250"), 250: ("4/0", "300"), 300: ("250", "350"), 350: ("350", "500"),
    400: ("400", "600"),
})

# Ampacity, Table 310.15(B)(16) (2014, 2017) or 310.16: size to (Cu 60, Cu 75, Cu 90, Al 60, Al 75, Al 90). code notes 3.4:
# 14 AWG to 900 kcmil [2+], 1000 kcmil [1]; unchanged 2014-2026 [mem]. None: no value for aluminum of 14 AWG.
# 2026 adds sizes smaller than these [mem]: their values were not given.
AMPACITY = dict.fromkeys(EDITIONS, {
    "14": (15, 20, 25, None, None, None), "12": (20, 25, 30, 15, 20, 25), "10": (30, 35, 40, 25, 30, 35),
    "8": (40, 50, 55, 35, 40, 45), "6": (55, 65, 75, 40, 50, 55), "4": (70, 85, 95, 55, 65, 75),
    "3": (85, 100, 115, 65, 75, 85), "2": (95, 115, 130, 75, 90, 100), "1": (110, 130, 145, 85, 100, 115),
    "1/0": (125, 150, 170, 100, 120, 135), "2/0": (145, 175, 195, 115, 135, 150),
    "3/0": (165, 200, 225, 130, 155, 175), "4/0": (195, 230, 260, 150, 180, 205),
    "250": (215, 255, 290, 170, 205, 230), "300": (240, 285, 320, 195, 230, 260),
    "350": (260, 310, 350, 210, 250, 280), "400": (280, 335, 380, 225, 270, 305),
    "500": (320, 380, 430, 260, 310, 350), "600": (350, 420, 475, 285, 340, 385),
    "700": (385, 460, 520, 315, 375, 425), "750": (400, 475, 535, 320, 385, 435),
    "800": (410, 490, 555, 330, 395, 445), "900": (435, 520, 585, 355, 425, 480),
    "1000": (455, 545, 615, 375, 445, 500),
})

# Ambient correction as (from C, to C, 60, 75, 90). code notes 3.4 [2+]; from None: that temperature or less.
# None among the factors: the table has none. 2026 "same family" [mem].
AMBIENT_CORRECTION = dict.fromkeys(EDITIONS, [
    (None, 10, 1.29, 1.2, 1.15), (11, 15, 1.22, 1.15, 1.12), (16, 20, 1.15, 1.11, 1.08),
    (21, 25, 1.08, 1.05, 1.04), (26, 30, 1.0, 1.0, 1.0), (31, 35, 0.91, 0.94, 0.96), (36, 40, 0.82, 0.88, 0.91),
    (41, 45, 0.71, 0.82, 0.87), (46, 50, 0.58, 0.75, 0.82), (51, 55, 0.41, 0.67, 0.76), (56, 60, None, 0.58, 0.71),
    (61, 65, None, 0.47, 0.65), (66, 70, None, 0.33, 0.58), (71, 75, None, None, 0.5), (76, 80, None, None, 0.41),
    (81, 85, None, None, 0.29),
])

# Adjustment for current-carrying conductors as (from, to, percent). code notes 3.4, sizing notes 1 [2+]; to None: and more.
CONDUCTOR_COUNT_PERCENT = dict.fromkeys(EDITIONS, [
    (1, 3, 100), (4, 6, 80), (7, 9, 70), (10, 20, 50), (21, 30, 45), (31, 40, 40), (41, None, 35),
])

# Terminals, 110.14(C)(1): 60 C up to 100 A or 14-1 AWG unless marked 75 C, above that 75 C. sizing notes 1 [2+].
# practice notes 1.5: service equipment is taken as marked 75 C, listed as not verified. No edition difference given.
TERMINALS = {
    "2014": {"to_amperes": 100, "to_size": "1", "unmarked_c": 60, "above_c": 75},
    "2017": {"to_amperes": 100, "to_size": "1", "unmarked_c": 60, "above_c": 75},
    "2020": {"to_amperes": 100, "to_size": "1", "unmarked_c": 60, "above_c": 75},
    "2023": {"to_amperes": 100, "to_size": "1", "unmarked_c": 60, "above_c": 75},
    "2026": {"to_amperes": 100, "to_size": "1", "unmarked_c": 60, "above_c": 75},
}

# Grounding electrode conductor, Table 250.66, as (largest Cu phase, largest Al phase, Cu, Al); None: anything larger.
# code notes 3.5 [2+] (first aluminum cell 1/0, one copy prints 1). No edition difference given.
GROUNDING_ELECTRODE_CONDUCTOR = dict.fromkeys(EDITIONS, [
    ("2", "1/0", "8", "6"), ("1/0", "3/0", "6", "4"), ("3/0", "250", "4", "2"), ("350", "500", "2", "1/0"),
    ("600", "900", "1/0", "3/0"), ("1100", "1750", "2/0", "4/0"), (None, None, "3/0", "250"),
])

# Caps of 250.66(A) and (B) as (Cu, Al). code notes 3.5, sizing notes 1: rods 6 Cu and concrete 4 Cu [2+], 4 Al [1] + memory.
# Aluminum to a concrete-encased electrode: None, the source has null. Ground ring: size of the ring (not seen).
GEC_CAPS = {
    "2014": {"rod_pipe_plate": ("6", "4"), "concrete_encased": ("4", None)},
    "2017": {"rod_pipe_plate": ("6", "4"), "concrete_encased": ("4", None)},
    "2020": {"rod_pipe_plate": ("6", "4"), "concrete_encased": ("4", None)},
    "2023": {"rod_pipe_plate": ("6", "4"), "concrete_encased": ("4", None)},
    "2026": {"rod_pipe_plate": ("6", "4"), "concrete_encased": ("4", None)},
}

# Grounded conductor and bonding jumpers, Table 250.102(C)(1), as (largest Cu phase, largest Al phase, Cu, Al), up to
# 1100 Cu or 1750 Al. code notes 3.5: 250 to 2 and 750 to 2/0 [2+] (sizing notes 1), the rest [mem+chk] (assumed as 250.66).
GROUNDED_AND_BONDING_CONDUCTOR = dict.fromkeys(EDITIONS, [
    ("2", "1/0", "8", "6"), ("1/0", "3/0", "6", "4"), ("3/0", "250", "4", "2"), ("350", "500", "2", "1/0"),
    ("600", "900", "1/0", "3/0"), ("1100", "1750", "2/0", "4/0"),
])

# Above that: percent of the phase area. code notes 3.5, sizing notes 1 and 2.3 [2+]; the threshold goes by the phase material.
BONDING_ABOVE = {
    "2014": {"percent_of_area": 12.5, "over_cu_kcmil": 1100, "over_al_kcmil": 1750},
    "2017": {"percent_of_area": 12.5, "over_cu_kcmil": 1100, "over_al_kcmil": 1750},
    "2020": {"percent_of_area": 12.5, "over_cu_kcmil": 1100, "over_al_kcmil": 1750},
    "2023": {"percent_of_area": 12.5, "over_cu_kcmil": 1100, "over_al_kcmil": 1750},
    "2026": {"percent_of_area": 12.5, "over_cu_kcmil": 1100, "over_al_kcmil": 1750},
}

# Equipment grounding conductor, Table 250.122, as (device not over A, Cu, Al). code notes 3.5 [2+]; above 3000 A aluminum is
# among the least certain (code notes 9.11; older copies print 800 and 1200 kcmil for 4000 to 6000 A). No edition difference.
EQUIPMENT_GROUNDING_CONDUCTOR = dict.fromkeys(EDITIONS, [
    (15, "14", "12"), (20, "12", "10"), (60, "10", "8"), (100, "8", "6"), (200, "6", "4"), (300, "4", "2"),
    (400, "3", "1"), (500, "2", "1/0"), (600, "1", "2/0"), (800, "1/0", "3/0"), (1000, "2/0", "4/0"),
    (1200, "3/0", "250"), (1600, "4/0", "350"), (2000, "250", "400"), (2500, "350", "600"), (3000, "400", "600"),
    (4000, "500", "750"), (5000, "700", "1250"), (6000, "800", "1250"),
])

# Backfed bus, 705.12, percent. code notes 4: 120 % formula [2+]; 125 % of the source [1]; sum of breakers without the main
# against the bus, and the center-fed dwelling panel at 120 %, [2+] (sizing notes 1). 2026 705.12 [mem].
BUS_705_12 = dict.fromkeys(EDITIONS, {"source_percent": 125, "bus_percent_opposite_ends": 120, "bus_percent_anywhere": 100,
         "bus_percent_sum_of_breakers": 100, "bus_percent_center_fed": 120})

# Branch circuits, percent unless named. code notes 4 with sizing notes 1: continuous 125 [2+]; charging device 125 [2+]; storage
# water heater up to 120 gal 125 [2+]; single appliance over 13.3 A 150 [2+], 13.3 A or less up to 20 A (sizing notes 2.8);
# fixed heat 125 [2+]; subdivided 48 A / 60 A [2+]; AC conductors 125, device 175, 225 if it will not start [2+]; room AC
# 80 and 50 [2+]; motor conductors 125 [2+]; range of 8.75 kW or more at least 40 A [2+]; dryer at least 30 A [mem];
# pool heater 125 [mem] (sizing notes 3: the 125 % itself not seen). The sources give no difference between editions.
BRANCH_CIRCUITS = dict.fromkeys(EDITIONS,
    {"continuous": 125, "charging_device": 125, "storage_water_heater": 125, "storage_water_heater_to_gal": 120,
         "appliance_device": 150, "appliance_over_amperes": 13.3, "appliance_small_device_amperes": 20,
         "fixed_heat": 125, "fixed_heat_subdivided_amperes": (48, 60), "ac_conductors": 125, "ac_device": 175,
         "ac_device_if_not_starting": 225, "room_ac_alone": 80, "room_ac_shared": 50, "motor_conductors": 125,
         "range_from_kw": 8.75, "range_min_amperes": 40, "dryer_min_amperes": 30, "pool_heater": 125})

# ---------------------------------------------------------------------------------------------------------------------
# 5. Where each rule stands
# ---------------------------------------------------------------------------------------------------------------------

# Every row of code notes 0.1, in its order, as tuples of citations. (): the edition has no such section. None: not found.
# The tag of the 2026 cell is beside each row; the cells of 2014-2023 have no tags of their own in code notes 0.1.
CITATIONS = {
    "nominal_voltages": {  # 2026 [mem]
        "2014": ("220.5(A)",), "2017": ("220.5(A)",), "2020": ("220.5(A)",), "2023": ("220.5(A)",), "2026": ("120.5(A)",)},
    "rounding": {  # 2026 [mem]
        "2014": ("220.5(B)",), "2017": ("220.5(B)",), "2020": ("220.5(B)",), "2023": ("220.5(B)",), "2026": ("120.5(B)",)},
    "floor_area": {  # 2026 [2+]
        "2014": ("220.12",), "2017": ("220.12",), "2020": ("220.11",), "2023": ("220.5(C)",), "2026": ("120.5(C)",)},
    "dc_equipment_kw_as_kva": {  # 2026 [1]; none before
        "2014": (), "2017": (), "2020": (), "2023": (), "2026": ("120.5(D)",)},
    "continuous_not_raised": {  # 2026 [2+]; silent before
        "2014": (), "2017": (), "2020": (), "2023": (), "2026": ("120.5(E)",)},
    "dwelling_unit_load": {  # 2026 [1w]
        "2014": ("Table 220.12", "220.14(J)"), "2017": ("Table 220.12", "220.14(J)"), "2020": ("220.14(J)",),
        "2023": ("220.41",), "2026": ("120.41",)},
    "managed_load": {  # 2026 [2+]. No Article 220 section before 2023, only charging: code notes 625.42 (2014-2020); 2014 by
        # practice notes 1.10 is 625.41 (80 %), sizing notes: 2014 not seen.
        "2014": ("625.41",), "2017": ("625.42",), "2020": ("625.42", "750.30"), "2023": ("220.70",), "2026": ("120.7",)},
    "general_rule": {  # 2026 [mem]
        "2014": ("220.40",), "2017": ("220.40",), "2020": ("220.40",), "2023": ("220.40",), "2026": ("120.40",)},
    "lighting_demand": {  # 2026 [mem]
        "2014": ("Table 220.42",), "2017": ("Table 220.42",), "2020": ("Table 220.42",), "2023": ("Table 220.45",),
        "2026": ("Table 120.45",)},
    "motors_and_ac": {  # 2026 [mem]
        "2014": ("220.50",), "2017": ("220.50",), "2020": ("220.50(A)", "220.50(B)"), "2023": ("220.50(A)", "220.50(B)"),
        "2026": ("120.50",)},
    "space_heating": {  # 2026 [mem]
        "2014": ("220.51",), "2017": ("220.51",), "2020": ("220.51",), "2023": ("220.51",), "2026": ("120.51",)},
    "small_appliance_and_laundry": {  # 2026 [mem]
        "2014": ("220.52(A)", "220.52(B)"), "2017": ("220.52(A)", "220.52(B)"), "2020": ("220.52(A)", "220.52(B)"),
        "2023": ("220.52(A)", "220.52(B)"), "2026": ("120.52",)},
    "fastened_appliances": {  # 2026 [mem]
        "2014": ("220.53",), "2017": ("220.53",), "2020": ("220.53",), "2023": ("220.53",), "2026": ("120.53",)},
    "dryers": {  # 2026 [mem]
        "2014": ("220.54",), "2017": ("220.54",), "2020": ("220.54",), "2023": ("220.54",), "2026": ("120.54",)},
    "cooking": {  # 2026 [mem]
        "2014": ("220.55",), "2017": ("220.55",), "2020": ("220.55",), "2023": ("220.55",), "2026": ("120.55",)},
    "instantaneous_water_heaters": {  # 2026 [1w], new
        "2014": (), "2017": (), "2020": (), "2023": (), "2026": ("120.56",)},
    "commercial_kitchen": {  # not dwellings; 2026 renumbered, location not found: None
        "2014": ("220.56",), "2017": ("220.56",), "2020": ("220.56",), "2023": ("220.56",), "2026": None},
    "charging": {  # 2026 [1w], revised; new in 2023
        "2014": (), "2017": (), "2020": (), "2023": ("220.57",), "2026": ("120.57",)},
    "noncoincident": {  # 2026 [1w]
        "2014": ("220.60",), "2017": ("220.60",), "2020": ("220.60",), "2023": ("220.60",), "2026": ("120.60",)},
    "neutral": {  # 2026 [1]
        "2014": ("220.61",), "2017": ("220.61",), "2020": ("220.61",), "2023": ("220.61",), "2026": ("120.61",)},
    "optional_dwelling": {  # 2026 [2+]
        "2014": ("220.82",), "2017": ("220.82",), "2020": ("220.82",), "2023": ("220.82",), "2026": ("120.82",)},
    "optional_existing": {  # 2026 [1w]
        "2014": ("220.83",), "2017": ("220.83",), "2020": ("220.83",), "2023": ("220.83",), "2026": ("120.83",)},
    "optional_multifamily": {  # 2026 [1w]
        "2014": ("220.84",), "2017": ("220.84",), "2020": ("220.84",), "2023": ("220.84",), "2026": ("120.84",)},
    "two_dwelling_units": {  # 2026 [mem]
        "2014": ("220.85",), "2017": ("220.85",), "2020": ("220.85",), "2023": ("220.85",), "2026": ("120.85",)},
    "measured_load": {  # 2026 [1w]
        "2014": ("220.87",), "2017": ("220.87",), "2020": ("220.87",), "2023": ("220.87",), "2026": ("120.87",)},
    "schools_and_restaurants": {  # not dwellings; 2026 [mem]
        "2014": ("220.86", "220.88"), "2017": ("220.86", "220.88"), "2020": ("220.86", "220.88"),
        "2023": ("220.86", "220.88"), "2026": ("120.86", "120.88")},
    "energy_management": {  # 2026 [2+]; Part II of Article 130 is PCS. 2023: 750.6 is the listing
        "2014": ("Article 750",), "2017": ("Article 750",), "2020": ("Article 750",),
        "2023": ("Article 750", "750.30", "750.6"), "2026": ("Article 130", "130.50-130.80")},
    "dwelling_conductors": {  # 2026 [mem]; no table in 2014 and 2017
        "2014": ("310.15(B)(7)",), "2017": ("310.15(B)(7)",), "2020": ("310.12", "Table 310.12"),
        "2023": ("310.12", "Table 310.12(A)"), "2026": ("310.12",)},
    "ampacity": {  # 2026 [mem]
        "2014": ("Table 310.15(B)(16)",), "2017": ("Table 310.15(B)(16)",), "2020": ("Table 310.16",),
        "2023": ("Table 310.16",), "2026": ("Table 310.16",)},
    "ambient_correction": {  # 2026 [mem]: code notes says only "same family"; the number of 2023 repeated is a reading of that
        "2014": ("Table 310.15(B)(2)(a)",), "2017": ("Table 310.15(B)(2)(a)",), "2020": ("Table 310.15(B)(1)",),
        "2023": ("Table 310.15(B)(1)(1)",), "2026": ("Table 310.15(B)(1)(1)",)},
    "conductor_count": {  # 2026 [mem]: code notes says only "same family"; the number of 2023 repeated is a reading of that
        "2014": ("Table 310.15(B)(3)(a)",), "2017": ("Table 310.15(B)(3)(a)",), "2020": ("Table 310.15(C)(1)",),
        "2023": ("Table 310.15(C)(1)",), "2026": ("Table 310.15(C)(1)",)},
    "charging_circuit": {  # own circuit, overcurrent, rating, in that order. 2026 [mem]. code notes has 625.40, .41, .42 in all
        # editions; practice notes 1.10 corrects 2014 to 210.17, 625.40, 625.41 (80 %).
        "2014": ("210.17", "625.40", "625.41"), "2017": ("625.40", "625.41", "625.42"),
        "2020": ("625.40", "625.41", "625.42"), "2023": ("625.40", "625.41", "625.42"),
        "2026": ("625.40", "625.41", "625.42")},
    "fixed_heat_circuit": {  # 2026 [mem]; 2020 renumbering [1] (sizing notes 1)
        "2014": ("424.3(B)",), "2017": ("424.3(B)",), "2020": ("424.4(B)",), "2023": ("424.4(B)",), "2026": ("424.4(B)",)},
    "backfed_bus": {  # 2026 [mem]; 2014-2023 [1] (code notes 4)
        "2014": ("705.12(D)(2)(3)",), "2017": ("705.12(B)(2)(3)",), "2020": ("705.12(B)(3)",), "2023": ("705.12(B)",),
        "2026": ("705.12",)},
}

# Places outside code notes 0.1. One number for all editions where the source gives no difference; 2026 then unconfirmed.
CITATIONS_MORE = {
    "service_minimum": {  # code notes 3.1 [2+]
        "2014": ("230.79",), "2017": ("230.79",), "2020": ("230.79",), "2023": ("230.79",), "2026": ("230.79",)},
    "building_feeder_minimum": {  # code notes 3.1 [1]
        "2014": ("225.39",), "2017": ("225.39",), "2020": ("225.39",), "2023": ("225.39",), "2026": ("225.39",)},
    "standard_ratings": {  # code notes 3.2 [2+]; 2023 is Table 240.6(A)
        "2014": ("240.6(A)",), "2017": ("240.6(A)",), "2020": ("240.6(A)",), "2023": ("Table 240.6(A)",),
        "2026": ("Table 240.6(A)",)},
    "neutral_floor": {  # sizing notes 2.4: 250.24(C)(1) to 2020, 250.24(D)(1) in 2023; 2026 not stated: None
        "2014": ("250.24(C)(1)", "Table 250.102(C)(1)"), "2017": ("250.24(C)(1)", "Table 250.102(C)(1)"),
        "2020": ("250.24(C)(1)", "Table 250.102(C)(1)"), "2023": ("250.24(D)(1)", "Table 250.102(C)(1)"), "2026": None},
    "pool_heater_circuit": {  # code notes 4 [mem]; 2023 split into (A) and (B), sizing notes 3 [1]; 2026 by "2020+"
        "2014": ("680.9",), "2017": ("680.9",), "2020": ("680.10",), "2023": ("680.10",), "2026": ("680.10",)},
    "mobile_home": {  # code notes 5 [1]/[mem]
        "2014": ("550.18",), "2017": ("550.18",), "2020": ("550.18",), "2023": ("550.18",), "2026": ("550.18",)},
    "source_power_control": {  # 705.13 from 2020 [1] (sizing notes 1); before 2020 none
        "2014": (), "2017": (), "2020": ("705.13",), "2023": ("705.13",), "2026": ("705.13",)},
    "surge_protection": {  # practice notes 1.22, 2020 on, memory
        "2014": (), "2017": (), "2020": ("230.67",), "2023": ("230.67",), "2026": ("230.67",)},
    "outside_disconnect": {  # practice notes 1.22, 2020 on, memory
        "2014": (), "2017": (), "2020": ("230.85",), "2023": ("230.85",), "2026": ("230.85",)},
}
