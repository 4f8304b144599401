"""Panel schedules as tables: each circuit with its breaker, what is on it, and what was sized for it; then the breaker spaces."""

from __future__ import annotations

from dwellcalc.decide.document import Assessment
from dwellcalc.decide.panel_results import ListedCircuit, PanelSchedule
from dwellcalc.report.tables import Block, Heading, Paragraph, Table
from dwellcalc.report.wording import counted

TITLE = "Panel schedules"
ORDER = (
    "The device is that which was sized for the load, in brackets the least and the largest that the load allows where a largest is known. "
    "The smallest conductors are for the breaker that is listed where it suits, else for that device. Where neither stands, the circuit "
    "was not sized."
)
AS_WRITTEN = (
    "The circuits stand in the order of the home file, not of the breaker spaces. Numbers of spaces are given out where every circuit of "
    "a new panelboard is listed."
)
NUMBERED = (
    "The spaces are given out here in the order of the home file, as a proposal: odd numbers down the left side and even ones down the "
    "right, as is common practice of the trade, so that a breaker of two poles takes two on one side, such as 1 and 3. The numbers and "
    "the instructions of the panelboard govern."
)
PROPOSED = (
    "No circuits are listed in the home file, so this is a proposal: the circuits that are sized here, then the fewest for lighting and "
    "receptacles that a new home has to have. More are common, and loads whose circuits are not sized here are not in it."
)
WHAT = "panel"
NOT_LISTED = "planned, not listed"
PROPOSED_ONE = "proposed"
REMOVED = "removed"
REMOVED_NOT_LISTED = "removed, not listed"
LATER, NOT_YET_LISTED = "later, not in this permit", "not listed"


def panel_blocks(found: Assessment) -> list[Block]:
    """The schedules of all panelboards under a heading; nothing where no circuit goes to any."""
    told = [each for each in found.panels if each.circuits]
    if not told:
        return []
    order = NUMBERED if any(each.places for panel in told for each in panel.circuits) else AS_WRITTEN
    blocks: list[Block] = [Heading(2, TITLE), Paragraph(f"{order} {ORDER}")]
    blocks += [Paragraph(PROPOSED)] if any(each.proposed for each in told) else []
    for each in told:
        blocks += [_table(each), Paragraph(_spaces(each))]
    return blocks


def _table(panel: PanelSchedule) -> Table:
    numbered = any(each.places for each in panel.circuits)
    head = [
        *(["Spaces"] if numbered else []),
        "On it",
        "Circuits",
        "Breaker",
        "Poles",
        "Device for the load",
        "Smallest conductors",
    ]
    rows = [[*([each.places] if numbered else []), *_row(each, proposed=panel.proposed)] for each in panel.circuits]
    if numbered and panel.free:
        rows.append([panel.free, f"free, {counted(panel.free_number, 'space')}", "", "", "", "", ""])
    return Table(_called(panel), head, rows, [*(["left"] if numbered else []), "left", *["right"] * 4, "left"])


def _called(panel: PanelSchedule) -> str:
    """The name of a panelboard, with what it is where its name does not say that."""
    return f"{panel.name[:1].upper()}{panel.name[1:]}" if WHAT in panel.name.casefold() else f"{WHAT.capitalize()} {panel.name}"


def _row(circuit: ListedCircuit, *, proposed: bool) -> list[str]:
    on_it = f"{circuit.on_it} ({LATER})" if circuit.later else circuit.on_it
    unlisted = NOT_YET_LISTED if circuit.later else REMOVED_NOT_LISTED if circuit.removed else NOT_LISTED
    said = [*circuit.put_right, *[REMOVED] * (circuit.removed and circuit.listed)]
    unlisted = f"{circuit.device} {PROPOSED_ONE}".strip() if proposed and not circuit.later else unlisted
    breaker = ", ".join([circuit.breaker if circuit.listed else unlisted, *said])
    return [on_it, f"{circuit.quantity:g}", breaker, circuit.poles, _device(circuit), circuit.conductors]


def _device(circuit: ListedCircuit) -> str:
    return f"{circuit.device} ({circuit.limits})" if circuit.limits else circuit.device


def _spaces(panel: PanelSchedule) -> str:
    """The breaker spaces in a sentence."""
    *parts, last = [_of_spaces(title, value) for title, value in panel.of_spaces.items()]
    if panel.proposed:
        return f"Breaker spaces: {panel.spaces}; {last} by this proposal{_with_later(panel)}."
    if panel.unlisted:
        taken = f"{parts[0]}, {panel.unlisted} of them by circuits that are not in this schedule"
        parts = [taken, *parts[1:]]
    left = panel.left_with_later
    short = f"{left.removeprefix('-')} too few" if left.startswith("-") else left
    last += f", {short} with what comes later in" if left else ""
    told = [*(each for each in parts if not each.startswith("0 ")), last]
    return f"Breaker spaces: {panel.spaces}{'' if _is_listed(panel) else ', taken as those that are free'}; {', '.join(told)}."


def _of_spaces(title: str, value: str) -> str:
    """What is told of spaces; less than none are missing."""
    return f"none {title}, {value.removeprefix('-')} are missing" if value.startswith("-") else f"{value} {title}"


def _with_later(panel: PanelSchedule) -> str:
    """The spaces left where the circuits of what comes later are in too, which the schedule shows."""
    later = [each for each in panel.circuits if each.later]
    if not later:
        return ""
    every = all(each.places for each in panel.circuits)
    return f", {panel.free_number} with what comes later in" if every else "; not all that comes later finds place"


def _is_listed(panel: PanelSchedule) -> bool:
    """Whether the home lists circuits of a panelboard, or says how many of its spaces are taken; else its spaces are taken to be those that are free."""
    return any(each.listed for each in panel.circuits) or next(iter(panel.of_spaces.values()), "0") != "0"
