"""Random home files of all kinds, as plain dicts whose quantities know their units, and the text that is read.

``random_home`` makes what a person could write: dwelling units, house and planned loads, feeders, panels. ``written``
gives its text; ``respelled``, ``shuffled`` and ``unfolded`` say the same in another way, and ``grown`` says more.
"""

from __future__ import annotations

import copy
import itertools
import random
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from homes import HORSEPOWER, SYSTEMS

from dwellcalc.decide.choices import interpretations
from dwellcalc.glossary import Glossary
from dwellcalc.language.rule_set import RuleSet

THREE_PHASE = "208Y/120 V three-phase 4-wire"
OF_WYE = SYSTEMS[1]
VOLTS = (115.0, 120.0, 208.0, 230.0, 240.0)
FRACTIONS = {1 / 6: "1/6", 1 / 4: "1/4", 1 / 3: "1/3", 1 / 2: "1/2", 3 / 4: "3/4", 1.5: "1 1/2"}
AMOUNTS = {"volt_amperes": "VA", "watts": "W", "horsepower": "hp", "volts": "V"}  # all other fields of a rating are in A
FACTORS = {"kW": 1000.0, "kVA": 1000.0, "m2": 1 / 0.09290304}
OTHER_UNITS = {
    "W": ("W", "kW", "watt"),
    "VA": ("VA", "kVA", "va"),
    "ft2": ("ft2", "m2", "sqft", "sq ft"),
    "A": ("A", "amp"),
    "V": ("V", "volt"),
    "hp": ("hp", "HP"),
    "ft": ("ft", "feet"),
}
FIRST_COUNTS = "never together"
ON_CIRCUIT = "on the circuit of"
COPY = re.compile(r" copy \d+")
Node = dict[str, Any]


@dataclass(frozen=True)
class Quantity:
    """An amount in a base unit, and the unit that it is written in."""

    amount: float
    unit: str
    shown: str = ""

    def __str__(self) -> str:
        unit = self.shown or self.unit
        written = self.amount / FACTORS.get(unit, 1.0)
        digits = f"{written:.12f}".rstrip("0").rstrip(".")
        return f"{FRACTIONS.get(self.amount, digits)} {unit}"


@dataclass(frozen=True)
class Rating:
    """A rating by one of the glossary's forms, with the quantities that fill it."""

    basis: str
    form: str
    values: dict[str, Quantity]

    def __str__(self) -> str:
        return self.form.format_map({name: str(each) for name, each in self.values.items()})


def written(node: Any, indent: int = 0) -> str:
    """The text of a home, in block style."""
    pad = " " * indent
    if isinstance(node, dict):
        return "".join(f"{pad}{key}:{_value(each, indent)}" for key, each in node.items())
    entries = (written(each, indent + 2).lstrip() if isinstance(each, dict) else f"{each}\n" for each in node)
    return "".join(f"{pad}- {entry}" for entry in entries)


def _value(node: Any, indent: int) -> str:
    return f"\n{written(node, indent + 2)}" if isinstance(node, (dict, list)) else f" {node}\n"


def _field(form: str) -> list[str]:
    return re.findall(r"\{(\w+)\}", form)


