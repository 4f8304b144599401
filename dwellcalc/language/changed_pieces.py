"""The piece of a rule set that a change names, the section that the change rests on, and its evidence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from dwellcalc.language.applied import Applied, ChangeSet
from dwellcalc.language.citations import Citation
from dwellcalc.language.documents import QUOTED, Interpretation, Line, Parameter
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tables import Table
from dwellcalc.language.words import ASSESSMENT
from dwellcalc.placed import spaced

OF_CITATIONS = "citations."


def piece_of(rules: RuleSet, address: str) -> Any:
    """The citation, line, parameter, table, interpretation, group, run or given value of an address; none where it is not there."""
    owner, _, rest = address.partition(".")
    if address.startswith(OF_CITATIONS):
        return rules.citations.get(rest.partition(".")[0])
    document, name = rules.documents.get(owner), rest.partition(".")[0]
    if document is None:
        return None
    sections: tuple[dict[str, Any], ...] = (
        document.lines,
        document.parameters,
        document.tables,
        document.interpretations,
        document.groups,
        document.runs,
        document.given,
    )
    return next((section[name] for section in sections if name in section), None)


def section_of(change: Applied, rules: Iterable[RuleSet]) -> str:
    """The section that a change rests on, in the first of the rule sets that has it.

    It is the change's own, else that of the piece, else those that a text of the assessment names.
    """
    several = list(rules)
    if change.cite:
        found = next((each for each in several if change.cite in each.citations), None)
        return change.cite if found is None else found.section(change.cite)
    for each in several:
        cite = getattr(piece_of(each, change.address), "cite", None)
        if cite:
            return each.section(str(cite))
    return (
        ", ".join(dict.fromkeys(quoted(name, several) for name in QUOTED.findall(change.now or change.was)))
        if of_assessment(change)
        else ""
    )


def of_assessment(change: Applied) -> bool:
    """Whether a change is of what an assessment does and says."""
    return change.address.partition(".")[0] == ASSESSMENT


def quoted(cite: str, rules: Iterable[RuleSet]) -> str:
    """The section of a citation key in the first of the rule sets that has it; its words where none has it."""
    return next((each.section(cite) for each in rules if cite in each.citations), spaced(cite))


def sections_of(changes: ChangeSet, rules: Sequence[RuleSet]) -> list[str]:
    """The sections that a set of changes rests on, each once."""
    found = (section_of(change, rules) for change in changes.changes)
    return list(dict.fromkeys(section for section in found if section))


def evidence_of(change: Applied, rules: Iterable[RuleSet]) -> tuple[str, str]:
    """The source keys and the grade of confidence of a change: its own, else those of the piece."""
    if change.confidence or change.source:
        return change.source, change.confidence
    for each in rules:
        piece = piece_of(each, change.address)
        if isinstance(piece, Interpretation):
            changed = [option for name, option in piece.options.items() if change.address.endswith(f".options.{name}")]
            options = [str(option.source) for option in changed or piece.options.values() if option.source]
            return " ".join(dict.fromkeys(key for keys in options for key in keys.split())), ""
        stated = piece.evidence if isinstance(piece, (Line, Parameter)) else piece
        if isinstance(piece, (Line, Parameter, Table, Citation)) and stated.confidence:
            return str(getattr(stated, "source", None) or ""), str(stated.confidence)
    return "", ""
