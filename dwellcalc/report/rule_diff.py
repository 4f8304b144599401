"""What one edition changes against another, set by set: what `dwellcalc rules diff` prints, to lay beside the code book."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dwellcalc.compare.steps import shared
from dwellcalc.language.applied import Applied, ChangeSet
from dwellcalc.language.changed_pieces import evidence_of, quoted, section_of
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.placed import spaced
from dwellcalc.report.rule_book import RuleBook
from dwellcalc.report.rule_diff_words import NOTHING, Side, of_citations
from dwellcalc.report.tables import Block, Heading, Listing, Paragraph, Table

HEAD = ["what is changed", "was", "now", "section", "evidence"]
GRADES_HEAD = ["section", "cited for", "evidence was", "evidence now"]
OF_GRADE = ".confidence"
OPPOSITE = {"add": "remove", "remove": "add", "change": "change"}


@dataclass
class Both:
    """The two rule sets, each as a book: the first has what was, the second what is now."""

    first: RuleBook
    second: RuleBook

    @property
    def newest_first(self) -> tuple[RuleSet, RuleSet]:
        """The rule sets, the second first."""
        return self.second.rules, self.first.rules


def rule_diff_pages(first: RuleSet, second: RuleSet) -> list[Block]:
    """The pages of what the second rule set changes against the first.

    Raises:
        InputError: the two do not rest on the same first edition.
    """
    common = shared(first, second)
    books = Both(RuleBook(first), RuleBook(second))
    blocks: list[Block] = [Heading(1, f"{second.title} against {first.title}"), Paragraph(_about(first, second))]
    taken = [_turned(each) for each in reversed(first.sets[common:])]
    put = list(second.sets[common:])
    if not taken and not put:
        return [*blocks, Paragraph("Nothing differs.")]
    if taken:
        blocks.append(
            Paragraph(f"What {first.title} has and {second.title} has not is told from its last set of changes to its first.")
        )
    blocks.append(Listing([_heading(each, each in taken) for each in (*taken, *put)]))
    for each in (*taken, *put):
        blocks += _set(books, each, Side(books.first, books.second, each in taken))
    return blocks


def _about(first: RuleSet, second: RuleSet) -> str:
    return (
        f"Rule sets {first.id}, digest {first.digest[:16]}, and {second.id}, digest {second.digest[:16]}. These pages restate, in the "
        "project's own words, what differs between the rules that the calculations use. They are not the code: the adopted code, its "
        "local amendments and the authority having jurisdiction govern."
    )


def _heading(found: ChangeSet, is_taken: bool) -> str:
    return f"{f'Without {found.document}' if is_taken else found.document}: {found.title or 'changes'}"


def _turned(found: ChangeSet) -> ChangeSet:
    """A set of changes taken back: its last change first, what was and what is now changed over."""
    changes = tuple(_opposite(each) for each in reversed(found.changes))
    return replace(found, changes=changes)


def _opposite(change: Applied) -> Applied:
    return replace(
        change,
        operation=OPPOSITE[change.operation],
        was=change.now,
        now=change.was,
        pieces_before=change.pieces_after,
        pieces_after=change.pieces_before,
    )


def _set(books: Both, found: ChangeSet, side: Side) -> list[Block]:
    blocks: list[Block] = [Heading(2, _heading(found, side.is_taken))]
    cited = [each for each in found.changes if of_citations(each.address)]
    others = [each for each in found.changes if each not in cited]
    grades = [each for each in cited if each.address.endswith(OF_GRADE)]
    numbers = [each for each in cited if each not in grades]
    if others:
        blocks.append(Table("", HEAD, [_row(books, each, side) for each in others]))
        blocks += [table for each in others for table in side.whole_tables(each)]
    if numbers:
        rows = [_number_row(each) for each in numbers]
        blocks.append(Table("Section numbers", ["cited for", "was", "now", "evidence"], rows))
    if grades:
        rows = [_grade_row(books, each, side) for each in grades]
        blocks.append(Table("Section numbers that stay, and how well they are known", GRADES_HEAD, rows))
    return blocks if found.changes else [*blocks, Paragraph("It holds no changes.")]


def _row(books: Both, change: Applied, side: Side) -> list[str]:
    sets = (side.holder.rules, *books.newest_first)
    source, grade = evidence_of(change, sets)
    evidence = "\n".join(each for each in (grade, books.second.sources(source) if source else "") if each)
    status = f" ({change.status})" if change.status else ""
    return [
        side.what(change),
        side.text(change, now=False),
        side.text(change, now=True),
        section_of(change, sets) + status,
        evidence,
    ]


def _number_row(change: Applied) -> list[str]:
    name = change.address.split(".")[1]
    return [spaced(name), _number(change.was), _number(change.now), change.confidence or _grade(change)]


def _grade_row(books: Both, change: Applied, side: Side) -> list[str]:
    name = change.address.split(".")[1]
    return [quoted(name, (side.holder.rules, *books.newest_first)), spaced(name), change.was, change.now]


def _number(text: str) -> str:
    """The section number in a citation that was added or taken away whole, or the number itself."""
    whole = text.removeprefix("section: ")
    return (whole.rpartition(", confidence: ")[0] if whole != text else text) or NOTHING


def _grade(change: Applied) -> str:
    return (change.now or change.was).rpartition("confidence: ")[2] if "confidence: " in change.now + change.was else ""
