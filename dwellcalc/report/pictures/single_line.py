"""A single-line diagram: from the utility through meter and main to the bus, and from there to each circuit that is sized."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from dwellcalc.decide.circuit_results import OUT_OF_ORDER, CircuitResult
from dwellcalc.decide.document import Assessment, LoadEntry, SupplyResult
from dwellcalc.report.carried_on import carrying
from dwellcalc.report.pictures.drawing import SIZE, SMALL, Drawing
from dwellcalc.report.pictures.picture import Picture
from dwellcalc.report.pictures.supply_words import (
    NOT_GIVEN,
    SERVICE,
    ahead_of_main,
    at_main,
    bonding_of,
    conductors_of,
    grounding_of,
    main_of,
    neutral_of,
    rated,
    service_disconnect_of,
    sizes,
)
from dwellcalc.report.pictures.symbols import HEIGHT, LEGEND, device, device_across, disconnect, electrode, meter, transformer
from dwellcalc.report.pictures.widths import fitted, width_of
from dwellcalc.report.tables import Table
from dwellcalc.report.wording import counted, lowered

SOURCES = "sources"
PLANNED, REPLACED, LATER = "planned", "replaced", "later"  # how the standing of a load begins
TRUNK, FEEDER_TRUNK = 28.0, 72.0  # where the wires of the service and of a feeder run
SET_IN = 22.0  # the words of a circuit, against those of its supply
RIGHT = 396.0
LINE, SMALL_LINE = 18.0, 16.0
NAMED = 2  # as many loads whose circuits are not sized are named, more are counted
APART = 6.0  # between rows
SENTENCE, MANY = ". ", 9  # what ends a sentence; as many lines has a text that is not cut
GENERAL = "lighting, receptacle and kitchen circuits: not drawn"
SCHEDULED = "lighting, receptacle and kitchen circuits: see the panel schedules"
LATER_TOLD = "later, not in this permit"


def single_line_picture(found: Assessment) -> Picture | None:
    """The diagram of a home's supplies; nothing where there is none."""
    if not found.supplies:
        return None
    service, *feeders = found.supplies
    diagram = _Diagram()
    if carrying(found) is not None:
        diagram.through(found, service, feeders[0])
    else:
        diagram.service(found, service, feeders)
        for number, feeder in enumerate(feeders):
            diagram.feeder(feeder, last=number == len(feeders) - 1)
    rows = [row for supply in found.supplies for row in _rows(found, supply)]
    head = ["Supply", "What", "Overcurrent device", "Conductors", "Grounding"]
    title = "Single-line diagram"
    return Picture(title, _says(found), diagram.drawing.finished(), Table(title, head, rows))


# words


def _grounding(circuit: CircuitResult) -> str:
    """The equipment grounding conductors of a circuit, each with the metal that its heading ends with."""
    shown = [f"{size} {heading.rpartition(', ')[2]}" for heading, size in circuit.grounding.items() if size not in OUT_OF_ORDER]
    return f"grounding {' or '.join(shown)}" if shown else f"grounding {NOT_GIVEN}"


def _device(circuit: CircuitResult) -> str:
    """The device that a panel lists where it suits, else the one that was sized, with the one that does not suit."""
    sized = NOT_GIVEN if circuit.breaker in OUT_OF_ORDER else circuit.breaker
    if circuit.listed in (circuit.breaker, *OUT_OF_ORDER):
        return sized
    return f"{sized} ({circuit.listed} listed)" if circuit.put_right else circuit.listed


def _called(load: LoadEntry | None, circuit: CircuitResult) -> str:
    """The load of a circuit, with what is to be known of it in words."""
    if load is None:
        return circuit.title
    many = [f"{load.quantity:g} of them"] if load.quantity != 1 else []
    words = [*many, *([PLANNED] if load.status.startswith(PLANNED) else [])]
    return f"{circuit.title} ({', '.join(words)})" if words else circuit.title


