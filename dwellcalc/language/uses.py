"""What a rule set names and never uses, cites and does not hold, or rests on without a source."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from dwellcalc.language.amendments import Amendment
from dwellcalc.language.applied import Applied
from dwellcalc.language.document_form import BAD_GRADE
from dwellcalc.language.documents import QUOTED, Document, Line
from dwellcalc.language.reach import Piece, reached
from dwellcalc.language.tree import CheckedLine, CheckedMethod
from dwellcalc.language.words import FILLED_LATER, GRADES
from dwellcalc.placed import Mapping, Node, Text, part_of
from dwellcalc.problems import Problems, message, nearest_name

UNUSED = message("unused", '{what} "{name}" is not used by any method of the edition', "use it or take it out")
NO_CITATION = message("no_citation", 'the edition has no citation "{cite}"')
NO_SOURCE = message("no_source", 'there is no source "{name}"', "sources stand in sources.yaml")
QUOTES_NOTHING = message("quotes_nothing", 'the text quotes "{name}", which is no parameter that is visible here')
UNUSED_CITATION = message("unused_citation", 'the citation "{cite}" is not used', "use it or take it out")


def check_changes(applied: Iterable[Applied], sources: dict[str, Any], problems: Problems) -> None:
    """Refuse a change whose source or grade of confidence is none."""
    for change in applied:
        for name in change.source.split():
            if name not in sources:
                problems.add(NO_SOURCE, change.place, name=name, nearest=nearest_name(name, sources))
        if change.confidence and change.confidence not in GRADES:
            known = ", ".join(GRADES)
            near = nearest_name(change.confidence, GRADES)
            problems.add(BAD_GRADE, change.place, grade=change.confidence, known=known, nearest=near)


def check_amendments(amendments: Iterable[Amendment], sources: dict[str, Any], problems: Problems) -> None:
    """Refuse an amendment whose source is none."""
    for amendment in amendments:
        for name in amendment.source.split():
            if name not in sources:
                problems.add(NO_SOURCE, amendment.place, name=name, nearest=nearest_name(name, sources))


def check(
    documents: dict[str, Document],
    methods: dict[str, CheckedMethod],
    used: set[str],
    citations: dict[str, Any],
    sources: dict[str, Any],
    assessment: Mapping,
    problems: Problems,
) -> None:
    """Refuse what is unused, and citations, sources and quotations that lead nowhere."""
    found = _Uses(documents, methods, used, citations, sources, problems)
    for cite in quoted_citations(assessment):
        found.citation(cite)
    found.check()


def quoted_citations(node: Node) -> Iterator[Text]:
    """The citation keys that the texts of an assessment quote in braces."""
    if isinstance(node, Text):
        for match in QUOTED.finditer(node):
            yield part_of(node, match.start(1), match[1])
    elif isinstance(node, Mapping):
        for name, each in node.items():
            if name not in FILLED_LATER:
                yield from quoted_citations(each)
    else:
        for each in node:
            yield from quoted_citations(each)


class _Uses:
    def __init__(
        self,
        documents: dict[str, Document],
        methods: dict[str, CheckedMethod],
        used: set[str],
        citations: dict[str, Any],
        sources: dict[str, Any],
        problems: Problems,
    ) -> None:
        self.documents = documents
        self.methods = methods
        self.used = set(used)
        self.citations = citations
        self.sources = sources
        self.problems = problems
        self.cited: set[str] = set()
        self.judged = not problems.found  # what could not be checked may yet use what seems unused

    def check(self) -> None:
        for method in self.methods.values():
            self.follow(method)
        for document in self.documents.values():
            self.document(document)
            self.quotations(document)
        for name, entry in self.citations.items():
            if name not in self.cited:
                self.problems.add(UNUSED_CITATION, entry.place, cite=name)

    def follow(self, method: CheckedMethod) -> None:
        """Mark every line that a result, a column, a condition of use or a left-out group leads to."""
        roots: list[Piece] = [*method.results.values(), *method.columns.values(), *method.runs.values()]
        roots += [condition.require for condition in method.permitted]
        roots += [group for _, group in method.left_out]
        roots += [method.counts] if method.counts is not None else []
        self.used |= {piece.address for piece in reached(roots) if isinstance(piece, CheckedLine)}

    def document(self, document: Document) -> None:
        for what, cite, things in self.named(document):
            for each, thing in things.items():
                if self.judged and f"{document.name}.{each}" not in self.used:
                    self.problems.add(UNUSED, thing.name.place, what=what, name=each)
                if cite:
                    self.citation(thing.cite)
        for line in document.lines.values():
            self.line(line)
        for parameter in document.parameters.values():
            self.source(parameter.evidence.source)
        for table in document.tables.values():
            self.source(table.source)
        for interpretation in document.interpretations.values():
            for option in interpretation.options.values():
                self.source(option.source)
        for condition in document.permitted:
            self.citation(condition.cite)
        for entry in document.left_out:
            self.citation(entry.cite)
        if document.cite is not None:
            self.citation(document.cite)

    def named(self, document: Document) -> Iterator[tuple[str, bool, dict[str, Any]]]:
        yield "the parameter", True, document.parameters
        yield "the interpretation", True, document.interpretations
        yield "the group", False, document.groups
        yield "the table", True, document.tables
        yield "the line", True, document.lines
        yield "the run", False, document.runs
        yield "the given value", False, document.given

    def line(self, line: Line) -> None:
        for case in line.cases:
            if case.cite is not None:
                self.citation(case.cite)
        self.source(line.evidence.source)

    def citation(self, cite: Text) -> None:
        self.cited.add(str(cite))
        if cite not in self.citations:
            self.problems.add(NO_CITATION, cite.place, cite=cite, nearest=nearest_name(cite, self.citations))

    def source(self, text: Text | None) -> None:
        if text is None:
            return
        for name in text.split():
            if name not in self.sources:
                place = text.at(text.find(name), len(name))
                self.problems.add(NO_SOURCE, place, name=name, nearest=nearest_name(name, self.sources))

    def quotations(self, document: Document) -> None:
        visible = self.parameters_seen(document)
        texts = [line.title for line in document.lines.values()]
        texts += [condition.if_not for condition in document.permitted]
        texts += [condition.asks for condition in document.permitted if condition.asks is not None]
        for interpretation in document.interpretations.values():
            texts += [interpretation.question, *(option.says for option in interpretation.options.values())]
        for text in texts:
            for match in QUOTED.finditer(text):
                if match[1] not in visible:
                    place = text.at(match.start(1), len(match[1]))
                    self.problems.add(QUOTES_NOTHING, place, name=match[1], nearest=nearest_name(match[1], visible))

    def parameters_seen(self, document: Document) -> set[str]:
        seen = set(document.parameters)
        for used in document.uses:
            if used in self.documents:
                seen.update(self.documents[used].parameters)
        for name, other in self.documents.items():
            seen.update(f"{name}.{each}" for each in other.parameters)
        return seen
