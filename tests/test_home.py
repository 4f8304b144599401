"""A home file becomes facts, or one error with everything that is wrong in it."""

from __future__ import annotations

import ast
import time
from pathlib import Path

import pytest

from dwellcalc.facts import Unknown
from dwellcalc.glossary import Glossary
from dwellcalc.glossary_reader import GlossaryReader
from dwellcalc.home import Home, home_from_node, home_from_text, read_home
from dwellcalc.home import messages as home_messages
from dwellcalc.home.models import models_for
from dwellcalc.home.names import Names
from dwellcalc.problems import InputError, Message, Problem, Problems
from dwellcalc.reading import read_file, read_text
from dwellcalc.units import Units, number

TOP = Path(__file__).parents[1]
PACKAGE = TOP / "dwellcalc" / "home"


@pytest.fixture(scope="session")
def glossary() -> Glossary:
    found = Problems()
    units = Units(TOP / "rules" / "units.txt")
    made = GlossaryReader(units, found).read(read_file(TOP / "rules" / "glossary.yaml"))
    found.raise_if_any()
    return made


def test_a_field_is_known_by_a_choice_that_there_is() -> None:
    text = (TOP / "rules" / "glossary.yaml").read_text(encoding="utf-8")
    other = text.replace("yes_where: {attachment: hardwired}", "yes_where: {laundry: hardwired}")
    assert other != text
    found = Problems()
    GlossaryReader(Units(TOP / "rules" / "units.txt"), found).read(read_text(other, "glossary.yaml"))
    assert [(each.message.key, each.words["key"]) for each in found.found] == [("glossary_key", "laundry")]


def file_text(
    *loads: str,
    planned: tuple[str, ...] = (),
    top: str = "",
    service: str = "",
    unit: str = "",
    system: str = "120/240 V single-phase 3-wire",
    areas: str = "[{name: ground floor, kind: living, area: 1200 ft2}]",
    name: str = "house",
) -> str:
    """A small home file; loads and planned loads are the insides of braces."""
    lines = ["home: 7 Larch Court, two-storey house", *top.splitlines()]
    lines += ["service:", f"  system: {system}", *(f"  {line}" for line in service.splitlines())]
    lines += ["dwelling_units:", f"  - name: {name}", f"    areas: {areas}"]
    lines += [f"    {line}" for line in unit.splitlines()]
    lines += ["    loads:"] * bool(loads) + [f"      - {{{load}}}" for load in loads]
    lines += ["planned:"] * bool(planned) + [f"  - {{{load}}}" for load in planned]
    return "\n".join(lines) + "\n"


def read(glossary: Glossary, *loads: str, **more: object) -> Home:
    return home_from_text(file_text(*loads, **more), "larch.yaml", glossary)  # type: ignore[arg-type]


def found_in(glossary: Glossary, text: str) -> list[Problem]:
    with pytest.raises(InputError) as caught:
        home_from_text(text, "larch.yaml", glossary)
    return caught.value.problems


def load(home: Home, name: str) -> dict[str, object]:
    """The known values of a load."""
    items = home.facts.collections["loads"]
    position = items.names.index(name)
    values = {field: column[position] for field, column in items.fields.items()}
    return {field: value for field, value in values.items() if not isinstance(value, Unknown)}


def missing(home: Home, name: str, field: str) -> set[str]:
    """The names of the inputs that an unknown value asks for."""
    items = home.facts.collections["loads"]
    value = items.fields[field][items.names.index(name)]
    assert isinstance(value, Unknown)
    return set(value.inputs)


# --- what never runs together


def test_loads_of_a_set_are_connected_to_one_another(glossary: Glossary) -> None:
    top = "never together: [{loads: [hob, range, spa], by: a changeover switch}]\n"
    top += "feeders: [{name: north, feeds: {loads: [range, hob]}}, {name: south, feeds: {loads: [spa]}}]"
    home = read(glossary, RANGE, HOB, "name: lamp, kind: other appliance", "name: spa, kind: hot tub", top=top)
    loads = home.facts.collections["loads"]
    assert loads.fields["never_together"] == [True, True, False, True]
    assert loads.fields["turn"] == [2.0, 3.0, 0.0, 1.0]  # the one that is named first has the highest
    assert [sorted(other for other, _ in each) for each in home.facts.connected["loads"]] == [[1, 3], [0, 3], [], [0, 1]]
    connected = {each.id: [[other for other, _ in one] for one in each.facts.connected["loads"]] for each in home.supplies}
    assert connected["north"] == [[1], [0]] and connected["south"] == [[]]  # a supply knows of those that it carries


# --- what a rating says

RATINGS = {
    "4500 VA": ("volt_amperes", {"volt_amperes": 4500.0}),
    "9.6 kVA": ("volt_amperes", {"volt_amperes": 9600.0}),
    "11.5 kW": ("watts", {"watts": 11500.0}),
    "1,500 W": ("watts", {"watts": 1500.0}),
    "4.5kW": ("watts", {"watts": 4500.0}),
    "19.2 A at 240 V": ("amperes", {"marked_amperes": 19.2, "volts": 240.0}),
    "19.2 A, 240 V": ("amperes", {"marked_amperes": 19.2, "volts": 240.0}),
    "MCA 24 A, 240 V": ("minimum_circuit_ampacity", {"marked_amperes": 24.0, "volts": 240.0}),
    "1 1/2 hp, 230 V": ("horsepower", {"horsepower": 1.5, "volts": 230.0}),
    "19.2A AT 240V": ("amperes", {"marked_amperes": 19.2, "volts": 240.0}),
    "MCA 28 A at 240 V": ("minimum_circuit_ampacity", {"marked_amperes": 28.0, "volts": 240.0}),
    "mca 28 A at 240 V": ("minimum_circuit_ampacity", {"marked_amperes": 28.0, "volts": 240.0}),
    "28 A MCA at 240 V": ("minimum_circuit_ampacity", {"marked_amperes": 28.0, "volts": 240.0}),
    "RLA 16.7 A + fan 1.2 A at 240 V": (
        "rated_load_and_fan",
        {"rated_load_amperes": 16.7, "fan_amperes": 1.2, "volts": 240.0},
    ),
    "16.7 A RLA+1.2 A fan at 240 V": (
        "rated_load_and_fan",
        {"rated_load_amperes": 16.7, "fan_amperes": 1.2, "volts": 240.0},
    ),
    "RLA 16.7 A + fan 0 A at 240 V": (
        "rated_load_and_fan",
        {"rated_load_amperes": 16.7, "fan_amperes": 0.0, "volts": 240.0},
    ),
    "1 1/2 hp at 240 V": ("horsepower", {"horsepower": 1.5, "volts": 240.0}),
    "7-1/2 hp at 240 V": ("horsepower", {"horsepower": 7.5, "volts": 240.0}),
    "1/3 hp at 120 V": ("horsepower", {"horsepower": 1 / 3, "volts": 120.0}),
    "setting 32 A": ("setting", {"setting": 32.0}),
    "control setting 24 A": ("control_setting", {"control_setting": 24.0}),
    "control setting 0 A": ("control_setting", {"control_setting": 0.0}),
}
RATED = {
    "basis",
    "volt_amperes",
    "watts",
    "marked_amperes",
    "volts",
    "rated_load_amperes",
    "fan_amperes",
    "horsepower",
    "setting",
    "control_setting",
}


@pytest.mark.parametrize(("written", "basis", "values"), [(text, *told) for text, told in RATINGS.items()])
def test_every_form_of_a_rating(glossary: Glossary, written: str, basis: str, values: dict[str, float]) -> None:
    home = read(glossary, f'name: it, kind: other motor, rating: "{written}"')
    rated = {field: value for field, value in load(home, "it").items() if field in RATED}
    assert rated == {"basis": basis, **values}


def test_the_glossary_holds_no_form_that_is_not_tried_here(glossary: Glossary) -> None:
    assert {basis for basis, _ in RATINGS.values()} == set(glossary.rating_forms)


@pytest.mark.parametrize("rating", ["", ", rating: unknown", ", rating: not seen"])
def test_a_rating_that_is_not_known_asks_for_the_rating(glossary: Glossary, rating: str) -> None:
    home = read(glossary, f"name: oven, kind: wall oven{rating}")
    assert not RATED & set(load(home, "oven"))
    assert missing(home, "oven", "basis") == missing(home, "oven", "volts") == {"oven: rating"}


@pytest.mark.parametrize(
    ("written", "system", "volts"),
    [
        ("MCA 18 A at 208/230 V", "120/240 V single-phase 3-wire", 230.0),
        ("MCA 18 A at 208-240V", "208Y/120 V single-phase 3-wire", 208.0),
        ("18 A 220/240 V", "208Y/120 V three-phase 4-wire", 220.0),
    ],
)
def test_of_a_label_for_two_voltages_that_of_the_supply_is_taken(
    glossary: Glossary, written: str, system: str, volts: float
) -> None:
    """The label stands in print as it is."""
    home = read(glossary, f"name: cooler, kind: air conditioner, rating: {written}", system=system)
    assert home.facts.collections["loads"].fields["volts"] == [volts]
    assert home.facts.collections["loads"].fields["marked_amperes"] == [18.0]
    assert home.facts.origins["loads", 0, "volts"].written == written


