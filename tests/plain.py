"""The optional calculation for a dwelling unit, written by hand from the section as plain Python over plain dicts.

It makes the same decisions as the rules (nameplate, floor area, groups, selections by season) and knows nothing of them:
a second reading to compare with, and the yardstick of the benchmark. Section 220.82, 2023 edition, default readings.
"""

from __future__ import annotations

from typing import Any

MOTOR = {  # Table 430.248, by hp and heading
    1 / 6: {115: 4.4, 208: 2.4, 230: 2.2},
    1 / 4: {115: 5.8, 208: 3.2, 230: 2.9},
    1 / 3: {115: 7.2, 208: 4.0, 230: 3.6},
    1 / 2: {115: 9.8, 208: 5.4, 230: 4.9},
    3 / 4: {115: 13.8, 208: 7.6, 230: 6.9},
    1.0: {115: 16.0, 208: 8.8, 230: 8.0},
    1.5: {115: 20.0, 208: 11.0, 230: 10.0},
    2.0: {115: 24.0, 208: 13.2, 230: 12.0},
    3.0: {115: 34.0, 208: 18.7, 230: 17.0},
    5.0: {115: 56.0, 208: 30.8, 230: 28.0},
}
COUNTED = {"living", "finished_basement", "unfinished_adaptable", "attached_garage"}
COOKING = {"range", "wall_oven", "cooktop"}
WATER = {"storage_water_heater", "heat_pump_water_heater", "instantaneous_water_heater"}


def nominal(volts: float) -> tuple[float, float]:
    """Nominal volts and the heading of the motor table."""
    if 110 <= volts <= 127:
        return 120.0, 115
    if 200 <= volts <= 208:
        return 208.0, 208
    if 220 <= volts <= 250:
        return 240.0, 230
    raise ValueError(volts)


def volt_amperes(load: dict[str, Any], supply_volts: float) -> float:
    """What a nameplate counts as."""
    basis = load["basis"]
    if basis == "watts":
        return float(load["watts"])
    if basis == "volt_amperes":
        return float(load["volt_amperes"])
    if basis in ("amperes", "minimum_circuit_ampacity"):
        return load["marked_amperes"] * nominal(load["volts"])[0]
    if basis == "rated_load_and_fan":
        return (load["rated_load_amperes"] + load["fan_amperes"]) * nominal(load["volts"])[0]
    if basis == "setting":
        return load["setting"] * supply_volts
    if basis == "control_setting":
        return load["control_setting"] * (120 if load["connection"] == "line_to_neutral" else supply_volts)
    volts, heading = nominal(load["volts"])
    return MOTOR[load["horsepower"]][int(heading)] * volts


def optional_220_82(home: dict[str, Any]) -> float:
    """The calculated load in volt-amperes."""
    area = sum(each["area"] for each in home["areas"] if each["area_kind"] in COUNTED)
    pool = (
        3 * area
        + 1500 * max(home["small_appliance_circuits"], 0 if home["part_of_dwelling"] else 2)
        + 1500 * home["laundry_circuits"]
    )
    cooling = pump = compressor = strips = central = separate = storage = 0.0
    separate_count = 0.0
    blowers = []
    pumps = coolers = heat = False
    for load in home["loads"]:
        if load["replaced"]:
            continue
        kind, quantity = load["kind"], load["quantity"]
        amount = quantity * volt_amperes(load, home["voltage"])
        if kind == "air_conditioner":
            cooling += amount
            coolers = True
        elif kind == "heat_pump":
            pump += amount
            pumps = True
            if not load["stops_for_supplemental_heat"]:
                compressor += amount
        elif kind == "supplemental_heat":
            strips += amount
            heat = True
        elif kind in ("space_heater", "electric_furnace"):
            if load["separately_controlled"]:
                separate += amount
                separate_count += quantity
            else:
                central += amount
                heat = True
        elif kind == "thermal_storage_heater":
            storage += amount
            heat = True
        elif kind == "blower":
            blowers.append((load["season"], amount))
        elif load["on_laundry_circuit"] and kind not in COOKING:
            continue
        elif kind in ("clothes_dryer", "gas_dryer", "ev_charging_equipment") or kind in COOKING or kind in WATER:
            pool += amount
        elif load["fastened_in_place"] or load["individual_circuit"]:
            pool += amount
    blow_cool = blow_heat = 0.0
    for season, amount in blowers:
        cools = season in ("cooling", "both") and (coolers or pumps)
        heats = season in ("heating", "both") and (heat or pumps)
        blow_cool += amount if cools else 0.0
        blow_heat += amount if heats else 0.0
        pool += 0.0 if cools or heats else amount
    general = min(pool, 10000) + 0.4 * max(pool - 10000, 0)
    heaters = 0.65 * central + (0.65 if separate_count < 4 else 0.4) * separate
    seasons = (
        cooling + pump + blow_cool,
        compressor + 0.65 * strips + heaters + storage + blow_heat,
        pump + heaters + storage + blow_heat,
    )
    return float(general + max(seasons))
