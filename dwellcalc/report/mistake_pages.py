"""The catalogue of mistakes as an edition has it, in print."""

from __future__ import annotations

from collections.abc import Sequence

from dwellcalc.language.mistakes import Mistake
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.report.tables import Block, Heading, Paragraph, Table
from dwellcalc.report.wording import counted
from dwellcalc.review.suspects import Suspect


def mistake_pages(rules: RuleSet, found: Sequence[tuple[Mistake, Suspect | None]]) -> list[Block]:
    """The catalogue: what each mistake is, what is right, by which section, how it weighs, and how sure that is.

    Args:
        rules: the edition.
        found: the entries, each as the edition has it, or nothing where it holds nothing of it.
    """
    held = [(entry, suspect) for entry, suspect in found if suspect is not None]
    blocks: list[Block] = [
        Heading(1, f"Mistakes that a review looks for under {rules.title}"),
        Paragraph(
            f"{counted(len(held), 'mistake')}. A review names those that reproduce a figure; it also tries the open questions of the code."
        ),
    ]
    for title in dict.fromkeys(entry.catalogue for entry, _ in held):
        rows = [_row(entry, suspect) for entry, suspect in held if entry.catalogue == title]
        blocks += [Heading(2, title), Table("", ["What was done", "What is right", "Section", "Weight", "Evidence"], rows)]
    absent = [entry.id for entry, suspect in found if suspect is None]
    if absent:
        blocks.append(Paragraph(f"Not of this edition: {', '.join(each.replace('_', ' ') for each in absent)}."))
    return blocks


def _row(entry: Mistake, suspect: Suspect) -> list[str]:
    weight = suspect.severity if suspect.status == "code" else f"{suspect.severity}, practice"
    return [suspect.done, suspect.right, suspect.section, weight, str(entry.evidence.confidence or "")]