def test_the_rating_is_the_origin_of_what_it_fills_with_its_evidence(glossary: Glossary) -> None:
    home = read(glossary, "name: pump, kind: well pump, rating: 8 A at 240 V, evidence: not seen")
    for field in ("basis", "marked_amperes", "volts"):
        origin = home.facts.origins["loads", 0, field]
        assert (origin.written, origin.evidence, origin.assumed) == ("8 A at 240 V", "not_seen", False)
        assert str(origin.place) == "larch.yaml:8:47"


# --- settings


def test_settings_count_at_the_largest_and_all_are_kept(glossary: Glossary) -> None:
    home = read(glossary, planned=("name: charger, kind: EV charger, settings: [16 A, 48 A, 24 A]",))
    charger = load(home, "charger")
    assert (charger["basis"], charger["setting"]) == ("setting", 48.0)
    assert home.settings == {0: [16.0, 48.0, 24.0]}
    assert home.facts.origins["loads", 0, "setting"].written == "16 A, 48 A, 24 A"


@pytest.mark.parametrize(
    ("text", "settings"),
    [
        ("6 A to 9 A", [6, 7, 8, 9]),
        ("6 to 8 A", [6, 7, 8]),
        ("6.5 A to 8 A", [6.5, 7.5, 8]),
        ("0.5 A to 1 A", [0.5, 1]),
    ],
)
def test_a_free_range_is_every_whole_ampere_from_its_low_end_and_its_high_end(
    glossary: Glossary, text: str, settings: list[float]
) -> None:
    home = read(glossary, planned=(f"name: charger, kind: EV charger, settings: {text}",))
    assert (home.settings, home.free) == ({0: settings}, [0])
    assert home.facts.collections["loads"].fields["setting"] == [settings[-1]]
    assert home.facts.origins["loads", 0, "setting"].written == text


def test_priorities_of_planned_loads(glossary: Glossary) -> None:
    planned = ("name: a, kind: EVSE, settings: [16 A], priority: 2", "name: b, kind: EVSE, settings: [16 A]")
    home = read(glossary, planned=planned)
    assert (home.priorities, home.free) == ({0: 2.0}, [])


def test_settings_hold_before_a_rating(glossary: Glossary) -> None:
    home = read(glossary, "name: charger, kind: EVSE, rating: 48 A at 240 V, settings: [16 A, 32 A]")
    charger = load(home, "charger")
    assert (charger["basis"], charger["setting"], charger["marked_amperes"]) == ("setting", 32.0, 48.0)


def test_settings_up_to_the_rating_itself(glossary: Glossary) -> None:
    home = read(glossary, "name: charger, kind: EVSE, rating: 48 A at 240 V, settings: [48 A]")
    assert load(home, "charger")["setting"] == 48.0


def test_settings_beside_a_rating_in_another_unit(glossary: Glossary) -> None:
    home = read(glossary, "name: charger, kind: EVSE, rating: 7.6 kW, settings: [48 A]")
    assert load(home, "charger")["basis"] == "setting"


# --- kinds and flags


@pytest.mark.parametrize(
    ("written", "kind"),
    [
        ("heat_pump", "heat_pump"),
        ("Heat Pump", "heat_pump"),
        ("mini split", "heat_pump"),
        ("strip heat", "supplemental_heat"),
        ("EV charging equipment", "ev_charging_equipment"),
        ("ev-charging equipment", "ev_charging_equipment"),
        ("built-in  Microwave", "built_in_microwave_oven"),
    ],
)
def test_a_kind_is_found_by_any_of_its_names(glossary: Glossary, written: str, kind: str) -> None:
    assert load(read(glossary, f"name: it, kind: {written}, rating: 1 kW"), "it")["kind"] == kind


def test_what_is_so_by_kind(glossary: Glossary) -> None:
    home = read(glossary, "name: it, kind: heat pump, rating: 4 kW, motor: yes")
    assert (load(home, "it")["motor"], load(home, "it")["connection"]) == (True, "line_to_line")
    origin = home.facts.origins["loads", 0, "motor"]
    assert (origin.written, origin.assumed) == ("heat pump", False)


@pytest.mark.parametrize(
    ("text", "connection", "assumed"),
    [
        ("kind: air conditioner, rating: 9.4 A at 115 V", "line_to_neutral", False),  # assumed line to line by kind
        ("kind: air conditioner, rating: 9.4 A at 230 V", "line_to_line", False),
        ("kind: air conditioner, rating: 2.2 kW", "line_to_line", True),
        ("kind: blower, rating: 3.2 A at 240 V", "line_to_line", False),  # assumed line to neutral by kind
        ("kind: blower, rating: 6.2 A at 120 V", "line_to_neutral", False),
        ("kind: blower, rating: 3.2 A at 240 V, connection: line to neutral", "line_to_neutral", False),
        ("kind: blower, rating: 3.2 A at 240 V, connection: not seen", "line_to_line", False),
        ("kind: hot tub, rating: 40 A at 240 V", "line_to_line_and_neutral", True),  # the voltage tells nothing of the neutral
        ("kind: hot tub, rating: 12 A at 120 V", "line_to_neutral", False),
        ("kind: dishwasher, rating: 6 A at 240 V", "line_to_neutral", False),  # so by kind, whatever the nameplate says
    ],
)
def test_the_voltage_of_a_nameplate_goes_before_what_its_kind_assumes(
    glossary: Glossary, text: str, connection: str, assumed: bool
) -> None:
    home = read(glossary, f"name: it, {text}")
    assert load(home, "it")["connection"] == connection
    assert home.facts.origins["loads", 0, "connection"].assumed == assumed


def test_lines_that_are_said_go_before_the_voltage_of_a_nameplate(glossary: Glossary) -> None:
    home = read(glossary, "name: it, kind: air conditioner, rating: 9.4 A at 115 V, legs: A B")
    assert load(home, "it")["connection"] == "line_to_line"


def test_what_is_assumed_unless_said(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: silent, kind: well pump, rating: 8 A at 240 V",
        "name: said, kind: well pump, rating: 8 A at 240 V, individual circuit: no, evidence: photograph",
        "name: same, kind: well pump, rating: 8 A at 240 V, individual circuit: yes",
        "name: not looked, kind: well pump, rating: 8 A at 240 V, individual circuit: not seen",
        "name: open, kind: well pump, rating: 8 A at 240 V, individual circuit: unknown",
    )
    origins = home.facts.origins
    told = [load(home, name).get("individual_circuit") for name in home.facts.collections["loads"].names]
    assert told == [True, False, True, True, None]
    assert [origins["loads", n, "individual_circuit"].assumed for n in range(4)] == [True, False, False, True]
    said = origins["loads", 1, "individual_circuit"]
    assert (said.written, said.evidence) == ("no", "photograph")
    assert ("silent", "individual_circuit", True) in home.facts.assumed()
    assert missing(home, "open", "individual_circuit") == {"open: individual circuit"}


def test_what_is_asked_is_unknown_until_said(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: silent, kind: freezer, rating: 600 W",
        "name: said, kind: freezer, rating: 600 W, individual circuit: yes",
    )
    assert missing(home, "silent", "individual_circuit") == {"silent: individual circuit"}
    assert load(home, "said")["individual_circuit"] is True


def test_words_of_flags_may_be_spaced(glossary: Glossary) -> None:
    home = read(glossary, "name: it, kind: other motor, rating: 1 kW, connection: Line to line")
    assert load(home, "it")["connection"] == "line_to_line"


def test_status_follows_from_the_list_even_in_new_work(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: range, kind: range, rating: 12 kW",
        planned=("name: spa, kind: hot tub, rating: 50 A at 240 V",),
        top="work: new",
    )
    assert [load(home, name)["status"] for name in ("range", "spa")] == ["existing", "planned"]
    assert home.planned == [1]


# --- replaces, quantity, legs, absent


def test_a_planned_load_replaces_one_or_several(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: Furnace, kind: electric furnace, rating: 15 kW",
        "name: cooler, kind: air conditioner, rating: MCA 22 A at 240 V",
        "name: range, kind: range, rating: 12 kW",
        planned=(
            "name: heat pump, kind: heat pump, rating: 20 A at 240 V, replaces: [furnace, cooler]",
            "name: hob, kind: range, rating: 9 kW, replaces: range, in: House",
        ),
    )
    assert home.facts.collections["loads"].fields["replaced"] == [True, True, True, False, False]
    assert home.replaced == [("heat pump", "Furnace"), ("heat pump", "cooler"), ("hob", "range")]
    assert home.facts.origins["loads", 0, "replaced"].written == "furnace"


