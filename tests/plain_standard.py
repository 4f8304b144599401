"""The standard calculation of dwelling units on one supply, written by hand from the sections as plain Python over plain dicts.

Article 220, Part III, 2023 edition, default readings; loads whose lines are not said. It knows nothing of the rules: a second
reading to compare with, and the yardstick of the benchmark. The tables are those of the second entry in ``test_standard.py``.
"""

from __future__ import annotations

import math
from typing import Any

from plain import COOKING, COUNTED, nominal, volt_amperes

Load = dict[str, Any]

AIR = (
    "air_conditioner",
    "heat_pump",
    "supplemental_heat",
    "space_heater",
    "electric_furnace",
    "thermal_storage_heater",
    "blower",
)
HEATERS = ("space_heater", "electric_furnace", "thermal_storage_heater")
OUTDOORS = ("pool_pump", "pool_heater", "hot_tub", "well_pump")
COLUMN_A = (80, 75, 70, 66, 62, 59, 56, 53, 51, 49, 47, 45, 43, 41, 40, 39, 38, 37, 36, 35, 34, 33, 32, 31, 30)
COLUMN_B = (80, 65, 55, 50, 45, 43, 40, 36, 35, 34, 32, 32, 32, 32, 32, 28, 28, 28, 28, 28, 26, 26, 26, 26, 26)
COLUMN_C = (8, 11, 14, 17, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40)
DRYERS = (100, 100, 100, 100, 85, 75, 65, 60, 55, 50, 47)


def standard_220(home: dict[str, Any], three_phase: bool = False) -> float:
    """The calculated load in volt-amperes."""
    units = home.get("units") or [home]
    everything = [(each, unit.get("quantity", 1)) for unit in units for each in unit["loads"]]
    everything += [(each, 1) for each in home.get("house_loads", ())]
    loads = [
        (each, volt_amperes(each, home["voltage"]), each["quantity"] * times)
        for each, times in everything
        if not each["replaced"]
        and not (each["on_laundry_circuit"] and each["kind"] != "clothes_dryer" and each["kind"] not in COOKING)
    ]
    small = sum(unit.get("quantity", 1) * lighting_of(unit, home["part_of_dwelling"]) for unit in units)
    lighting = min(small, 3000) + 0.35 * min(max(small - 3000, 0), 117000) + 0.25 * max(small - 120000, 0)
    fastened = number = others = charging = 0.0
    ranges, dryers = [], []
    for load, amount, quantity in loads:
        kind = load["kind"]
        if kind in COOKING:
            ranges.append((amount, quantity))
        elif kind == "clothes_dryer":
            dryers.append((amount, quantity))
        elif kind == "ev_charging_equipment":
            charging += quantity * (amount if load["basis"] == "control_setting" else max(amount, 7200))
        elif kind in AIR:
            continue
        elif not load["fastened_in_place"] and not load["individual_circuit"]:
            continue
        elif kind in OUTDOORS:
            others += quantity * amount
        elif load["fastened_in_place"] and kind != "built_in_microwave_oven" and not too_small(load, amount):
            fastened += quantity * amount
            number += quantity
        else:
            others += quantity * amount
    return float(
        lighting
        + fastened * (0.75 if number >= 4 else 1)
        + dryer_load(dryers, three_phase)
        + cooking_load(ranges, three_phase)
        + heating_or_cooling(loads, home)
        + charging
        + others
    )


def lighting_of(unit: dict[str, Any], part: bool) -> float:
    """Lighting, small-appliance and laundry load of a dwelling unit [VA]; of a whole one at least two of these circuits."""
    area = sum(each["area"] for each in unit["areas"] if each["area_kind"] in COUNTED)
    circuits = max(unit["small_appliance_circuits"], 0 if part else 2) + unit["laundry_circuits"]
    return float(3 * area + 1500 * circuits)


def too_small(load: Load, amount: float) -> bool:
    """Under 500 W, or under 1/4 hp."""
    return amount < 500 and (load["basis"] != "horsepower" or load["horsepower"] < 0.25)


def dryer_load(dryers: list[tuple[float, float]], three_phase: bool) -> float:
    """220.54: not less than 5,000 VA each; on three phases from two on by the pair that has most."""
    number = sum(quantity for _, quantity in dryers)
    total = sum(quantity * max(amount, 5000) for amount, quantity in dryers)
    if not number:
        return 0.0
    if three_phase and number > 1:
        counted = 2.0 * math.ceil(number / 3)
        return float(total / number * counted * 1.5 * dryer_share(counted) / 100)
    return float(total * dryer_share(number) / 100)