class _Maker:
    """Makes one home; ``hidden`` is the share of what is not known in it."""

    def __init__(self, glossary: Glossary, chance: random.Random, hidden: float) -> None:
        self.glossary, self.chance, self.hidden = glossary, chance, hidden
        self.aside = random.Random(str(chance.getstate()))  # what is drawn of it leaves the rest of a home as it is
        self.added = random.Random(f"added {chance.getstate()}")  # the same for what was added after that
        self.fields = glossary.collections["loads"].fields
        self.made = 0
        self.system = chance.choice((*SYSTEMS, THREE_PHASE, THREE_PHASE))
        self.kind = ""

    def often(self, share: float) -> bool:
        return self.chance.random() < share

    def name(self, what: str) -> str:
        self.made += 1
        return f"{what.replace('_', ' ')} {self.made}"

    def amount(self, low: float, high: float, unit: str) -> Quantity:
        made = Quantity(round(self.chance.uniform(low, high), 2), unit)
        return replace(made, shown=self.chance.choice(OTHER_UNITS[unit]))

    def or_unknown(self, value: Any) -> Any:
        return self.chance.choice(("unknown", "not seen")) if self.often(self.hidden) else value

    # a load

    def rating(self) -> Rating:
        basis = self.chance.choice(list(self.glossary.rating_forms))
        form = self.chance.choice(self.glossary.rating_forms[basis])
        return Rating(basis, form, {name: self.of_rating(name) for name in _field(form)})

    def of_rating(self, name: str) -> Quantity:
        unit = AMOUNTS.get(name, "A")
        if name == "volts":
            return Quantity(277.0 if self.often(self.hidden) else self.chance.choice(VOLTS), unit)
        if name == "horsepower":
            return Quantity(0.4 if self.often(self.hidden) else self.chance.choice(HORSEPOWER), unit)
        if unit == "A":
            return self.amount(0.5, 3, unit) if name == "fan_amperes" else self.amount(2, 48, unit)
        return self.amount(100, 12000 if self.often(0.9) else 32000, unit)

    def load(self, units: int, kind_name: str = "") -> Node:
        """A load that stands in so many equal dwelling units."""
        if kind_name or not self.kind or self.often(0.75):  # equal kinds in a row, so that thresholds are met
            self.kind = kind_name or self.chance.choice(list(self.glossary.load_kinds))
        kind = self.glossary.load_kinds[self.kind]
        made: Node = {"name": self.name(self.kind), "kind": self.chance.choice((kind.name, *kind.also))}
        made["quantity"] = self.chance.choice((1, 1, 1, 2, 3, 5))
        made["rating"] = self.or_unknown(self.rating())
        for flag, says in kind.flags.items():
            if says.how == "ask" or (says.how != "is" and self.often(0.3)):
                made[flag.replace("_", " ")] = self.or_unknown(self.flag(flag))
        if self.often(0.4):
            by_kind = kind.flags["connection"].word  # holds also where the connection was not seen
            connection = {"not seen": by_kind}.get(said := made.get("connection", by_kind), said).replace("_", " ")
            power = isinstance(made["rating"], Rating) and made["rating"].basis in ("watts", "volt_amperes")
            made["legs"] = self.or_unknown(self.legs(made["quantity"], units, connection == "line to neutral", power))
        for key, value in (
            ("minimum circuit ampacity", self.amount(5, 60, "A")),
            ("maximum overcurrent device", self.amount(15, 100, "A")),
            ("length", self.amount(5, 250, "ft")),
            ("runs continuously", self.chance.choice(("yes", "no"))),
        ):
            if self.often(0.15):
                made[key] = self.or_unknown(value)
        if self.added.random() < 0.03:
            made["attachment"] = self.added.choice(self.glossary.choices["attachment"]).replace("_", " ")
        if self.often(0.3):
            made["evidence"] = self.evidence(made)
        return made

    def flag(self, flag: str) -> str:
        return self.chance.choice(self.glossary.words(self.fields[flag].kind)).replace("_", " ")

    def legs(self, quantity: int, units: int, one_line: bool, power: bool) -> Any:
        """Lines for all of a load, or a count for each way in which it is connected: to one line, or to two or more."""
        system = self.glossary.systems[self.system]
        ways = list(system.line_conductors if one_line else system.line_pairs)
        if self.often(0.6):
            return self.chance.choice([*ways, *([" ".join(reversed(system.line_conductors))] if power and not one_line else [])])
        counts: dict[str, int] = {}
        for _ in range(quantity * (units if self.often(0.5) else 1)):
            way = self.chance.choice(ways)
            counts[way] = counts.get(way, 0) + 1
        return counts

    # the dwelling units

    def unit(self) -> Node:
        made: Node = {"name": self.name("unit"), "quantity": self.chance.choice((1, 1, 1, 1, 2, 3, 12))}
        made["areas"] = [self.area() for _ in range(self.chance.randint(1, 4))]
        made["small appliance circuits"] = self.or_unknown(self.chance.randint(1, 4))
        made["laundry circuits"] = self.or_unknown(self.chance.randint(0, 2))
        made["loads"] = [self.load(made["quantity"]) for _ in range(self.chance.randint(0, 9))]
        return made

    def area(self) -> Node:
        kind = self.chance.choice(self.glossary.choices["area_kind"]).replace("_", " ")
        return {"name": self.name("area"), "kind": kind, "area": self.amount(80, 1800, "ft2")}

    # the home

    def home(self) -> Node:
        units = [self.unit() for _ in range(self.chance.choice((1, 1, 1, 2, 3)))]
        several = sum(unit["quantity"] for unit in units) > 1
        made: Node = {"home": "a home of chance", "service": self.service(several), "dwelling units": units}
        if self.often(0.5):
            made["work"] = self.chance.choice(("new", "existing", "addition"))
        if several:
            made["loads"] = [self.load(1) for _ in range(self.chance.choice((0, 0, 1, 4)))]
        made["planned"] = [self.planned(made, several) for _ in range(self.chance.choice((0, 0, 0, 1, 3)))]
        self.feed(made)
        made["sources"] = [self.source(made) for _ in range(self.aside.choice((0, 0, 0, 1, 2)))]
        made["panels"] = [self.panel(made) for _ in range(self.chance.choice((0, 0, 0, 1, 2)))]
        for load in made["planned"]:
            if made["panels"] and self.often(0.5):
                load["panel"] = self.chance.choice(made["panels"])["name"]
        made[FIRST_COUNTS] = self.never_together(made)
        self.carry(made)
        for load in made["planned"]:
            if self.added.random() < 0.1 and not self.is_named(made, load["name"]):
                load["later"] = "yes"
        if self.aside.random() < 0.1:
            made["manufactured home"] = "yes"
        absent = [kind for kind in self.glossary.load_kinds if not any(self.is_of(load, kind) for load in loads_of(made))]
        made["none of"] = self.chance.sample(absent, self.chance.randint(0, min(3, len(absent))))
        if self.aside.random() < 0.1:
            made["not electric"] = ["gas boiler", "wood stove"]
        return _without_empty(made)

    def never_together(self, home: Node) -> list[Node]:
        """A set of loads that never run together, of those that stand for one load in one dwelling unit."""
        single = [each["name"] for each in loads_of(home) if each["quantity"] == 1 and _units_of(home, each) == 1]
        if len(single) < 2 or self.aside.random() < 0.7:
            return []
        return [{"loads": self.aside.sample(single, self.aside.choice((2, 2, min(3, len(single))))), "by": "a changeover switch"}]

    def carry(self, home: Node) -> None:
        """Feed one load from the circuit of another one of the same place, of those that stand for one load."""
        apart = in_sets(home)
        single = [
            each for each in loads_of(home) if each["quantity"] == 1 and _units_of(home, each) == 1 and each["name"] not in apart
        ]
        pairs = [(on, of) for on in single for of in single if on is not of and place_of(home, on) == place_of(home, of)]
        if pairs and self.added.random() < 0.2:
            on, of = self.added.choice(pairs)
            on[ON_CIRCUIT] = of["name"]

    def is_named(self, home: Node, name: str) -> bool:
        """Whether something else of a home names a load, which then may not come later."""
        named = [each.get(ON_CIRCUIT) for each in loads_of(home)] + [circuit.get("load") for circuit in circuits_of(home)]
        return name in (*named, *in_sets(home))

    def evidence(self, load: Node) -> Any:
        """On what a load rests: one word for all of it, or a word for its rating and one for another key."""
        word = self.chance.choice(self.glossary.evidence).replace("_", " ")
        others = [key for key in load if key.replace(" ", "_") in self.fields and key not in ("kind", "rating")]
        if self.added.random() < 0.7 or not others:
            return word
        return {"rating": word, self.added.choice(others): self.added.choice(self.glossary.evidence).replace("_", " ")}

    def is_of(self, load: Node, kind: str) -> bool:
        return load["kind"] in (kind, *self.glossary.load_kinds[kind].also)

    def service(self, several: bool) -> Node:
        made: Node = {"system": self.system, **self.supply()}
        if not several and self.often(0.1):
            made["whole dwelling"] = self.chance.choice(("yes", "no"))
        return made

    def supply(self) -> Node:
        made: Node = {}
        if self.often(0.9):
            made["rating"] = self.or_unknown(f"{self.chance.choice((60, 100, 125, 150, 200, 400, 800))} A")
        if self.often(0.4):
            made["bus"] = self.or_unknown(f"{self.chance.choice((100, 125, 200, 225, 400))} A")
        if self.often(0.3):
            made["terminals"] = self.chance.choice(("60 C", "75 C"))
        if self.often(0.3):
            made["state"] = self.chance.choice(("existing", "to be installed"))
        if self.often(0.6):
            size = self.chance.choice(self.glossary.scales["conductor_size"])
            conductors = {"size": size, "material": self.chance.choice(("copper", "aluminum")), **self.conditions()}
            made["conductors"] = self.or_unknown(conductors)
        return made | self.equipment()

    def conditions(self) -> Node:
        """What may be said of supply conductors beside size and material."""
        made = {
            "sets": self.aside.randint(1, 3),
            "insulation": self.glossary.prints["insulation", self.aside.choice(self.glossary.choices["insulation"])],
            "ambient temperature": self.aside.choice(("77 F", "30 C", "38 °C", "120 F")),
            "number of current-carrying conductors": self.aside.choice((2, 3, 4, 6, 7, 12)),
            "length": self.aside.choice(("40 ft", "90 m")),
        }
        return {
            name: ("unknown" if self.aside.random() < self.hidden else value)
            for name, value in made.items()
            if self.aside.random() < 0.2
        }

    def equipment(self) -> Node:
        """What may be said of a supply beside its main, bus and conductors."""
        made: Node = {"meter": f"{self.aside.choice((100, 200, 320))} A", "center fed": self.aside.choice(("yes", "no"))}
        made["cord"] = f"{self.aside.choice((40, 50))} A"
        made |= {f"{each} electrode": self.aside.choice(("yes", "no")) for each in ("rod", "concrete-encased", "water pipe")}
        made["main overcurrent device"] = self.aside.choice(("yes", "no"))
        made["disconnects"] = [f"{self.aside.choice((60, 100, 200))} A" for _ in range(self.aside.choice((1, 2, 7)))]
        return {name: value for name, value in made.items() if self.aside.random() < 0.1}

    def source(self, home: Node) -> Node:
        made = {
            "name": self.name("roof"),
            "on": self.aside.choice(["service", *(feeder["name"] for feeder in home["feeders"])]),
            "output current": f"{self.aside.choice((16, 32, 48))} A",
            "breaker": f"{self.aside.choice((20, 40, 60))} A",
            "opposite end": self.aside.choice(("yes", "no")),
        }
        return {key: value for key, value in made.items() if key == "name" or self.aside.random() < 0.8}

    def planned(self, home: Node, several: bool) -> Node:
        place = self.chance.choice([*home["dwelling units"], *([None] if several else [])])
        made = self.load(place["quantity"] if place else 1)
        made["in"] = place["name"] if place else "house"
        if self.often(0.3):
            made["settings"] = [f"{setting} A" for setting in self.chance.sample((16, 24, 32, 40, 48), 3)]
            del made["rating"]
            if self.aside.random() < 0.3:
                made["settings"] = self.aside.choice(("6 A to 14 A", "10 to 12 A"))
            elif self.aside.random() < 0.2:
                made["setting"] = self.aside.choice(made["settings"])
        if self.aside.random() < 0.3:
            made["priority"] = self.aside.randint(1, 4)
        there = [load["name"] for load in loads_of(home) if "in" not in load]
        if there and self.often(0.4):
            made["replaces"] = self.chance.sample(there, 1) if self.often(0.5) else self.chance.choice(there)
        return made

    # feeders and panels

    def feed(self, home: Node) -> None:
        """Feeders to dwelling units whole, to parts of them, and to house loads."""
        home["feeders"] = []
        for unit in home["dwelling units"]:
            if self.often(0.3):
                home["feeders"].append(self.feeder(unit["name"]))
            elif self.often(0.25):
                home["feeders"].append(self.feeder(self.part(home, unit)))
        house = [load["name"] for load in loads_of(home) if place_of(home, load) == "house"]
        if house and self.often(0.4):
            home["feeders"].append(self.feeder({"loads": self.chance.sample(house, self.chance.randint(1, len(house)))}))

    def feeder(self, feeds: Any) -> Node:
        made: Node = {"name": self.name("feeder"), "feeds": feeds, **self.supply()}
        if self.system == THREE_PHASE and self.often(0.6):
            made["system"] = OF_WYE
        if self.often(0.1):
            made["service disconnect"] = "yes"
        return made

    def part(self, home: Node, unit: Node) -> Node:
        loads = [load["name"] for load in loads_of(home) if place_of(home, load) == unit["name"]]
        made: Node = {"areas": [area["name"] for area in self.chance.sample(unit["areas"], 1)]}
        if loads:
            made["loads"] = self.chance.sample(loads, self.chance.randint(1, len(loads)))
        if self.often(0.5):
            made["small appliance circuits"] = self.or_unknown(self.chance.randint(0, 3))
        return made

    def panel(self, home: Node) -> Node:
        on = ["service", *(feeder["name"] for feeder in home["feeders"])]
        made: Node = {
            "name": self.name("panel"),
            "on": self.chance.choice(on),
            "spaces": self.or_unknown(self.chance.randint(8, 42)),
        }
        made["circuits"] = [self.circuit(home) for _ in range(self.chance.randint(0, 8))]
        return made

    def circuit(self, home: Node) -> Node:
        made: Node = {
            "breaker": f"{self.chance.choice((15, 20, 30, 50))} A",
            "poles": self.or_unknown(self.chance.choice((1, 2))),
        }
        made["quantity"] = self.chance.choice((1, 1, 2, 4))
        loads = list(loads_of(home))
        if loads and self.often(0.5):
            made["load"] = self.chance.choice(loads)["name"]
        elif home["sources"] and self.aside.random() < 0.5:
            made["source"] = self.aside.choice(home["sources"])["name"]
        else:
            made["for"] = "lights"
        if self.often(0.3):
            made["tandem"] = self.or_unknown(self.chance.choice(("yes", "no")))
        if self.often(0.1):
            made["load replaced"] = self.or_unknown(self.chance.choice(("yes", "no")))
        return made


