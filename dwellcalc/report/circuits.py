"""The tables of branch circuits: device, conductors and equipment grounding conductor, and the voltage drop for information."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.circuit_results import OUT_OF_ORDER, CircuitResult, CircuitsResult
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

COLUMNS = (
    "The smallest sizes: by the lower column of ampacities where terminals are not marked for more and for nonmetallic-sheathed "
    "cable, by the higher one where the equipment at both ends is marked for it; not more than three current-carrying conductors, "
    "no correction for heat. The device is the next standard rating over the minimum ampacity, or that which the load must start on. "
    "Where a panelboard lists a breaker that suits the load, conductors and grounding conductor are for that one. With a larger "
    "device they are to be sized anew, but for motors and compressors. Circuits that are there and stay are not sized here."
)
NO_LIMIT = (
    "A dash under the largest device says that no limit is calculated here, not that there is none: what the nameplate and the "
    "maker's instructions state governs. Limits are calculated from a marked maximum, for motors and compressors by their ratings, "
    "and for single appliances without a motor."
)
INFORMATION = "Voltage drop is for information: the code recommends a limit and does not ask for one."


def circuit_blocks(found: CircuitsResult | None) -> list[Block]:
    """The branch circuits of a supply; nothing where none is sized."""
    if found is None:
        return []
    blocks: list[Block] = [Heading(2, "Branch circuits"), Paragraph(COLUMNS), circuits_table(found.circuits)]
    blocks += [Paragraph(NO_LIMIT)] if any(each.largest in OUT_OF_ORDER for each in found.circuits) else []
    told, missing = notes(found.circuits)
    blocks += [Listing(told)] if told else []
    if missing:
        blocks += [Paragraph("Cannot be sized until these are known:"), Listing(missing)]
    return blocks + _drops([each for each in found.circuits if each.drops])


def circuits_table(circuits: Sequence[CircuitResult]) -> Table:
    """Devices and smallest conductors, a row for each circuit; that of the panel where one is listed for any of them."""
    listed = any(each.listed not in OUT_OF_ORDER for each in circuits)
    head = ["Load", "Minimum", "Device", "Largest device", *(["In the panel"] if listed else [])]
    head += [*circuits[0].conductors, *circuits[0].grounding]
    rows = [[*_devices(each, listed), *each.conductors.values(), *each.grounding.values()] for each in circuits]
    return Table("", head, rows, _aligned(head))


def notes(circuits: Sequence[CircuitResult]) -> tuple[list[str], list[str]]:
    """What is to be known of circuits, then what is missing to size them, each with its load."""
    told = [
        f"{each.load}: {remark}" for each in circuits for remark in (*map(each.listed_breaker, each.put_right), *each.remarks)
    ]
    return told, [f"{each.load}: {', '.join(each.missing)}" for each in circuits if each.missing]


def devices_and_conductors(found: CircuitsResult | None, table: Table) -> list[Block]:
    """The table of branch circuits as two that are narrow: the devices, and the smallest conductors."""
    first = found.circuits[0] if found is not None else None
    sizes = 0 if first is None else len(first.conductors) + len(first.grounding)
    devices = len(table.head) - sizes
    kept = (range(devices), [0, *range(devices, len(table.head))])
    titles = ("Devices", "Smallest conductors, and equipment grounding conductors")
    return [_of_columns(table, title, columns) for title, columns in zip(titles, kept, strict=True)]


def _of_columns(table: Table, title: str, columns: Sequence[int]) -> Table:
    """Some columns of a table."""
    rows = [[row[at] for at in columns] for row in table.rows]
    head, sides = ([side[at] for at in columns] for side in (table.head, table.alignment()))
    return Table(title, head, rows, sides)


def _devices(circuit: CircuitResult, listed: bool) -> list[str]:
    """The load, its minimum and its devices; that of the panel where one is listed for any load."""
    judged = ", ".join([circuit.listed, *circuit.put_right])
    return [circuit.title, circuit.minimum, circuit.breaker, circuit.largest, *([judged] if listed else [])]


def _drops(circuits: list[CircuitResult]) -> list[Block]:
    if not circuits:
        return []
    first = circuits[0]
    within = [f"{heading} within it" for heading in (*first.drop_conductors, *first.drop_grounding)]
    head = ["Load", *first.drops, *within]
    rows = [
        [each.title, *each.drops.values(), *each.drop_conductors.values(), *each.drop_grounding.values()] for each in circuits
    ]
    return [
        Paragraph(INFORMATION),
        Table("Voltage drop, and the smallest conductors within the recommended one", head, rows, _aligned(head)),
    ]


def _aligned(head: list[str]) -> list[str]:
    return ["left", *["right" for _ in head[1:]]]