def test_quantity(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: heaters, kind: baseboard, rating: 1 kW, quantity: 4",
        "name: range, kind: range, rating: 12 kW",
    )
    assert home.facts.collections["loads"].quantity == [4.0, 1.0]


def test_legs_connect_a_load_to_conductors_and_pairs(glossary: Glossary) -> None:
    home = read(
        glossary,
        "name: one, kind: dishwasher, rating: 1 kW, legs: b",
        "name: two, kind: range, rating: 12 kW, legs: A C",
        "name: three, kind: other motor, rating: 3 kW, legs: A B C, quantity: 2",
        "name: silent, kind: range, rating: 12 kW",
        system="208Y/120 V three-phase 4-wire",
    )
    assert home.facts.collections["line_conductors"].names == ["Line A", "Line B", "Line C"]
    assert home.facts.collections["line_pairs"].names == ["Lines A-B", "Lines B-C", "Lines C-A"]
    assert home.facts.connected["line_conductors"] == [
        [(1, 1.0), (2, 2.0)],
        [(0, 1.0), (2, 2.0)],
        [(1, 1.0), (2, 2.0)],
    ]
    assert home.facts.connected["line_pairs"] == [[(2, 2.0)], [(2, 2.0)], [(1, 1.0), (2, 2.0)]]


def test_stated_absence(glossary: Glossary) -> None:
    home = read(glossary, "name: range, kind: range, rating: 12 kW", top="none_of: [spa, Hot Tub, pool pump]")
    assert home.absent == {"hot_tub": "", "pool_pump": ""}
    assumed = "[{kind: attached garage, evidence: assumed}, {kind: Sources, evidence: told}, spa]"
    home = read(glossary, "name: range, kind: range, rating: 12 kW", top=f"none of: {assumed}")
    assert home.absent == {"attached_garage": "assumed", "sources": "told", "hot_tub": ""}


def test_what_is_not_electric_is_kept_in_its_words(glossary: Glossary) -> None:
    home = read(glossary, "name: range, kind: range, rating: 12 kW", top="not_electric: [Gas water heater, oil boiler]")
    assert home.not_electric == ["Gas water heater", "oil boiler"]
    assert home.facts.digest() == read(glossary, "name: range, kind: range, rating: 12 kW").facts.digest()


# --- the supply, the dwelling unit, the home


@pytest.mark.parametrize(
    "written",
    [
        "120/240 V single-phase 3-wire",
        "120/240V Single Phase 3 wire",
        "120/240 V, single-phase, 3-wire",
        "120/240 v singlephase 3wire",
    ],
)
def test_the_supply_system_fills_what_follows_from_it(glossary: Glossary, written: str) -> None:
    facts = read(glossary, system=written).facts
    supply = facts.objects["supply"]
    follows = ("system", "voltage", "line_to_neutral_voltage", "phase_factor")
    assert [supply[name] for name in follows] == ["single_phase_3_wire", 240.0, 120.0, 1.0]
    assert {facts.origins["supply", -1, name].written for name in follows} == {written}
    assert facts.collections["line_conductors"].names == ["Line A", "Line B"]
    assert facts.collections["line_pairs"].names == ["Lines A-B"]


def test_the_service_as_written(glossary: Glossary) -> None:
    written = "rating: 200 A\nbus: 225 A\nterminals: 60 C\nstate: to be installed\n"
    written += "conductors: {size: 4/0 AWG, material: Aluminum, insulation: XHHW-2}"
    facts = read(glossary, service=written).facts
    supply = facts.objects["supply"]
    assert (supply["rating"], supply["bus"]) == (200.0, 225.0)
    assert (supply["terminals"], supply["state"]) == ("t60", "to_be_installed")
    sizes = glossary.scales["conductor_size"]
    assert (sizes[supply["conductor_size"]], supply["conductor_material"]) == ("4/0", "aluminum")
    assert supply["conductor_insulation"] == "xhhw_2"
    assert facts.origins["supply", -1, "conductor_insulation"].written == "XHHW-2"
    assert facts.origins["supply", -1, "conductor_size"].written == "4/0 AWG"


@pytest.mark.parametrize(
    ("written", "degrees"), [("38 C", 38.0), ("38 °C", 38.0), ("86 F", 30.0), ("100 °F", 340 / 9), ("95 degF", 35.0)]
)
def test_the_ambient_temperature_of_conductors(glossary: Glossary, written: str, degrees: float) -> None:
    supply = read(glossary, service=f"conductors: {{size: 2/0, ambient temperature: {written}}}").facts.objects["supply"]
    assert supply["conductor_ambient_temperature"] == pytest.approx(degrees)


def test_what_else_is_said_of_conductors(glossary: Glossary) -> None:
    said = "sets: 2, insulation: thwn-2, number of current-carrying conductors: 6, length: 30 m"
    supply = read(glossary, service=f"conductors: {{size: 3/0, {said}}}").facts.objects["supply"]
    assert (supply["conductor_sets"], supply["conductor_insulation"], supply["conductor_number_together"]) == (2.0, "thwn_2", 6.0)
    assert supply["conductor_length"] == pytest.approx(30 / 0.3048)
    silent = read(glossary, service="conductors: {size: 3/0}").facts.objects["supply"]
    for name in ("sets", "insulation", "ambient_temperature", "number_together", "length"):
        assert isinstance(silent[f"conductor_{name}"], Unknown)


def test_disconnects_in_place_of_a_main(glossary: Glossary) -> None:
    facts = read(glossary, service="main overcurrent device: no\ndisconnects: [100 A, 60 A]\nmeter: 200 A").facts
    supply = facts.objects["supply"]
    assert (supply["main_overcurrent_device"], supply["disconnects"], supply["number_of_disconnects"]) == (False, 160.0, 2.0)
    assert (supply["meter"], facts.origins["supply", -1, "disconnects"].written) == (200.0, "100 A, 60 A")
    assert isinstance(supply["rating"], Unknown)


@pytest.mark.parametrize("written", ["2/0", "2/0 AWG", "2/0AWG", "250 kcmil", "250 MCM", '"6"'])
def test_sizes_of_conductors(glossary: Glossary, written: str) -> None:
    size = read(glossary, service=f"conductors: {{size: {written}}}").facts.objects["supply"]["conductor_size"]
    assert glossary.scales["conductor_size"][size] in ("2/0", "250", "6")


@pytest.mark.parametrize(("written", "word"), [("75 C", "t75"), ("60C", "t60"), ("75 °C", "t75"), ("t60", "t60")])
def test_marking_of_terminals(glossary: Glossary, written: str, word: str) -> None:
    assert read(glossary, service=f"terminals: {written}").facts.objects["supply"]["terminals"] == word


def test_what_the_service_does_not_say(glossary: Glossary) -> None:
    facts = read(glossary, service="rating: not seen\nconductors: not seen").facts
    supply, origins = facts.objects["supply"], facts.origins
    for name in ("rating", "bus", "conductor_size", "conductor_material"):
        assert isinstance(supply[name], Unknown)
    assert (supply["state"], origins["supply", -1, "state"].assumed) == ("existing", True)
    assert (supply["terminals"], origins["supply", -1, "terminals"].assumed) == ("t75", True)
    for name in ("service", "whole_dwelling"):
        assert (supply[name], origins["supply", -1, name].assumed) == (True, False)


def test_a_service_in_new_work_is_taken_as_to_be_installed(glossary: Glossary) -> None:
    facts = read(glossary, top="work: new").facts
    assert facts.objects["supply"]["state"] == "to_be_installed"
    assert not facts.origins["supply", -1, "state"].assumed  # it follows from what is said of the work
    said = read(glossary, top="work: new", service="state: existing").facts
    assert said.objects["supply"]["state"] == "existing"
    assert not said.origins["supply", -1, "state"].assumed


def test_terminals_that_were_not_seen_are_assumed_and_unknown_ones_stay_unknown(glossary: Glossary) -> None:
    assert read(glossary, service="terminals: not seen").facts.objects["supply"]["terminals"] == "t75"
    assert isinstance(read(glossary, service="terminals: unknown").facts.objects["supply"]["terminals"], Unknown)


def test_areas_and_circuits(glossary: Glossary) -> None:
    areas = "[{name: upstairs, kind: living, area: 100 m2}, {kind: Attached garage, area: 440 ft2}]"
    unit = "small appliance circuits: 3\nlaundry_circuits: 1 circuit"
    facts = read(glossary, areas=areas, unit=unit).facts
    found = facts.collections["areas"]
    assert found.names == ["upstairs", "area 2"]
    assert found.fields["area"] == [pytest.approx(1076.391), 440.0]
    assert found.fields["area_kind"] == ["living", "attached_garage"]
    assert found.owner == [0] * 2
    units = facts.collections["dwelling_units"]
    assert (units.names, units.fields["small_appliance_circuits"]) == (["house"], [3.0])
    assert units.fields["laundry_circuits"] == [1.0]
    assert facts.origins["areas", 0, "area"].written == "100 m2"