def random_home(glossary: Glossary, chance: random.Random, *, hiding: float = 0.15) -> Node:
    """A random home; ``hiding`` is the share of homes in which something is not known."""
    hidden = 0.04 if chance.random() < hiding else 0.0
    return _Maker(glossary, chance, hidden).home()


def random_choices(rules: RuleSet, chance: random.Random) -> dict[str, str]:
    """An option for some of the interpretations of an edition."""
    known = interpretations(rules)
    return {address: chance.choice(list(each.options)) for address, each in known.items() if chance.random() < 0.3}


def loads_of(home: Node) -> Iterator[Node]:
    """Every load: of the dwelling units, of the house, planned."""
    for unit in home["dwelling units"]:
        yield from unit.get("loads", ())
    yield from home.get("loads", ())
    yield from home.get("planned", ())


def place_of(home: Node, load: Node) -> str:
    """The dwelling unit that a load is in, or the house."""
    if "in" in load:
        return str(load["in"])
    owners = [unit["name"] for unit in home["dwelling units"] if any(each is load for each in unit.get("loads", ()))]
    return owners[0] if owners else "house"


def circuits_of(home: Node) -> Iterator[Node]:
    """The circuits of all panels."""
    for panel in home.get("panels", ()):
        yield from panel.get("circuits", ())


