"""One line of a sheet in depth: section, way, numbers, rows, members, alternatives, and where each input stands."""

from __future__ import annotations

from dwellcalc.decide.document import Assessment, FactEntry
from dwellcalc.evaluate.sheet import Condition, Outcome, Part, RowUsed, SheetLine
from dwellcalc.placed import spaced
from dwellcalc.report.rests_on import rests_on
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table


def explanation(found: Assessment, line: SheetLine) -> list[Block]:
    """Everything that a line rests on."""
    blocks: list[Block] = [Heading(1, line.title), Paragraph(f"{line.id}, {line.cite}, {found.rule_set['title']}")]
    if line.note and not line.holds:
        blocks.append(Paragraph(line.note))
    if line.source:
        blocks.append(Paragraph(f"Evidence of its numbers: {line.source} ({line.confidence})."))
    outcomes = [line.outcome] if line.outcome is not None else line.items
    if not outcomes:
        blocks.append(Paragraph("No item of this home is in its group, or the result did not need it."))
    for outcome in outcomes:
        blocks += _outcome(outcome)
    if line.interpretation:
        blocks.append(Paragraph(f"It depends on the interpretation of: {', '.join(line.interpretation)}."))
    if line.amended:
        blocks.append(Paragraph(f"Changed by an amendment: {'; '.join(line.amended)}."))
    if line.origin:
        blocks += [Paragraph("Changed by:"), Listing(line.origin)]
    return blocks + rests_on(found, line) + _inputs(found, outcomes)


def _outcome(outcome: Outcome) -> list[Block]:
    blocks: list[Block] = []
    if outcome.item is not None:
        blocks.append(Heading(2, outcome.item))
    if outcome.state == "not needed":
        return [*blocks, Paragraph("The result did not need it.")]
    blocks.append(Paragraph(f"Result: {outcome.printed}" + (f" ({outcome.cite})" if outcome.cite else "")))
    if outcome.applies is not None:
        blocks.append(Paragraph(f"Applies where {outcome.applies.when}: {_yes(outcome.applies.outcome)}"))
    if outcome.conditions:
        rows = [[_when(each), _yes(each.outcome)] for each in outcome.conditions]
        blocks.append(Table("Cases", ["When", "Holds"], rows, ["left", "left"]))
    if outcome.formula:
        blocks.append(Paragraph(" = ".join(dict.fromkeys((outcome.formula, outcome.with_numbers, outcome.printed)))))
    if outcome.phrases:
        rows = [[each.phrase, f"{each.taken:,.2f}", f"{each.value:,.2f} {outcome.unit}"] for each in outcome.phrases]
        blocks.append(Paragraph(f"Of {outcome.of}, {outcome.quantity:,.2f} {outcome.quantity_unit}:"))
        blocks.append(Table("Tiers", ["Tier", "Part", "Gives"], rows, ["left", "right", "right"]))
    if outcome.parts:
        rows = [[each.id, each.title, "-" if each.value is None else _part(each), each.why] for each in outcome.parts]
        blocks.append(Table("Parts", ["Line", "Title", "Value", ""], rows, ["left", "left", "right", "left"]))
    for gathered in outcome.members:
        rows = [
            [each.item, "" if each.value is None else f"{each.value:,.2f}", f"{each.weight:g}", each.state]
            for each in gathered.items
        ]
        blocks.append(
            Table(f"Members of {gathered.call}", ["Item", "Value", "Number", ""], rows, ["left", "right", "right", "left"])
        )
    if outcome.rows_used:
        blocks.append(_rows(outcome.rows_used))
    blocks += [Paragraph(f"Missing: {', '.join(outcome.missing)}")] if outcome.missing else []
    return blocks + ([Listing(outcome.refusals)] if outcome.refusals else [])


def _part(part: Part) -> str:
    return part.printed if isinstance(part.value, str) else f"{part.value:,.2f} {part.unit}"


def _when(condition: Condition) -> str:
    return condition.when if condition.when is not None else "otherwise"


def _yes(outcome: bool | None) -> str:
    return "not known" if outcome is None else "yes" if outcome else "no"


def _rows(used: list[RowUsed]) -> Table:
    rows = [[f"{each.section}: {each.table}", each.keys_printed, each.row, each.cell] for each in used]
    return Table("Table rows used", ["Table", "For", "Row", "Cell"], rows, ["left", "left", "left", "left"])


def _inputs(found: Assessment, outcomes: list[Outcome]) -> list[Block]:
    items = {member.item for outcome in outcomes for each in outcome.members for member in each.items}
    items |= {outcome.item for outcome in outcomes if outcome.item is not None}
    names = {spaced(given.name.rpartition(".")[2]) for outcome in outcomes for given in outcome.inputs}
    facts = [fact for fact in found.facts if fact.item in items or (fact.name in names and not fact.item)]
    if not facts:
        return []
    rows = [_fact(fact) for fact in facts]
    head = ["Item", "Fact", "Value", "As written", "Where", "Evidence"]
    return [Table("Inputs in the home file", head, rows, ["left"] * len(head))]


def _fact(fact: FactEntry) -> list[str]:
    evidence = "assumed" if fact.assumed else fact.evidence
    return [fact.item or fact.of, fact.name, fact.value, fact.written, fact.place, evidence]