def test_what_a_dwelling_unit_does_not_say_is_unknown(glossary: Glossary) -> None:
    facts = read(glossary, areas="[{name: loft, kind: living, area: unknown}]").facts
    circuits = facts.collections["dwelling_units"].fields["laundry_circuits"][0]
    area = facts.collections["areas"].fields["area"][0]
    assert (circuits.inputs, area.inputs) == ({"house: laundry circuits"}, {"loft: area"})


def test_no_laundry_circuit_is_a_number_too(glossary: Glossary) -> None:
    facts = read(glossary, unit="laundry_circuits: 0").facts
    assert facts.collections["dwelling_units"].fields["laundry_circuits"] == [0.0]


def test_amendments_and_the_dates_that_decide(glossary: Glossary) -> None:
    dates = "dates: {application: 2026-03-01, electrical application: 2026-04-02}"
    home = read(glossary, top=f"amendments: [us/co/denver, ./our_county.yaml]\n{dates}")
    assert list(home.amendments) == ["us/co/denver", "./our_county.yaml"]
    assert home.dates == {"application": "2026-03-01", "electrical_application": "2026-04-02"}
    none = read(glossary)
    assert (list(none.amendments), none.dates) == ([], {})


@pytest.mark.parametrize(
    ("top", "text"),
    [
        ("dates: {aplication: 2026-03-01}", "dates > aplication: there is no such key here"),
        ("dates: {application: March}", 'dates > application: "March" is not a date'),
        ("dates: 2026-03-01", "dates: this must be keys with values, not a single text"),
        ("amendments: denver", "amendments: this must be a list, not a single text"),
        ("amendments: [[denver]]", "amendments > entry 1: this must be a single text, not a list"),
    ],
)
def test_amendments_and_dates_that_cannot_be_read(glossary: Glossary, top: str, text: str) -> None:
    with pytest.raises(InputError) as caught:
        read(glossary, top=top)
    assert [problem.text for problem in caught.value.problems] == [text]
    assert caught.value.problems[0].place is not None


def test_what_is_said_of_the_home(glossary: Glossary) -> None:
    top = "work: addition\noccupied: yes\ncode: nec/2023\ndate: 2024-02-29\nconfirmed_by: J. Doe, designer\n"
    top += "interpretations: {listed_loads.charging_in_optional: apart}"
    home = read(glossary, top=top)
    assert home.title == "7 Larch Court, two-storey house"
    assert (home.date, home.confirmed_by, home.code) == ("2024-02-29", "J. Doe, designer", "nec/2023")
    assert home.code is not None
    assert str(home.code.place) == "larch.yaml:4:7"
    ((question, option),) = home.interpretations.items()
    assert (question, option) == ("listed_loads.charging_in_optional", "apart")
    assert (str(question.place), str(option.place)) == ("larch.yaml:7:19", "larch.yaml:7:54")
    stated = {name: value for name, value in home.facts.objects["home"].items() if not isinstance(value, Unknown)}
    assert stated == {"work": "addition", "occupied": True, "manufactured_home": False}


@pytest.mark.parametrize(
    ("top", "reason"),
    [('method: "220.83"', ""), ('method: {section: "220.83", reason: the winter was mild}', "the winter was mild")],
)
def test_the_method_that_a_home_asks_for_is_among_its_facts(glossary: Glossary, top: str, reason: str) -> None:
    home = read(glossary, top=f"{top}\nremarks: [The main stays., Agreed on 3 May.]")
    assert home.method is not None
    assert (home.method.name, home.method.reason) == ("220.83", reason)
    assert home.remarks == ["The main stays.", "Agreed on 3 May."]
    plain = read(glossary)
    assert (plain.method, plain.remarks) == (None, [])
    assert home.facts.digest() not in (plain.facts.digest(), read(glossary, top='method: "220.82"').facts.digest())


@pytest.mark.parametrize(
    ("top", "texts"),
    [
        ("method: [1]", ["method: this must be keys with values, not a list"]),
        ('method: ""', ["method: this text is empty"]),
        ("method: {reason: mild}", ["method > section: this is missing"]),
        ('method: {section: "220.83", why: mild}', ["method > why: there is no such key here"]),
        ("remarks: it stays", ["remarks: this must be a list, not a single text"]),
        ("remarks: []", ["remarks: this list is empty"]),
        ("remarks: [{a: b}]", ["remarks > entry 1: this must be a single text, not keys with values"]),
    ],
)
def test_a_method_and_remarks_that_cannot_be_read(glossary: Glossary, top: str, texts: list[str]) -> None:
    assert [problem.text for problem in found_in(glossary, file_text(top=top))] == texts


def test_what_need_not_be_said_of_the_home(glossary: Glossary) -> None:
    home = read(glossary)
    assert (home.code, home.interpretations, home.confirmed_by, home.date) == (None, {}, "", "")
    assert (home.absent, home.planned, home.replaced, home.settings) == ({}, [], [], {})
    assert isinstance(home.facts.objects["home"]["work"], Unknown)


def test_a_unit_without_a_name(glossary: Glossary) -> None:
    text = "home: flat\nservice: {system: 120/240 V single-phase 3-wire}\n"
    text += "dwelling_units:\n  - areas: [{kind: living, area: 600 ft2}]\n"
    text += "planned:\n  - {name: hob, kind: range, rating: 7 kW, in: dwelling}\n"
    home = home_from_text(text, "flat.yaml", glossary)
    assert home.facts.collections["dwelling_units"].names == ["dwelling"]


def test_a_file_a_text_and_nodes_give_the_same(glossary: Glossary, tmp_path: Path) -> None:
    text = file_text("name: range, kind: range, rating: 12 kW")
    path = tmp_path / "larch.yaml"
    path.write_text(text, encoding="utf-8")
    outer = read_text("home:\n" + "".join(f"  {line}\n" for line in text.splitlines()), "example.yaml")
    (node,) = outer.values()
    digests = {
        read_home(path, glossary).facts.digest(),
        home_from_text(text, "larch.yaml", glossary).facts.digest(),
        home_from_node(node, glossary).facts.digest(),
    }
    assert len(digests) == 1


# --- what is wrong
# message -> (the file, what is said of it, the hint, what is marked)

FORMS = (
    'a rating is written as "... VA"; "... W"; "... A at ... V"; "MCA ... A at ... V"; '
    '"RLA ... A + fan ... A at ... V"; "... hp at ... V"; "setting ... A"; '
    '"control setting ... A"'
)
LOADS = "dwelling_units > house > loads"
RANGE = "name: range, kind: range, rating: 12 kW"
HOB = "name: hob, kind: cooktop, rating: 7 kW"
COTTAGE = "  - {name: cottage, areas: [{kind: living, area: 500 ft2}]}\n"
TWICE = "[{name: hall, kind: living, area: 90 ft2}, {name: hall, kind: living, area: 80 ft2}]"
FEEDER = "name: north, feeds: house"
PANEL = "panels: [{name: main, circuits: [{breaker: 20 A"