def _circuits(supply: SupplyResult) -> Iterator[tuple[str, str, str, str]]:
    """Each circuit that is sized: the load, its device, conductors, grounding conductors."""
    loads = {load.name: load for load in supply.loads}
    for each in supply.circuits.circuits if supply.circuits is not None else ():
        yield _told(_called(loads.get(each.load), each), each)


def _later(supply: SupplyResult) -> Iterator[tuple[str, str, str, str]]:
    """The same of the circuits of loads that come later."""
    for each in supply.later.circuits if supply.later is not None else ():
        yield _told(f"{each.title} ({LATER_TOLD})", each)


def _told(name: str, circuit: CircuitResult) -> tuple[str, str, str, str]:
    """What a circuit is called, its device, conductors, grounding conductors."""
    return name, _device(circuit), _conductors(circuit), _grounding(circuit)


def _conductors(circuit: CircuitResult) -> str:
    """The smallest conductors of a circuit, a size that serves under several headings once."""
    if any(size in OUT_OF_ORDER for size in circuit.in_short.values()):
        return sizes(circuit.in_short) or NOT_GIVEN
    return circuit.conductors_in_short() or NOT_GIVEN


def _others(found: Assessment, supply: SupplyResult) -> list[str]:
    """The loads of a supply itself whose circuits are not sized: planned ones by name, the rest counted."""
    circuits = supply.circuits.circuits if supply.circuits is not None else ()
    sized = {name for each in circuits for name in (each.load, *each.others)}
    elsewhere = {load.name for each in found.supplies if each is not supply for load in each.loads}
    mine = [load for load in supply.loads if supply.kind != SERVICE or load.name not in elsewhere]
    rest = [load for load in mine if load.name not in sized and not load.status.startswith((REPLACED, LATER))]
    planned = [load for load in rest if load.status.startswith(PLANNED)]
    words = [f"{load.name} ({PLANNED}), its circuit not sized here" for load in planned]
    apart = {load.name: why for load in rest if load not in planned and (why := _left_out(supply, load.name))}
    words += [f"{name}: {why}" for name, why in apart.items()]
    rest = [load for load in rest if load.name not in apart]
    number = len(rest) - len(planned)
    there = "existing " if all(load.status.startswith("existing") for load in rest if load not in planned) else ""
    more = "and " if sized or planned else ""
    named = " and ".join(load.name for load in rest if load not in planned)
    what = named if number <= NAMED else counted(number, f"{there}load")
    its = "its circuit" if number == 1 else "circuits"
    return [*words, *([f"{more}{what}, {its} not sized here"] if number else []), *_general(found, supply)]


def _general(found: Assessment, supply: SupplyResult) -> list[str]:
    """The circuits for lighting and receptacles, which are not drawn, where one bus has all of them."""
    if supply is not found.supplies[0] or (found.supplies[1:] and carrying(found) is None):
        return []
    circuits = [each for panel in found.panels for each in panel.circuits]
    sized = {each.load for each in supply.circuits.circuits} if supply.circuits is not None else set()
    return [SCHEDULED if any(each.load not in sized for each in circuits) else GENERAL]


def _left_out(supply: SupplyResult, load: str) -> str:
    """Why a load has no circuit of its own that could be sized: why the method that is taken leaves it out."""
    basis = supply.basis.method if supply.basis is not None else ""
    sheets = [each for each in supply.methods if each.id == basis]
    because = next((each.because for sheet in sheets for each in sheet.left_out if load in each.items), "")
    return because.partition(",")[0]  # in a diagram there is room for the first clause


def _sources(found: Assessment) -> list[tuple[str, str]]:
    """The sources of power on the bus, where there is one supply: name and breaker."""
    if len(found.supplies) > 1:
        return []
    names = dict.fromkeys(fact.item for fact in found.facts if fact.of == SOURCES)
    stated = {(fact.item, fact.name): fact.value for fact in found.facts if fact.of == SOURCES}
    return [(f"{name}, a source", stated.get((name, "source breaker"), NOT_GIVEN)) for name in names]