def in_sets(home: Node) -> set[str]:
    """The names of the loads that stand in a set of loads that never run together."""
    return {name for each in home.get(FIRST_COUNTS, ()) for name in each["loads"]}


def _without_empty(node: Any) -> Any:
    if isinstance(node, dict):
        return {key: _without_empty(each) for key, each in node.items() if each not in ([], {})}
    return [_without_empty(each) for each in node] if isinstance(node, list) else node


def has_counted_legs(node: Node) -> bool:
    """Whether a load, or a load of a dwelling unit, says its legs by counts."""
    return any(isinstance(load.get("legs"), dict) for load in (node, *node.get("loads", ())))


# The same in another way


def shuffled(home: Node, chance: random.Random) -> Node:
    """The same home with the keys of every entry, and every list but two, in another order.

    A planned load that names no panel goes to the first of its supply, so that the panels keep theirs; of equal loads that never
    run together the first that is named is counted, so that their order says something too.
    """

    def turned(node: Any) -> Any:
        if isinstance(node, dict):
            keys = chance.sample(list(node), len(node))
            return {key: node[key] if key == FIRST_COUNTS else turned(node[key]) for key in keys}
        return chance.sample([turned(each) for each in node], len(node)) if isinstance(node, list) else node

    made = turned(home)
    if "panels" in home:
        order = [panel["name"] for panel in home["panels"]]
        made["panels"].sort(key=lambda panel: order.index(panel["name"]))
    return made  # type: ignore[no-any-return]


