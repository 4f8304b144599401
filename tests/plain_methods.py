"""The calculations of 220.83, 220.84, 220.85 and 550.18, written by hand from the sections as plain Python over plain dicts.

2023 edition. A second reading to compare with: it knows nothing of the rules. Where the code is silent the default is taken, and
every other reading can be asked for by name. What a nameplate counts as is that of ``plain.py``; the standard calculation that
two of the sections compare with is that of ``plain_standard.py``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from plain import COOKING, WATER, volt_amperes
from plain_standard import AIR, lighting_of, standard_220

Load = dict[str, Any]
Counted = list[tuple[Load, float, float]]  # a load, its volt-amperes, how many of it

MULTIFAMILY = (  # Table 220.84: up to so many dwelling units, percent
    (5, 45), (7, 44), (10, 43), (11, 42), (13, 41), (15, 40), (17, 39), (20, 38), (21, 37), (23, 36), (25, 35), (27, 34),
    (30, 33), (31, 32), (33, 31), (36, 30), (38, 29), (42, 28), (45, 27), (50, 26), (55, 25), (61, 24), (10**9, 23),
)  # fmt: skip
MOBILE_RANGES = ((12500, 8000), (13500, 8400), (14500, 8800), (15500, 9200), (16500, 9600), (17500, 10000))  # up to W, VA
MOBILE_APPLIANCES = {"waste_disposer", "dishwasher", "clothes_dryer", "wall_oven", "cooktop", *WATER}


@dataclass(frozen=True)
class Readings:
    """How the text is read where it may be read in several ways; each at its default."""

    existing: str = "in_general_loads"  # or larger_in_general_loads, at_full_rating
    replacement: str = "not_additional"  # or additional
    charging: str = "in_pool"  # or apart, apart_at_125
    room_cooling: str = "counted"  # or left_out
    blower: str = "with_selection"  # or in_general_loads


DEFAULT = Readings()


def connected(loads: list[Load], home: dict[str, Any]) -> Counted:
    """What counts of some loads: nothing replaced, and of a set that never runs together the largest, of equals the first."""
    found = [(each, volt_amperes(each, home["voltage"]), each["quantity"]) for each in loads if not each["replaced"]]
    amounts = {each["name"]: amount for each, amount, _ in found}
    gone: set[str] = set()
    for names in home.get("never_together", ()):
        there = [name for name in names if name in amounts]
        kept = max(there, key=lambda name: amounts[name], default="")  # max takes the first of equals
        gone |= {*there} - {kept}
    return [one for one in found if one[0]["name"] not in gone]


@dataclass
class Sorted:
    """The loads of a dwelling unit by where the lists of 220.83 and 220.84 put them [VA]."""

    pool: float = 0.0
    charging: float = 0.0
    cooling: float = 0.0
    pumps: float = 0.0
    pumps_not_locked: float = 0.0
    strips: float = 0.0
    central: float = 0.0
    separate: float = 0.0
    separate_number: float = 0.0
    blow_cool: float = 0.0
    blow_heat: float = 0.0
    blowers: float = 0.0

    def seasons(self, heaters: float) -> float:
        """The largest of cooling, heating with supplemental heat, heating without."""
        heating = self.central + heaters + self.blow_heat
        return max(
            self.cooling + self.pumps + self.blow_cool, self.pumps_not_locked + self.strips + heating, self.pumps + heating
        )


def sort_out(loads: Counted, readings: Readings, *, room_units_always: bool = False) -> Sorted:
    """Put each load in its place in the lists."""
    found = Sorted()
    kinds = set()
    blowers = []
    for load, amount, quantity in loads:
        kind, total = load["kind"], amount * quantity
        loose = not load["fastened_in_place"] and not load["individual_circuit"]
        if kind == "air_conditioner":
            if loose and readings.room_cooling == "left_out" and not room_units_always:
                continue
            found.cooling += total
        elif kind == "heat_pump":
            found.pumps += total
            found.pumps_not_locked += 0.0 if load["stops_for_supplemental_heat"] else total
        elif kind == "supplemental_heat":
            found.strips += total
        elif kind == "thermal_storage_heater":
            found.central += total
        elif kind in ("space_heater", "electric_furnace"):
            if load["separately_controlled"]:
                found.separate += total
                found.separate_number += quantity
                continue
            found.central += total
        elif kind == "blower":
            blowers.append((load["season"], total))
            continue
        elif load["on_laundry_circuit"] and kind not in COOKING:
            continue
        elif kind == "ev_charging_equipment":
            found.charging += total
            continue
        elif kind in COOKING or kind in WATER or kind in ("clothes_dryer", "gas_dryer") or not loose:
            found.pool += total
            continue
        else:
            continue
        kinds.add(kind)
    cools = bool(kinds & {"air_conditioner", "heat_pump"})
    heats = bool(kinds - {"air_conditioner"})
    for season, total in blowers:
        when_cooling = season in ("cooling", "both") and cools and readings.blower == "with_selection"
        when_heating = season in ("heating", "both") and heats and readings.blower == "with_selection"
        found.blow_cool += total if when_cooling else 0.0
        found.blow_heat += total if when_heating else 0.0
        found.blowers += total if when_cooling or when_heating else 0.0
        found.pool += 0.0 if when_cooling or when_heating else total
    return found


def outside(charging: float, readings: Readings) -> float:
    """Charging equipment that is not in the pool."""
    return {"in_pool": 0.0, "apart": 1.0, "apart_at_125": 1.25}[readings.charging] * charging


ADDED = {"air_conditioner", "heat_pump", "supplemental_heat", "space_heater", "electric_furnace", "thermal_storage_heater"}


def existing_220_83(home: dict[str, Any], readings: Readings = DEFAULT) -> float:
    """The load [VA] of an existing dwelling unit, by (A), or by (B) where heating or cooling is added."""
    loads = connected(home["loads"], home)
    found = sort_out(loads, readings)
    general = lighting_of(home, home["part_of_dwelling"]) + found.pool
    general += found.charging if readings.charging == "in_pool" else 0.0
    few = found.separate if found.separate_number < 4 else 0.0
    general += 0.0 if found.separate_number < 4 else found.separate
    apart = outside(found.charging, readings)
    if adds_heating_or_cooling(loads, readings) or readings.existing == "at_full_rating":
        return shared(general) + found.seasons(few) + apart
    if readings.existing == "larger_in_general_loads":
        return shared(general + found.seasons(few)) + apart
    both = found.cooling + found.pumps + found.strips + found.central + few + found.blowers
    return shared(general + both) + apart


def adds_heating_or_cooling(loads: Counted, readings: Readings) -> bool:
    """Whether heating or cooling is to be installed; one of the same kind in the place of another is not additional."""
    for load, _, _ in loads:
        left_out = load["kind"] == "air_conditioner" and readings.room_cooling == "left_out"
        if left_out and not load["fastened_in_place"] and not load["individual_circuit"]:
            continue
        if load["kind"] in ADDED and load["status"] == "planned":
            if not load["like_for_like"] or readings.replacement == "additional":
                return True
    return False


def shared(amount: float) -> float:
    """100 % of the first 8 kVA and 40 % of the rest."""
    return min(amount, 8000) + 0.4 * max(amount - 8000, 0)


def connected_220_84(unit: dict[str, Any], home: dict[str, Any], readings: Readings = DEFAULT) -> tuple[float, float]:
    """The connected load of one dwelling unit of several equal ones, and its charging equipment outside it [VA]."""
    found = sort_out(connected(unit["loads"], home), readings, room_units_always=True)
    cooks = any(each["kind"] in COOKING for each, _, _ in connected(unit["loads"], home))
    total = lighting_of(unit, home["part_of_dwelling"]) + found.pool + found.seasons(found.separate) + (0 if cooks else 8000)
    total += found.charging if readings.charging == "in_pool" else 0.0
    return total, outside(found.charging, readings)


def house_loads(home: dict[str, Any]) -> float:
    """The loads of the house by Part III alone."""
    bare = {**home, "areas": [], "small_appliance_circuits": 0, "laundry_circuits": 0, "part_of_dwelling": True}
    loads = [load for load, _, _ in connected(home.get("house_loads", []), home)]
    return standard_220({**bare, "loads": loads, "units": None, "house_loads": []}, three_phase="three-phase" in home["system"])


def standard_of(home: dict[str, Any]) -> float:
    """Part III for all of the home."""
    kept = {
        **home,
        "units": [{**unit, "loads": [load for load, _, _ in connected(unit["loads"], home)]} for unit in home["units"]],
        "house_loads": [load for load, _, _ in connected(home.get("house_loads", []), home)],
    }
    return standard_220(kept, three_phase="three-phase" in home["system"])


def multifamily_220_84(home: dict[str, Any], readings: Readings = DEFAULT) -> float:
    """The load [VA] of three or more dwelling units; without electric cooking not over Part III for the load as it is."""
    number = total = apart = 0.0
    lacking = False
    for unit in home["units"]:
        each, charging = connected_220_84(unit, home, readings)
        number += unit["quantity"]
        total += unit["quantity"] * each
        apart += unit["quantity"] * charging
        lacking = lacking or not any(load["kind"] in COOKING for load, _, _ in connected(unit["loads"], home))
    percent = next(share for last, share in MULTIFAMILY if number <= last)
    found = total * percent / 100 + apart + house_loads(home)
    return min(found, standard_of(home)) if lacking else found


def two_220_85(home: dict[str, Any], readings: Readings = DEFAULT) -> float:
    """The less of Part III for two dwelling units and 220.84 for three like the larger one [VA]."""
    units = [connected_220_84(unit, home, readings) for unit in home["units"]]
    apart = sum(unit["quantity"] * charging for unit, (_, charging) in zip(home["units"], units, strict=True))
    by_three = 0.45 * 3 * max(total for total, _ in units) + apart + house_loads(home)
    return min(standard_of(home), by_three)


def manufactured_550_18(home: dict[str, Any]) -> dict[str, float]:
    """The load of each line [A] of a manufactured home at 120/240 V."""
    loads = [one for one in connected(home["loads"], home) if not one[0]["on_laundry_circuit"]]
    small = lighting_of(home, home["part_of_dwelling"])
    both = (min(small, 3000) + 0.35 * max(small - 3000, 0)) / 240
    ranges = sum(mobile_range(amount) * quantity for load, amount, quantity in loads if load["kind"] == "range") / 240
    number = sum(quantity for load, _, quantity in loads if load["kind"] in MOBILE_APPLIANCES)
    share = 0.75 if number > 3 else 1.0
    found = {}
    for leg in ("A", "B"):
        on = [(load, amperes(load, amount, leg), quantity) for load, amount, quantity in loads]
        rest = 0.0
        for load, each, quantity in on:
            kind = load["kind"]
            loose = not load["fastened_in_place"] and not load["individual_circuit"]
            if kind in MOBILE_APPLIANCES:
                rest += share * each * quantity
            elif kind not in AIR and kind != "range" and not loose:
                rest += each * quantity  # exhaust fans, and what is anticipated for outlets of other appliances
        found[leg] = both + ranges + rest + air_550_18(on, home)
    return found


def amperes(load: Load, amount: float, leg: str) -> float:
    """What a load puts on a line [A]: one to neutral whose line is not said is spread over both."""
    if not load["legs_said"]:
        return amount / 240
    if leg not in load["on_lines"]:
        return 0.0
    return amount / (120 if load["connection"] == "line_to_neutral" else 240)


def air_550_18(on: Counted, home: dict[str, Any]) -> float:
    """The larger of cooling and heating on a line, each with a quarter of its largest motor [A]."""
    sums, motors = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]  # cooling; heating with supplemental heat; without
    cooled = False
    for load, each, quantity in on:
        kind, season = load["kind"], load.get("season")
        fan, loose = kind == "range_hood", not load["fastened_in_place"] and not load["individual_circuit"]
        if kind not in AIR and (not fan or loose):
            continue
        cools = kind in ("air_conditioner", "heat_pump") or (kind == "blower" and season in ("cooling", "both"))
        cooled = cooled or cools
        heater = kind in ("space_heater", "electric_furnace", "thermal_storage_heater") or (
            kind == "blower" and season in ("heating", "both")
        )
        locked = kind == "heat_pump" and load["stops_for_supplemental_heat"]
        runs = (
            cools,
            heater or kind == "supplemental_heat" or (kind == "heat_pump" and not locked),
            heater or kind == "heat_pump",
        )
        motor = mobile_motor(load, each) if load["motor"] and load["basis"] != "minimum_circuit_ampacity" else 0.0
        with_heat = kind != "air_conditioner" and (kind != "blower" or season in ("heating", "both"))
        with_cooling = kind != "blower" or season in ("cooling", "both")
        for at, counts in enumerate((with_cooling, with_heat and not locked, with_heat)):
            sums[at] += each * quantity if runs[at] and not fan else 0.0
            motors[at] = max(motors[at], motor if counts else 0.0)
    allowed = 15.0 if not cooled and home.get("cord") == 40 else 0.0
    return max(total + 0.25 * motor + (allowed if at == 0 else 0.0) for at, (total, motor) in enumerate(zip(sums, motors)))


def mobile_motor(load: Load, each: float) -> float:
    """The motor of a load on a line [A]: of a compressor with fans the compressor."""
    if not each:
        return 0.0
    return float(load["rated_load_amperes"]) if load["basis"] == "rated_load_and_fan" else mobile_amperes(load, each)


def mobile_amperes(load: Load, each: float) -> float:
    """What the motor draws: one to neutral whose line is not said draws twice what is spread over both lines."""
    return each * 2 if load["connection"] == "line_to_neutral" and not load["legs_said"] else each


def mobile_range(amount: float) -> float:
    """A free-standing range by the table of 550.18(B)(5) [VA]."""
    if amount <= 10000:
        return 0.8 * amount
    return float(next(demand for last, demand in MOBILE_RANGES if amount <= last))