def _rows(found: Assessment, supply: SupplyResult) -> list[list[str]]:
    title = supply.title
    rows = [[title, supply.system, main_of(supply), conductors_of(supply), grounding_of(supply)]]
    if supply.kind == SERVICE:
        rows.append([title, rated("Meter", supply, "meter"), "", "", ""])
    rows += [[title, each, "", "", ""] for each in (*neutral_of(supply), *at_main(supply), *ahead_of_main(supply))]
    rows.append([title, rated("Bus", supply, "bus"), "", "", ""])
    rows += [[title, *each] for each in (*_circuits(supply), *_later(supply))]
    rows += [[title, name, breaker, "", ""] for name, breaker in (_sources(found) if supply.kind == SERVICE else [])]
    return rows + [[title, each, "", "", ""] for each in _others(found, supply)]


def _says(found: Assessment) -> str:
    service, *feeders = found.supplies
    parts = [", ".join(map(_lower, [main_of(service), conductors_of(service), rated("Bus", service, "bus")]))]
    parts += [f"{each.title}: {_lower(main_of(each))}, {_lower(conductors_of(each))}" for each in feeders]
    number = sum(len(each.circuits.circuits) for each in found.supplies if each.circuits is not None)
    sources = any(fact.of == SOURCES for fact in found.facts)
    general = "" if _general(found, service) else " Circuits for lighting and receptacles are not drawn."
    left_out = " Sources are not drawn." if sources and feeders else ""
    drawn = f"{counted(number, 'circuit')} that are sized here" if number != 1 else "one circuit that is sized here"
    return f"From the utility: {'; '.join(parts)}; {drawn}.{general}{left_out} {LEGEND}"


