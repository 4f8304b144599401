"""A record of the metered demand as it is printed: its verdict with the reasons, its maximum, its months, the calculated load beside it."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.decide.record_document import NOT_USABLE, CrossCheckResult, GapResult, Gate, RecordResult
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table
from dwellcalc.report.wording import lowered

DEMAND, HIGHEST, MONTHS = OF_DEMAND = ("The demand", "The highest windows", "The months")  # how their titles begin
NOT_VERIFIED = "not known"
IN_FILE = "In the file's standard time"
IF_IT_SERVED = "Load by the record, if it could be used"
MENDING = "What would mend it stands with the record; values that are lacking may hide a higher maximum."
FEW = 3  # moments that are printed


def record_in_short(found: RecordResult) -> list[list[str]]:
    """The rows of the first lines that tell of a record."""
    rows = [["Record of the metered demand", f"{found.verdict}; {found.file}, {found.begins} to {found.ends}"]]
    if found.highest:
        peak = found.highest[0]
        would = "would be" if found.verdict == NOT_USABLE else "is"
        taken = "" if found.maximum is None else f"{found.maximum:,.2f} A {would} taken; "
        in_file = f" ({peak.in_file} in the file)" if peak.in_file else ""
        stood = f"the highest {found.window:g} min stood at {kilowatts(peak.power)}, {peak.at}{in_file}"
        rows.append(["Maximum demand", f"{taken}{stood}"])
    if found.if_it_served is not None:
        fits = {True: ", not over the capacity", False: ", over the capacity too", None: ""}[found.it_would_fit]
        rows.append([IF_IT_SERVED, f"{found.if_it_served:,.2f} A with the same maximum{fits}. {MENDING}"])
    if found.cross_check is not None:
        check = found.cross_check
        beside = f"{check.calculated:,.2f} A by the {lowered(check.by)}, {check.ratio:,.2f} times the metered maximum"
        rows.append(["Calculated existing load", ". ".join([beside, *check.told])])
    return rows


def record_blocks(found: RecordResult) -> list[Block]:
    """The record as a part of a sheet, whose lines tell what it was held to and met."""
    blocks: list[Block] = [Heading(2, "The record of the metered demand"), Paragraph(_verdict(found)), Paragraph(found.clock)]
    blocks += _reasons("What keeps it from being used, the worst first", found.refusing)
    blocks += _reasons("What is to be told of it", found.remarked)
    if found.read_remarks:
        blocks += [Paragraph("What was noticed in it:"), Listing(list(found.read_remarks))]
    blocks += [*_not_looked_at(found), _figures(found)]
    blocks += [_highest(found), _months(found)]
    blocks += [Paragraph("How the file was read:"), Listing(list(found.layout))]
    return [*blocks, *cross_check_blocks(found.cross_check)]


def meter_pages(found: RecordResult, edition: str, cautions: Sequence[str], *, alone: bool) -> list[Block]:
    """A record by itself.

    Args:
        found: the record, judged.
        edition: the edition by whose rules it was.
        cautions: those of every sheet.
        alone: whether no home was given, so that nothing is known of the dwelling.
    """
    without = "No home was given: amperes are those at the nominal voltage of a single-phase supply, and what the home file would say of the dwelling counts as not said."
    blocks = [*record_blocks(found), *_met(found)]
    title = Heading(1, f"{found.file}, by {edition}")
    return [title, *([Paragraph(without)] if alone else []), *blocks, Heading(2, "Cautions"), Listing(list(cautions))]


def _verdict(found: RecordResult) -> str:
    rest = (
        "The existing load is calculated instead."
        if found.verdict == NOT_USABLE
        else "It shows what was drawn, not what the service has to spare."
    )
    return f"The record is {found.verdict}. {rest}"


def _reasons(title: str, gates: list[Gate]) -> list[Block]:
    if not gates:
        return []
    rows = [[_asked(gate), _found(gate), _moments(gate), _authority(gate), gate.cure] for gate in gates]
    return [Table(title, ["Held to", "Found", "When", "By", "What would mend it"], rows)]


def _not_looked_at(found: RecordResult) -> list[Block]:
    """What could not be looked at; it is not called met."""
    rows = [[gate.title, "\n".join(gate.not_looked_at), _authority(gate)] for gate in found.not_looked_at]
    return [Table("Not looked at, for what it asks about is not given", ["Asked", "Not given", "By"], rows)] if rows else []


def _asked(gate: Gate) -> str:
    return f"{gate.title} (not known)" if gate.outcome == NOT_VERIFIED else gate.title


def _moments(gate: Gate) -> str:
    """The first moments, and how many more there are."""
    more = len(gate.moments) - FEW
    return "\n".join([*gate.moments[:FEW], *([f"and {more:,} more"] if more > 0 else [])])


def _found(gate: Gate) -> str:
    return gate.found


def _authority(gate: Gate) -> str:
    return gate.cite if gate.status == "code" else f"{gate.cite}, {gate.status}"


def _figures(found: RecordResult) -> Table:
    rows = [["From", found.begins], ["To", found.ends], *found.tells]
    if found.maximum is not None:
        rows.append(["Maximum demand in amperes", f"{found.maximum:,.2f} A"])
    rows += _gaps(found.gaps)
    return Table(DEMAND, ["", ""], rows)


def _gaps(gaps: list[GapResult]) -> list[list[str]]:
    """What no value fills, the longest gaps with their first and last moment."""
    told = [f"{each.hours:,.4g} h, {each.begins} to {each.ends}" for each in gaps[:FEW]]
    rest = gaps[FEW:]
    told += [f"and {len(rest):,} more; all of them {sum(each.hours for each in gaps):,.4g} h"] if rest else []
    title = "Gaps without values that may be used, the longest first" if gaps[1:] else "Gap without values that may be used"
    return [[title, "\n".join(told)]] if gaps else []


def _highest(found: RecordResult) -> Table:
    stamped = any(each.in_file for each in found.highest)
    rows = [[each.at, *([each.in_file or each.at] if stamped else []), kilowatts(each.power)] for each in found.highest]
    head = ["Begins", *([IN_FILE] if stamped else []), "Average"]
    return Table(f"{HIGHEST} of {found.window:g} min", head, rows, [*["left"] * (len(head) - 1), "right"])


def _months(found: RecordResult) -> Table:
    stamped = any(each.in_file for each in found.months)
    rows = [
        [
            each.name,
            f"{each.coverage:.1f} %",
            f"{each.energy / 1000:,.0f} kWh",
            "" if each.maximum is None else kilowatts(each.maximum),
            each.at,
            *([each.in_file or each.at] if stamped else []),
        ]
        for each in found.months
    ]
    head = ["Month", "Values fill", "Energy", "Highest", "Begins", *([IN_FILE] if stamped else [])]
    return Table(MONTHS, head, rows, ["left", "right", "right", "right", "left", *(["left"] if stamped else [])])


def _met(found: RecordResult) -> list[Block]:
    met = [f"{gate.title} ({_authority(gate)})" for gate in found.gates if gate.outcome == "yes" and not gate.not_looked_at]
    return [Paragraph("Held to and met:"), Listing(met)] if met else []


def cross_check_blocks(found: CrossCheckResult | None) -> list[Block]:
    """The calculated existing load beside the metered maximum."""
    if found is None:
        return []
    text = (
        f"The calculated existing load is {found.calculated:,.2f} A by the {lowered(found.by)}, the metered maximum "
        f"{found.measured:,.2f} A: {found.ratio:,.2f} times. This is plausibility, not code, and changes no number."
    )
    return [Paragraph(" ".join([text, *found.told]))]


def kilowatts(power: float) -> str:
    """A power in print."""
    return f"{power / 1000:,.3f} kW"