def dryer_share(number: float) -> float:
    """The demand factor [%]."""
    if number <= len(DRYERS):
        return DRYERS[int(number) - 1]
    return 47 - (number - 11) if number <= 23 else 35 - 0.5 * (number - 23) if number <= 42 else 25


def cooking_load(ranges: list[tuple[float, float]], three_phase: bool) -> float:
    """Table 220.55 with its notes; none has to be counted over its nameplate, but on three phases."""
    table = [(amount, quantity) for amount, quantity in ranges if 1750 < amount <= 27000]
    outside = sum(amount * quantity for amount, quantity in ranges) - sum(amount * quantity for amount, quantity in table)
    number = sum(quantity for _, quantity in table)
    if not number:
        return float(outside)
    if three_phase and number > 1:
        return float(outside + 1.5 * column_c(table, 2.0 * math.ceil(number / 3)))
    apart = 0.0
    for low, high, column in ((0, 3499.999999, 0), (3500, 8750, 1)):
        of = [(amount, quantity) for amount, quantity in table if low <= amount <= high]
        count = sum(quantity for _, quantity in of)
        apart += sum(amount * quantity for amount, quantity in of) * (share(count, column) / 100 if count else 0)
    large = [(amount, quantity) for amount, quantity in table if amount > 8750]
    apart += column_c(large, sum(quantity for _, quantity in large)) if large else 0.0
    return float(outside + min(column_c(table, number), apart, sum(amount * quantity for amount, quantity in table)))


def column_c(table: list[tuple[float, float]], number: float) -> float:
    """Column C [VA], with 5 % for each kilowatt or major part of one that the average is over 12 kW."""
    counted = sum(quantity for _, quantity in table)
    average = sum(max(amount, 12000) * quantity for amount, quantity in table) / counted
    over = math.floor((average - 12000) / 1000 + 0.5)
    kilowatts = COLUMN_C[int(number) - 1] if number <= 25 else 15 + number if number <= 40 else 25 + 0.75 * number
    return float(kilowatts * 1000 * (1 + 0.05 * over))


def share(number: float, column: int) -> float:
    """Column A or B [%]."""
    if number <= 25:
        return (COLUMN_A, COLUMN_B)[column][int(number) - 1]
    if not column:
        return 30
    return next(percent for last, percent in ((30, 24), (40, 22), (50, 20), (60, 18), (math.inf, 16)) if number <= last)


def heating_or_cooling(loads: list[tuple[Load, float, float]], home: dict[str, Any]) -> float:
    """The largest of what runs at one time, each with a quarter of the largest motor running then."""
    running = [0.0, 0.0, 0.0]  # cooling; heating with supplemental heat; without
    largest = [0.0, 0.0, 0.0]
    helped = False
    for load, amount, quantity in loads:
        kind = load["kind"]
        locked = kind == "heat_pump" and load["stops_for_supplemental_heat"]
        cools = kind in ("air_conditioner", "heat_pump") or (kind == "blower" and load["season"] != "heating")
        heats = kind in HEATERS or kind == "heat_pump" or (kind == "blower" and load["season"] != "cooling")
        helped = helped or kind == "supplemental_heat"
        runs = (cools, (heats or kind == "supplemental_heat") and not locked, heats)
        motor = motor_of(load, amount)
        for at in range(3):
            if kind not in AIR or runs[at]:
                largest[at] = max(largest[at], motor)
            running[at] += quantity * amount if kind in AIR and runs[at] else 0.0
    states = [total + 0.25 * motor for total, motor in zip(running, largest, strict=True)]
    return max(states if helped else (states[0], states[2]))


def motor_of(load: Load, amount: float) -> float:
    """What a load is as a motor: of a compressor with fans the compressor, with a minimum circuit ampacity nothing more."""
    cord = not load["fastened_in_place"] and not load["individual_circuit"]
    apart = load["kind"] in (*AIR, "clothes_dryer", "ev_charging_equipment")
    if not load["motor"] or load["on_laundry_circuit"] or (cord and not apart) or load["basis"] == "minimum_circuit_ampacity":
        return 0.0
    if load["basis"] == "rated_load_and_fan":
        return float(load["rated_load_amperes"] * nominal(load["volts"])[0])
    return amount