WRONG: dict[str, tuple[str, str, str, str]] = {
    "home_no_name": (
        file_text("name: range, kind: range, rating: 12 kW", top="confirmed by: 12"),
        'confirmed_by: "12" is the name of nobody',
        "write the name and office of who confirmed it, or leave it out where nobody has",
        "12",
    ),
    "home_key": (
        file_text("name: range, kind: range, ratng: 12 kW"),
        f"{LOADS} > range > ratng: there is no such key here",
        'did you mean "rating"?',
        "ratng",
    ),
    "home_same_key": (
        file_text("name: it, kind: freezer, individual circuit: yes, individual_circuit: no"),
        f"{LOADS} > it > individual_circuit: this key stands here already",
        "",
        "individual_circuit",
    ),
    "home_lacks": (
        file_text("name: range, rating: 12 kW"),
        f"{LOADS} > range > kind: this is missing",
        "kind of load; of an area, its use",
        "{",
    ),
    "home_want_mapping": (
        file_text(service="conductors: copper"),
        "service > conductors: this must be keys with values, not a single text",
        "its keys stand below it, two blanks further in, or in braces: size, material, sets, insulation, ambient temperature, "
        "number of current carrying conductors, length, evidence",
        "copper",
    ),
    "home_want_list": (
        file_text(top="none_of: {hot tub: yes}"),
        "none_of: this must be a list, not keys with values",
        "begin each entry with a dash and a blank",
        "{",
    ),
    "home_want_text": (
        file_text(top="confirmed_by: [J. Doe]"),
        "confirmed_by: this must be a single text, not a list",
        "",
        "[",
    ),
    "home_empty_text": (file_text(top='confirmed_by: ""'), "confirmed_by: this text is empty", "", '"'),
    "home_empty_list": (file_text(areas="[]"), "dwelling_units > house > areas: this list is empty", "", "["),
    "home_word": (
        file_text("name: range, kind: range, evidence: namplate"),
        f'{LOADS} > range > evidence: "namplate" is not a word that may stand here',
        'did you mean "nameplate"?',
        "namplate",
    ),
    "home_system": (
        file_text(system="120/240 V single-phase 2-wire"),
        'service > system: there is no supply system "120/240 V single-phase 2-wire"',
        'did you mean "120/240 V single-phase 3-wire"?',
        "120/240 V single-phase 2-wire",
    ),
    "home_kind": (
        file_text("name: pump, kind: heat pmup, rating: 4 kW"),
        f'{LOADS} > pump > kind: there is no kind of load "heat pmup"',
        'did you mean "heat pump"?',
        "heat pmup",
    ),
    "home_kind_of_area": (
        file_text(planned=("name: addition, kind: living, rating: 4 kW",)),
        'planned > addition > kind: "living" is a kind of area, not of load',
        "an area stands under `areas` of its dwelling unit; one that is planned, such as an addition, says `status: planned` there",
        "living",
    ),
    "home_suspected": (
        file_text(service="conductors: {size: 2 AWG or unknown}"),
        'service > conductors > size: "2 AWG or unknown" is not a list of sizes',
        "write `2 AWG or 4 AWG`, `4 AWG to 1/0 AWG`, or `not seen` alone",
        "2 AWG or unknown",
    ),
    "home_date": (
        file_text(top="date: 2023-02-30"),
        'date: "2023-02-30" is not a date',
        "write it as year-month-day, all in digits",
        "2023-02-30",
    ),
    "home_not_a_quantity": (
        file_text(service="rating: two hundred"),
        'service > rating: "two hundred" is not a number with a unit',
        "write a number, then A",
        "two hundred",
    ),
    "home_lacks_unit": (
        file_text(areas="[{name: hall, kind: living, area: 1240}]"),
        'dwelling_units > house > areas > hall > area: "1240" lacks its unit',
        'write "1240 ft2"',
        "1240",
    ),
    "home_two_voltages": (
        file_text("name: range, kind: range, rating: 16.7 A at 115/230 V"),
        f'{LOADS} > range > rating: "16.7 A at 115/230 V" names two voltages',
        "write the one that the load is connected at, and the current or power that the nameplate gives for it",
        "16.7 A at 115/230 V",
    ),
    "home_no_load": (
        file_text("name: range, kind: gas range, rating: 100 W"),
        f'{LOADS} > range > kind: "gas range" is no load of its own: it burns gas',
        "enter only what is electrical in it, or leave it out; what burns gas may stand under `not electric`",
        "gas range",
    ),
    "home_unit": (
        file_text("name: range, kind: range, rating: 11.5 kWW"),
        f'{LOADS} > range > rating: there is no unit "kWW"',
        'did you mean "kW"?',
        "11.5 kWW",
    ),
    "home_wrong_unit": (
        file_text(service="rating: 200 V"),
        'service > rating: "200 V" is not a quantity in A',
        "",
        "200 V",
    ),
    "home_not_above_zero": (
        file_text(areas="[{name: hall, kind: living, area: -12 m2}]"),
        'dwelling_units > house > areas > hall > area: "-12 m2" is not more than zero',
        "",
        "-12 m2",
    ),
    "home_too_large": (
        file_text(service="bus: " + "9" * 400 + " A"),
        "service > bus: this number is too large to be meant",
        "",
        "9" * 400 + " A",
    ),
    "home_not_whole": (
        file_text(unit="laundry_circuits: 1.5"),
        'dwelling_units > house > laundry_circuits: "1.5" is not a whole number',
        "write it in digits",
        "1.5",
    ),
    "home_too_few": (
        file_text(RANGE + ", quantity: 0"),
        f'{LOADS} > range > quantity: "0" is less than 1',
        "",
        "0",
    ),
    "home_rating": (
        file_text("name: range, kind: range, rating: big"),
        f'{LOADS} > range > rating: "big" is not a rating',
        FORMS,
        "big",
    ),
    "home_rating_alone": (
        file_text("name: mill, kind: other motor, rating: 1/2 hp"),
        f'{LOADS} > mill > rating: "1/2 hp" alone is not a rating',
        'write "1/2 hp at ... V"',
        "1/2 hp",
    ),
    "home_current_alone": (
        file_text("name: range, kind: range, rating: 60A"),
        f'{LOADS} > range > rating: "60A" alone is not a rating',
        'write "60A at ... V" if the nameplate says so; a breaker does not tell the rating of what is on it - if only the breaker was '
        "seen, write `typical`, bounds such as ... kW to ... kW, or `unknown`",
        "60A",
    ),
    "home_rating_of_device": (
        file_text("name: range, kind: range, rating: 50 amp breaker"),
        f'{LOADS} > range > rating: "50 amp breaker" is not a rating of the load but of what protects it',
        "write what the nameplate says, such as ... kW or ... A at ... V; if only the breaker was seen, `typical`, bounds, or `unknown`",
        "50 amp breaker",
    ),
    "home_rating_of_label": (
        file_text("name: pump, kind: heat pump, rating: MCA 22.6 MAX FUSE 35"),
        f'{LOADS} > pump > rating: "MCA 22.6 MAX FUSE 35" is not a rating as it stands',
        'write "MCA 22.6 A at ... V"; the largest fuse or breaker has a key of its own, `maximum overcurrent device`',
        "MCA 22.6 MAX FUSE 35",
    ),
    "home_rating_no_unit": (
        file_text("name: range, kind: range, rating: 11.5"),
        f'{LOADS} > range > rating: "11.5" lacks its unit',
        FORMS,
        "11.5",
    ),
    "home_rating_no_number": (
        file_text("name: range, kind: range, rating: kW"),
        f'{LOADS} > range > rating: "kW" lacks its number',
        "write the number before it; `unknown` where it is not known",
        "kW",
    ),
    "home_decimal_comma": (
        file_text('name: range, kind: range, rating: "11,5 kW"'),
        f'{LOADS} > range > rating: "11,5 kW" has a comma before its decimals',
        'write "11.5 kW"',
        '"11,5 k',
    ),
    "home_which_kind": (
        file_text("name: furnace, kind: furnace, rating: 12 kW"),
        f'{LOADS} > furnace > kind: "furnace" may be several kinds of load',
        "write which one: electric furnace (central electric furnace or boiler); gas furnace (blower of a furnace or air handler)",
        "furnace",
    ),
    "home_key_elsewhere": (
        file_text(service="laundry circuits: 1"),
        "service > laundry_circuits: this key does not stand here",
        "it stands in `feeds` or `dwelling units`; the keys of something begin two blanks further in than it does",
        "laundry circuits",
    ),
    "home_rating_zero": (
        file_text("name: spa, kind: hot tub, rating: 0 kW"),
        f'{LOADS} > spa > rating: "0 kW" is not more than zero, so it is no rating',
        "a load that is not there is named by kind under `none of`; write `unknown` where it is not known",
        "0 kW",
    ),
    "home_setting_not_listed": (
        file_text("name: charger, kind: EVSE, settings: [24 A, 40 A], setting: 32 A"),
        f'{LOADS} > charger > setting: "32 A" is wanted, and it is none of the settings',
        "settings: 24 A, 40 A; a setting that the equipment has too is added to them",
        "32 A",
    ),
    "home_setting_alone": (
        file_text("name: charger, kind: EVSE, rating: 40 A at 240 V, setting: 32 A"),
        f'{LOADS} > charger > setting: "32 A" is wanted, and there are no settings to choose from',
        "list them under `settings`; equipment that is fixed at one setting has `rating: setting 32 A`",
        "32 A",
    ),
    "home_setting_above_rating": (
        file_text("name: charger, kind: EVSE, rating: 32 A at 240 V, settings: [24 A, 40 A]"),
        f'{LOADS} > charger > settings: the largest setting, "40 A", is above the rating, "32 A at 240 V"',
        "take out the settings that the equipment does not have, or correct the rating",
        "40 A",
    ),
    "home_part_of_rating": (
        file_text("name: pump, kind: heat pump, marked amperes: 19.2 A"),
        f"{LOADS} > pump > marked_amperes: this is part of the rating",
        FORMS,
        "marked amperes",
    ),
    "home_flag_by_kind": (
        file_text("name: spa, kind: spa, rating: 50 A at 240 V, motor: yes"),
        f'{LOADS} > spa > motor: "yes" cannot be said of the kind "hot tub": it is "no" by kind',
        "take this key out, or choose another kind",
        "yes",
    ),
    "home_by_list": (
        file_text(RANGE + ", status: planned"),
        f"{LOADS} > range > status: this is not written by hand",
        "it follows from the list that the load stands in, from `replaces` in `planned`, from `on the circuit of`, and from "
        "`never_together`; a load that comes later and is not counted stands in `planned` with `later: yes`",
        "status",
    ),
    "home_only_planned": (
        file_text(RANGE + ", replaces: stove"),
        f"{LOADS} > range > replaces: this may only stand in an entry of `planned`",
        "",
        "replaces",
    ),
    "home_name_taken": (
        file_text(RANGE, planned=("name: Range, kind: range, rating: 9 kW",)),
        'planned > Range > name: another load is called "Range" already',
        "each load has a name of its own",
        "Range",
    ),
    "home_replaces": (
        file_text(RANGE, planned=("name: hob, kind: range, rating: 9 kW, replaces: rnage",)),
        'planned > hob > replaces: there is no load "rnage" in the home',
        'did you mean "range"?',
        "rnage",
    ),
    "home_never_two": (
        file_text(RANGE, top="never together: [{loads: [range], by: a changeover switch}]"),
        "never_together > entry 1 > loads: this must name at least two loads",
        "a load that never runs is left out",
        "[",
    ),
    "home_never_twice": (
        file_text(RANGE, HOB, "name: spa, kind: hot tub", top="never together: [{loads: [range, hob]}, {loads: [spa, Hob]}]"),
        'never_together > entry 2 > loads > Hob: "Hob" stands in `never_together` already',
        "one set holds them all",
        "Hob",
    ),
    "home_never_equal": (
        file_text(RANGE, HOB + ", quantity: 2", top="never together: [{loads: [range, hob]}]"),
        'never_together > entry 1 > loads > hob: "hob" stands for several equal loads',
        "write each of them as an entry of its own",
        "hob",
    ),
    "home_never_units": (
        file_text(RANGE)
        + COTTAGE.replace("cottage", "cottage, quantity: 2, loads: [{name: oven, kind: wall oven}]")
        + "never together: [{loads: [range, oven]}]\n",
        'never_together > entry 1 > loads: "oven" is in each of several equal dwelling units, '
        "and not all of these loads are in one",
        "write the dwelling units as entries of their own",
        "oven",
    ),
    "home_never_carried": (
        file_text(RANGE, HOB + ", on the circuit of: range", top="never together: [{loads: [hob, range]}]"),
        'never_together > entry 1 > loads > hob: "hob" is on the circuit of another load, so it can stand in no set',
        "name the load whose circuit it is, or take out its `on the circuit of`",
        "hob",
    ),
    "home_circuit_of_carried": (
        file_text(HOB + ", on the circuit of: Hob"),
        'dwelling_units > house > loads > hob > on_the_circuit_of: "Hob" cannot name this circuit, since that load, or this one, '
        "is on the circuit of another or of itself",
        "one load gives its name to the circuit, and all others on it name that one",
        "Hob",
    ),
    "home_in_unit": (
        file_text(planned=("name: hob, kind: range, rating: 9 kW, in: huose",)),
        'planned > hob > in: there is no dwelling unit "huose"',
        'did you mean "house"?',
        "huose",
    ),
    "home_legs": (
        file_text(RANGE + ", legs: A C"),
        f'{LOADS} > range > legs: "A C" does not name line conductors of the supply',
        "they are A, B",
        "A C",
    ),
    "home_legs_connection": (
        file_text(RANGE + ", legs: A"),
        f'{LOADS} > range > legs: "A" names one line, and the load is connected line to line and neutral',
        "name two lines, such as A B, or say its `connection`",
        "A",
    ),
    "home_legs_three_phase": (
        file_text("name: lift, kind: elevator, rating: 28 A at 208 V, legs: A B C", system="208Y/120 V three-phase 4-wire"),
        f'{LOADS} > lift > legs: a load on the three lines "A B C" is a three-phase load, '
        'and "28 A at 208 V" is taken as that of a single-phase one',
        "give its rating in VA or W; from a current it is amperes x volts x the square root of 3",
        "A B C",
    ),
    "home_same_name": (
        file_text() + COTTAGE.replace("cottage", "House"),
        'dwelling_units > House > name: another dwelling unit is called "House" already',
        "each dwelling unit has a name of its own",
        "House",
    ),
    "home_in_lacks": (
        file_text() + COTTAGE + "planned: [{name: hob, kind: range}]\n",
        "planned > hob > in: this is missing, and there are several dwelling units",
        "say what the load is in, one of: house, cottage",
        "hob",
    ),
    "home_house_loads": (
        file_text(top="loads: [{name: hall heater, kind: space heater, rating: 2 kW}]"),
        "loads: a home with one dwelling unit has no house loads",
        "put the loads into the dwelling unit",
        "loads",
    ),
    "home_leg_counts": (
        file_text("name: heaters, kind: baseboard, rating: 1 kW, quantity: 4, legs: {A B: 3, A: 2}"),
        f"{LOADS} > heaters > legs: the counts add up to 5, not to 4",
        "the counts are of single loads, and add up to the quantity of the load",
        "{",
    ),
    "home_fed_unit": (
        file_text(top="feeders: [{name: north, feeds: hosue}]"),
        'feeders > north > feeds: there is no dwelling unit "hosue"',
        'did you mean "house"?',
        "hosue",
    ),
    "home_fed_load": (
        file_text(RANGE, top="feeders: [{name: north, feeds: {loads: [rnage]}}]"),
        'feeders > north > feeds > loads > rnage: there is no load "rnage" to feed',
        'did you mean "range"?',
        "rnage",
    ),
    "home_fed_area": (
        file_text(top="feeders: [{name: north, feeds: {areas: [attic]}}]"),
        'feeders > north > feeds > areas > attic: there is no area "attic" to feed',
        "the areas with names are ground floor",
        "attic",
    ),
    "home_fed_areas": (
        file_text(areas=TWICE, top="feeders: [{name: north, feeds: {areas: [hall]}}]"),
        'feeders > north > feeds > areas > hall: several areas are called "hall"',
        "give them different names",
        "hall",
    ),
    "home_fed_twice": (
        file_text(RANGE, top="feeders: [{name: north, feeds: {loads: [range]}}, {name: south, feeds: {loads: [Range]}}]"),
        'feeders > south > feeds > loads > Range: "Range" is fed by a feeder already',
        "each load, area and dwelling unit has one feeder at most",
        "Range",
    ),
    "home_fed_nothing": (
        file_text(top="feeders: [{name: north, feeds: {laundry circuits: 1}}]"),
        "feeders > north > feeds: a part holds at least one load or area",
        "name what the feeder feeds",
        "{",
    ),
    "home_fed_units": (
        file_text(RANGE)
        + COTTAGE.replace("cottage", "cottage, loads: [{name: oven, kind: wall oven}]")
        + "feeders: [{name: north, feeds: {loads: [range, oven], laundry circuits: 1}}]\n",
        "feeders > north > feeds: areas and circuits are fed with loads of one dwelling unit only",
        "a feeder of loads alone may feed those of several",
        "{",
    ),
    "home_planned_panel": (
        file_text(
            top="planned: [{name: charger, kind: EV charging equipment, panel: main pannel}]\npanels: [{name: main panel}]"
        ),
        'planned > charger > panel: there is no panel "main pannel"',
        'did you mean "main panel"?',
        "main pannel",
    ),
    "home_panel_on": (
        file_text(top="feeders: [{name: north, feeds: house}]\npanels: [{name: main, on: nroth}]"),
        'panels > main > on: there is no supply "nroth"',
        'did you mean "north"?',
        "nroth",
    ),
    "home_circuit_source": (
        file_text(RANGE, top="sources: [{name: roof}]\npanels: [{name: main, circuits: [{breaker: 40 A, source: rof}]}]"),
        'panels > main > circuits > entry 1 > source: there is no source "rof" for this circuit',
        'did you mean "roof"?',
        "rof",
    ),
    "home_circuit_load": (
        file_text(RANGE, top="panels: [{name: main, circuits: [{breaker: 50 A, load: rnage}]}]"),
        'panels > main > circuits > entry 1 > load: there is no load "rnage" for this circuit',
        'did you mean "range"?',
        "rnage",
    ),
    "home_load_or_for": (
        file_text(RANGE, top="panels: [{name: main, circuits: [{breaker: 50 A, load: range, for: range}]}]"),
        "panels > main > circuits > entry 1 > for: the circuit names its load already",
        "write `load` or `source` for one of this file, else `for`",
        "for",
    ),
    "home_absent": (
        file_text("name: spa, kind: hot tub, rating: 50 A at 240 V", top="none_of: [pool pump, spa]"),
        'none_of > spa: "spa" is said to be absent, and "spa" is of that kind',
        "take it out of `none of`, or take out what is there",
        "spa",
    ),
    "home_not_electric": (
        file_text("name: spa, kind: hot tub, rating: 50 A at 240 V", top="not electric: [gas range, Spa]"),
        'not_electric > Spa: "Spa" is said to be not electric, and a load of this file has that name',
        "name here only what burns gas or the like; what of it is electric is a load by another name, such as its blower",
        "Spa",
    ),
    "home_evidence_form": (
        file_text(unit="evidence: [told]"),
        "dwelling_units > house > evidence: this must be one word for all that stands beside it, or words by its keys, not a list",
        "as `evidence: told`, or with keys below it, such as `system: told`",
        "[",
    ),
    "home_evidence_key": (
        file_text(unit="evidence: {laundry circuits: told, rooms: told}"),
        'dwelling_units > house > evidence: "rooms" is no key beside it whose evidence could be said',
        "one of: small appliance circuits, laundry circuits",
        "rooms",
    ),
    "home_bounds_order": (
        file_text("name: range, kind: range, rating: 14 to 8 kW"),
        f'{LOADS} > range > rating: the bounds of "14 to 8 kW" do not rise',
        "the lower one stands first",
        "14 to 8 kW",
    ),
    "home_fraction": (
        file_text(top="meter: {file: year.csv, power factor: 95 %}"),
        'meter > power_factor: "95 %" is not a number above 0 and up to 1',
        "",
        "95 %",
    ),
    "home_bill_turned": (
        file_text(top="meter: {file: year.csv, bills: [{from: 2025-03-31, to: 2025-03-01, energy: 612 kWh}]}"),
        "meter > bills > entry 1: the bill ends on 2025-03-01, before it begins on 2025-03-31",
        "`from` is its first day, `to` its last",
        "2025-03-01",
    ),
    "home_table_file_later": (
        file_text(unit="loads: schedule.csv"),
        "dwelling_units > house > loads: reading loads from a file of their own is not built yet",
        "write them here as a list",
        "schedule.csv",
    ),
    "home_want_settings": (
        file_text("name: charger, kind: EVSE, settings: 48 A"),
        f"{LOADS} > charger > settings: this must be a list of settings, or a range, not a single text",
        "as `[... A, ... A]`, or `... A to ... A` where every whole ampere can be set",
        "48 A",
    ),
    "home_range_turned": (
        file_text("name: charger, kind: EVSE, settings: 48 A to 6 A"),
        f'{LOADS} > charger > settings: the range "48 A to 6 A" does not rise',
        "write the smallest setting first, then the largest",
        "48 A to 6 A",
    ),
}