def _lower(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"


# drawing


class _Diagram:
    def __init__(self) -> None:
        self.drawing = Drawing()
        self.y = APART

    def service(self, found: Assessment, supply: SupplyResult, feeders: Sequence[SupplyResult]) -> None:
        """The service down to the last of its own circuits."""
        x = TRUNK
        self.beside(x, [f"Utility, {supply.system}"], transformer(self.drawing, x, self.y))
        self.beside(x, [rated("Meter", supply, "meter")], meter(self.drawing, x, self.y))
        for text in ahead_of_main(supply):
            first, *more = text.split(SENTENCE)
            self.beside(x, [first], disconnect(self.drawing, x, self.y), MANY)
            self.wire(x, more, MANY)
        self.wire(x, [conductors_of(supply), *neutral_of(supply)], MANY)
        self.beside(x, [main_of(supply), *at_main(supply)], device(self.drawing, x, self.y), MANY)
        electrode(self.drawing, x, self.y + 2)
        self.wire(x, [grounding_of(supply), *bonding_of(supply), *service_disconnect_of(supply)], MANY)
        circuits = [*_circuits(supply), *((name, breaker, "", "") for name, breaker in _sources(found))]
        self.bus(x, supply, circuits, _others(found, supply))
        self.found, self.open = found, bool(feeders)

    def through(self, found: Assessment, service: SupplyResult, feeder: SupplyResult) -> None:
        """A service of which a feeder carries the whole load: utility, meter and main, then the feeder to the bus of the panel."""
        x = TRUNK
        self.beside(x, [f"Utility, {service.system}"], transformer(self.drawing, x, self.y))
        self.wire(x, [f"Service {lowered(conductors_of(service))}", *neutral_of(service)], MANY)
        self.beside(x, [rated("Meter", service, "meter")], meter(self.drawing, x, self.y))
        self.beside(x, [main_of(service), *at_main(service)], device(self.drawing, x, self.y), MANY)
        electrode(self.drawing, x, self.y + 2)
        told = [text.split(SENTENCE)[0] for text in ahead_of_main(service)]
        self.wire(x, [grounding_of(service), *bonding_of(service), *told], MANY)
        self.words(x, [feeder.title], SIZE)
        self.drawing.line([(x, self.y - LINE), (x, self.y)], "wire")
        self.wire(
            x,
            [
                conductors_of(feeder),
                *neutral_of(feeder),
                grounding_of(feeder),
                *([main_of(feeder)] * feeder.protected_by_service),
            ],
        )
        if not feeder.protected_by_service:
            self.beside(x, [main_of(feeder)], device(self.drawing, x, self.y))
        circuits = [*_circuits(service), *((name, breaker, "", "") for name, breaker in _sources(found))]
        rest = _others(replace(found, supplies=[service]), service)
        self.bus(x, feeder, circuits, rest, service)

    def feeder(self, supply: SupplyResult, *, last: bool) -> None:
        """A feeder below the service, with its own bus; the bus of the service goes on to the last of them."""
        top, x = self.y, FEEDER_TRUNK
        self.y += APART
        self.drawing.line([(TRUNK, self.y), (x, self.y), (x, self.y + APART)], "wire")
        self.drawing.line([(TRUNK, top), (TRUNK, self.y)], "bus")
        level = self.y
        self.y += APART
        self.words(x, [f"{supply.title}, {supply.system}"], SIZE)
        self.drawing.line([(x, level), (x, self.y)], "wire")
        self.wire(x, [conductors_of(supply), *neutral_of(supply), grounding_of(supply)], MANY)
        self.beside(x, [main_of(supply)], device(self.drawing, x, self.y))
        self.bus(x, supply, list(_circuits(supply)), _others(self.found, supply))
        if not last:
            self.drawing.line([(TRUNK, level), (TRUNK, self.y)], "bus")

    def bus(
        self,
        x: float,
        supply: SupplyResult,
        circuits: Sequence[tuple[str, str, str, str]],
        others: Sequence[str],
        of: SupplyResult | None = None,
    ) -> None:
        """A bus with a row for each circuit; ``of`` is the supply that tells its later loads, where that is another."""
        top = self.y
        self.words(x, [rated("Bus", supply, "bus")], SIZE)
        self.y += APART
        for name, breaker, conductors, grounding in circuits:
            device_across(self.drawing, x, self.y + LINE / 2)
            self.drawing.text((RIGHT, self.y + LINE - 3), breaker, "figure", SIZE, "end")
            self.words(x + SET_IN, [name], SIZE, width_of(breaker, SIZE) + APART)
            self.words(x + SET_IN, [each for each in (conductors, grounding) if each], SMALL)
            self.y += APART
        for name, breaker, conductors, grounding in _later(of or supply):
            device_across(self.drawing, x, self.y + LINE / 2, "rating")
            self.drawing.text((RIGHT, self.y + LINE - 3), breaker, "figure", SIZE, "end")
            self.words(x + SET_IN, [name], SIZE, width_of(breaker, SIZE) + APART)
            self.words(x + SET_IN, [each for each in (conductors, grounding) if each], SMALL)
            self.y += APART
        for text in others:
            self.drawing.line([(x, self.y + LINE / 2), (x + HEIGHT, self.y + LINE / 2)], "rating")
            self.words(x + SET_IN, [text], SMALL)
            self.y += APART
        self.drawing.line([(x, top), (x, self.y)], "bus")

    def beside(self, x: float, texts: Sequence[str], below: float, lines: int = 2) -> None:
        """Words beside a symbol that ends at a height."""
        top = self.y
        self.y += (HEIGHT - LINE) / 2
        self.words(x, texts, SIZE, lines=lines)
        lower = max(self.y, below)
        if lower > below:
            self.drawing.line([(x, below), (x, lower)], "wire")
        self.y = max(lower, top + HEIGHT)

    def wire(self, x: float, texts: Sequence[str], lines: int = 2) -> None:
        """Words beside a piece of wire."""
        top = self.y
        self.words(x, texts, SMALL, lines=lines)
        self.y += APART
        self.drawing.line([(x, top), (x, self.y)], "wire")

    def words(self, x: float, texts: Sequence[str], size: float, kept: float = 0, lines: int = 2) -> None:
        """Lines of text to the right of a wire, in as many as they need up to ``lines`` each; ``kept`` is what stays free."""
        left = x + HEIGHT - APART
        for text in texts:
            for line in fitted(text, size, RIGHT - left - kept, lines):
                self.y += LINE if size == SIZE else SMALL_LINE
                self.drawing.text((left, self.y - 3), line, "label" if size == SIZE else "note", size)
