"""The pages of mistakes and of sources: what a review looks for, and what the rules rest on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from dwellcalc.language.citations import SourceEntry
from dwellcalc.language.mistakes import Mistake
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.words import GRADES
from dwellcalc.placed import spaced
from dwellcalc.report.reading.links import in_words, link
from dwellcalc.report.rule_pages import GRADE_MEANINGS
from dwellcalc.report.tables import Block, Heading, Paragraph, Table
from dwellcalc.report.wording import counted
from dwellcalc.review.suspects import Suspect, suspects_of

NO_GRADE = "not of the code: a choice of the project"


def mistakes_page(editions: Sequence[RuleSet]) -> list[Block]:
    """The catalogue of mistakes, each in the words of the newest edition that holds it, with the editions that do."""
    entries: dict[str, Mistake] = {}
    held: dict[str, dict[str, Suspect]] = {}
    for rules in editions:
        for entry, suspect in suspects_of(rules, rules.methods).listed():
            entries[entry.id] = entry
            if suspect is not None:
                held.setdefault(entry.id, {})[rules.title] = suspect
    titles = [rules.title for rules in editions]
    catalogues = dict.fromkeys(entry.catalogue for entry in entries.values())
    told = (
        f"{counted(len(held), 'mistake')} that a review of a submittal looks for. It names those that reproduce a figure that differs; "
        "sections are those of the newest edition that has the mistake."
    )
    rows = [
        [link(title), str(sum(entry.catalogue == title and entry.id in held for entry in entries.values()))]
        for title in catalogues
    ]
    blocks: list[Block] = [Heading(1, "Mistakes that a review looks for"), Paragraph(told)]
    blocks.append(Table("", ["Of what", "Mistakes"], rows, ["left", "right"]))
    for title in catalogues:
        rows = [
            _mistake(entry, held[entry.id], titles) for entry in entries.values() if entry.catalogue == title and entry.id in held
        ]
        head = ["What was done", "What is right", "Section", "Weight", "Evidence", "Editions"]
        blocks += [Heading(2, title), Table("", head, rows)]
    return blocks


def _mistake(entry: Mistake, held: Mapping[str, Suspect], editions: Sequence[str]) -> list[str]:
    newest = list(held.values())[-1]
    weight = newest.severity if newest.status == "code" else f"{newest.severity}, practice"
    where = "all" if len(held) == len(editions) else in_words(list(held), editions)
    return [newest.done, newest.right, newest.section, weight, str(entry.evidence.confidence or ""), where]


def sources_page(editions: Sequence[RuleSet], sources: Mapping[str, SourceEntry]) -> list[Block]:
    """Every source with what was seen of it, and how much of each edition rests on each grade of confidence."""
    titles = [rules.title for rules in editions]
    sides = ["left", *["right"] * len(titles)]
    values, sections = ([counts(rules) for rules in editions] for counts in (_values, _sections))
    blocks: list[Block] = [
        Heading(1, "Sources, and how sure the values are"),
        Paragraph(
            "No source was taken whole: what was seen of each stands beside it. Rules are restated in the project's own words."
        ),
        Heading(2, "Grades of confidence"),
        Table("", ["Grade", "What it means"], [list(pair) for pair in zip(GRADES, GRADE_MEANINGS, strict=True)]),
        Heading(2, "Values by grade"),
        Paragraph("Parameters, tables and lines with numbers of their own."),
        Table("", ["Grade", *titles], _counted(values), sides),
        Heading(2, "Section numbers by grade"),
        Table("", ["Grade", *titles], _counted(sections), sides),
        Heading(2, "The sources"),
        Paragraph("The key is what rules name a source by."),
    ]
    rows = [[spaced(name), each.title, each.publisher, each.year, each.seen] for name, each in sources.items()]
    return [*blocks, Table("", ["Key", "Title", "Publisher", "Year", "What was seen"], rows)]


def _values(rules: RuleSet) -> Counter[str]:
    found: list[object] = []
    for document in rules.documents.values():
        found += [each.evidence.confidence for each in document.parameters.values()]
        found += [each.confidence for each in document.tables.values()]
        found += [each.evidence.confidence for each in document.lines.values() if each.evidence.confidence]
    return Counter(str(each or NO_GRADE) for each in found)


def _sections(rules: RuleSet) -> Counter[str]:
    return Counter(str(each.confidence or NO_GRADE) for each in rules.citations.values())


def _counted(counts: Sequence[Counter[str]]) -> list[list[str]]:
    grades = [grade for grade in (*GRADES, NO_GRADE) if any(each[grade] for each in counts)]
    rows = [[grade, *(str(each[grade]) for each in counts)] for grade in grades]
    return [*rows, ["together", *(str(each.total()) for each in counts)]]