def marked(problem: Problem) -> str:
    """The characters that are marked."""
    place = problem.place
    assert place is not None
    start = place.column - 1
    return place.source.line(place.line)[start : start + place.width]


@pytest.mark.parametrize("key", WRONG)
def test_each_message(glossary: Glossary, key: str) -> None:
    text, said, hint, mark = WRONG[key]
    (problem,) = found_in(glossary, text)
    assert (problem.message.key, problem.text, problem.hint, marked(problem)) == (key, said, hint, mark)


def test_every_message_of_the_package_is_tried() -> None:
    of_package = {made.key for made in vars(home_messages).values() if isinstance(made, Message)}
    assert of_package == set(WRONG)
    assert all(key.startswith("home_") for key in of_package)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (file_text().replace("home: 7 Larch Court, two-storey house\n", ""), "home: this is missing"),
        (
            file_text().replace("  system: 120/240 V single-phase 3-wire", "  rating: 200 A"),
            "service > system: this is missing",
        ),
        ("home: flat\nservice: {system: 120/240 V single-phase 3-wire}\n", "dwelling_units: this is missing"),
        (
            "home: flat\nservice: {system: 120/240 V single-phase 3-wire}\ndwelling_units: []\n",
            "dwelling_units: this list is empty",
        ),
        (file_text("kind: range, rating: 12 kW"), f"{LOADS} > entry 1 > name: this is missing"),
        (
            file_text(RANGE, HOB, top="never together: [{loads: [range, hob], why: a relay}]"),
            "never_together > entry 1 > why: there is no such key here",
        ),
        (file_text(RANGE, HOB, top="never together: [{by: a relay}]"), "never_together > entry 1 > loads: this is missing"),
        (
            file_text(RANGE, HOB, top="never together: [[range, hob]]"),
            "never_together > entry 1: this must be keys with values, not a list",
        ),
        (
            file_text(RANGE, HOB, top="never together: [{loads: [range, hbo]}]"),
            'never_together > entry 1 > loads > hbo: there is no load "hbo" in the home',
        ),
        (file_text(top="work: nwe"), 'work: "nwe" is not a word that may stand here'),
        (file_text(top="occupied: maybe"), 'occupied: "maybe" is not a word that may stand here'),
        (file_text(top="date: 1 May 2023"), 'date: "1 May 2023" is not a date'),
        (file_text(top="date: 20230501"), 'date: "20230501" is not a date'),
        (
            file_text(top="interpretations: apart"),
            "interpretations: this must be keys with values, not a single text",
        ),
        (file_text(top="none_of: [hot tbu]"), 'none_of > hot tbu: there is no kind of load "hot tbu"'),
        (file_text(service="rating: -200 A"), 'service > rating: "-200 A" is not more than zero'),
        (
            file_text(service="rating: 10**9**9 A"),
            'service > rating: "10**9**9 A" is not a number with a unit',
        ),
        (file_text(service="bus: 1 1/0 A"), 'service > bus: "1 1/0 A" is not a number with a unit'),
        (file_text(service="service: yes"), "service > service: there is no such key here"),
        (
            file_text(unit="laundry_circuits: -1"),
            'dwelling_units > house > laundry_circuits: "-1" is less than 0',
        ),
        (
            file_text(unit="laundry_circuits: 2 A"),
            'dwelling_units > house > laundry_circuits: "2 A" is not a whole number',
        ),
        (
            file_text("name: it, kind: range, rating: -4 kW"),
            f'{LOADS} > it > rating: "-4 kW" is not more than zero, so it is no rating',
        ),
        (
            file_text("name: it, kind: range, rating: 20 A at 0 V"),
            f'{LOADS} > it > rating: "20 A at 0 V" is not more than zero, so it is no rating',
        ),
        (
            file_text("name: it, kind: range, rating: 20 A at 240 W"),
            f'{LOADS} > it > rating: "20 A at 240 W" is not a rating',
        ),
        (
            file_text("name: it, kind: range, rating: 8 kW - 8 kW"),
            f'{LOADS} > it > rating: the bounds of "8 kW - 8 kW" do not rise',
        ),
        (
            file_text("name: it, kind: range, rating: 3 kVA to 5 kW"),
            f'{LOADS} > it > rating: "3 kVA to 5 kW" is not a rating',
        ),
        (
            file_text("name: it, kind: range, rating: 20 A to 30 A"),
            f'{LOADS} > it > rating: "20 A to 30 A" alone is not a rating',
        ),
        (
            file_text("name: it, kind: range, rating: 0 to 3 kW"),
            f'{LOADS} > it > rating: "0 to 3 kW" is not more than zero, so it is no rating',
        ),
        (
            file_text("name: it, kind: range, rating: 20 A at 120 V to 240 V"),
            f'{LOADS} > it > rating: "20 A at 120 V to 240 V" names two voltages',
        ),
        (file_text("name: it, kind: range, rating: 12"), f'{LOADS} > it > rating: "12" lacks its unit'),
        (
            file_text("name: it, kind: range, rating: " + "9" * 400 + " kW"),
            f"{LOADS} > it > rating: this number is too large to be meant",
        ),
        (
            file_text("name: it, kind: EVSE, settings: [16 A, 0 A]"),
            f'{LOADS} > it > settings > 0 A: "0 A" is not more than zero',
        ),
        (
            file_text("name: it, kind: EVSE, settings: 16 A"),
            f"{LOADS} > it > settings: this must be a list of settings, or a range, not a single text",
        ),
        (file_text("name: it, kind: EVSE, settings: []"), f"{LOADS} > it > settings: this list is empty"),
        (file_text(RANGE + ", quantity: 2.5"), f'{LOADS} > range > quantity: "2.5" is not a whole number'),
        (
            file_text(RANGE + ", in: house"),
            f"{LOADS} > range > in: this may only stand in an entry of `planned`",
        ),
        (
            file_text(RANGE + ", legs: A A"),
            f'{LOADS} > range > legs: "A A" does not name line conductors of the supply',
        ),
        (
            file_text(planned=("name: it, kind: range, rating: 9 kW, in: house",), name="flat"),
            "planned > it > in: a home with one dwelling unit has no house loads",
        ),
        (
            file_text("name: hob, kind: range", planned=("name: it, kind: range, replaces: it",)),
            'planned > it > replaces: there is no load "it" in the home',
        ),
        (
            file_text(planned=("name: it, kind: range, in: huose",)),
            'planned > it > in: there is no dwelling unit "huose"',
        ),
        (
            file_text(RANGE, unit="quantity: 2") + "planned: [{name: hob, kind: range}]\n",
            "planned > hob > in: this is missing, and there are several dwelling units",
        ),
        (
            file_text() + "  - areas: [{kind: living, area: 500 ft2}]\n",
            "dwelling_units > entry 2 > name: this is missing",
        ),
        (
            file_text(RANGE) + COTTAGE + f"loads: [{{{RANGE}}}]\n",
            'loads > range > name: another load is called "range" already',
        ),
        (file_text(unit="quantity: 0"), 'dwelling_units > house > quantity: "0" is less than 1'),
        (file_text(RANGE + ", legs_said: yes"), f"{LOADS} > range > legs_said: there is no such key here"),
        (
            file_text(RANGE + ", legs: {A C: 1}"),
            f'{LOADS} > range > legs: "A C" does not name line conductors of the supply',
        ),
        (file_text(RANGE + ", legs: {A B: 0.5, A: 0.5}"), f'{LOADS} > range > legs: "0.5" is not a whole number'),
        (
            file_text(RANGE + ", legs: {A B C: 1}", system="208Y/120 V three-phase 4-wire"),
            f'{LOADS} > range > legs: "A B C" does not name line conductors of the supply',
        ),
        (
            file_text(RANGE + ", quantity: 2, legs: {A B: 4}", unit="quantity: 3"),
            f"{LOADS} > range > legs: the counts add up to 4, not to 6, with all equal dwelling units",
        ),
        (file_text(top="feeders: [{feeds: house}]"), "feeders > entry 1 > name: this is missing"),
        (file_text(top="feeders: [{name: north}]"), "feeders > north > feeds: this is missing"),
        (
            file_text(top="feeders: [{name: Service, feeds: house}]"),
            'feeders > Service > name: another supply is called "Service" already',
        ),
        (
            file_text(top="feeders: [{name: north, feeds: [house]}]"),
            "feeders > north > feeds: this must be keys with values, not a list",
        ),
        (
            file_text(top="feeders: [{name: north, feeds: {load: [it]}}]"),
            "feeders > north > feeds > load: there is no such key here",
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}, whole dwelling: no}}]"),
            "feeders > north > whole_dwelling: this key does not stand here",
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}, system: 240 V}}]"),
            'feeders > north > system: there is no supply system "240 V"',
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}, service disconnect: perhaps}}]"),
            'feeders > north > service_disconnect: "perhaps" is not a word that may stand here',
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}, conductors: {{size: 4/1}}}}]"),
            'feeders > north > conductors > size: "4/1" is not a word that may stand here',
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}}}, {{name: south, feeds: house}}]"),
            'feeders > south > feeds: "house" is fed by a feeder already',
        ),
        (
            file_text(top=f"feeders: [{{{FEEDER}}}, {{name: south, feeds: {{areas: [ground floor]}}}}]"),
            'feeders > south > feeds > areas > ground floor: "ground floor" is fed by a feeder already',
        ),
        (
            file_text(RANGE, top=f"feeders: [{{name: south, feeds: {{loads: [range]}}}}, {{{FEEDER}}}]"),
            'feeders > north > feeds: "house" is fed by a feeder already',
        ),
        (
            file_text(RANGE, top="feeders: [{name: south, feeds: {loads: [range], areas: [range]}}]"),
            'feeders > south > feeds > areas > range: there is no area "range" to feed',
        ),
        (
            file_text(top="panels: [{name: main}, {name: Main}]"),
            'panels > Main > name: another panel is called "Main" already',
        ),
        (file_text(top="panels: [{spaces: 40}]"), "panels > entry 1 > name: this is missing"),
        (file_text(top=PANEL + ", poles: 1.5}]}]"), 'panels > main > circuits > entry 1 > poles: "1.5" is not a whole number'),
        (file_text(top=PANEL + ", poles: 0}]}]"), 'panels > main > circuits > entry 1 > poles: "0" is less than 1'),
        (
            file_text(top=PANEL + ", amperes: 20 A}]}]"),
            "panels > main > circuits > entry 1 > amperes: there is no such key here",
        ),
        (
            file_text(top="planned: later.csv"),
            "planned: reading loads from a file of their own is not built yet",
        ),
    ],
)
def test_other_ways_to_be_wrong(glossary: Glossary, text: str, said: str) -> None:
    assert [problem.text for problem in found_in(glossary, text)] == [said]