def respelled(home: Node, glossary: Glossary, chance: random.Random) -> Node:
    """The same home in other units, forms, names and spellings."""

    def told(node: Any, key: str) -> Any:
        if isinstance(node, dict):
            return {chance.choice((name, name.replace(" ", "_"))): told(each, name) for name, each in node.items()}
        if isinstance(node, list):
            return [told(each, key) for each in node]
        if isinstance(node, Quantity):
            return _in_other_unit(node, chance)
        if isinstance(node, Rating):
            return _in_other_form(node, glossary, chance)
        if key == "kind" and _kind(node, glossary):
            kind = glossary.load_kinds[_kind(node, glossary)]
            return chance.choice((kind.name, *kind.also)).upper()
        return node

    made = copy.deepcopy(home)
    for load in loads_of(made):
        if isinstance(load.get("legs"), str) and load["legs"] not in ("unknown", "not seen"):
            load["legs"] = _other_legs(load)
    return told(made, "")  # type: ignore[no-any-return]


def _other_legs(load: Node) -> Any:
    """The lines of a load the other way round; where they are a pair, with the count of all that are on it."""
    lines = load["legs"].lower().split()
    turned = " ".join(reversed(lines))
    return turned if len(lines) > 2 else {turned: load["quantity"]}


def _kind(text: str, glossary: Glossary) -> str:
    return next((name for name, kind in glossary.load_kinds.items() if text in (name, *kind.also)), "")


