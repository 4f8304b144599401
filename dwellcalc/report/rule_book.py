"""An edition as a book: its chapters in printed order, the numbers of its lines, and where each piece comes from."""

from __future__ import annotations

from dataclasses import dataclass

from dwellcalc.evaluate import printed
from dwellcalc.glossary import ValueKind
from dwellcalc.language.applied import Applied
from dwellcalc.language.documents import QUOTED, Document, Evidence, Line, Parameter
from dwellcalc.language.rule_set import RuleSet
from dwellcalc.language.tree import CheckedLine, CheckedMethod, Tree, trees_of, walk
from dwellcalc.placed import Text, spaced


@dataclass(frozen=True)
class Chapter:
    """A method, or a part printed behind the first method that rests on it."""

    method: CheckedMethod
    document: Document

    @property
    def is_method(self) -> bool:
        """Whether it is the method itself."""
        return self.document is self.method.source


class RuleBook:
    """What all pages of an edition share.

    Attributes:
        chapters: each method, then the parts under it that were not printed yet.
        numbers: every line's number, counted through the whole document.
    """

    def __init__(self, rules: RuleSet) -> None:
        self.rules = rules
        self.glossary = rules.glossary
        self.chapters: list[Chapter] = []
        for method in rules.methods.values():
            parts = [part for part in method.parts if part is not method.source]
            known = [chapter.document for chapter in self.chapters]
            self.chapters += [Chapter(method, each) for each in (method.source, *parts) if each not in known]
        lines = [line for chapter in self.chapters for line in chapter.document.lines.values()]
        self.numbers: dict[Line, int] = {line: number for number, line in enumerate(lines, start=1)}

    def section(self, cite: str | None) -> str:
        """The section of a citation key, or an amendment's own words."""
        return self.rules.section(str(cite)) if cite else ""

    def sources(self, keys: str | None) -> str:
        """The titles of sources; an amendment's own words stand for themselves."""
        named = str(keys or "").split()
        known = [self.rules.sources[each].title for each in named if each in self.rules.sources]
        return "; ".join(known) if len(known) == len(named) else str(keys)

    def evidence(self, found: Evidence) -> str:
        """Source titles with the grade of confidence, or nothing."""
        return f"{self.sources(found.source)} ({found.confidence})" if found.confidence else ""

    def filled(self, text: Text, document: Document) -> str:
        """A text with the parameters that it quotes."""
        values = {match[1]: self.printed_value(self.parameter(match[1], document)) for match in QUOTED.finditer(text)}
        return one_line(printed.filled(str(text), values))

    def parameter(self, name: str, document: Document) -> Parameter:
        """A parameter by the name that a document gives it."""
        owner, _, rest = name.rpartition(".")
        seen = [owner] if owner else [str(document.name), *map(str, document.uses)]
        return next(found.parameters[rest] for found in map(self.rules.documents.__getitem__, seen) if rest in found.parameters)

    def printed_value(self, parameter: Parameter) -> str:
        """A parameter's value as sheets print it."""
        return printed.quantity(*self.glossary.units.quantity(parameter.value), self.glossary)

    def title_of(self, line: Line) -> str:
        """A line's title, filled in."""
        document = next(chapter.document for chapter in self.chapters if line in chapter.document.lines.values())
        return self.filled(line.title, document)

    def unit(self, kind: ValueKind | None) -> str:
        """The unit of a value, or what else it is."""
        if kind is None or kind.form in ("quantity", "yes_no"):
            return self.glossary.printed_kind(kind) if kind else ""
        return spaced(kind.name)

    def words_of(self, kind: ValueKind) -> str:
        """The unit of a value, or the words it may be."""
        return ", ".join(map(spaced, self.glossary.words(kind))) if kind.form in ("choice", "scale") else self.unit(kind)

    # origins

    def last_change(self, address: str) -> Applied | None:
        """The last change that touched a piece, or that brought in the whole chapter."""
        return next(reversed(self.rules.changes_to(address)), None)

    def origin(self, address: str) -> str:
        """The edition or set of changes that last touched a piece; else the edition that brought its chapter in."""
        found = self.last_change(address) or self.brought_in(address.partition(".")[0])
        return set_of(found) if found else self.rules.chain[0]

    def brought_in(self, document: str) -> Applied | None:
        """The change of the list of methods by which a chapter came in; nothing where the first edition has it."""
        users = [name for name, method in self.rules.methods.items() if document in [part.name for part in method.parts]]
        found = [next((each for each in self.rules.changes_to("methods") if each.now == user), None) for user in users]
        return None if None in found else next(each for each in self.rules.applied if each in found) if found else None

    def trees(self, line: CheckedLine) -> list[Tree]:
        """Every node of a line."""
        return [node for whole in trees_of(line) for node in walk(whole)]


def set_of(change: Applied) -> str:
    """A set of changes by its document and title."""
    return f"{change.document}: {change.set_title}" if change.set_title else change.document


def one_line(text: str) -> str:
    """A folded text on one line."""
    return " ".join(text.split())


def present(entries: list[str]) -> list[str]:
    """Those that say something."""
    return [entry for entry in entries if entry]