def test_markings_are_offered_as_people_write_them(glossary: Glossary) -> None:
    (problem,) = found_in(glossary, file_text(service="terminals: hot"))
    assert problem.hint == "one of: 60 C, 75 C"


def test_where_no_kind_is_near_all_are_named(glossary: Glossary) -> None:
    (problem,) = found_in(glossary, file_text("name: it, kind: zzz"))
    assert problem.hint.startswith("one of: range, wall oven, cooktop, ")
    assert "EV charging equipment" in problem.hint


def test_the_other_side_is_shown(glossary: Glossary) -> None:
    text = file_text(RANGE, "name: range, kind: wall oven, rating: 4 kW")
    with pytest.raises(InputError) as caught:
        home_from_text(text, "larch.yaml", glossary)
    assert str(caught.value) == (
        "larch.yaml:9:16: dwelling_units > house > loads > range > name: "
        'another load is called "range" already\n'
        "    9 |       - {name: range, kind: wall oven, rating: 4 kW}\n"
        "      |                ^^^^^\n"
        "  first here: larch.yaml:8:16\n"
        "    8 |       - {name: range, kind: range, rating: 12 kW}\n"
        "      |                ^^^^^\n"
        "  hint: each load has a name of its own"
    )


def test_all_that_is_wrong_is_told_at_once_in_the_order_of_the_file(glossary: Glossary) -> None:
    text = file_text(
        "name: range, kind: rnage, rating: 12 kWW",
        "name: spa, kind: spa, rating: 0 kW, motor: yes",
        "name: spa, kind: freezer, individual circuit: yes, individual_circuit: maybe",
        planned=("name: charger, kind: EVSE, settings: 48 A to 6 A, replaces: rang", "kind: hot tub"),
        top="wrok: new\nmeter: {power factor: 2}\nnone_of: [hot tub]",
        service="rating: 200\nconductors: {size: 4/1, material: tin}",
        unit="laundry_circuits: one",
    )
    found = found_in(glossary, text)
    lines = [problem.place.line for problem in found if problem.place]
    assert lines == sorted(lines)
    assert [(problem.message.key, marked(problem)) for problem in found] == [
        ("home_key", "wrok"),
        ("home_lacks", "{"),
        ("home_fraction", "2"),
        ("home_absent", "hot tub"),
        ("home_lacks_unit", "200"),
        ("home_word", "4/1"),
        ("home_word", "tin"),
        ("home_not_whole", "one"),
        ("home_kind", "rnage"),
        ("home_unit", "12 kWW"),
        ("home_rating_zero", "0 kW"),
        ("home_flag_by_kind", "yes"),
        ("home_name_taken", "spa"),
        ("home_same_key", "individual_circuit"),
        ("home_word", "maybe"),
        ("home_range_turned", "48 A to 6 A"),
        ("home_replaces", "rang"),
        ("home_lacks", "{"),
    ]