def _in_other_unit(quantity: Quantity, chance: random.Random) -> Quantity:
    return replace(quantity, shown=chance.choice(OTHER_UNITS[quantity.unit]))


def _in_other_form(rating: Rating, glossary: Glossary, chance: random.Random) -> Rating:
    """Other units and another form of the same basis; watts and volt-amperes stand for one another."""
    basis, values = rating.basis, rating.values
    if basis in ("watts", "volt_amperes"):
        basis = chance.choice(("watts", "volt_amperes"))
        values = {**values, basis: replace(values[rating.basis], unit=AMOUNTS[basis])}
    fields = {*rating.values} - {rating.basis} | ({basis} if rating.basis in rating.values else set())
    form = chance.choice([form for form in glossary.rating_forms[basis] if {*_field(form)} == fields])
    return Rating(basis, form, {name: _in_other_unit(values[name], chance) for name in _field(form)})


def unfolded(home: Node) -> Node:
    """The same home with an entry for each of several equal dwelling units, loads and circuits."""
    made = copy.deepcopy(home)
    names = _copies(made)
    made["dwelling units"] = [copied for unit in made["dwelling units"] for copied in _units(unit)]
    for key in ("loads", "planned"):
        if key in made:
            made[key] = [copied for load in made[key] for copied in _planned_or_house(load, home, names)]
    for feeder in made.get("feeders", ()):
        feeds = feeder["feeds"]
        if isinstance(feeds, str):
            feeder["feeds"] = f"{feeds} copy 0"
            continue
        feeds["areas"] = [f"{name} copy 0" for name in feeds.get("areas", ())]
        feeds["loads"] = [each for name in feeds.get("loads", ()) for each in names[name][: _alike(home, name)]]
    for load in loads_of(made):  # both stand for one load
        if ON_CIRCUIT in load:
            load[ON_CIRCUIT] = names[load[ON_CIRCUIT]][0]
    for each in made.get(FIRST_COUNTS, ()):  # each stands for one load
        each["loads"] = [copied for name in each["loads"] for copied in names[name]]
    turns = {name: itertools.cycle(copies) for name, copies in names.items()}
    for panel in made.get("panels", ()):
        panel["circuits"] = [copied for circuit in panel.get("circuits", ()) for copied in _circuits(circuit, turns)]
    return _without_empty(made)  # type: ignore[no-any-return]