def test_no_words_of_the_machinery_reach_the_reader(glossary: Glossary) -> None:
    shown = "\n".join(str(problem) for text, *_ in WRONG.values() for problem in found_in(glossary, text))
    for word in ("pydantic", "validation", "Traceback", "Shape", "dict", "https", "Input should", "NoneType"):
        assert word not in shown


# --- the package itself


def constants(path: Path) -> list[object]:
    """Every constant of a module but its docstrings."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    owners = [node for node in ast.walk(tree) if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef)]
    first = [owner.body[0] for owner in owners if owner.body]
    skipped = {id(each.value) for each in first if isinstance(each, ast.Expr)}
    return [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in skipped]


def test_the_package_knows_no_electrical_code(glossary: Glossary) -> None:
    names = {name for kind in glossary.load_kinds.values() for name in (kind.name, *kind.also)}
    for path in PACKAGE.glob("*.py"):
        for value in constants(path):
            assert not isinstance(value, float), path
            assert isinstance(value, bool) or not isinstance(value, int) or value in (0, 1, 2), path
            assert value not in names, path


def test_models_are_made_once_for_a_glossary(glossary: Glossary) -> None:
    assert models_for(glossary) is models_for(glossary)


def test_reading_a_home_is_quick(glossary: Glossary) -> None:
    loads = [f"name: heater {n}, kind: space heater, rating: {n}.5 kW, separately controlled: yes" for n in range(1, 16)]
    node = read_text(file_text(*loads), "larch.yaml")
    home_from_node(node, glossary)
    taken = []
    for _ in range(20):
        start = time.perf_counter()
        home_from_node(node, glossary)
        taken.append(time.perf_counter() - start)
    assert min(taken) < 0.02


@pytest.mark.parametrize(("text", "value"), [("1/4", 0.25), ("1 1/2", 1.5), ("4500/4500", None), ("16/12", None), ("", None)])
def test_a_fraction_is_less_than_one(text: str, value: float | None) -> None:
    """Two figures with a stroke between them, as the elements of a tank are marked, are no number."""
    if value is not None:
        assert number(text) == value
        return
    with pytest.raises(ValueError):
        number(text)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("120/240 V 1-ph", "120/240 V single-phase 3-wire"),
        ("120/240V, 1Ø, 3W", "120/240 V single-phase 3-wire"),
        ("208Y/120 V 3-phase 4W", "208Y/120 V three-phase 4-wire"),
        ("208Y/120 V", None),  # of one phase or of three
    ],
)
def test_a_supply_system_may_be_written_in_short(glossary: Glossary, written: str, meant: str | None) -> None:
    found = Names(((name, name) for name in glossary.systems), closed_up=True).find(written)
    assert found == meant