def _alike(home: Node, name: str) -> int:
    return next(int(load["quantity"]) for load in loads_of(home) if load["name"] == name)


def _units_of(home: Node, load: Node) -> int:
    place = place_of(home, load)
    return next((unit["quantity"] for unit in home["dwelling units"] if unit["name"] == place), 1)


def _copies(home: Node) -> dict[str, list[str]]:
    """The names that each load has in its entries, those of the first dwelling unit first."""
    counts = {load["name"]: load["quantity"] * _units_of(home, load) for load in loads_of(home)}
    return {name: [f"{name} copy {at}" for at in range(count)] for name, count in counts.items()}


def _units(unit: Node) -> Iterator[Node]:
    number_of_units = unit["quantity"]
    loads = [list(_entries(load, number_of_units)) for load in unit.get("loads", ())]
    for at in range(number_of_units):
        areas = [{**area, "name": f"{area['name']} copy {at}"} for area in unit["areas"]]
        own = [
            entry
            for entries in loads
            for entry in entries[at * len(entries) // number_of_units :][: len(entries) // number_of_units]
        ]
        yield {**unit, "name": f"{unit['name']} copy {at}", "quantity": 1, "areas": areas, "loads": own}


def _entries(load: Node, units: int) -> Iterator[Node]:
    """An entry for each of a load in all of some equal dwelling units, one unit after another."""
    together = load["quantity"] * units
    legs = load.get("legs")
    each_way: list[Any] = [legs] * together
    if isinstance(legs, dict):
        said = [way for way, count in legs.items() for _ in range(count)]
        each_way = said * (together // len(said))
    for at, way in enumerate(each_way):
        made = {**load, "name": f"{load['name']} copy {at}", "quantity": 1}
        yield {**made, "legs": way} if way else made


def _planned_or_house(load: Node, home: Node, names: dict[str, list[str]]) -> Iterator[Node]:
    units = _units_of(home, load)
    replaced = load.get("replaces", [])
    lost = [name for each in (replaced if isinstance(replaced, list) else [replaced]) for name in names[each]]
    for at, entry in enumerate(_entries(load, units)):
        if load.get("in", "house") != "house":
            entry["in"] = f"{load['in']} copy {at // load['quantity']}"
        yield {**entry, "replaces": lost if at == 0 else []}


def _circuits(circuit: Node, turns: dict[str, Iterator[str]]) -> Iterator[Node]:
    """A circuit for each of an entry, each for the next of the loads that it is for."""
    for _ in range(circuit["quantity"]):
        yield {**circuit, "quantity": 1} | ({"load": next(turns[circuit["load"]])} if "load" in circuit else {})


# More of it


def grown(home: Node, glossary: Glossary, chance: random.Random) -> tuple[str, Node]:
    """A home with one load, rating, area, circuit or quantity more, and which of these it is."""
    while True:
        name, made = chance.choice(list(WAYS_TO_GROW)), copy.deepcopy(home)
        if WAYS_TO_GROW[name](made, glossary, chance):
            return name, made


def _one_more_load(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    unit = chance.choice(home["dwelling units"])
    maker = _Maker(glossary, chance, 0.0)
    maker.system = home["service"]["system"]
    alike = [load["kind"] for load in unit.get("loads", ())]
    load = maker.load(unit["quantity"], _kind(chance.choice(alike), glossary) if alike and chance.random() < 0.5 else "")
    unit.setdefault("loads", []).append({**load, "name": "one more"})
    home.pop("none of", None)
    return True


def _higher_rating(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    rated = [load for load in loads_of(home) if isinstance(load.get("rating"), Rating)]
    if not rated:
        return False
    load = chance.choice(rated)
    rating: Rating = load["rating"]
    name, quantity = next(iter(rating.values.items()))
    larger = round(quantity.amount * chance.uniform(1.01, 3), 2)
    if name == "horsepower":
        larger = next((each for each in HORSEPOWER if each > quantity.amount), HORSEPOWER[-1])
    load["rating"] = replace(rating, values={**rating.values, name: replace(quantity, amount=larger)})
    return True


def _larger_area(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    area = chance.choice(chance.choice(home["dwelling units"])["areas"])
    area["area"] = replace(area["area"], amount=round(area["area"].amount * chance.uniform(1.01, 3), 2))
    return True


def _more_circuits(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    unit, key = chance.choice(home["dwelling units"]), chance.choice(("small appliance circuits", "laundry circuits"))
    if not isinstance(unit[key], int):
        return False
    unit[key] += 1
    return True


def _more_of_a_load(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    loads = [load for load in loads_of(home) if not has_counted_legs(load) and load["name"] not in in_sets(home)]
    if not loads:
        return False
    chance.choice(loads)["quantity"] += chance.randint(1, 3)
    return True


def _more_units(home: Node, glossary: Glossary, chance: random.Random) -> bool:
    units = [unit for unit in home["dwelling units"] if not has_counted_legs(unit)]
    planned = {load["in"] for load in home.get("planned", ()) if has_counted_legs(load)}
    of_sets = {place_of(home, load) for load in loads_of(home) if load["name"] in in_sets(home)}
    units = [unit for unit in units if unit["name"] not in planned | of_sets]
    if not units:
        return False
    chance.choice(units)["quantity"] += chance.randint(1, 3)
    return True


WAYS_TO_GROW: dict[str, Callable[[Node, Glossary, random.Random], bool]] = {
    "load": _one_more_load,
    "rating": _higher_rating,
    "area": _larger_area,
    "circuits": _more_circuits,
    "quantity": _more_of_a_load,
    "units": _more_units,
}
